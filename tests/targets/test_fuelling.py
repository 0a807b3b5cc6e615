"""Eating before, in and after sessions; the class of a day; the eve of a long event; bands of one's own."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mealopt.core.bands import Band
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, FIBRE, FRUIT_VEGETABLE, PROTEIN
from mealopt.errors import BadInput
from mealopt.people.case import Case, OwnBand
from mealopt.targets.day import week_targets
from mealopt.targets.eve import eve_energy
from mealopt.targets.fuelling import (
    after_g,
    before_g_per_kg,
    capped_g_per_h,
    class_minutes,
    common_practice_g_per_h,
    ladder,
)
from mealopt.targets.macros import limits_of
from mealopt.targets.own import merged

Make = Callable[..., Case]
Session = Callable[..., dict[str, Any]]


def rates(made: Case, day: str = "sat") -> list[tuple[float, float]]:
    """Carbohydrate in each session of a day, g/h."""
    return [
        tuple(round(side, 6) for side in entry.carbohydrate_g_per_h) for entry in week_targets(made).days[day].sessions
    ]


@pytest.mark.parametrize(
    ("minutes", "effort", "used", "expected"),
    [
        (40, "hard", 60, (0, 0)),
        (50, "hard", 60, (0, 15)),
        (70, "hard", 60, (0, 30)),
        (90, "hard", 60, (30, 60)),
        (135, "steady", 60, (30, 60)),
        (200, "steady", 90, (60, 90)),
        (200, "steady", 40, (100 / 3, 50)),
        (200, "steady", None, (40, 60)),
        (150, "easy", 90, (0, 90)),
        (200, "steady", 0, (0, 10)),
    ],
)
def test_carbohydrate_in_a_session(
    case: Make, session: Session, minutes: int, effort: str, used: float | None, expected: tuple[float, float]
) -> None:
    training = [session("sat", minutes=minutes, effort=effort)]
    found = rates(case({"carbohydrate_used_to_g_per_h": used}, {}, training))
    assert found == [pytest.approx(expected, abs=1e-5)]


def test_lifting_eats_nothing_and_a_session_never_more_than_it_burns(case: Make, session: Session) -> None:
    training = [session("sat", kind="lift", minutes=120), session("sat", "15:00", minutes=120, active_kcal=100)]
    week = week_targets(case({}, {}, training))
    assert [entry.during_g[1] for entry in week.days["sat"].sessions] == pytest.approx([0, 25])


@given(st.floats(0, 1000))
def test_the_ladder_never_steps_down(minutes: float) -> None:
    below, here = ladder(minutes), ladder(minutes + 1)
    assert here.rung >= below.rung
    assert here.most >= below.most
    assert below.least <= below.rung <= below.most


def test_the_common_practice_rate_may_be_chosen() -> None:
    assert common_practice_g_per_h(70, 59) == 0
    assert common_practice_g_per_h(70, 60) == pytest.approx(52.5)
    assert common_practice_g_per_h(150, 60) == 90
    assert capped_g_per_h(52.5, mixed=True, used_to_g_per_h=30) == 40


def test_before_just_awake_and_short_sessions() -> None:
    assert before_g_per_kg(30, 600, 60) == (0, 0)
    assert before_g_per_kg(120, 45, 90) == (0, 0.5)
    assert before_g_per_kg(45, 600, 90) == (0, 0.5)
    assert before_g_per_kg(150, 600, 90) == (1, 2.5)
    assert before_g_per_kg(400, 600, 90) == (1, 4)


def test_after_is_cut_short_by_the_next_session() -> None:
    assert after_g(90, 60) == pytest.approx((90, 108))
    assert after_g(0, 60) == (0, 0)


def test_class_minutes_count_endurance_and_half_of_easy_walking(case: Make, session: Session) -> None:
    training = [
        session("sat", minutes=60, kind="walk", effort="easy"),
        session("sat", "12:00", minutes=30, effort="easy"),
        session("sat", "15:00", minutes=90, kind="lift"),
    ]
    assert class_minutes(case({}, {}, training).sessions_on("sat")) == 60


EVENT = {"minutes": 150, "effort": "race", "kind": "run"}


def test_eves_are_the_two_days_before_a_long_race(case: Make, session: Session) -> None:
    week = week_targets(case({}, {"mass_change_percent_per_week": -0.25, "baseline_kcal": 2450},
                             [session("sat", "09:00", **EVENT)]))  # fmt: skip
    assert [name for name, day in week.days.items() if day.eve] == ["thu", "fri"]
    eve = week.days["fri"]
    carbohydrate = limits_of(eve.bands[CARBOHYDRATE])
    assert carbohydrate[0] >= 10 * 68 - 1e-6
    assert carbohydrate[2] <= 12 * 68 + 1e-6
    assert eve.bands[PROTEIN].least == pytest.approx(1.2 * 68)
    assert eve.bands[FIBRE] == Band(None, 12.5, 15)
    assert eve.bands[FRUIT_VEGETABLE] == Band()
    assert (eve.bands[ENERGY].aim or 0) == pytest.approx(eve_energy(68))
    assert (eve.bands[FAT].least or 0) * 9 == pytest.approx(0.15 * eve_energy(68))
    assert any("1-2 kg" in note for note in eve.notes)
    assert week.sum_kcal == pytest.approx(week.sum_expected_kcal)
    assert limits_of(week.days["wed"].bands[ENERGY])[1] < 2450


def test_an_evening_race_still_has_two_eves_and_a_short_one_none(case: Make, session: Session) -> None:
    late = week_targets(case({}, {}, [session("sat", "18:00", **EVENT)]))
    assert [name for name, day in late.days.items() if day.eve] == ["thu", "fri"]
    short = week_targets(case({}, {}, [session("sat", "09:00", minutes=90, effort="race")]))
    assert not any(day.eve for day in short.days.values())
    lift = week_targets(case({}, {}, [session("sat", "09:00", minutes=120, effort="race", kind="lift")]))
    assert not any(day.eve for day in lift.days.values())


def test_a_day_with_its_own_race_is_no_eve(case: Make, session: Session) -> None:
    week = week_targets(case({}, {}, [session("fri", "09:00", **EVENT), session("sat", "09:00", **EVENT)]))
    assert [name for name, day in week.days.items() if day.eve] == ["wed", "thu"]


def test_an_eve_has_no_deficit_even_where_its_work_asks_for_more(case: Make, session: Session) -> None:
    training = [session("fri", minutes=200, kind="ride", active_kcal=2400), session("sat", "09:00", **EVENT)]
    plain, cut = (
        week_targets(case({}, {"mass_change_percent_per_week": change, "baseline_kcal": 2450}, training))
        for change in (0.0, -0.25)
    )
    assert (cut.days["fri"].bands[ENERGY].aim or 0) == pytest.approx(2450 + 0.85 * 2400)
    assert cut.days["fri"].bands[ENERGY] == plain.days["fri"].bands[ENERGY]
    assert (cut.days["wed"].bands[ENERGY].aim or 0) < (plain.days["wed"].bands[ENERGY].aim or 0)


def test_eves_before_the_week_are_said(case: Make, session: Session) -> None:
    week = week_targets(case({}, {}, [session("mon", "09:00", **EVENT)]))
    assert not any(day.eve for day in week.days.values())
    assert any("lies in the week before" in note for note in week.notes)


def test_eve_above_85_kg_starts_from_eight(case: Make, session: Session) -> None:
    made = case({"mass_kg": 95.0, "height_cm": 190}, {}, [session("sat", "09:00", **EVENT)])
    eve = week_targets(made).days["fri"]
    assert limits_of(eve.bands[CARBOHYDRATE])[0] == pytest.approx(8 * 95)
    assert any("not 10" in note for note in eve.notes)


@pytest.mark.parametrize(
    ("own", "expected"),
    [
        ({"least": 20}, (20, 30, 90)),
        ({"least": 40}, (40, 40, 90)),
        ({"most": 60}, (25, 30, 60)),
        ({"most": 20}, (18, 20, 20)),
        ({"aim": 35}, (25, 35, 90)),
        ({"aim": 10}, (9, 10, 90)),
        ({"aim": 100}, (25, 100, 110)),
        ({"least": 95}, (95, 95, 104.5)),
        ({"least": 10, "aim": 12, "most": 15}, (10, 12, 15)),
    ],
)
def test_an_own_band_replaces_the_sides_it_gives(own: dict[str, float], expected: tuple[float, float, float]) -> None:
    found = merged(Band(25, 30, 90), OwnBand.model_validate({"nutrient": "fibre_g", **own}), 0.1)
    assert limits_of(found) == pytest.approx(expected)


def test_own_bands_of_a_case(case: Make) -> None:
    bands = [
        {"nutrient": "fibre_g", "least": 20},
        {"nutrient": "fibre_g", "least": 15, "day": "sat"},
        {"nutrient": "iron_mg", "least": 18},
        {"nutrient": "protein_g", "aim": 150, "day": "sun"},
        {"nutrient": "fat_g", "most": 5, "slot": "before"},
    ]
    week = week_targets(case({}, {"band": bands}))
    assert week.days["mon"].bands[FIBRE].least == 20
    assert week.days["sat"].bands[FIBRE].least == 15
    assert week.days["mon"].bands["iron_mg"] == Band(18, None, None)
    assert week.days["sun"].bands[PROTEIN].aim == 150
    assert (week.days["mon"].bands[FAT].most or 0) > 5
    assert any("by a band of its own" in note for note in week.days["sun"].notes)


def test_an_own_energy_band_carries_the_other_bands_with_it(case: Make) -> None:
    made = case({}, {"baseline_kcal": 2450, "band": [{"nutrient": "energy_kcal", "aim": 2200, "day": "wed"}]})
    week = week_targets(made)
    assert limits_of(week.days["wed"].bands[ENERGY]) == pytest.approx((2156, 2200, 2244))
    assert (week.days["wed"].bands[CARBOHYDRATE].aim or 0) < (week.days["tue"].bands[CARBOHYDRATE].aim or 0)
    assert week.sum_kcal == pytest.approx(7 * 2450 - 250)
    assert week.sum_kcal == pytest.approx(week.sum_expected_kcal)


def test_own_bands_that_leave_no_room_are_doubted_and_a_mistake_is_bad_input(case: Make) -> None:
    bands = [{"nutrient": "carbohydrate_g", "most": 60}, {"nutrient": "fat_g", "most": 40}]
    notes = week_targets(case({}, {"band": bands})).days["mon"].notes
    assert any("the mosts of protein, carbohydrate and fat" in note for note in notes)
    with pytest.raises(BadInput, match=r"goal\.band: read an energy"):
        week_targets(case({}, {"band": [{"nutrient": "energy_kcal", "aim": 9000}]}))
