"""A day of which a part is past, posed as a problem: what was eaten stands, the rest is open."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from mealopt.core.bands import Band
from mealopt.core.clock import clock
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, PROTEIN
from mealopt.core.slots import Slot
from mealopt.documents.plan import Meal, PlanDay
from mealopt.menu.dishes import Menu
from mealopt.menu.plates import Larder, Plate
from mealopt.people.case import Case
from mealopt.plans.day.bands import posed_bands, with_own_limits
from mealopt.plans.day.pose import PosedDay, day_wishes, food_filter, seed_of
from mealopt.plans.day.shape import day_shape
from mealopt.plans.fuel.in_day import fuel_plates, fuelled_slots
from mealopt.plans.fuel.plan import Fuelled, eaten_g, fuelled_day
from mealopt.plans.own import case_menu
from mealopt.plans.replan.past import GivenMeal, given_plate, numbered
from mealopt.plans.replan.rest import TIGHT, Coming, Hours, energy_aims, first_planned, lay_rest, planned_kcal
from mealopt.rules.problem import OwnLimit
from mealopt.table.prices import shipped_prices
from mealopt.targets.meal_protein import with_protein
from mealopt.targets.model import DayTargets
from mealopt.targets.refuelling import refuel_windows
from mealopt.targets.timing import slot_of

#: Share of its planned energy that each meal that remains keeps at least.
KEEPS = 0.75

#: A slot whose meal is given stands at this place among the settled ones: nothing of it is chosen.
GIVEN = -1

#: Share of its most that a meal may be asked to hold at least, so that kitchen steps fit.
WITHIN = 0.95

#: What was planned is written to five digits: a meal keeps its protein but for that.
ROUNDING = 0.999


@dataclass(frozen=True, slots=True)
class Standing:
    """One meal of the day: given, or still to come."""

    given: GivenMeal | None
    coming: Coming | None

    @property
    def span(self) -> tuple[int, int]:
        """Start and end, in minutes."""
        if self.given is not None:
            return self.given.begins, self.given.ends
        assert self.coming is not None
        return self.coming.occasion.start, self.coming.occasion.end

    @property
    def planned(self) -> Meal | None:
        """The meal as it was planned, or as it was eaten; None for a new one."""
        return self.given.meal if self.given is not None else self.coming.planned if self.coming is not None else None

    @property
    def case_number(self) -> int | None:
        """Its number by the case; None for a new meal, and for what was eaten beside the plan."""
        return None if self.planned is None else self.planned.case_number


@dataclass(frozen=True, slots=True)
class DayAnew:
    """The day posed, and what each of its slots is: one entry a slot, in order."""

    posed: PosedDay
    meals: tuple[Standing, ...]


@dataclass(frozen=True, slots=True)
class Asked:
    """What a day is posed anew from.

    case, targets: with what happened in them. bands: the day's; None where they follow from the targets. past: what was
    eaten, or is taken as eaten; rest: planned meals that are to come, each with whether it is given. menu: of the case.
    new: numbers of new sessions. changed: whether the sessions are others than was planned. free: more meals may be
    laid, and those that are planned may grow or shrink; without it they stay as they are planned.
    """

    case: Case
    entry: PlanDay
    targets: DayTargets
    bands: Mapping[str, Band] | None
    now: int
    past: tuple[GivenMeal, ...]
    rest: tuple[GivenMeal, ...]
    new: frozenset[int] = frozenset()
    changed: bool = False
    free: bool = True


def band_of(entry: PlanDay) -> dict[str, Band]:
    """The bands that a day of a document was planned to."""
    return {key: Band(one.least, one.aim, one.most) for key, one in entry.targets.items()}


def pose_anew(asked: Asked) -> DayAnew:
    """The day as a problem. Raises BadInput and Refused as posing a day does."""
    case, day = asked.case, asked.entry.day
    menu = case_menu(case, asked.targets.maintenance_only)
    fuel = fuelled_day(case, day, asked.targets, menu, food_filter(case)) if asked.changed else {}
    hours = _hours(asked, fuel)
    aim = (asked.bands or asked.targets.bands)[ENERGY].aim or 0.0
    left = aim - sum(one.kcal for one in asked.past)
    settled = {meal.time for meal in case.kitchen_on(day).fixed if meal.dish is None}
    rest = [(one.meal, _is_given(one.meal, settled, asked)) for one in asked.rest]
    laid = lay_rest(hours, rest, left if asked.free else 0.0)
    meals = _in_order(asked.past, laid)
    slots = fuelled_slots(_slots(asked, meals, hours, left), fuel)
    bands, notes = (dict(asked.bands), ()) if asked.bands is not None else _bands(asked, slots)
    slots, own = _own_limits(case, day, slots, meals)
    prices = shipped_prices()
    seed = seed_of(case, day)
    refuel = refuel_windows(hours.shape.sessions, hours.shape.ahead, case.athlete.mass_kg, slots)
    wishes = replace(day_wishes(case, day, asked.targets, menu), warm_main=False)
    posed = PosedDay(
        case=case,
        day=day,
        targets=asked.targets,
        slots=slots,
        refuel=refuel,
        bands=bands,
        own=own,
        wishes=wishes,
        larder=Larder(menu, food_filter(case), prices, seed, case.kitchen_on(day).budget is not None),
        seed=seed,
        notes=notes,
        settled_plates=fuel_plates(slots, fuel, Larder(menu, food_filter(case)), prices)
        | _given_plates(meals, menu, prices),
        fuel=fuel,
        breakfast_seed=seed_of(case, "breakfast") if case.kitchen.same_breakfast else "",
    )
    return DayAnew(posed, meals)


def _is_given(meal: Meal, settled: set[str], asked: Asked) -> bool:
    """Whether a meal that is to come stands as it is: settled by the case, or packed for a session that stays."""
    if meal.slot == "during":
        return meal.dish_id is None and not asked.changed
    return meal.time in settled


def _hours(asked: Asked, fuel: Mapping[int, Fuelled]) -> Hours:
    eaten = eaten_g(fuel)
    if not asked.changed:
        # A session for which nothing was packed is one in which nothing is eaten.
        plans = {one.number: one.fuel for one in asked.entry.sessions if one.fuel is not None}
        starts = {meal.time for meal in asked.entry.meals if meal.slot == "during"}
        skipped = {meal.time for meal in asked.entry.skipped if meal.slot == "during"}
        for one in asked.entry.sessions:
            if one.number in plans:
                # Salt alone counts as a gram, so that it has its place in the day.
                held = max(1.0, plans[one.number].totals.get(CARBOHYDRATE, 0.0)) if one.start in starts else 0.0
                eaten = {**eaten, one.number: (held, held)}
            elif one.start in skipped:
                eaten = {**eaten, one.number: (0.0, 0.0)}
    shape = day_shape(asked.case, asked.entry.day, asked.targets, (), eaten)
    past = tuple((one.begins, one.ends) for one in asked.past)
    return Hours(shape, asked.now, past, asked.new, asked.changed)


def with_case_numbers(entry: PlanDay) -> PlanDay:
    """The day whose meals each carry their number by the case, which they keep however often it is planned anew."""
    if entry.now is not None:
        return entry
    meals = tuple(meal.model_copy(update={"case_number": meal.number}) for meal in entry.meals)
    return entry.model_copy(update={"meals": meals})


def _own_limits(
    case: Case, day: str, slots: tuple[Slot, ...], meals: Sequence[Standing]
) -> tuple[tuple[Slot, ...], tuple[OwnLimit, ...]]:
    """The slots with the case's own bands; a meal keeps the protein that was planned in it whatever those say."""
    numbers = {slot.index: one.case_number for slot, one in zip(slots, meals, strict=True)}
    found, own = with_own_limits(case, day, slots, numbers)
    kept = (
        replace(now, protein_least=max(now.protein_least, was.protein_least)) if one.planned else now
        for was, now, one in zip(slots, found, meals, strict=True)
    )
    return tuple(kept), own


def _in_order(past: Sequence[GivenMeal], laid: Sequence[Coming]) -> tuple[Standing, ...]:
    """All meals of the day by time; given ones as such, numbered by their place."""
    entries = [Standing(one, None) for one in past]
    entries += [
        Standing(GivenMeal(one.planned), one) if one.given and one.planned is not None else Standing(None, one)
        for one in laid
    ]
    entries.sort(key=lambda one: one.span)
    return tuple(
        one if one.given is None else replace(one, given=numbered(one.given, place))
        for place, one in enumerate(entries, start=1)
    )


def _given_plates(meals: Sequence[Standing], menu: Menu, prices: dict[str, float]) -> dict[int, Plate]:
    return {index: given_plate(one.given, menu, prices) for index, one in enumerate(meals) if one.given is not None}


def _bands(asked: Asked, slots: tuple[Slot, ...]) -> tuple[dict[str, Band], tuple[str, ...]]:
    """The targets' bands, with floors sunk to what the windows leave; what was eaten is no window."""
    return posed_bands(asked.targets, tuple(replace(slot, given="") for slot in slots))


def _slots(asked: Asked, meals: Sequence[Standing], hours: Hours, left: float) -> tuple[Slot, ...]:
    coming = [one.coming for one in meals if one.coming is not None and one.coming.occasion.kind != "during"]
    fuel = sum(
        2.0 * sum(session.during_g)
        for session in hours.shape.sessions
        if any(
            one.coming is not None and one.coming.occasion.kind == "during"
            and one.coming.occasion.session == session.number
            for one in meals
        )
    )  # fmt: skip
    share = KEEPS if asked.free else 1.0
    outside = left - fuel if asked.free else sum(planned_kcal(one) for one in coming)
    aims = dict(zip(map(id, coming), energy_aims(coming, hours, outside, share), strict=True))
    slots = []
    for index, one in enumerate(meals):
        if one.given is not None:
            slots.append(_given_slot(one.given, index))
        elif one.coming is not None:
            slots.append(_open_slot(one.coming, index, aims.get(id(one.coming), 0.0), hours))
    asking = with_protein(hours.shape.sessions, hours.shape.mass_kg, tuple(slots))
    return tuple(_keeping(slot, one, asking[slot.index]) for slot, one in zip(slots, meals, strict=True))


def _given_slot(given: GivenMeal, index: int) -> Slot:
    meal = given.meal
    known = given.extra or not meal.items
    return Slot(
        index=index,
        kind=meal.slot,
        start=given.begins,
        end=given.ends,
        label=f"{meal.slot} at {clock(given.begins)}",
        main=meal.slot in ("breakfast", "lunch", "dinner"),
        energy_aim=given.kcal,
        energy_most=1.01 * given.kcal + 1.0,
        settled=GIVEN,
        given="energy" if known else "foods",
    )


def _open_slot(coming: Coming, index: int, aim: float, hours: Hours) -> Slot:
    slot = slot_of(hours.shape, hours.day, coming.occasion, index, aim)
    planned = planned_kcal(coming)
    if not planned or slot.kind == "during":
        return slot
    # What was planned may stand, unless a window that it was not planned for says otherwise.
    same = coming.planned is not None and dict(coming.planned.limits) == slot.limits and not coming.moved
    limited = hours.day.tightness(slot.end) >= TIGHT and not same
    most = slot.energy_most if limited else max(slot.energy_most, planned * 1.001)
    return replace(slot, energy_least=min(KEEPS * planned, WITHIN * most), energy_most=most)


def _keeping(slot: Slot, one: Standing, asking: Slot) -> Slot:
    """The slot with its least protein: what was planned there, where its window leaves room; a new one's own."""
    if one.given is not None or slot.kind == "during":
        return slot
    assert one.coming is not None
    if one.coming.planned is None:
        return asking
    planned = first_planned(one.coming.planned)[PROTEIN] * ROUNDING
    same = dict(one.coming.planned.limits) == slot.limits
    least = planned if same else min(planned, WITHIN * 0.35 * slot.energy_most / 4.0)
    return replace(slot, protein_least=round(least, 2), carbohydrate_least=0.0)
