"""What stands of a week while it is sought: value, bound, and the best mix of the answers that were kept."""

from __future__ import annotations

import pytest

from mealopt.documents.plan import PlanDay
from mealopt.menu.dishes import shipped_menu
from mealopt.plans.week.checks import week_checks
from mealopt.plans.week.job import Ask, DayAnswer
from mealopt.plans.week.state import WeekState
from mealopt.plans.week.words import COSTS_MORE, NOT_FOUND, reasons_for
from mealopt.rules.weekly.registry import WeekRow

FISH = WeekRow("fish", "fish on at least 1 day", "days", least=1.0, charge=3.0, per_gram=lambda food: 1.0, portion=80)


def answer(day: str, value: float, fish: float, what: str = "within", bound: float = 0.0) -> DayAnswer:
    entry = PlanDay(
        day=day, date=None, sessions=(), targets={}, meals=(), totals={}, coverage={}, missed=(), cautions=()
    )  # type: ignore[arg-type]
    return DayAnswer(Ask(what, day), entry, value, bound, {"fish": {"": fish}})


def test_the_days_own_bounds_added_and_the_charge_above_them() -> None:
    week = WeekState(("mon", "tue"), (FISH,))
    week.keep(answer("mon", 4.0, 0.0, "alone", 3.0))
    assert not week.whole
    week.keep(answer("tue", 5.0, 0.0, "alone", 4.5))
    assert week.value == pytest.approx(4.0 + 5.0 + 3.0)
    assert week.bound == pytest.approx(7.5)
    assert week.gap == pytest.approx(4.5 / 100.0)


def test_the_best_mix_stands() -> None:
    week = WeekState(("mon", "tue"), (FISH,))
    week.keep(answer("mon", 4.0, 0.0))
    week.keep(answer("tue", 5.0, 0.0))
    assert week.keep(answer("mon", 6.0, 1.0))
    assert week.value == pytest.approx(11.0)
    assert not week.keep(answer("mon", 8.0, 1.0))
    assert week.keep(answer("tue", 5.5, 1.0))
    assert week.value == pytest.approx(9.5), "with fish on Tuesday, Monday goes back to its best"
    assert week.lacks == []


def test_a_bound_by_prices_counts_where_it_is_higher() -> None:
    week = WeekState(("mon", "tue"), (FISH,))
    for day in week.days:
        week.keep(answer(day, 4.0, 0.0, "alone", 3.0))
    week.bound_by_prices({"fish": 3.0}, [2.5, 2.5])
    assert week.bound == pytest.approx(2.5 + 2.5 + 3.0)
    week.bound_by_prices({"fish": 3.0}, [0.0, 0.0])
    assert week.bound == pytest.approx(8.0), "no bound is lost"


def test_an_answer_without_a_day_gives_its_bound_only() -> None:
    week = WeekState(("mon",), (FISH,))
    week.keep(answer("mon", 4.0, 1.0))
    assert not week.keep(DayAnswer(Ask("alone", "mon"), None, 0.0, 3.5, {}))
    assert (week.value, week.bound) == (4.0, 3.5)


def test_a_hair_below_a_least_is_met_as_it_is_written() -> None:
    row = WeekRow("e", "e at least 15 mg", "sum", least=15.0, charge=1.0, per_gram=lambda food: 1.0, unit="mg")
    days = [PlanDay.model_construct(day="mon", meals=(), totals={}, coverage={})]
    for found, met in ((14.999999, True), (14.99, False), (15.0, True)):
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr("mealopt.plans.week.checks.shares_of", lambda *_, found=found: {"e": {"": found}})
            (check,) = week_checks(days, [row], shipped_menu().pantry)
            assert (check.met, check.value) == (met, pytest.approx(found, abs=1e-4))


def test_a_week_that_is_not_proven_does_not_say_that_meeting_a_rule_costs_more() -> None:
    assert reasons_for([FISH], {}, proven=True)["fish"] == COSTS_MORE
    assert reasons_for([FISH], {}, proven=False)["fish"] == NOT_FOUND
    assert "at most 0" in reasons_for([FISH], {"fish": 0.0}, proven=False)["fish"]
