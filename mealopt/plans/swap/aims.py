"""What a swap asks of each meal, in the numbers that the search works with."""

from __future__ import annotations

from dataclasses import dataclass, replace

from mealopt.menu.plates import Part, Plate
from mealopt.plans.held.plates import only_steps, without
from mealopt.plans.held.standing import StandingMeal


@dataclass(frozen=True, slots=True)
class Coming:
    """A food that is to come into a meal: any one of these names, with just these grams where they are given."""

    names: frozenset[str]
    grams: float | None = None


@dataclass(frozen=True, slots=True)
class Aim:
    """One meal's wish. asked: something of it is struck out, or something is to come into it.

    out: foods that may not stand in it; out_dishes: dishes that may not be it. came: what is to come into it; dish:
    the one that it is to be. whole: the dish is swapped, so that nothing else of the
    meal needs to stay. held: it stays as it is.
    """

    standing: StandingMeal
    asked: bool = False
    out: frozenset[str] = frozenset()
    out_dishes: frozenset[str] = frozenset()
    came: tuple[Coming, ...] = ()
    dish: str | None = None
    whole: bool = False
    held: bool = False

    @property
    def stays(self) -> frozenset[str]:
        """Its foods that a swap should leave where they are."""
        return frozenset() if self.whole else self.standing.names - self.out

    @property
    def asked_for(self) -> frozenset[str]:
        """Every food that may be what is to come."""
        return frozenset(name for one in self.came for name in one.names)

    @property
    def free(self) -> int:
        """How many foods may come into it without being counted, beside those that are asked for: stand-ins."""
        struck = len(self.standing.names & self.out)
        return max(0, struck - len(self.came))

    def fitting(self, plate: Plate) -> Plate | None:
        """The plate as this wish leaves it; None where it does not serve it."""
        dish = plate.dish.id
        if dish in self.out_dishes or (self.dish is not None and dish != self.dish):
            return None
        found = without(plate, self.out)
        for one in self.came:
            if found is not None and one.grams is not None:
                found = only_steps(found, dict.fromkeys(one.names, one.grams))
        listed = set() if found is None else _names(found)
        return found if all(one.names & listed for one in self.came) else None

    def least_changes(self, plate: Plate) -> int:
        """The fewest foods that must leave or come, not counted ones aside, for the meal to be this plate."""
        if self.whole:
            return 0
        stays, came = self.stays, self.asked_for
        leave, come = len(stays - _names(plate)), 0
        for part in plate.parts:
            here = len(_names_of(part) & stays)
            leave += max(0, here - part.pick[1])
            come += max(0, part.pick[0] - here - len(_names_of(part) & came - stays))
        return leave + max(0, come - self.free)

    def within(self, plate: Plate, more: int) -> Plate:
        """The plate without what would cost more changes than its least and so many more."""
        if more > 0 or self.asked or self.whole:
            return plate
        parts = []
        for part in plate.parts:
            staying = tuple(choice for choice in part.choices if choice.name in self.stays)
            if len(staying) < part.pick[0]:
                parts.append(part)
            elif staying:
                most = min(part.pick[1], len(staying))
                parts.append(Part(part.role, (most, most), part.grams, staying))
        return replace(plate, parts=tuple(parts))


def _names(plate: Plate) -> set[str]:
    return {choice.name for part in plate.parts for choice in part.choices}


def _names_of(part: Part) -> set[str]:
    return {choice.name for choice in part.choices}
