"""The plates that each meal could become, by the fewest foods that would have to change for it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from mealopt.menu.dishes import Dish
from mealopt.menu.plates import Plate
from mealopt.plans.held.standing import StandingDay
from mealopt.plans.swap.aims import Aim


@dataclass(slots=True)
class Nearby:
    """One meal's plates, each made when it is first asked for. waiting: dishes with a bound of their changes."""

    day: StandingDay
    aim: Aim
    made: list[tuple[int, Plate]] = field(default_factory=list)
    waiting: list[tuple[int, str]] = field(default_factory=list)

    @classmethod
    def of(cls, day: StandingDay, aim: Aim) -> Nearby:
        """The plates of a meal; a held or settled one has its own alone."""
        standing = aim.standing
        if aim.held:
            return cls(day, aim, [(0, standing.held())])
        if standing.index in day.posed.settled_plates:
            fitting = aim.fitting(standing.plate) if standing.foods else standing.plate
            return cls(day, aim, [] if fitting is None else [(aim.least_changes(fitting), fitting)])
        waiting = [
            (_bound(aim, dish), dish.id)
            for dish in day.wide.menu.for_slot(day.posed.slots[standing.index])
            if dish.id not in aim.out_dishes and (aim.dish is None or dish.id == aim.dish)
        ]
        return cls(day, aim, [], sorted(waiting))

    def within(self, changes: int) -> Iterator[tuple[int, Plate]]:
        """Plates that the meal can become with so many changes, with their own fewest."""
        while self.waiting and self.waiting[0][0] <= changes:
            _, dish_id = self.waiting.pop(0)
            found = self._made(dish_id)
            if found is not None:
                self.made.append((self.aim.least_changes(found), found))
        return ((least, plate) for least, plate in self.made if least <= changes)

    def first(self, changes: int, most: int) -> Iterator[Plate]:
        """So many of those plates, by their place on the day's card."""
        ranked = sorted((plate for _, plate in self.within(changes)), key=lambda plate: plate.place or 0)
        return iter(ranked[:most])

    def fewest(self) -> int | None:
        """The fewest changes with which the meal can be anything; None where it can be nothing."""
        changes = 0
        while True:
            least = min((least for least, _ in self.within(changes)), default=None)
            if least is not None:
                return least
            coming = [bound for bound, _ in self.waiting] + [least for least, _ in self.made]
            if not coming:
                return None
            changes = max(changes + 1, min(coming))

    def _made(self, dish_id: str) -> Plate | None:
        plate = self.day.plate(self.aim.standing.index, dish_id)
        return None if plate is None else self.aim.fitting(plate)


def _bound(aim: Aim, dish: Dish) -> int:
    """Never more than the changes that the dish's plate will need: by the foods that its parts list."""
    if aim.whole:
        return 0
    leave = len(aim.stays - {food for part in dish.component for food in part.foods})
    come = sum(
        max(0, part.pick[0] - len(aim.stays.union(aim.asked_for).intersection(part.foods))) for part in dish.component
    )
    return leave + max(0, come - aim.free)


def nearest(nearby: Sequence[Nearby], changes: int, fewest: Sequence[int]) -> tuple[tuple[Plate, ...], ...]:
    """For each meal the plates that so many changes in all allow, less what none of them could reach."""
    least = sum(fewest)
    options = []
    for meal, own in zip(nearby, fewest, strict=True):
        left = changes - least + own
        options.append(tuple(meal.aim.within(plate, left - needs) for needs, plate in meal.within(left)))
    return tuple(options)
