"""A day's sessions fuelled one after the other, so that no food passes what a day holds of it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from hashlib import sha256

from mealopt.core.filters import FoodFilter
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY
from mealopt.documents.fuel import FuelPlan
from mealopt.menu.dishes import Menu
from mealopt.menu.plates import Larder
from mealopt.people.case import Case
from mealopt.plans.day.settled import settled_day
from mealopt.plans.day.shape import day_layout
from mealopt.plans.fuel.around import before_words
from mealopt.plans.fuel.document import fuel_plan
from mealopt.plans.fuel.need import is_fuelled, need_of
from mealopt.plans.fuel.paced import paced
from mealopt.plans.fuel.solve import Packed
from mealopt.plans.fuel.words import meal_name
from mealopt.table.prices import shipped_prices
from mealopt.targets.model import DayTargets
from mealopt.targets.timing import Layout

#: A day may hold its most of a food once, and on big days up to twice: from this energy on (project's assumption).
BIG_DAY_KCAL = 2800.0
#: Of what a day may hold of a food, its sessions take so much at most; meals want some of it too.
OF_DAY = 0.8


@dataclass(frozen=True, slots=True)
class Fuelled:
    """One session's plan, what is packed for it, and how its meal of the day is called and made ready."""

    plan: FuelPlan
    packed: Packed
    name: str
    minutes: int

    @property
    def eaten(self) -> bool:
        """Whether any food goes into the session."""
        return bool(self.packed.grams)


def fuelled_day(
    case: Case, day: str, targets: DayTargets, menu: Menu, wishes: FoodFilter, seconds: float = 5.0
) -> dict[int, Fuelled]:
    """Number of a session of the day -> its plan, for endurance over an hour; none with cautions that forbid it."""
    if targets.maintenance_only or not any(is_fuelled(entry.session) for entry in targets.sessions):
        return {}
    if case.kitchen.own_foods is None:
        return _shipped(case, day, targets, wishes, seconds)
    return _fuelled(case, day, targets, menu, wishes, seconds)


@lru_cache(maxsize=128)
def _of_shipped(key: _Key) -> dict[int, Fuelled]:
    from mealopt.menu.dishes import shipped_menu

    return _fuelled(key.case, key.day, key.targets, shipped_menu(), key.wishes, key.seconds)


@dataclass(frozen=True, slots=True, eq=False)
class _Key:
    """What a day's fuel follows from. Two are equal where the case says the same."""

    text: str
    case: Case
    day: str
    targets: DayTargets
    wishes: FoodFilter
    seconds: float

    def __hash__(self) -> int:
        return hash((self.text, self.day))

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Key) and (self.text, self.day, self.wishes) == (other.text, other.day, other.wishes)


def forget() -> None:
    """Forget the plans that were made, so that the next one is made anew: for measuring."""
    _of_shipped.cache_clear()


def _shipped(case: Case, day: str, targets: DayTargets, wishes: FoodFilter, seconds: float) -> dict[int, Fuelled]:
    return _of_shipped(_Key(case.model_dump_json(), case, day, targets, wishes, seconds))


def _fuelled(
    case: Case, day: str, targets: DayTargets, menu: Menu, wishes: FoodFilter, seconds: float
) -> dict[int, Fuelled]:
    larder = Larder(menu, wishes, shipped_prices())
    scale = min(2.0, max(1.0, (targets.bands[ENERGY].aim or BIG_DAY_KCAL) / BIG_DAY_KCAL))
    taken: dict[str, float] = defaultdict(float)
    foods = menu.pantry.foods
    for fixed in case.kitchen_on(day).fixed:
        for name, grams in fixed.portions:
            if name in foods:
                taken[foods[name].kin] += grams / foods[name].most_day_g
    found: dict[int, Fuelled] = {}
    for number, entry in enumerate(targets.sessions, start=1):
        if not is_fuelled(entry.session):
            continue
        need = need_of(case, day, number, entry)
        room = {food.kin: max(0.0, OF_DAY * scale - taken[food.kin]) for food in foods.values()}
        packed = paced(need, larder, _seed(case), room, seconds)
        for name, grams in packed.grams.items():
            taken[foods[name].kin] += grams / foods[name].most_day_g
        made = {thing.thing.id: thing.thing.minutes for thing, _ in packed.things}
        minutes = sum(made.values()) + (2 if any(mix.drink for mix, _ in packed.mixes) else 0)
        plan = fuel_plan(packed, menu.pantry)
        found[number] = Fuelled(plan, packed, meal_name(packed), minutes)
    layout = day_layout(case, day, targets, settled_day(case, day, menu).meals, eaten_g(found))
    return {number: _with_before(one, layout) for number, one in found.items()}


def _with_before(one: Fuelled, layout: Layout) -> Fuelled:
    """The same with what to eat before it, as the day's own meals are laid."""
    return replace(one, plan=one.plan.model_copy(update={"before": before_words(one.packed.need, layout)}))


def eaten_g(fuel: Mapping[int, Fuelled]) -> dict[int, tuple[float, float]]:
    """Number of a session -> carbohydrate that its plan holds, twice; (0, 0) where nothing is eaten in it.

    Salt alone counts as a gram, so that it has its place in the day.
    """
    found = {}
    for number, one in fuel.items():
        grams = max(1.0, one.plan.totals.get(CARBOHYDRATE, 0.0)) if one.eaten else 0.0
        found[number] = (grams, grams)
    return found


def _seed(case: Case) -> str:
    """One order of foods for the athlete, so that training rehearses what the race will use."""
    return sha256(f"{case.athlete.name}|fuel".encode()).hexdigest()[:16]
