"""Something else for a food or a dish: what may come, each with what it changes, or what somebody names."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import streamlit as st

from mealopt import api
from mealopt.ui import desk, waiting
from mealopt.ui.look import plain
from mealopt.ui.state import Look, State, changed

if TYPE_CHECKING:
    from mealopt.api import Item, Meal, Offer, Plan, PlanDay, Swapped

#: Seconds for offers and for a swap.
OFFER_SECONDS, SWAP_SECONDS = 8.0, 8.0


def where_of(day: str, meal: int) -> str:
    """The part of the page that work on a meal belongs to."""
    return f"meal {day} {meal}"


def changeable(meal: Meal) -> bool:
    """Whether something of the meal may be changed: not where it is eaten or settled outside the program."""
    return bool(meal.items) and not meal.eaten and meal.dish_id is not None


def food_row(entry: PlanDay, meal: Meal, place: int, item: Item, words: str) -> None:
    """One food, and the way to swap it."""
    with st.container(horizontal=True, vertical_alignment="center", gap="small", wrap=False):
        st.markdown(plain(words), width="stretch")
        if changeable(meal):
            look = Look(entry.day, meal.number, item.food)
            st.button(f"Swap {item.food.partition(',')[0]}", key=f"swap {entry.day} {meal.number} {place}",
                      on_click=look_for, args=(look,))  # fmt: skip


def held_numbers(state: State, day: str, but: int | None = None) -> tuple[int, ...]:
    """The meals of this day that stay as they are."""
    return tuple(sorted(number for one, number in state.held if one == day and number != but))


def look_for(look: Look) -> None:
    """Begin to look for what may come in the place of a food, or of the dish."""
    state = desk.state()
    plan = state.plans.get(look.day)
    if plan is None:
        return
    hold = held_numbers(state, look.day, but=look.meal)
    desk.change(lambda now: replace(now, looking=look, offers=None, said=()))
    task = _offers_task(plan, look, hold, state)
    words, where = f"Looking for what may come instead of {look.food or 'this dish'}.", where_of(look.day, look.meal)
    desk.begin(words, f"offers {look} {id(plan)} {hold}", where, task, lambda now, found: _offered(now, look, found),
               can_stop=False)  # fmt: skip


def _offered(state: State, look: Look, found: tuple[Offer, ...]) -> State:
    """With what was found, where it is still asked for."""
    return replace(state, offers=found) if state.looking == look else state


def _offers_task(plan: Plan, look: Look, hold: tuple[int, ...], state: State) -> Callable[[Any, Any], Any]:
    folder = state.case.folder
    return lambda progress, stop: api.offers(
        plan, look.meal, look.food or None, day=look.day, dish=not look.food, hold=hold, seconds=OFFER_SECONDS,
        folder=folder,
    )  # fmt: skip


def what_comes(state: State, entry: PlanDay, meal: Meal) -> None:
    """What is looked for in the place of something of this meal, and what was found."""
    look = state.looking
    if look is not None and (look.day, look.meal) == (entry.day, meal.number):
        _found(state, entry, meal, look)
    waiting.show(where_of(entry.day, meal.number))


def _found(state: State, entry: PlanDay, meal: Meal, look: Look) -> None:
    """What may come in the place of a food or a dish, each with what else it changes."""
    work = desk.kept().work
    if state.offers is None and work is not None and work.error is None:
        # Still looked for, or found a moment ago and not yet taken in.
        return
    what = look.food or meal.dish
    with st.container(border=True, key=f"offers {entry.day} {meal.number}"):
        st.markdown(f"**Instead of {plain(what)}**")
        for place, offer in enumerate(state.offers or ()):
            _offer(entry, meal, look, place, offer, state.without_numbers)
        _named(entry, look)
        st.button("Keep it as it is", key=f"keep {entry.day} {meal.number}", on_click=_closed)


def _closed() -> None:
    desk.change(lambda now: replace(now, looking=None, offers=None))


def _offer(entry: PlanDay, meal: Meal, look: Look, place: int, offer: Offer, without_numbers: bool) -> None:
    comes = offer.into if look.food else offer.dish
    comes = comes or f"nothing: {offer.dish}"
    st.button(comes, key=f"take {entry.day} {look.meal} {place}", on_click=_taken, args=(look, offer, comes))
    also = offer.also or "Nothing else changes"
    moved = "" if without_numbers or offer.grams_moved < 1 else f" ({offer.grams_moved:.0f} g moved in all)"
    then = f"The meal is then {offer.dish}. " if look.food and offer.dish != meal.dish else ""
    st.caption(f"{plain(then + also[:1].upper() + also[1:])}{moved}")


def _taken(look: Look, offer: Offer, comes: str) -> None:
    words = f"Meal {look.meal}: {comes} instead of {look.food or 'what was planned'}."
    also = (f"Also changed: {offer.also}.",) if offer.also else ()
    desk.change(lambda now: changed(now, offer.plan, (words, *also)))


def _named(entry: PlanDay, look: Look) -> None:
    """A food or a dish of one's own choice, and how far the change may reach."""
    key = f"{entry.day} {look.meal}"
    with st.expander("Or say yourself what comes"):
        if look.food:
            st.selectbox("Food", api.food_names(), index=None, key=f"food {key}", placeholder="any that fits")
            st.number_input("Grams, if they matter", min_value=0, value=None, step=5, key=f"grams {key}",
                            placeholder="as many as fit")  # fmt: skip
            st.toggle(f"In each meal that holds {look.food}", key=f"all {key}")
        else:
            names = desk.dish_names()
            st.selectbox("Dish", names, index=None, key=f"food {key}", placeholder="any that fits",
                         format_func=names.__getitem__)  # fmt: skip
        st.toggle("Plan all other meals anew around it", key=f"fresh {key}",
                  help="Without it, as little of them changes as can be.")  # fmt: skip
        st.button("Put it in", key=f"put {key}", on_click=_put, args=(look, key))


def _put(look: Look, key: str) -> None:
    asked, state = st.session_state, desk.state()
    plan, folder = state.plans.get(look.day), state.case.folder
    if plan is None:
        return
    food, grams = asked.get(f"food {key}"), asked.get(f"grams {key}")
    into = None if food is None else f"{food}={grams:g}g" if grams else food
    each, fresh = bool(asked.get(f"all {key}")), bool(asked.get(f"fresh {key}"))
    hold = () if each else held_numbers(state, look.day, but=look.meal)
    name = desk.dish_names().get(into or "", into) or "something else"
    desk.begin(f"Putting in {name}.", f"swap {look} {into} {each} {fresh} {id(plan)} {hold}",
               where_of(look.day, look.meal),
               lambda progress, stop: api.swap(
                   plan, "all" if each else look.meal, look.food or None, into, day=look.day, dish=not look.food,
                   hold=hold, folder=folder, seconds=SWAP_SECONDS, fresh=fresh),
               lambda now, found: changed(now, found.plan, swap_words(look, name, found)), can_stop=False)  # fmt: skip


def swap_words(look: Look, name: str, found: Swapped) -> tuple[str, ...]:
    """What a swap did, as a cook reads it."""
    number = found.foods_changed
    also = (
        "The other meals were planned anew." if number is None else "No other food changed." if not number
        else "One other food changed." if number == 1 else f"{number} other foods changed."
    )  # fmt: skip
    return (f"Meal {look.meal}: {name} instead of {look.food or 'what was planned'}. {also}", *found.told)
