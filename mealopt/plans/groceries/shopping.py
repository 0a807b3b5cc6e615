"""What a shopping holds beside its lines."""

from __future__ import annotations

from dataclasses import dataclass, field

from mealopt.documents.plan import Grocery


@dataclass(frozen=True, slots=True)
class Left:
    """What remains of one thing after the plan's last day.

    food: a pantry name; says: the shop's name. grams: as bought. opened: some of it is in an opened pack. keeps_days:
    after the last day, 0 where it does not keep until the next one; None where its age is not known. by: the last day
    on which it can be eaten, as a date or, of a plan without dates, a day of the week; "" where not known or far off.
    """

    food: str
    says: str
    grams: float
    opened: bool
    keeps_days: int | None
    by: str = ""

    @property
    def keeps(self) -> bool:
        """Whether it can be planned with on the day after the plan."""
        return self.keeps_days is None or self.keeps_days > 0


@dataclass(frozen=True, slots=True)
class Shopping:
    """The list for a shop.

    lines: one a pantry food, in the order in which a shop is walked, the first shop's before the second's; staples
    among them. things: the same with foods that are one thing to buy in one line, as a shopper reads them. left: what
    remains after the plan. total_price: of all lines that have one. unpriced: what has none, by the shop's name.
    people: for how many is cooked; portion: the athlete's part of it in words. also: seasonings that the methods name,
    without amounts, and staples. cautions: food that does not keep until it is eaten, and what every list carries.
    shops: the day before which each shop is done. invented: the prices are those that ship.
    """

    lines: tuple[Grocery, ...]
    things: tuple[Grocery, ...]
    left: tuple[Left, ...]
    total_price: float
    unpriced: tuple[str, ...]
    people: int
    portion: str
    also: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    shops: tuple[str, ...] = ()
    currency: str = ""
    invented: bool = True
    title: str = field(default="")

    @property
    def bought(self) -> tuple[Grocery, ...]:
        """Those things of which something is bought."""
        return tuple(thing for thing in self.things if thing.buy_g > 0)
