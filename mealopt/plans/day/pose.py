"""A day posed as a problem: who eats, what the day asks for, and the card that it is chosen from."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from hashlib import sha256

from mealopt.core.bands import Band
from mealopt.core.filters import FoodFilter
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FIBRE, PROTEIN
from mealopt.core.slots import HURRIED, RefuelWindow, Slot
from mealopt.documents.plan import PlanDay
from mealopt.errors import BadInput
from mealopt.menu.dishes import Menu
from mealopt.menu.plates import Larder, Plate
from mealopt.people.case import Case
from mealopt.people.notes import named_foods, peanuts_left_out
from mealopt.plans.day.bands import posed_bands, with_own_limits
from mealopt.plans.day.card import Card, quickest
from mealopt.plans.day.settled import SettledDay, settled_day, settled_notes, settled_plates
from mealopt.plans.day.shape import day_layout
from mealopt.plans.fuel.in_day import fuel_plates, fuelled_slots
from mealopt.plans.fuel.plan import Fuelled, eaten_g, fuelled_day
from mealopt.plans.own import case_menu, menu_notes
from mealopt.rules.problem import OwnLimit, Problem, Wishes
from mealopt.rules.registry import pose
from mealopt.rules.repeats import scale_of
from mealopt.table.find import nearest
from mealopt.table.prices import shipped_prices
from mealopt.targets.day import day_targets
from mealopt.targets.model import DayTargets

#: Share of energy outside sessions that comes from whole foods: at rest, and on very big days.
WHOLE_FOOD, WHOLE_FOOD_BIG = 0.7, 0.6

#: Most of it from foods flagged as added sugar (WHO healthy diet: free sugars under 10 % of energy).
ADDED_SUGAR = 0.10

#: A day is very big from this many times the baseline on.
BIG_DAY = 1.45
PRODUCE_KINDS = 3


@dataclass(frozen=True, slots=True)
class PosedDay:
    """All that one day's problem is made of, but its plates.

    settled, settled_plates: what the case settles, and slot index -> the plate that it makes. breakfast_seed: of a
    breakfast that should be the same every day; "" where days differ. fuel: number of a session -> what is packed for
    it. notes: what was assumed on the way. laid: the plates of each slot in their order, where they are not to be
    drawn. also: what else is written into each problem of the day: it may add rows, and charges that are never
    negative. anew: the document's day, where a part of it is past.
    """

    case: Case
    day: str
    targets: DayTargets
    slots: tuple[Slot, ...]
    refuel: tuple[RefuelWindow, ...]
    bands: dict[str, Band]
    own: tuple[OwnLimit, ...]
    wishes: Wishes
    larder: Larder
    seed: str
    notes: tuple[str, ...]
    settled: SettledDay = field(default_factory=SettledDay)
    settled_plates: Mapping[int, Plate] = field(default_factory=dict)
    fuel: Mapping[int, Fuelled] = field(default_factory=dict)
    breakfast_seed: str = ""
    laid: tuple[tuple[Plate, ...], ...] | None = None
    also: Callable[[Problem], None] | None = None
    anew: PlanDay | None = None

    def card(self) -> Card:
        """A fresh card for the day."""
        wanted, settled = self.protein_wanted, self.settled_plates
        fibre = self.bands[FIBRE].most
        share = fibre / (self.bands[ENERGY].aim or 1.0) if self.targets.eve and fibre is not None else None
        budget = self.wishes.budget
        money = None if budget is None else budget / (self.bands[ENERGY].aim or 1.0)
        starch = (self.bands[CARBOHYDRATE].least or 0.0) / (self.bands[ENERGY].aim or 1.0)
        seeds = self.seed, wanted, settled, self.breakfast_seed
        return Card(self.slots, self.larder, *seeds, self.laid, share, money, starch)

    @property
    def protein_wanted(self) -> float:
        """The day's protein, grams per kcal."""
        return (self.bands[PROTEIN].least or 0.0) / (self.bands[ENERGY].aim or 1.0)

    def problem(self, card: Card, leave_out: frozenset[str] = frozenset()) -> Problem:
        """The rows and columns of what the card holds now."""
        wishes = replace(self.wishes, beyond=self.wishes.prefer & card.beyond) if self.wishes.prefer else self.wishes
        problem = Problem(self.slots, card.plates, self.bands, wishes, self.refuel, self.own)
        pose(problem, leave_out)
        if self.also is not None:
            self.also(problem)
        return problem


def food_filter(case: Case) -> FoodFilter:
    """What the athlete eats, from the case."""
    kitchen = case.kitchen
    return FoodFilter(
        diet=kitchen.diet,
        gluten_free=kitchen.gluten_free,
        avoid_allergens=frozenset(kitchen.avoid_allergens) | _with_peanuts(case),
        never=frozenset(kitchen.never),
        prefer=frozenset(kitchen.prefer),
        less=frozenset(kitchen.less),
    )


def _with_peanuts(case: Case) -> frozenset[str]:
    """Peanuts count apart from nuts on the EU list; who avoids nuts gets none either, unless the case asks for one."""
    return frozenset({"peanuts"}) if peanuts_left_out(case) else frozenset()


def check_names(case: Case, menu: Menu) -> None:
    """Raise BadInput for a food or dish that the case names and nothing here is called."""
    for key, name in named_foods(case):
        if name not in menu.pantry.foods and name not in menu.dishes:
            raise BadInput(f"{key}: {name!r} is no food of the pantry and no dish{nearest(name, menu.pantry)}")


def day_wishes(case: Case, day: str, targets: DayTargets, menu: Menu) -> Wishes:
    """What the kitchen and the eater ask of a day."""
    kitchen = case.kitchen_on(day)
    aim = targets.bands[ENERGY].aim or 0.0
    share = WHOLE_FOOD_BIG if aim > BIG_DAY * targets.baseline_kcal else WHOLE_FOOD
    whole, sugar = (case.goal.wish(key, day) for key in ("whole_food_percent", "added_sugar_percent"))
    kinds = case.goal.wish("fruit_vegetable_kinds", day)
    return Wishes(
        minutes_most=float(kitchen.cook_minutes),
        warm_main=kitchen.cook_minutes >= HURRIED,
        budget=kitchen.budget,
        prefer=frozenset(case.kitchen.prefer),
        less=frozenset(case.kitchen.less),
        whole_food_share=whole / 100.0 if whole is not None else 0.0 if targets.eve else share,
        added_sugar_share=ADDED_SUGAR if sugar is None else sugar / 100.0,
        produce_kinds=int(kinds) if kinds is not None else 0 if targets.eve else PRODUCE_KINDS,
        quickest=quickest(menu),
    )


def pose_day(case: Case, day: str) -> PosedDay:
    """The day of a case as a problem. Raises Refused and BadInput as the targets do, BadInput for unknown foods."""
    targets = day_targets(case, day)
    menu = case_menu(case, targets.maintenance_only)
    settled = settled_day(case, day, menu)
    check_names(case, menu)
    eater = food_filter(case)
    fuel = fuelled_day(case, day, targets, menu, eater)
    layout = day_layout(case, day, targets, settled.meals, eaten_g(fuel))
    slots, own = with_own_limits(case, day, fuelled_slots(layout.slots, fuel))
    bands, sunk = posed_bands(targets, slots)
    seed = seed_of(case, day)
    prices = shipped_prices()
    larder = Larder(menu, eater, prices, seed, thrifty=case.kitchen_on(day).budget is not None)
    plates = settled_plates(settled, slots, larder, scale_of(bands), prices) | fuel_plates(slots, fuel, larder, prices)
    return PosedDay(
        case=case,
        day=day,
        targets=targets,
        slots=slots,
        refuel=layout.refuel,
        bands=bands,
        own=own,
        wishes=day_wishes(case, day, targets, menu),
        larder=larder,
        seed=seed,
        notes=(*layout.notes, *sunk, *settled_notes(settled), *menu_notes(menu)),
        settled=settled,
        settled_plates=plates,
        fuel=fuel,
        breakfast_seed=seed_of(case, "breakfast") if case.kitchen.same_breakfast else "",
    )


def seed_of(case: Case, of: str) -> str:
    """What an athlete's order of dishes follows from, for a day or for all of them."""
    return sha256(f"{case.athlete.name}|{case.week_of}|{of}".encode()).hexdigest()[:16]
