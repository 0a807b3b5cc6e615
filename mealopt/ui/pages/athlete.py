"""The athlete, the goal and the kitchen."""

from __future__ import annotations

import streamlit as st

from mealopt import api
from mealopt.core.filters import ALLERGENS, DIETS
from mealopt.core.words import number as said
from mealopt.ui import desk
from mealopt.ui.inputs import choice, number, several, switch, words
from mealopt.ui.lines import whole_case
from mealopt.ui.look import listed
from mealopt.ui.said import case_notes, numbers_or_reason

SAID = {
    "kidney": "kidney disease",
    "eating_disorder_now": "eating disorder now",
    "heart": "heart disease",
    "liver": "liver disease",
    "medication": "medicines that interact with food",
    "past_eating_disorder": "eating disorder before",
    "hyponatraemia_before": "too little sodium in the blood before",
}


def in_words(key: str) -> str:
    """A word of the case file as people say it."""
    return SAID.get(key, key.replace("_", " "))


def draw() -> None:
    """The page."""
    state = desk.state()
    st.title("Athlete and goal")
    left, right = st.columns(2, gap="large")
    with left:
        _body(state.without_numbers)
        _goal(state.without_numbers)
    with right:
        _asked()
        _kitchen()
    whole_case()
    _what_follows()


def _body(folded: bool) -> None:
    st.header("The athlete")
    words(("athlete", "name"), "Name, or any label", most=100)
    choice(("athlete", "sex"), "Sex", ("female", "male"), help="The published equations know only these two.")
    place = st.expander("Measures of the body") if folded else st.container()
    with place:
        number(("athlete", "age"), "Age, years", whole=True)
        number(("athlete", "mass_kg"), "Body mass, kg", step=0.5)
        number(("athlete", "height_cm"), "Height, cm", step=0.5)
        number(("athlete", "body_fat_percent"), "Body fat, %, if it was measured", step=0.5)
    number(("athlete", "steps_per_day"), "Steps on an ordinary day, runs left out", whole=True, default=7000, step=500)
    number(("athlete", "lifting_hours_per_week"), "Lifting a week, hours", step=0.5, default=0,
           help="Lift and circuit sessions of the training week take its place.")  # fmt: skip
    number(("athlete", "carbohydrate_used_to_g_per_h"), "Carbohydrate that the gut is used to in a session, g an hour",
           step=5)  # fmt: skip


def _goal(folded: bool) -> None:
    st.header("The goal")
    place = st.expander("Change of body mass") if folded else st.container()
    with place:
        number(("goal", "mass_change_percent_per_week"), "Change of body mass, % a week", step=0.1, default=0,
               help="From -1.0 to 0.5. Safety may overrule it, and the page then says so.")  # fmt: skip
    number(("goal", "protein_g_per_kg"), "Protein, at least g for each kg", step=0.1, default=1.8)
    number(("goal", "fat_g_per_kg"), "Fat, g for each kg", step=0.1,
           help="Left out: the larger of 0.8 g/kg and 25 % of energy.")  # fmt: skip
    choice(("goal", "spread"), "Energy", ("by_day", "even"), default="by_day",
           say=lambda one: "by each day's work" if one == "by_day" else "the same every day")  # fmt: skip
    number(("goal", "energy_replaced"), "Share of endurance energy that is eaten back", step=0.05,
           help="From 0.7 to 1. Left out: by where the figure comes from.")  # fmt: skip
    choice(
        ("goal", "resting_equation"), "Equation for resting energy", api.equation_names(), default="auto", say=in_words
    )


def _asked() -> None:
    st.header("What a doctor should know first")
    several(("athlete", "cautions"), "Conditions", api.caution_names(), say=in_words, keep_empty=True)
    st.caption(
        "This is planning help for healthy adults, not medical advice. A doctor or registered dietitian decides for "
        "anyone under 18, pregnant or breastfeeding, with an eating disorder now or before, diabetes, kidney or heart "
        "disease, or medicines that interact with food."
    )


def _kitchen() -> None:
    st.header("Food and kitchen")
    choice(("kitchen", "diet"), "The widest diet that is eaten", DIETS, default="omnivore")
    switch(("kitchen", "gluten_free"), "No gluten")
    several(("kitchen", "avoid_allergens"), "Allergens to leave out", ALLERGENS)
    st.caption("A food table knows no recipe and no trace: read each label.")
    foods = api.food_names()
    several(("kitchen", "prefer"), "Foods to plan rather", foods)
    several(("kitchen", "less"), "Foods to plan rather not", foods)
    several(("kitchen", "never"), "Foods never to plan", foods)
    # Pairs, so that a phone shows them in this order too.
    for pair in ((_wake, _sleep), (_meals, _minutes)):
        for place, draw_one in zip(st.columns(2), pair, strict=True):
            with place:
                draw_one()
    number(("kitchen", "people_at_table"), "People at the table", whole=True, default=1)


def _wake() -> None:
    words(("kitchen", "wake"), "Waking, HH:MM", default="06:30", most=5)


def _sleep() -> None:
    words(("kitchen", "sleep"), "Going to sleep, HH:MM", default="22:30", most=5)


def _meals() -> None:
    number(("kitchen", "meals_per_day"), "Meals a day", whole=True, default=4,
           help="What is eaten for sessions is not counted.")  # fmt: skip


def _minutes() -> None:
    number(("kitchen", "cook_minutes"), "Kitchen time, minutes", whole=True, default=60, step=5,
           help="Of each day.")  # fmt: skip


def _what_follows() -> None:
    state = desk.state()
    week = numbers_or_reason()
    if week is None:
        return
    if not state.without_numbers:
        st.markdown(
            f"**What follows:** {said(week.resting_kcal)} kcal resting energy, {said(week.baseline_kcal)} kcal on a "
            f"day without training, {said(week.sum_kcal)} kcal in the week."
        )
    listed("Cautions", week.cautions)
    listed("What was assumed", [*case_notes(), *week.notes], open_at_first=False)
