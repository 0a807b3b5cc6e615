"""Cautions decide before any number, and no single number in a case opens a way around them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from mealopt.core.clock import DAYS
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, PROTEIN
from mealopt.errors import BadInput, Refused
from mealopt.people.case import Case
from mealopt.targets.day import week_targets
from mealopt.targets.model import WeekTargets
from mealopt.targets.safety import NOT_ASKED, standing

Make = Callable[..., Case]
Session = Callable[..., dict[str, Any]]


def texts(week: WeekTargets) -> list[str]:
    """Everything that a week says."""
    found = [*week.notes, *week.cautions, *(f"{step.name} {step.how} {step.source}" for step in week.steps)]
    for day in week.days.values():
        found += [*day.notes, *day.cautions, day.carbohydrate_class]
        found += [f"{step.name} {step.how} {step.source}" for step in day.steps]
        found += [f"{entry.how} {entry.source}" for entry in day.sessions]
    return found


def aims(week: WeekTargets) -> list[float]:
    """The seven energy aims."""
    return [day.bands[ENERGY].aim or 0.0 for day in week.days.values()]


@pytest.mark.parametrize(
    ("athlete", "reason"),
    [
        ({"age": 17}, "under 18"),
        ({"cautions": ("pregnant",)}, "pregnancy"),
        ({"cautions": ("breastfeeding",)}, "breastfeeding"),
        ({"cautions": ("kidney",)}, "kidney disease"),
        ({"cautions": ("eating_disorder_now",)}, "eating disorder now"),
    ],
)
def test_refused_with_a_referral(case: Make, athlete: dict[str, Any], reason: str) -> None:
    with pytest.raises(Refused, match=reason) as caught:
        week_targets(case(athlete))
    assert "registered dietitian" in str(caught.value)
    assert "kcal" not in str(caught.value)


def test_refusal_names_every_reason_and_comes_before_other_errors(case: Make) -> None:
    with pytest.raises(Refused, match=r"\(under 18\), pregnancy and kidney disease"):
        week_targets(case({"age": 16, "cautions": ("pregnant", "kidney")}, {"baseline_kcal": 800}))


@pytest.mark.parametrize("caution", ["diabetes", "heart", "liver", "medication"])
@pytest.mark.parametrize("percent", [-1.0, 0.5])
def test_maintenance_only(case: Make, session: Session, caution: str, percent: float) -> None:
    training = [session("tue", minutes=180, effort="race"), session("thu", minutes=120, kind="ride")]
    goal = {"mass_change_percent_per_week": percent, "protein_g_per_kg": 2.4}
    week = week_targets(case({"cautions": (caution,), "carbohydrate_used_to_g_per_h": 80}, goal, training))
    level = week_targets(case({"cautions": (caution,)}, {}, training))
    assert week.maintenance_only
    assert aims(week) == pytest.approx(aims(level))
    for day in week.days.values():
        assert day.maintenance_only
        assert not day.eve
        assert day.bands[PROTEIN].least == pytest.approx(1.8 * 68)
        assert (day.bands[PROTEIN].most or 0) <= 2.0 * 68 + 1e-9
        assert all(entry.during_g == (0, 0) for entry in day.sessions)
        assert any("no deficit or gain" in caution for caution in day.cautions)
        assert any("no high-protein plan" in note for note in day.notes)
    said = " ".join(texts(week)).lower()
    assert "race" not in said
    assert "loading" not in said
    assert any(note.startswith("No ") for note in week.notes)


@pytest.mark.parametrize(
    "caution", ["missed_periods", "bone_stress_injury", "past_eating_disorder", "unexplained_weight_loss"]
)
@pytest.mark.parametrize("spread", ["by_day", "even"])
def test_protected_athletes_get_no_deficit_and_full_availability(
    case: Make, session: Session, caution: str, spread: str
) -> None:
    training = [session("sat", minutes=200, kind="ride", active_kcal=1800)]
    goal = {"mass_change_percent_per_week": -0.5, "spread": spread, "energy_replaced": 0.7}
    week = week_targets(case({"cautions": (caution,)}, goal, training))
    assert all(day.energy_availability >= 45 - 1e-9 for day in week.days.values())
    assert any(note.startswith("No deficit is planned") for note in week.notes)
    assert any("sports doctor" in text for text in week.cautions)


def test_a_move_does_not_take_a_protected_day_under_its_floor(case: Make) -> None:
    moving = {"move": [{"from": "sat", "to": "sun", "kcal": 200}]}
    with pytest.raises(Refused, match=r"goal\.move: moving 200 kcal out of sat"):
        week_targets(case({"cautions": ("missed_periods",)}, moving))


@pytest.mark.parametrize(
    ("athlete", "reason"),
    [
        ({"mass_kg": 49.0}, "body mass index of 16.8"),
        ({"body_fat_percent": 11.0}, "body fat of 11 % (under 12 %)"),
        ({"sex": "male", "body_fat_percent": 4.5}, "body fat of 4.5 % (under 5 %)"),
    ],
)
def test_thin_athletes_get_no_deficit(case: Make, athlete: dict[str, Any], reason: str) -> None:
    week = week_targets(case(athlete, {"mass_change_percent_per_week": -1.0}))
    assert week.sum_kcal >= 7 * week.baseline_kcal - 1e-6
    assert any(reason in note for note in week.notes)
    assert any(reason in caution for caution in week.cautions)


def test_estimated_fat_free_mass_allows_no_deficit_under_45(case: Make, session: Session) -> None:
    goal = {"mass_change_percent_per_week": -0.5, "baseline_kcal": 2300}
    training = [session("sat", minutes=120, active_kcal=1200)]
    known = week_targets(case({}, goal, training))
    guessed = week_targets(case({"body_fat_percent": None}, goal, training))
    assert known.sum_kcal < 7 * 2300 + 0.85 * 1200 - 1
    assert guessed.sum_kcal == pytest.approx(7 * 2300 + 0.85 * 1200)
    assert 30 < guessed.mean_energy_availability < 45
    assert any("not known from a measurement" in note for note in guessed.notes)


def test_estimated_fat_free_mass_allows_a_deficit_down_to_45(case: Make) -> None:
    goal = {"mass_change_percent_per_week": -0.5, "baseline_kcal": 2450}
    assert week_targets(case({"body_fat_percent": None}, goal)).mean_energy_availability == pytest.approx(45)


def test_body_fat_typed_in_far_too_high_does_not_buy_a_deficit(case: Make) -> None:
    goal = {"mass_change_percent_per_week": -1.0, "baseline_kcal": 2300}
    week = week_targets(case({"body_fat_percent": 55.0}, goal))
    assert week.sum_kcal == pytest.approx(7 * 2300)
    assert any(note.startswith("Body fat of 55 %") for note in week.notes)


def test_deficit_shrinks_until_the_week_has_30(case: Make, session: Session) -> None:
    training = [session(day, minutes=90, active_kcal=1000, energy_from="power") for day in DAYS]
    goal = {"mass_change_percent_per_week": -1.0, "energy_replaced": 0.8}
    week = week_targets(case({}, goal, training))
    assert week.mean_energy_availability == pytest.approx(30)
    assert any("deficit shrinks" in note for note in week.notes)


def test_no_day_of_a_deficit_falls_under_resting_energy(case: Make) -> None:
    goal = {"mass_change_percent_per_week": -1.0, "baseline_kcal": 2150}
    week = week_targets(case({"lifting_hours_per_week": 0.0}, goal))
    assert aims(week) == pytest.approx([week.resting_kcal] * 7)
    assert any("no day falls under resting energy" in note for note in week.notes)


def test_low_share_replaced_is_raised_to_30(case: Make, session: Session) -> None:
    training = [session(day, minutes=240, kind="ride", active_kcal=2600) for day in DAYS]
    week = week_targets(case({}, {"energy_replaced": 0.7}, training))
    assert all(day.energy_availability >= 30 - 1e-9 for day in week.days.values())
    assert any(note.startswith("Energy availability would fall") for note in week.notes)


def test_no_deficit_below_the_published_inactive_requirement(case: Make) -> None:
    week = week_targets(
        case({"steps_per_day": 2000, "lifting_hours_per_week": 0.0}, {"mass_change_percent_per_week": -0.5})
    )
    assert week.activity_class == "below inactive"
    assert week.sum_kcal == pytest.approx(7 * week.baseline_kcal)
    assert any("no weigh-ins confirm it yet" in note for note in week.notes)


def test_typing_in_a_baseline_does_not_lift_that_rule(case: Make) -> None:
    week = week_targets(case({}, {"mass_change_percent_per_week": -0.5, "baseline_kcal": 2050}))
    assert week.activity_class == "below inactive"
    assert week.sum_kcal == pytest.approx(7 * 2050)


def test_no_deficit_at_eighteen_for_nothing_published_confirms_the_baseline(case: Make) -> None:
    week = week_targets(case({"age": 18}, {"mass_change_percent_per_week": -0.5}))
    assert week.sum_kcal == pytest.approx(7 * week.baseline_kcal)
    assert any("under 19 years" in note for note in week.notes)


def test_a_baseline_of_resting_energy_is_refused(case: Make) -> None:
    with pytest.raises(Refused, match="baseline_kcal"):
        week_targets(case({}, {"baseline_kcal": 1637}))
    with pytest.raises(BadInput, match="baseline_kcal"):
        week_targets(case({}, {"baseline_kcal": 5500}))


def test_deficit_is_at_most_a_quarter_of_energy(case: Make) -> None:
    heavy = {"sex": "male", "mass_kg": 115, "height_cm": 180, "body_fat_percent": 38.0, "steps_per_day": 9000}
    week = week_targets(case(heavy, {"mass_change_percent_per_week": -1.0, "baseline_kcal": 3300}))
    assert week.sum_kcal >= 0.75 * 7 * 3300 - 1e-6
    assert any("at most 25 %" in note or "shrinks" in note for note in week.notes)


def test_moves_that_starve_a_day_are_refused(case: Make) -> None:
    goal = {"mass_change_percent_per_week": -1.0, "baseline_kcal": 2200, "move": [
        {"from": "sat", "to": "sun", "kcal": 500},
    ]}  # fmt: skip
    with pytest.raises(Refused, match=r"goal\.move.*ask a sports doctor"):
        week_targets(case({}, goal))


def test_a_fair_move_balances_to_the_kilocalorie(case: Make) -> None:
    plain = week_targets(case({}, {"baseline_kcal": 2450}))
    moved = week_targets(case({}, {"baseline_kcal": 2450, "move": [{"from": "sat", "to": "sun", "kcal": 400}]}))
    assert moved.sum_kcal == pytest.approx(plain.sum_kcal, abs=1e-6)
    change = [after - before for after, before in zip(aims(moved), aims(plain), strict=True)]
    assert change == pytest.approx([0, 0, 0, 0, 0, -400, 400])


@pytest.mark.parametrize(
    ("athlete", "band"),
    [
        ({}, {"least": 1200}),
        ({}, {"aim": 1500}),
        ({}, {"most": 1500}),
        ({"cautions": ("missed_periods",)}, {"aim": 2200}),
        ({"cautions": ("diabetes",)}, {"aim": 2000}),
        ({"cautions": ("diabetes",)}, {"aim": 2800}),
        ({"cautions": ("diabetes",)}, {"most": 2800}),
        ({"body_fat_percent": None}, {"aim": 2000}),
        ({"body_fat_percent": None}, {"aim": 2350}),
        ({"body_fat_percent": None}, {"least": 2300}),
    ],
)
def test_an_energy_band_of_ones_own_is_no_way_round(
    case: Make, athlete: dict[str, Any], band: dict[str, float]
) -> None:
    with pytest.raises(Refused, match=r"goal\.band"):
        week_targets(case(athlete, {"baseline_kcal": 2450, "band": [{"nutrient": "energy_kcal", **band}]}))


def test_a_little_more_room_under_the_aim_is_allowed(case: Make) -> None:
    goal = {"baseline_kcal": 2450, "band": [{"nutrient": "energy_kcal", "least": 2340}]}
    week = week_targets(case({"body_fat_percent": None}, goal))
    assert week.days["mon"].bands[ENERGY].least == 2340
    assert aims(week) == pytest.approx([2450] * 7)


@pytest.mark.parametrize(
    ("athlete", "band"),
    [
        ({"cautions": ("heart",)}, {"nutrient": "protein_g", "least": 150}),
        ({"cautions": ("heart",)}, {"nutrient": "protein_g", "most": 180}),
        ({"cautions": ("heart",)}, {"nutrient": "carbohydrate_g", "least": 600}),
        ({"cautions": ("heart",)}, {"nutrient": "sodium_mg", "least": 3000}),
        ({}, {"nutrient": "protein_g", "least": 250}),
        ({}, {"nutrient": "protein_g", "most": 40}),
    ],
)
def test_other_bands_of_ones_own_are_no_way_round(case: Make, athlete: dict[str, Any], band: dict[str, Any]) -> None:
    with pytest.raises(Refused, match=r"goal\.band"):
        week_targets(case(athlete, {"band": [band]}))


def test_a_tiny_session_figure_does_not_make_availability_look_good(case: Make, session: Session) -> None:
    training = [session(day, minutes=120, effort="hard", active_kcal=30) for day in DAYS]
    week = week_targets(case({}, {"mass_change_percent_per_week": -1.0}, training))
    counted = [entry.availability_kcal for day in week.days.values() for entry in day.sessions]
    assert min(counted) == pytest.approx(0.7 * 9.5 * 68 * 2)
    assert week.mean_energy_availability >= 30 - 1e-9
    assert all("please check" in day.notes[0] for day in week.days.values())


def test_not_asked_is_said_and_asked_is_not(case: Make) -> None:
    assert NOT_ASKED in week_targets(case({"cautions": None})).cautions
    assert NOT_ASKED not in week_targets(case()).cautions


def test_no_drinking_plan_after_low_blood_sodium(case: Make) -> None:
    found = standing(case({"cautions": ("hyponatraemia_before",)}))
    assert any("no drinking plan" in text for text in found.cautions)
    assert not found.no_deficit


def test_a_day_under_25_carries_a_caution(case: Make, session: Session) -> None:
    training = [session("sat", minutes=290, kind="ride", active_kcal=3000)]
    week = week_targets(case({}, {"spread": "even"}, training))
    assert week.days["sat"].energy_availability < 25
    assert any("under 25 on this day" in text for text in week.days["sat"].cautions)
    assert any("sat" in text for text in week.cautions)
    assert week.days["sun"].cautions != week.days["sat"].cautions
    assert CARBOHYDRATE in week.days["sat"].bands
