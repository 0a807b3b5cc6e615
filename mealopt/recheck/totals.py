"""The totals and the coverage that a plan writes, against the sums found again."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from mealopt.core.nutrients import FRUIT_VEGETABLE
from mealopt.documents.plan import PlanDay
from mealopt.recheck.sums import Books, day_sums, known_shares, meal_sums
from mealopt.recheck.tolerances import COVERAGE, same
from mealopt.recheck.words import amount, at_meal


def wrong_totals(day: PlanDay, books: Books) -> Iterator[str]:
    """Each meal's totals, the day's, and its coverage."""
    found = meal_sums(day, books)
    for meal, sums in zip(day.meals, found, strict=True):
        yield from _differences(at_meal(day, meal), meal.totals, sums, books)
        if not meal.items and books.settled_kcal(day, meal) is None:
            yield f"{at_meal(day, meal)}: there is nothing in it"
    yield from _differences(f"{day.day}, the whole day", day.totals, day_sums(found), books)
    yield from _coverage(day, books)


def _differences(place: str, written: Mapping[str, float], found: Mapping[str, float], books: Books) -> Iterator[str]:
    for key in (*written, *(key for key in found if key not in written)):
        if key == FRUIT_VEGETABLE and books.pantry is None:
            continue
        if key not in written:
            yield f"{place}: its totals leave out {amount(key, found[key])}"
        elif key not in found:
            yield f"{place}: its totals say {amount(key, written[key])}, which the table knows for none of its foods"
        elif not same(written[key], found[key]):
            yield f"{place}: its totals say {amount(key, written[key])}, its foods hold {amount(key, found[key])}"


def _coverage(day: PlanDay, books: Books) -> Iterator[str]:
    shares = known_shares(day, books)
    for key in (*day.coverage, *(key for key in shares if key not in day.coverage)):
        written, found = day.coverage.get(key, 1.0), shares.get(key, 1.0)
        hidden = key in shares and key not in day.coverage
        if hidden or abs(written - found) > COVERAGE:
            said = "not given" if hidden else f"{written:.4f}"
            yield f"{day.day}: coverage of {key} is {said}; the table knows it for {found:.4f} of the food"
