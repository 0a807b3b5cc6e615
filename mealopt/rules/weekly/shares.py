"""What each day of a planned week counts toward the week's rows, and how the rows come out."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from mealopt.rules.weekly.registry import Counted, WeekRow

#: Of one day: row's name -> word -> amount. A sum has the one word ""; a day with a portion is 1 of the word "".
Shares = Mapping[str, Mapping[str, float]]

#: Rounding that is let pass.
SMALL = 1e-6


@dataclass(frozen=True, slots=True)
class EatenMeal:
    """A planned meal as a week counts it. foods: with their grams."""

    slot: str
    dish: str
    foods: tuple[tuple[Counted, float], ...]


def day_shares(rows: Iterable[WeekRow], meals: Sequence[EatenMeal]) -> dict[str, dict[str, float]]:
    """What one day's meals count toward each row."""
    return {row.name: _share(row, meals) for row in rows}


def _share(row: WeekRow, meals: Sequence[EatenMeal]) -> dict[str, float]:
    if row.form == "times":
        assert row.meal is not None
        words = Counter(word for meal in meals if (word := row.meal(meal.slot, meal.dish)) is not None)
        return {word: float(times) for word, times in words.items()}
    foods = [entry for meal in meals for entry in meal.foods]
    if row.form == "kinds":
        assert row.kind is not None
        return {word: 1.0 for food, grams in foods if grams > 0 and (word := row.kind(food)) is not None}
    assert row.per_gram is not None
    total = sum(row.per_gram(food) * grams for food, grams in foods)
    return {"": total if row.form == "sum" else float(total >= row.portion - SMALL)}


def value(row: WeekRow, days: Iterable[Shares]) -> float:
    """How the row comes out over these days: a sum, days, kinds, or the most times of any word."""
    totals = summed(row, days)
    if row.form == "times":
        return max(totals.values(), default=0.0)
    return float(len(totals)) if row.form == "kinds" else totals.get("", 0.0)


def summed(row: WeekRow, days: Iterable[Shares]) -> Counter[str]:
    """Word -> amount over these days."""
    totals: Counter[str] = Counter()
    for shares in days:
        for word, amount in shares.get(row.name, {}).items():
            totals[word] += amount  # type: ignore[assignment]
    return totals


def lacking(row: WeekRow, days: Sequence[Shares]) -> float:
    """Units by which the row is missed, on either side; nought where it is met."""
    if row.form == "times":
        most = row.most or 0.0
        return sum(max(0.0, times - most) for times in summed(row, days).values())
    found = value(row, days)
    short = 0.0 if row.least is None else max(0.0, row.least - found)
    over = 0.0 if row.most is None else max(0.0, found - row.most)
    return short + over if short + over > SMALL * max(1.0, abs(found)) else 0.0


def charged(rows: Iterable[WeekRow], days: Sequence[Shares]) -> float:
    """Points that the week's rules charge for these days."""
    return sum(row.charge * lacking(row, days) for row in rows)
