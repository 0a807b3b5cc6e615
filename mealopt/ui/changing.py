"""Changing a planned day: another food, another dish, a meal held or skipped, something else eaten."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING, Any

import streamlit as st

from mealopt import api
from mealopt.core.words import SLOTS
from mealopt.ui import desk, waiting
from mealopt.ui.inputs import follow
from mealopt.ui.look import plain
from mealopt.ui.state import Look, State, with_plan

if TYPE_CHECKING:
    from mealopt.api import Item, Meal, Offer, Plan, PlanDay

#: Seconds for offers, for a swap and for the rest of a day.
OFFER_SECONDS, SWAP_SECONDS, REST_SECONDS = 4.0, 8.0, 15.0


def where_of(day: str, meal: int) -> str:
    """The part of the page that work on a meal belongs to."""
    return f"meal {day} {meal}"


def food_row(entry: PlanDay, meal: Meal, place: int, item: Item, words: str) -> None:
    """One food, and the way to swap it."""
    with st.container(horizontal=True, vertical_alignment="center", gap="small", wrap=False):
        st.markdown(plain(words), width="stretch")
        if changeable(meal):
            look = Look(entry.day, meal.number, item.food)
            st.button(f"Swap {item.food.partition(',')[0]}", key=f"swap {entry.day} {meal.number} {place}",
                      on_click=look_for, args=(look,))  # fmt: skip


def changeable(meal: Meal) -> bool:
    """Whether something of the meal may be changed: not where it is eaten or settled outside the program."""
    return bool(meal.items) and not meal.eaten and meal.dish_id is not None


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


def held_numbers(state: State, day: str, but: int | None = None) -> tuple[int, ...]:
    """The meals of this day that stay as they are."""
    return tuple(sorted(number for one, number in state.held if one == day and number != but))


def what_comes(state: State, entry: PlanDay, meal: Meal) -> None:
    """What is looked for in the place of something of this meal, and what was found."""
    look = state.looking
    if look is not None and (look.day, look.meal) == (entry.day, meal.number):
        _found(state, entry, meal, look)
    waiting.show(where_of(entry.day, meal.number))


def meal_actions(state: State, entry: PlanDay, meal: Meal) -> None:
    """What can be done with the whole meal."""
    if not changeable(meal):
        return
    with st.container(horizontal=True, vertical_alignment="center", gap="small"):
        number = f"{entry.day} {meal.number}"
        key = f"hold {number}"
        follow(key, (entry.day, meal.number) in state.held)
        st.toggle("Hold", key=key, on_change=_held, args=(entry.day, meal.number, key),
                  help="It stays as it is while other meals are changed.")  # fmt: skip
        st.button("Another dish", key=f"dish {number}", on_click=look_for, args=(Look(entry.day, meal.number),))
        st.button("Skip", key=f"skip {number}", on_click=anew, args=(entry.day, meal.number, meal.ends, ""))
        with st.popover("I ate something else"):
            field = f"ate {number}"
            st.text_input("What you ate", key=field, placeholder="pizza=350g, or dinner out=900kcal")
            st.button("Plan the rest of the day", key=f"rest {number}", on_click=_ate,
                      args=(entry.day, meal.number, meal.ends, field))  # fmt: skip


def _held(day: str, number: int, key: str) -> None:
    on = bool(st.session_state[key])
    one = frozenset({(day, number)})
    desk.change(lambda now: replace(now, held=now.held | one if on else now.held - one))


def _ate(day: str, number: int, ends: str, field: str) -> None:
    anew(day, number, ends, str(st.session_state.get(field, "")).strip())


def anew(day: str, number: int, now_at: str, ate: str) -> None:
    """Begin to plan the rest of the day: this meal is left out, and what was eaten in its place counts."""
    state = desk.state()
    plan, folder = state.plans.get(day), state.case.folder
    if plan is None:
        return
    eaten = tuple(part.strip() for part in ate.split(";") if part.strip())
    desk.change(lambda now: replace(now, looking=None, offers=None, said=()))
    desk.begin("Planning the rest of the day.", f"rest {day} {number} {ate} {id(plan)}", where_of(day, number),
               lambda progress, stop: api.replan(plan, now_at, day=day, ate=eaten, skipped=(number,), folder=folder,
                                                 seconds=REST_SECONDS),
               lambda now, found: changed(now, found.plan, found.words), can_stop=False)  # fmt: skip


def changed(state: State, plan: Plan, said: tuple[str, ...]) -> State:
    """With a plan that was changed, what is to be said of it, and the way back."""
    return replace(with_plan(state, plan), looking=None, offers=None, said=said, before=state.plans)


def _found(state: State, entry: PlanDay, meal: Meal, look: Look) -> None:
    """What may come in the place of a food or a dish, each with what else it changes."""
    work = desk.kept().work
    if state.offers is None and work is not None and work.error is None:
        # Still looked for, or found a moment ago and not yet taken in.
        return
    what = look.food or meal.dish
    with st.container(border=True, key=f"offers {entry.day} {meal.number}"):
        st.markdown(f"**Instead of {plain(what)}**")
        if state.offers is not None and not state.offers:
            st.markdown(
                f"In {OFFER_SECONDS:.0f} seconds nothing was found that keeps each limit of the meal and the day."
            )
        for place, offer in enumerate(state.offers or ()):
            _offer(entry, look, place, offer, state.without_numbers)
        if look.food:
            _named(entry, meal, look)
        st.button("Keep it as it is", key=f"keep {entry.day} {meal.number}", on_click=_closed)


def _closed() -> None:
    desk.change(lambda now: replace(now, looking=None, offers=None))


def _offer(entry: PlanDay, look: Look, place: int, offer: Offer, without_numbers: bool) -> None:
    comes = offer.into if look.food else offer.dish
    comes = comes or f"nothing: {offer.dish}"
    st.button(comes, key=f"take {entry.day} {look.meal} {place}", on_click=_taken, args=(look, offer, comes))
    also = offer.also or "Nothing else changes"
    moved = "" if without_numbers or offer.grams_moved < 1 else f" ({offer.grams_moved:.0f} g moved in all)"
    st.caption(f"{plain(also[:1].upper() + also[1:])}{moved}")


def _taken(look: Look, offer: Offer, comes: str) -> None:
    words = f"Meal {look.meal}: {comes} instead of {look.food or 'what was planned'}."
    also = (f"Also changed: {offer.also}.",) if offer.also else ()
    desk.change(lambda now: changed(now, offer.plan, (words, *also)))


def _named(entry: PlanDay, meal: Meal, look: Look) -> None:
    """A food of one's own choice."""
    key = f"named {entry.day} {meal.number}"
    with st.container(horizontal=True, vertical_alignment="bottom"):
        st.selectbox("Or a food that you name", api.food_names(), index=None, key=key, placeholder="choose one")
        st.button("Put it in", key=f"put {key}", on_click=_put, args=(look, key))


def _put(look: Look, key: str) -> None:
    into, state = st.session_state.get(key), desk.state()
    plan, folder = state.plans.get(look.day), state.case.folder
    if not into or plan is None:
        return
    hold = held_numbers(state, look.day, but=look.meal)
    desk.begin(f"Putting in {into}.", f"swap {look} {into} {id(plan)} {hold}", where_of(look.day, look.meal),
               lambda progress, stop: api.swap(plan, look.meal, look.food, into, day=look.day, hold=hold, folder=folder,
                                               seconds=SWAP_SECONDS),
               lambda now, found: changed(now, found.plan, (found.says,)), can_stop=False)  # fmt: skip


def told(state: State) -> None:
    """What the last change did, and the way back from it."""
    if not state.said:
        return
    st.success("\n\n".join(plain(words) for words in state.said))
    if state.before is not None:
        st.button("Take it back", on_click=_back)


def _back() -> None:
    desk.change(lambda now: replace(now, plans=now.before or now.plans, before=None, said=()))


def skipped_words(entry: PlanDay) -> list[str]:
    """What was left out of the day, and from when on it was planned anew."""
    lines = [f"Planned anew from {entry.now}."] if entry.now else []
    return lines + [f"{one.time} {SLOTS.get(one.slot, one.slot)} is skipped." for one in entry.skipped]
