"""Body, baseline, sessions, the week's energy and its moves."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from mealopt.core.clock import DAYS
from mealopt.core.nutrients import ENERGY
from mealopt.errors import BadInput
from mealopt.people.case import Case
from mealopt.targets.baseline import BELOW, activity_class, baseline, lifting_hours
from mealopt.targets.body import body_of, estimated_fat_percent
from mealopt.targets.coefficients import EQUATIONS
from mealopt.targets.day import day_targets, week_targets
from mealopt.targets.endurance import session_energy
from mealopt.targets.model import WeekTargets
from mealopt.targets.resting import equation_name, resting

Make = Callable[..., Case]
Session = Callable[..., dict[str, Any]]


def aims(week: WeekTargets) -> list[float]:
    """The seven energy aims."""
    return [day.bands[ENERGY].aim or 0.0 for day in week.days.values()]


def test_auto_chooses_by_body_fat(case: Make) -> None:
    known, unknown = body_of(case().athlete)[0], body_of(case({"body_fat_percent": None}).athlete)[0]
    assert equation_name("auto", known) == "cunningham_1980"
    assert equation_name("auto", unknown) == "harris_benedict_1919"
    with pytest.raises(BadInput, match="resting_equation"):
        equation_name("guess_1999", known)


def test_every_choice_of_equation_plans_a_week_and_names_itself(case: Make) -> None:
    values = set()
    for name, equation in EQUATIONS.items():
        week = week_targets(case({}, {"resting_equation": name}))
        step = next(step for step in week.steps if step.name == "resting energy")
        assert step.how.startswith(equation.title)
        assert step.source == equation.source
        values.add(round(week.resting_kcal))
    assert len(values) == len(EQUATIONS)


def test_a_lean_equation_without_body_fat_says_that_it_guesses(case: Make) -> None:
    body, _, notes = body_of(case({"body_fat_percent": None}).athlete)
    assert not body.fat_known
    assert notes[0].startswith("Fat-free mass")
    assert any("estimated here" in note for note in resting("cunningham_1991", body)[2])


def test_an_equation_outside_its_ages_is_doubted(case: Make) -> None:
    body, _, _ = body_of(case({"age": 52}).athlete)
    assert any("18 to 35" in note for note in resting("ten_haaf_mass_2014", body)[2])
    assert resting("ten_haaf_mass_2014", body_of(case({"age": 30}).athlete)[0])[2] == ()


def test_body_fat_estimate_stays_within_bodies() -> None:
    for sex, least, most in (("male", 6, 50), ("female", 13, 55)):
        assert estimated_fat_percent(sex, 18, 45, 190) == least
        assert estimated_fat_percent(sex, 90, 200, 150) == most
    # Deurenberg 1991 [memory] at 80 kg, 180 cm, 25 years: 19.2 %; less its error of 4 points.
    assert estimated_fat_percent("male", 25, 80, 180) == pytest.approx(19.2 - 4, abs=0.1)


def test_baseline_by_hand(case: Make) -> None:
    """1.25 x 1637.0 + 0.44 x 68 x 5 + 2.5 x 68 x 4 / 7, near 1.4 x resting [common practice, no source]."""
    found = week_targets(case())
    assert found.resting_kcal == pytest.approx(500 + 22 * 68 * 0.76)
    assert found.baseline_kcal == pytest.approx(1.25 * 1636.96 + 0.44 * 68 * 5 + 2.5 * 68 * 4 / 7)
    assert found.baseline_kcal / found.resting_kcal == pytest.approx(1.4, abs=0.03)
    step = next(step for step in found.steps if step.name == "baseline")
    assert "2,064" in step.how
    assert "2,522" in step.how


def test_lift_sessions_replace_the_lifting_hours(case: Make, session: Session) -> None:
    lifts = [session("mon", kind="lift", minutes=90), session("thu", kind="circuit", minutes=30)]
    assert lifting_hours(case()) == 4
    assert lifting_hours(case(session=lifts)) == 2


def test_lifting_without_sessions_counts_as_exercise_every_day(case: Make) -> None:
    """Energy availability takes off all exercise, lifting included: (2293 - 97) / 51.7 kg."""
    week = week_targets(case())
    expected = (week.baseline_kcal - 2.5 * 68 * 4 / 7) / (68 * 0.76)
    assert [day.energy_availability for day in week.days.values()] == pytest.approx([expected] * 7)


def test_lifting_adds_no_energy_to_its_day(case: Make, session: Session) -> None:
    week = week_targets(case(session=[session("mon", kind="lift", active_kcal=500)]))
    monday = week.days["mon"]
    assert monday.sessions[0].replaced_kcal == 0
    assert aims(week) == pytest.approx([week.baseline_kcal] * 7)
    assert monday.energy_availability < week.days["tue"].energy_availability


def test_activity_class_steps_up(case: Make) -> None:
    requirement = {"inactive": 2000.0, "low active": 2200.0, "active": 2400.0, "very active": 2600.0}
    values = (1999, 2000, 2250, 2599, 5000)
    expected = [BELOW, "inactive", "low active", "active", "very active"]
    assert [activity_class(value, requirement) for value in values] == expected
    body = body_of(case().athlete)[0]
    assert "2005 equation" in baseline(case(), body, 1600)[1][-1].how


@pytest.mark.parametrize(
    ("keys", "goal", "share"),
    [
        ({"active_kcal": 600}, {}, 0.85),
        ({"active_kcal": 600, "energy_from": "wrist"}, {}, 0.85),
        ({"active_kcal": 600, "energy_from": "power"}, {}, 1.0),
        ({"active_kcal": 600, "energy_from": "distance"}, {}, 1.0),
        ({"active_kcal": 600, "energy_from": "estimate"}, {}, 1.0),
        ({}, {}, 1.0),
        ({"energy_from": "wrist"}, {}, 1.0),
        ({"active_kcal": 600, "energy_from": "power"}, {"energy_replaced": 0.8}, 0.8),
    ],
)
def test_share_replaced(case: Make, session: Session, keys: dict[str, Any], goal: dict[str, Any], share: float) -> None:
    made = case({}, goal, [session("tue", **keys)])
    found = session_energy(made.session[0], made.goal, 68, 1600)
    assert found.replaced_kcal == pytest.approx(share * found.net_kcal)
    assert f"{100 * share:.0f} %" in found.how


@pytest.mark.parametrize(("given", "said"), [(600, False), (400, True), (800, True)])
def test_a_figure_far_off_its_estimate_is_questioned(case: Make, session: Session, given: float, said: bool) -> None:
    made = case(session=[session("tue", active_kcal=given, distance_km=8.82)])
    found = session_energy(made.session[0], made.goal, 68, 1600)
    assert any("please check" in note for note in found.notes) == said


def test_a_total_smaller_than_rest_is_nothing_and_doubted(case: Make, session: Session) -> None:
    made = case(session=[session("tue", minutes=300, active_kcal=100, energy_is="total")])
    found = session_energy(made.session[0], made.goal, 68, 1600)
    assert found.net_kcal == 0
    assert "does not even hold" in found.notes[0]


@pytest.mark.parametrize(
    ("keys", "words"),
    [
        ({"kind": "ride", "mean_power_w": 180}, "leg cycling"),
        ({"kind": "row", "mean_power_w": 180}, "150-199 W"),
        ({"kind": "run", "distance_km": 12}, "ACSM running"),
        ({"kind": "run", "distance_km": 4}, "ACSM walking"),
        ({"kind": "walk", "distance_km": 5}, "ACSM walking"),
        ({"kind": "ride", "distance_km": 28}, "01050"),
        ({"kind": "swim", "distance_km": 2.0}, "18240"),
        ({"kind": "swim", "distance_km": 3.0}, "18290"),
        ({"kind": "other"}, "02035"),
    ],
)
def test_each_way_to_an_estimate(case: Make, session: Session, keys: dict[str, Any], words: str) -> None:
    made = case(session=[session("tue", **keys)])
    assert words in session_energy(made.session[0], made.goal, 68, 1600).how


@pytest.mark.parametrize(
    "keys",
    [
        {"kind": "run", "distance_km": 1},
        {"kind": "walk", "distance_km": 12},
        {"kind": "ski", "distance_km": 12},
        {"kind": "ride", "mean_power_w": 320},
        {"kind": "ride", "distance_km": 70},
        {"kind": "run", "distance_km": 9, "climb_m": 4000},
    ],
)
def test_figures_that_an_equation_does_not_know_are_said(case: Make, session: Session, keys: dict[str, Any]) -> None:
    made = case(session=[session("tue", **keys)])
    assert session_energy(made.session[0], made.goal, 68, 1600).notes


def test_by_day_follows_the_work_and_even_does_not(case: Make, session: Session) -> None:
    training = [session("tue", active_kcal=600, energy_from="power"), session("sat", minutes=120, active_kcal=1000)]
    by_day, even = (week_targets(case({}, {"spread": spread}, training)) for spread in ("by_day", "even"))
    base = by_day.baseline_kcal
    assert aims(by_day) == pytest.approx([base, base + 600, base, base, base, base + 850, base])
    assert aims(even) == pytest.approx([(7 * base + 1450) / 7] * 7)
    assert by_day.sum_kcal == pytest.approx(even.sum_kcal)


def test_moves_over_the_limit_are_bad_input_even_without_the_case_s_own_check(case: Make) -> None:
    made = case({}, {"move": [{"from": "sat", "to": "sun", "kcal": 400}]})
    move = made.goal.move[0]
    twice = made.model_copy(update={"goal": made.goal.model_copy(update={"move": (move, move)})})
    with pytest.raises(BadInput, match="800 kcal out of sat"):
        week_targets(twice)


def test_a_gain_adds_its_surplus_every_day(case: Make) -> None:
    plain, gain = (week_targets(case({}, {"mass_change_percent_per_week": x})) for x in (0.0, 0.25))
    surplus = 68 * 0.0025 * 7700 / 7
    assert [after - before for after, before in zip(aims(gain), aims(plain), strict=True)] == pytest.approx(
        [surplus] * 7
    )


def test_a_deficit_by_hand_and_what_is_said_of_it(case: Make) -> None:
    made = case({}, {"mass_change_percent_per_week": -0.5, "baseline_kcal": 2450})
    week = week_targets(made)
    assert aims(week) == pytest.approx([2450 - 68 * 0.005 * 7700 / 7] * 7)
    assert any("overstates the deficit that lean people need" in note for note in week.notes)


def test_steps_of_a_day_add_up_to_its_energy(case: Make, session: Session) -> None:
    training = [session("tue", active_kcal=600), session("tue", "18:00", kind="lift"), session("sat", minutes=150)]
    goal = {"mass_change_percent_per_week": -0.25, "baseline_kcal": 2450,
            "move": [{"from": "tue", "to": "wed", "kcal": 100}], "spread": "even"}  # fmt: skip
    week = week_targets(case({}, goal, training))
    parts = ("baseline", "spread evenly", "goal", "raised", "moved", "eve of a long event", "band of the case")
    for day in week.days.values():
        added = sum(step.value for step in day.steps if step.name in parts or step.name.endswith("eaten back"))
        assert added == pytest.approx(day.bands[ENERGY].aim)
        assert all(step.source and step.how and step.unit for step in day.steps)


def test_day_targets_is_the_week_s_day(case: Make, session: Session) -> None:
    made = case(session=[session("tue")])
    assert day_targets(made, "tue") == week_targets(made).days["tue"]
    assert tuple(week_targets(made).days) == DAYS
    with pytest.raises(BadInput, match="day: read 'tuesday'"):
        day_targets(made, "tuesday")
