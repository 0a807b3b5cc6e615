"""What a meal and a day carry as totals, and how much of the day's food they are known for.

A nutrient stands in the totals where the table knows it for at least one food of the meal; what the table leaves blank
adds nothing, and lowers the day's coverage. `fruit_vegetable_g` is the grams of foods that count as fruit or vegetable,
and juice up to `JUICE_MOST_G` over the day, counted in the meals that come first.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from mealopt.core.nutrients import FRUIT_VEGETABLE, KEYS
from mealopt.documents.parts import LISTED

#: Juice counts once a day, as one portion of 150 ml [common practice, no source].
JUICE_MOST_G = 150.0

#: Digits that a total is written with: far finer than the 0.5 % to which anyone can recompute it, and readable.
DIGITS = 5


@dataclass(frozen=True, slots=True)
class Portion:
    """Grams of one food. per_100g: nutrient key -> amount in 100 g, absent where unknown. counts: pantry words."""

    grams: float
    per_100g: Mapping[str, float]
    counts: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class Totals:
    """Totals of each meal, of the day, and the day's coverage, as the document holds them."""

    meals: tuple[dict[str, float], ...]
    day: dict[str, float]
    coverage: dict[str, float]


def rounded(value: float) -> float:
    """The value to `DIGITS` significant digits."""
    return float(f"{value:.{DIGITS}g}")


def day_totals(meals: Sequence[Sequence[Portion]], given: Mapping[int, Mapping[str, float]] | None = None) -> Totals:
    """Totals of a day whose meals stand in order of time.

    given: place of a meal, from 0 -> nutrients of it that are known without its foods.
    """
    juice_left = JUICE_MOST_G
    exact: list[dict[str, float]] = []
    for place, portions in enumerate(meals):
        totals = _nutrients(portions) | dict((given or {}).get(place, {}))
        juice = min(juice_left, sum(portion.grams for portion in portions if "juice" in portion.counts))
        juice_left -= juice
        totals[FRUIT_VEGETABLE] = juice + sum(
            portion.grams for portion in portions if {"fruit", "vegetable"} & portion.counts
        )
        exact.append(totals)
    day = {key: sum(totals.get(key, 0.0) for totals in exact) for key in LISTED if any(key in t for t in exact)}
    return Totals(
        meals=tuple({key: rounded(totals[key]) for key in LISTED if key in totals} for totals in exact),
        day={key: rounded(value) for key, value in day.items()},
        coverage=coverage([portion for portions in meals for portion in portions]),
    )


def coverage(portions: Sequence[Portion]) -> dict[str, float]:
    """Nutrient key -> share of the food, by grams, whose value is known; only where some food's is not.

    A nutrient that no food's row knows reads 0. Cut, not rounded, to four decimals, so that 1 never hides a blank.
    """
    grams = sum(portion.grams for portion in portions)
    shares = {}
    for key in LISTED:
        if key in KEYS and any(key not in portion.per_100g for portion in portions):
            known = sum(portion.grams for portion in portions if key in portion.per_100g)
            shares[key] = min(0.9999, int(10000 * known / grams) / 10000)
    return shares


def _nutrients(portions: Sequence[Portion]) -> dict[str, float]:
    known = (key for key in KEYS if any(key in portion.per_100g for portion in portions))
    return {key: sum(portion.grams * portion.per_100g.get(key, 0.0) / 100.0 for portion in portions) for key in known}
