"""Sweat tests: what is read, and what is refused or doubted with one sentence."""

from __future__ import annotations

from typing import Any

import pytest

from mealopt.errors import BadInput
from mealopt.people.case import Case
from mealopt.people.reading import case_from_dict
from mealopt.targets.sweat import doubts

MEASURED = {"minutes": 60, "mass_before_kg": 70.0, "mass_after_kg": 69.2, "drunk_l": 0.8, "urine_l": 0.1}


def case(*tests: dict[str, Any], **session: Any) -> Case:
    """A case with these sweat tests."""
    athlete = {"name": "Skerry", "sex": "female", "age": 30, "mass_kg": 70.0, "height_cm": 172.0, "cautions": []}
    run = {"day": "tue", "start": "08:00", "minutes": 120, "kind": "run", "effort": "hard", **session}
    data = {"schema": "mealopt/case-1", "athlete": {**athlete, "sweat": {"test": list(tests)}}, "session": [run]}
    return case_from_dict(data, "case")


def test_measured_and_given_rates() -> None:
    made = case(MEASURED, {"litres_per_hour": 1.1, "conditions": "hot", "sodium_mg_per_l": 900.0})
    assert made.athlete.sweat is not None
    assert [test.rate_l_per_h for test in made.athlete.sweat.test] == pytest.approx([1.5, 1.1])


@pytest.mark.parametrize(
    ("test", "words"),
    [
        ({**MEASURED, "mass_after_kg": 70.6}, ("mass was gained", "dangerous")),
        ({**MEASURED, "mass_after_kg": 60.0}, ("a loss of 14 %", "at most 8 %")),
        ({"litres_per_hour": 7.0}, ("7.0", "0.1 to 5.73", "was it ml?")),
        ({**MEASURED, "drunk_l": 6.5}, ("7.20 L/h", "0.1 to 5.73 L/h is believed")),
        ({**MEASURED, "minutes": 1}, ("minutes", "20 to 360")),
        ({**MEASURED, "litres_per_hour": 0.8}, ("0.8", "1.50 L/h", "two that agree")),
        ({"minutes": 60, "mass_before_kg": 70.0}, ("without mass_after_kg",)),
        ({}, ("litres_per_hour", "expected together")),
        ({**MEASURED, "urine_l": 1.7}, ("-0.10 L/h",)),
        ({**MEASURED, "mass_before_kg": 99.0, "mass_after_kg": 98.5}, ("mass_kg = 70", "same body")),
        ({"litres_per_hour": 1.0, "sodium_mg_per_l": 45.0}, ("150 to 2500", "mmol")),
        ({**MEASURED, "mass_after_kg": float("nan")}, ("mass_after_kg",)),
    ],
)
def test_absurd_and_contradictory_tests_are_refused(test: dict[str, Any], words: tuple[str, ...]) -> None:
    with pytest.raises(BadInput) as refused:
        case(test)
    said = str(refused.value)
    assert "\n" not in said
    assert "[[athlete.sweat.test]] 1" in said
    assert all(word in said for word in words), said


def test_odd_tests_are_doubted() -> None:
    made = case({"litres_per_hour": 3.4}, {"litres_per_hour": 1.0})
    assert made.athlete.sweat is not None
    said = doubts(made.athlete.sweat.test)
    assert len(said) == 2
    assert "3.4 L/h, which is rare" in said[0]
    assert "the lower one counts" in said[1]


@pytest.mark.parametrize(
    ("splits", "words"),
    [
        (["10=0:52", "9=1:00"], "farther and later"),
        (["10=0:52", "12=0:50"], "farther and later"),
        (["30=1:00"], "within the session"),
        (["10=3:00"], "within the session"),
        (["ten=0:52"], "a distance in km"),
    ],
)
def test_splits_that_do_not_fit(splits: list[str], words: str) -> None:
    with pytest.raises(BadInput, match=words):
        case(splits=splits, distance_km=21.1)
