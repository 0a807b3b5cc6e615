"""Limits of a day that give way, and the lines for the case file that ease them."""

from __future__ import annotations

import math
from dataclasses import dataclass

from mealopt.core.nutrients import ENERGY, LABELS, PROTEIN, UNITS
from mealopt.errors import BadInput, Refused
from mealopt.people.case import Case
from mealopt.people.goal import WISH_KEYS, OwnBand
from mealopt.plans.day.bands import is_of
from mealopt.plans.day.pose import PosedDay
from mealopt.targets.day import day_targets

#: What is no nutrient: words for how much is lacking, and for what to do instead.
WISH_WORDS: dict[str, tuple[str, str]] = {
    "fruit_vegetable_kinds": (
        "{by} kinds of fruit and vegetables short",
        "ask for {value} kinds of fruit and vegetables",
    ),
    "whole_food_percent": ("{by} % of energy from whole foods short", "ask for {value} % of energy from whole foods"),
    "added_sugar_percent": ("{by} % of energy from sugary foods over", "allow {value} % of energy from sugary foods"),
    "kitchen_minutes": ("{by} min in the kitchen over", "allow {value} min in the kitchen"),
    "cost": ("{by} of money over", "allow {value} for the day's food"),
}

#: How far past the least that must give a limit is eased, as a share of it, so that kitchen steps fit.
MARGIN = 0.005

#: The same as a share of what must give.
MARGIN_OF_GIVEN = 0.02

#: Bisections for how far safety lets a limit go: to a thousandth of it.
HALVINGS = 10


@dataclass(frozen=True, slots=True)
class Ease:
    """One limit that gives way.

    slot: the meal's index, None for the day. limit, by: in the key's unit. reach: how much it may give at most, None
    where nothing sets an end. trifle: whether it gives so little that the margins of others may make up for it.
    """

    key: str
    slot: int | None
    side: str
    limit: float
    by: float
    reach: float | None = None
    trifle: bool = False

    def missing(self, where: str) -> str:
        """ "protein at breakfast 12 g short". where: words for its meal, "" for the day."""
        by = self._number(self.by)
        if self.key in WISH_WORDS:
            return WISH_WORDS[self.key][0].format(by=by)
        what = f"{LABELS[self.key]} {where}".strip()
        return f"{what} {by} {UNITS[self.key]} {'short' if self.side == 'least' else 'over'}"

    def giving(self, where: str, value: float) -> str:
        """ "lower the least protein at breakfast from 152 to 143 g". value: the limit once it has given way."""
        if self.key in WISH_WORDS:
            return WISH_WORDS[self.key][1].format(value=self._number(value))
        what = f"{LABELS[self.key]} {where}".strip()
        verb = "lower the least" if self.side == "least" else "raise the most"
        return f"{verb} {what} from {self._number(self.limit)} to {self._number(value)} {UNITS[self.key]}"

    def _number(self, value: float) -> str:
        if self.key == "cost":
            return f"{value:,.2f}"
        return f"{value:,.0f}" if value >= 20 or value == round(value) else f"{value:.1f}"

    def eased(self, wider: float = 1.0) -> float:
        """The limit once it has given way, rounded outward. wider: how many times the usual margin is added."""
        step = _step(self.key, self.limit)
        margin = (
            0.0 if self.key == "fruit_vegetable_kinds" else wider * max(MARGIN * self.limit, MARGIN_OF_GIVEN * self.by)
        )
        end = math.inf if self.reach is None else self.reach
        if self.side == "least":
            inside = math.ceil(max(0.0, self.limit - end) / step - 1e-6)
            return round(max(inside, math.floor((self.limit - self.by - margin) / step + 1e-6)) * step, 2)
        value = math.ceil((self.limit + self.by + margin) / step - 1e-6) * step
        return round(value if end == math.inf else min(value, math.floor((self.limit + end) / step + 1e-6) * step), 2)


def _step(key: str, limit: float) -> float:
    """What a limit is rounded to, in its unit."""
    if key == "cost":
        return 0.1
    if key in WISH_WORDS:
        return 1.0
    return 10.0 if limit >= 1000 else 1.0 if limit >= 20 else 0.5


@dataclass(frozen=True, slots=True)
class Line:
    """A band for the case file. instead_of: the case's own band that it takes the place of, None where it is new."""

    band: OwnBand
    instead_of: OwnBand | None

    @property
    def text(self) -> str:
        """TOML: one [[goal.band]] table, with a comment where it takes another's place."""
        lines = []
        if self.instead_of is not None:
            where = f", {_where(self.instead_of)}" if _where(self.instead_of) else ""
            lines.append(f"# in place of your band for {self.instead_of.nutrient}{where}")
        lines.append("[[goal.band]]")
        for key in ("nutrient", "least", "aim", "most", "day", "slot", "meal"):
            value = getattr(self.band, key)
            if value is not None:
                lines.append(f'{key} = "{value}"' if isinstance(value, str) else f"{key} = {value:g}")
        return "\n".join(lines)


def _where(band: OwnBand) -> str:
    slot = f"{band.slot} " if band.slot is not None else f"meal {band.meal} " if band.meal is not None else ""
    return f"{slot}{'every day' if band.day is None else band.day}"


def lines_for(posed: PosedDay, eases: tuple[Ease, ...], wider: float = 1.0) -> tuple[Line, ...]:
    """Bands that ease these limits; two sides of one band in one table."""
    lines: dict[tuple[str, str | None, str | None, int | None], Line] = {}
    for ease in eases:
        value = ease.eased(wider)
        for target, own in _bands_to_write(posed, ease, value):
            before = lines.get(target)
            start = before.band if before is not None else own
            band = _with_side(target, start, ease.side, value)
            lines[target] = Line(band, own)
    return tuple(lines.values())


Target = tuple[str, str | None, str | None, int | None]


def _bands_to_write(posed: PosedDay, ease: Ease, value: float) -> list[tuple[Target, OwnBand | None]]:
    """What to write, each as (nutrient, day, slot, meal), and the case's own band that stands there."""
    bands = posed.case.goal.band
    if ease.slot is not None:
        slot = posed.slots[ease.slot]
        mine = [own for own in bands if own.nutrient == ease.key and is_of(own, slot, posed.day)]
        tighter = [own for own in mine if _tighter(getattr(own, ease.side), ease.side, value)]
        if tighter:
            return [((own.nutrient, own.day, own.slot, own.meal), own) for own in tighter]
    target: Target = (ease.key, posed.day, None, None if ease.slot is None else ease.slot + 1)
    same = [own for own in bands if (own.nutrient, own.day, own.slot, own.meal) == target]
    return [(target, same[0] if same else None)]


def _tighter(limit: float | None, side: str, value: float) -> bool:
    return limit is not None and (limit > value if side == "least" else limit < value)


def _with_side(target: Target, start: OwnBand | None, side: str, value: float) -> OwnBand:
    nutrient, day, slot, meal = target
    sides = {key: getattr(start, key, None) for key in ("least", "aim", "most")} | {side: value}
    return OwnBand.model_validate({"nutrient": nutrient, "day": day, "slot": slot, "meal": meal, **sides})


def case_with(case: Case, lines: tuple[Line, ...]) -> Case:
    """The case with these bands written into it."""
    gone = [line.instead_of for line in lines if line.instead_of is not None]
    kept = tuple(band for band in case.goal.band if band not in gone)
    goal = case.goal.model_copy(update={"band": (*kept, *(line.band for line in lines))})
    return case.model_copy(update={"goal": goal})


def reach(posed: PosedDay, key: str, side: str, limit: float) -> float | None:
    """How far safety lets the day's limit of a nutrient give, in its unit; None where it sets no end."""
    if key not in (ENERGY, PROTEIN) or key in WISH_KEYS:
        return None
    far = limit if side == "least" else 2.0 * limit

    def allowed(by: float) -> bool:
        value = max(0.0, limit - by) if side == "least" else limit + by
        target: Target = (key, posed.day, None, None)
        own = next((o for o in posed.case.goal.band if (o.nutrient, o.day, o.slot, o.meal) == target), None)
        try:
            day_targets(case_with(posed.case, (Line(_with_side(target, own, side, value), own),)), posed.day)
        except (Refused, BadInput, ValueError):
            return False
        return True

    if allowed(far):
        return None
    low, high = 0.0, far
    for _ in range(HALVINGS):
        middle = (low + high) / 2.0
        low, high = (middle, high) if allowed(middle) else (low, middle)
    # What is rounded to a step must stay within it as well.
    return max(0.0, low - _step(key, limit))
