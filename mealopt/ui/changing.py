"""Changing a planned day: a meal held or left out, something else eaten, a day that goes otherwise; the way back."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import streamlit as st

from mealopt import api
from mealopt.core.words import SLOTS
from mealopt.ui import desk, waiting
from mealopt.ui.inputs import follow
from mealopt.ui.look import plain
from mealopt.ui.offering import SWAP_SECONDS, changeable, held_numbers, look_for, where_of
from mealopt.ui.state import Look, State, changed

if TYPE_CHECKING:
    from mealopt.api import Meal, PlanDay, SessionEntry

#: Seconds for the rest of a day.
REST_SECONDS = 15.0
EFFORTS = ("easy", "steady", "hard", "race")
KINDS = ("run", "ride", "swim", "row", "walk", "ski", "circuit", "lift", "other")


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
        with st.popover("Skip"):
            st.button("Leave it out: the other meals make up for it", key=f"drop {number}", on_click=drop,
                      args=(entry.day, meal.number))  # fmt: skip
            st.button("It was skipped just now: plan the rest of the day", key=f"skip {number}", on_click=anew,
                      args=(entry.day, meal.number, meal.ends, ""))  # fmt: skip
        with st.popover("I ate something else"):
            field = f"ate {number}"
            like = "pizza=350g" if state.without_numbers else "pizza=350g, or dinner out=900kcal"
            st.text_input("What you ate", key=field, placeholder=like)
            st.button("Plan the rest of the day", key=f"rest {number}", on_click=_ate,
                      args=(entry.day, meal.number, meal.ends, field))  # fmt: skip


def _held(day: str, number: int, key: str) -> None:
    on = bool(st.session_state[key])
    one = frozenset({(day, number)})
    desk.change(lambda now: replace(now, held=now.held | one if on else now.held - one))


def _ate(day: str, number: int, ends: str, field: str) -> None:
    anew(day, number, ends, str(st.session_state.get(field, "")).strip())


def drop(day: str, number: int) -> None:
    """Begin to leave a meal out, so that the others meet the day's numbers."""
    state = desk.state()
    plan, folder, hold = state.plans.get(day), state.case.folder, held_numbers(state, day, but=number)
    if plan is None:
        return
    desk.change(lambda now: replace(now, looking=None, offers=None, said=()))
    desk.begin(f"Planning the day without meal {number}.", f"drop {day} {number} {id(plan)} {hold}",
               where_of(day, number),
               lambda progress, stop: api.swap(plan, None, day=day, hold=hold, drop=(number,), folder=folder,
                                               seconds=SWAP_SECONDS),
               lambda now, found: changed(now, found.plan, (f"Meal {number} was left out.", *found.told)),
               can_stop=False)  # fmt: skip


def _parts(text: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in text.replace("\n", ";").split(";") if part.strip())


def anew(day: str, number: int, now_at: str, ate: str) -> None:
    """Begin to plan the rest of the day: this meal is left out, and what was eaten in its place counts."""
    _rest(day, where_of(day, number), now_at, _parts(ate), (number,), (), ())


def _rest(day: str, where: str, now_at: str, ate: tuple[str, ...], skipped: tuple[int, ...], off: tuple[int, ...],
          session: tuple[str, ...]) -> None:  # fmt: skip
    state = desk.state()
    plan, folder = state.plans.get(day), state.case.folder
    if plan is None:
        return
    desk.change(lambda now: replace(now, looking=None, offers=None, said=()))
    key = f"rest {day} {now_at} {ate} {skipped} {off} {session} {id(plan)}"
    desk.begin("Planning the rest of the day.", key, where,
               lambda progress, stop: api.replan(plan, now_at, day=day, ate=ate, skipped=skipped, session_off=off,
                                                 session=session, folder=folder, seconds=REST_SECONDS),
               lambda now, found: changed(now, found.plan, found.words), can_stop=False)  # fmt: skip


def otherwise(entry: PlanDay, without_numbers: bool) -> None:
    """What happened beside the plan, all of it at once, from some time of the day on."""
    day, where = entry.day, f"otherwise {entry.day}"
    asked = desk.kept().work
    with st.expander("The day goes otherwise", expanded=asked is not None and asked.where == where):
        st.markdown("What is past stays as it was eaten; the rest is planned anew, with as few changes as need be.")
        st.text_input("It is now, HH:MM", key=f"now {day}", max_chars=5, placeholder="14:30; after midnight 25:30")
        meals = {meal.number: meal for meal in entry.meals if not meal.eaten}
        st.multiselect("Meals that were skipped", meals, key=f"skipped {day}", placeholder="none",
                       format_func=lambda number: f"{number}. {meals[number].dish}")  # fmt: skip
        like = "pizza=350g at 12:30" + ("" if without_numbers else "\ndinner out=900kcal")
        st.text_area("What was eaten beside the plan, one a line", key=f"beside {day}", height=90, placeholder=like)
        sessions = {one.number: one for one in entry.sessions}
        if sessions:
            st.multiselect("Sessions that are called off", sessions, key=f"off {day}", placeholder="none",
                           format_func=lambda number: session_words(sessions[number]))  # fmt: skip
        st.markdown("A session that comes on top:")
        with st.container(horizontal=True, vertical_alignment="bottom", gap="xsmall"):
            st.text_input("Start", key=f"starts {day}", width=84, max_chars=5, placeholder="none")
            st.number_input("Minutes", min_value=1, value=60, step=5, key=f"lasts {day}", width=112)
            st.selectbox("Kind", KINDS, key=f"kind {day}", width=104)
            st.selectbox("Effort", EFFORTS, key=f"effort {day}", width=100)
        st.button("Plan from now on", type="primary", key=f"from now {day}", on_click=_otherwise, args=(day, where))
        waiting.show(where)


def session_words(session: SessionEntry) -> str:
    """ "09:00 ride, steady"."""
    return f"{session.start} {session.kind}, {session.effort}"


def _otherwise(day: str, where: str) -> None:
    asked = st.session_state
    starts = str(asked.get(f"starts {day}") or "").strip()
    words = f"{starts} {asked[f'lasts {day}']} {asked[f'kind {day}']} {asked[f'effort {day}']}"
    _rest(day, where, str(asked.get(f"now {day}") or "").strip(), _parts(str(asked.get(f"beside {day}") or "")),
          tuple(asked.get(f"skipped {day}", ())), tuple(asked.get(f"off {day}", ())),
          (words,) if starts else ())  # fmt: skip


def told(state: State) -> None:
    """What the last change did, and the way back from it."""
    if not state.said:
        return
    shown = [words for words in state.said if not (state.without_numbers and ("kcal" in words or " kg" in words))]
    st.success("\n\n".join(plain(words) for words in shown) or "The day is planned anew.")
    if state.before is not None:
        st.button("Take it back", on_click=_back)


def _back() -> None:
    desk.change(lambda now: replace(now, plans=now.before or now.plans, before=None, said=()))


def skipped_words(entry: PlanDay) -> list[str]:
    """What was left out of the day, and from when on it was planned anew."""
    lines = [f"Planned anew from {entry.now}."] if entry.now else []
    return lines + [f"{one.time} {SLOTS.get(one.slot, one.slot)} is skipped." for one in entry.skipped]
