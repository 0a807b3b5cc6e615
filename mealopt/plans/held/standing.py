"""From a plan document back to a posed day, and what stands in it.

Everything is found again from the document: its case, the day's slots and limits, each meal's plate with all foods that
may fill its parts. Today's stand-ins for alike foods play no part here: what stands must be a choice, and so may what
it could be swapped for.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from mealopt.documents.plan import Meal, Plan, PlanDay
from mealopt.errors import BadInput
from mealopt.menu.plates import Larder, Plate, plate
from mealopt.people.case import Case
from mealopt.plans.day.pose import PosedDay, pose_day
from mealopt.plans.held.assign import check_given, foods_of
from mealopt.plans.held.laid import check_laid, without_slots
from mealopt.plans.held.plates import StandingFood, same_foods
from mealopt.plans.held.whole import case_of, check_whole
from mealopt.plans.week.ahead import ahead_of, laid_after
from mealopt.rules.problem import Problem
from mealopt.rules.registry import pose

#: More plates than any slot has.
ALL = 1_000_000


@dataclass(frozen=True, slots=True)
class StandingMeal:
    """A meal as it stands. index: of its slot. plate: with every food that may fill its parts.

    foods: none where the case gives the meal's foods or its energy alone; its plate then leaves nothing to choose.
    """

    index: int
    meal: Meal
    plate: Plate
    foods: tuple[StandingFood, ...]

    @property
    def names(self) -> frozenset[str]:
        """Its foods by name, but the salt that it is cooked with."""
        return frozenset(food.choice.name for food in self.foods)

    def grams(self, name: str) -> float:
        """Grams of one of its foods, in whole kitchen steps; 0 where it is not there."""
        return sum(food.steps * food.choice.step_g for food in self.foods if food.choice.name == name)

    def held(self, *, to_the_gram: bool = True) -> Plate:
        """Its plate with just its foods: to the gram, or with amounts free within the plate."""
        return self.plate if not self.foods else same_foods(self.plate, self.foods, to_the_gram=to_the_gram)


@dataclass(frozen=True, slots=True)
class StandingDay:
    """A planned day, posed again. meals: one a slot of posed, in its order; skipped meals are in neither.

    entry: the document's day. wide: the larder with every food that the athlete may be given. places: (index of a slot,
    dish) -> its place on the day's card. drawn: that card; named: every dish and food on it.
    """

    plan: Plan
    entry: PlanDay
    posed: PosedDay
    meals: tuple[StandingMeal, ...]
    wide: Larder
    places: Mapping[tuple[int, str], int]
    drawn: tuple[tuple[Plate, ...], ...]
    named: frozenset[str]

    @property
    def warm(self) -> bool:
        """Whether any main meal on the card is warm."""
        mains = (self.drawn[slot.index] for slot in self.posed.slots if slot.main)
        return any(found.dish.served == "warm" for plates in mains for found in plates)

    def plate(self, index: int, dish_id: str) -> Plate | None:
        """A dish of the menu as it may be served in a slot, with every food and its place on the card; or None."""
        dish, slot = self.wide.menu.dishes[dish_id], self.posed.slots[index]
        found = plate(dish, slot, self.wide)
        return None if found is None else replace(found, place=self._place(index, dish_id))

    def _place(self, index: int, dish_id: str) -> int:
        last = sum(slot == index for slot, _ in self.places)
        return self.places.get((index, dish_id), last)

    def problem(self, options: Sequence[Sequence[Plate]]) -> Problem:
        """The day's rules and penalty over these plates, for each slot one or more; each charged by its place."""
        posed = self.posed
        wishes = replace(posed.wishes, beyond=posed.wishes.prefer & self.named)
        plates = tuple(tuple(plates) for plates in options)
        problem = Problem(posed.slots, plates, posed.bands, wishes, posed.refuel, posed.own)
        pose(problem)
        if self.entry.now is not None:
            from mealopt.plans.replan.again import let_stand

            let_stand(problem, self.meals)
        return problem

    def without(self, numbers: frozenset[int]) -> StandingDay:
        """The day without the meals of these numbers: the others are to meet its bands."""
        if not numbers:
            return self
        dropped = frozenset(one.index + 1 for one in self.meals if one.meal.number in numbers)
        posed, kept = without_slots(self.posed, dropped)
        at = {number - 1: place for place, number in enumerate(kept)}
        meals = tuple(replace(one, index=at[one.index]) for one in self.meals if one.index in at)
        places = {(at[index], dish): place for (index, dish), place in self.places.items() if index in at}
        return replace(self, posed=posed, meals=meals, places=places, drawn=tuple(self.drawn[n - 1] for n in kept))

    def at(self, number: int) -> StandingMeal | None:
        """The meal of this number; None where there is none."""
        return next((meal for meal in self.meals if meal.meal.number == number), None)


def plan_entry(plan: Plan, day: str | None, where: str = "the plan") -> PlanDay:
    """The day of a plan; None: its only one. Raises BadInput."""
    names = [entry.day for entry in plan.days]
    if day is None and len(names) == 1:
        return plan.days[0]
    if day is None:
        raise BadInput(f"{where}: it holds {len(names)} days; one of them is expected: {', '.join(names)}")
    for entry in plan.days:
        if entry.day == day:
            return entry
    raise BadInput(f"{where}: read the day {day!r}; it holds {', '.join(names)}")


def standing_day(
    plan: Plan, day: str | None = None, folder: Path | None = None, where: str = "the plan"
) -> StandingDay:
    """A day of a plan posed again, with what stands in it; the plan is rechecked first.

    folder: that of the case file, beside which own foods lie. where: the words that a refusal begins with. Raises
    BadInput where the plan is wrong, of another table, or not what its case gives; Refused as planning does.
    """
    entry = plan_entry(plan, day, where)
    check_whole(plan, folder, where)
    case = case_of(plan, entry, folder, where)
    whole, skipped = _whole(plan, case, entry, where)
    card = whole.card()
    card.deal(ALL)
    drawn = card.plates
    card.deal(0)
    posed, numbers = without_slots(whole, skipped)
    places = {
        (index, found.dish.id): place
        for index, number in enumerate(numbers)
        for place, found in enumerate(drawn[number - 1])
    }
    if entry.now is not None:
        # A replan charges the dishes that stand for no place on a card: the rest of the day begins with them.
        places |= {(index, meal.dish_id): 0 for index, meal in enumerate(entry.meals) if meal.dish_id is not None}
    wide = Larder(whole.larder.menu, whole.larder.filter, whole.larder.prices)
    left = tuple(
        tuple(replace(found, place=place) for place, found in enumerate(drawn[number - 1])) for number in numbers
    )
    empty = StandingDay(plan, entry, posed, (), wide, places, left, card.beyond)
    found = replace(empty, meals=tuple(_standing(empty, index, one, where) for index, one in enumerate(entry.meals)))
    if entry.now is None:
        return found
    from mealopt.plans.replan.again import wishes_as_it_is

    return replace(found, posed=replace(posed, wishes=wishes_as_it_is(found)))


def _whole(plan: Plan, case: Case, entry: PlanDay, where: str) -> tuple[PosedDay, frozenset[int]]:
    """The day posed with all of its meals, and the numbers of those among them that are skipped."""
    if entry.now is not None:
        from mealopt.plans.replan.again import posed_again

        return posed_again(case, entry, where), frozenset()
    whole = _posed(plan, case, entry)
    check_laid(entry, whole.slots, where)
    return whole, frozenset(meal.number for meal in entry.skipped)


def _posed(plan: Plan, case: Case, entry: PlanDay) -> PosedDay:
    """The day posed as it was planned: in a week that cooks ahead, its midday dishes follow the evening before."""
    found = pose_day(case, entry.day)
    place = plan.days.index(entry)
    ahead = ahead_of(case, len(plan.days), found.larder.menu)
    return laid_after(found, pose_day(case, plan.days[place - 1].day), ahead) if ahead.least and place else found


def _standing(day: StandingDay, index: int, meal: Meal, where: str) -> StandingMeal:
    spot = f"{where}, {day.entry.day}, meal {meal.number}"
    settled = day.posed.settled_plates.get(index)
    if settled is not None:
        if not day.posed.slots[index].given:
            return StandingMeal(index, meal, settled, foods_of(meal.items, settled, spot))
        if day.entry.now is None:
            check_given(meal.items, settled, spot)
        return StandingMeal(index, meal, settled, ())
    if meal.dish_id is None or meal.dish_id not in day.wide.menu.dishes:
        raise BadInput(f"{spot}: read the dish {meal.dish_id}, which is no dish here; one of the menu is expected")
    found = day.plate(index, meal.dish_id) or _kept(day, index, meal)
    if found is None:
        raise BadInput(f"{spot}: read the dish {meal.dish_id}, which cannot be served to this athlete in this meal")
    foods = foods_of(meal.items, found, spot)
    if meal.cooked_on is not None:
        # From an earlier day's pot it takes the minutes of warming it.
        found = replace(found, dish=found.dish.model_copy(update={"minutes": meal.minutes}))
    return StandingMeal(index, meal, found, foods)


def _kept(day: StandingDay, index: int, meal: Meal) -> Plate | None:
    """A dish that stands in a day planned anew though its slot is of another kind by now; None else."""
    dish, slot = day.wide.menu.dishes[meal.dish_id or ""], day.posed.slots[index]
    if day.entry.now is None or slot.suits(dish.slots):
        return None
    found = plate(dish, replace(slot, kind=dish.slots[0]), day.wide)
    return None if found is None else replace(found, place=0)
