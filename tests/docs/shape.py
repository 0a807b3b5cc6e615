"""What is the same in every planned day, whatever meals a solver picked: headings, clock, units, targets."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise

_MEAL = re.compile(r"^(\d\d:\d\d) (\d+)\. ([A-Z][a-z ]+):", re.M)
_SESSION = re.compile(r"^(\d\d:\d\d Session \d+: .*)$", re.M)
_GIVES = re.compile(r"^ +(?:\S.*)?= [\d,]+ kcal, protein [\d,.]+ g, carbohydrate [\d,.]+ g, fat [\d,.]+ g,", re.M)
_FOOD = re.compile(r"^        \S.* \([\d.,]+ g[,)]|^        [\d.,]+ g \S", re.M)
_TOTAL = re.compile(
    r"^([a-z ]+?) {2,}([\d,.]+) (kcal|g) {2}(at least|at most)? ?([\d,.]+)(?:-([\d,.]+))? (?:kcal|g)", re.M
)
_SOLVE = re.compile(
    r"^(HiGHS|CBC) [\d.]+, .*: penalty\s[\d.]+, at\sbest\s[\d.]+\s\([\d.]+\s%\sless\),\sgap\s[\d.e-]+\s%;"
    r"\s[\d.]+\ss;",
    re.M | re.S,
)
_TIMED = re.compile(r"^\d\d:\d\d ")


@dataclass(frozen=True, slots=True)
class DayShape:
    """The stable parts of a printed day, and what each table row says: label, unit and its limits."""

    title: str
    headings: tuple[str, ...]
    meals: tuple[tuple[str, str, str], ...]
    sessions: tuple[str, ...]
    targets: tuple[tuple[str, str, str, str, str], ...]
    last: str


def headings(text: str) -> tuple[str, ...]:
    """Lines without indent that follow an empty line and tell no time."""
    lines = text.splitlines()
    return tuple(
        line for before, line in pairwise(lines) if not before and line[:1].isupper() and not _TIMED.match(line)
    )


def shape(text: str) -> DayShape:
    """The shape of a printed day."""
    rows = _TOTAL.findall(text)
    return DayShape(
        title=text.splitlines()[0],
        headings=headings(text),
        meals=tuple(_MEAL.findall(text)),
        sessions=tuple(_SESSION.findall(text)),
        targets=tuple((label, unit, side, low, high) for label, _, unit, side, low, high in rows),
        last=text.splitlines()[-1],
    )


def faults(text: str) -> list[str]:
    """What a printed day lacks or breaks, whoever solved it."""
    found = shape(text)
    lacking = []
    if len(_GIVES.findall(text)) != len(found.meals) or not found.meals:
        lacking.append(f"{len(found.meals)} meals, but {len(_GIVES.findall(text))} lines of what a meal gives")
    if len(_FOOD.findall(text)) < len(found.meals):
        lacking.append("a meal without foods in grams")
    if len(_SOLVE.findall(text)) != 1:
        lacking.append("how the plan was found: engine, version, penalty, bound, gap, seconds")
    for label, here, _, side, low, high in _TOTAL.findall(text):
        value, first, second = (float(number.replace(",", "") or "nan") for number in (here, low, high))
        least = first if side != "at most" else 0.0
        most = second if high else first if side == "at most" else float("inf")
        if not least - 0.5 <= value <= most + 0.5:
            lacking.append(f"{label}: {here} is outside its band")
    return lacking
