"""The recheck: every promise of a plan found again by separate arithmetic, from the table and the plan alone."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from mealopt.documents.plan import Plan
from mealopt.documents.reading import plan_from_text
from mealopt.errors import BrokenPlan
from mealopt.recheck.facts import Facts, read_facts
from mealopt.recheck.foods import broken_foods
from mealopt.recheck.fuel import broken_fuel
from mealopt.recheck.groceries import broken_groceries
from mealopt.recheck.past import broken_past
from mealopt.recheck.settled import broken_settled
from mealopt.recheck.sums import OWN, Books
from mealopt.recheck.targets import broken_targets
from mealopt.recheck.times import broken_times
from mealopt.recheck.totals import wrong_totals
from mealopt.recheck.week import broken_week
from mealopt.recheck.windows import broken_windows
from mealopt.table.composition import Composition, shipped_composition
from mealopt.table.pantry import Pantry, shipped_pantry

#: Source -> nutrient key -> amount in 100 g, of the athlete's own foods.
OwnTable = Mapping[str, Mapping[str, float]]


def recheck_plan(plan: Plan, composition: Composition, pantry: Pantry | None, own: OwnTable | None = None) -> list[str]:
    """Every broken promise as a sentence; an empty list where all hold.

    Without a pantry, what only it knows is left out: fruit and vegetables, kitchen steps, most of a day, diet,
    allergens and what is bought. A target that the plan lists in a day's `missed` may be missed. own: the athlete's
    own foods; where the plan has some that are not in it, one sentence says so, for nothing can be added up.
    """
    missing = _not_at_hand(plan, own or {})
    return [missing] if missing else list(_broken(plan, composition, pantry, own or {}))


def assert_plan(plan: Plan, composition: Composition, pantry: Pantry | None, own: OwnTable | None = None) -> None:
    """Raise BrokenPlan with every broken promise, where there is one."""
    broken = recheck_plan(plan, composition, pantry, own)
    if broken:
        raise BrokenPlan("this plan does not keep what it promises:\n" + "\n".join(f"- {says}" for says in broken))


def recheck_text(
    text: str,
    where: str,
    composition: Composition | None = None,
    pantry: Pantry | None = None,
    own: OwnTable | None = None,
) -> list[str]:
    """The broken promises of a plan document from anywhere, held against the table and pantry that ship.

    Another table and pantry go together. Raises BadInput where the text is no plan document.
    """
    plan = plan_from_text(text, where)
    if composition is None:
        return recheck_plan(plan, shipped_composition(), pantry or shipped_pantry(), own)
    return recheck_plan(plan, composition, pantry, own)


def _not_at_hand(plan: Plan, own: OwnTable) -> str | None:
    """Own foods of the plan whose numbers are not there."""
    items = (item for day in plan.days for meal in day.meals for item in meal.items)
    sources = {item.source for item in items if item.source.startswith(OWN) and item.source not in own}
    if not sources:
        return None
    named = ", ".join(sorted(sources)[:5]) + (", ..." if len(sources) > 5 else "")
    return f"the athlete's own foods cannot be checked without the file that holds them: {named}"


def _broken(plan: Plan, composition: Composition, pantry: Pantry | None, own: OwnTable) -> Iterator[str]:
    facts = read_facts(plan.case)
    if isinstance(facts, str):
        yield facts
    if plan.table.sha256 != composition.sha256:
        yield f"the plan was made with another table: {plan.table.sha256}, not {composition.sha256}"
    if plan.table.name != composition.name:
        yield f"the plan was made with the table {plan.table.name}, not {composition.name}"
    books = Books(composition, pantry, facts if isinstance(facts, Facts) else None, own)
    for day in plan.days:
        yield from wrong_totals(day, books)
        yield from broken_targets(day, books)
        yield from broken_windows(day, books)
        yield from broken_times(day, books)
        yield from broken_foods(day, books)
        yield from broken_settled(day, books)
        yield from broken_past(day, books)
        yield from broken_fuel(day, books)
    yield from broken_groceries(plan, books)
    yield from broken_week(plan, books)
