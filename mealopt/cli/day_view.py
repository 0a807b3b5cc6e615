"""A planned day as a person reads it: a timeline of meals and sessions, the totals beside their bands, the solve."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from rich.console import Group, RenderableType
from rich.text import Text

from mealopt.cli.portions import portion
from mealopt.cli.wording import (
    BAD,
    CAUTION,
    GOOD,
    HEADING,
    IN_SHORT,
    QUIET,
    amount,
    columns,
    dated,
    drawn,
    duration,
    heading,
    held,
    held_beside,
    label,
    limits,
    listed,
    missed,
    numbered,
    paragraph,
    plain_table,
    wide,
)
from mealopt.core.bands import Band
from mealopt.core.clock import late, minutes_of, on_the_clock
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, FIBRE, PROTEIN, UNITS
from mealopt.core.words import ENDED, SLOTS

if TYPE_CHECKING:
    from mealopt.api import Meal, Plan, PlanDay, SessionEntry, Solve, TargetBand

_TIME = "cyan"
_SESSION = "bold magenta"

_GIVEN = (ENERGY, PROTEIN, CARBOHYDRATE, FAT, FIBRE)


def day_page(plan: Plan, entry: PlanDay, *, method: bool) -> Iterator[RenderableType]:
    """The parts of the page for one day of a plan. method: whether each meal says how it is made."""
    name = (plan.case.get("athlete") or {}).get("name") or "the athlete"
    yield Text(f"{name}: {dated(entry.date, entry.day)}", style=HEADING, overflow="fold")
    yield paragraph(IN_SHORT, CAUTION)
    yield from _timeline(entry, method)
    yield heading("The day beside its targets")
    yield from totals(entry)
    yield heading("Cautions")
    yield listed(entry.cautions, CAUTION)
    if entry.notes:
        yield heading("Good to know")
        yield listed(dict.fromkeys(entry.notes))
    yield heading("How this plan was found")
    yield from found_words(plan, entry.solve or plan.solve, entry.penalty)


def _timeline(entry: PlanDay, method: bool) -> Iterator[RenderableType]:
    # A session stands before what is eaten in it, and what is eaten after it at its end.
    happenings: list[tuple[int, int, str, RenderableType]] = [
        (minutes_of(session.start), 0, session.start, _session(session)) for session in entry.sessions
    ]
    happenings += [(minutes_of(meal.time), 1, meal.time, meal_words(meal, entry, method)) for meal in entry.meals]
    for _, _, time, words in sorted(happenings, key=lambda happening: happening[:2]):
        grid = columns(5)
        grid.add_row(Text(on_the_clock(time), style=_TIME), words)
        yield ""
        yield grid


def _session(session: SessionEntry) -> Group:
    title = f"Session {session.number}: {session.kind}, {session.effort}, {duration(session.minutes)}"
    parts: list[RenderableType] = [Text(f"{title}, until {on_the_clock(session.ends)}", style=_SESSION)]
    if session.net_kcal:
        eaten = (
            f"{amount(session.replaced_kcal, ENERGY)} eaten for it"
            if session.replaced_kcal
            else "counted in the baseline"
        )
        parts.append(paragraph(f"{amount(session.net_kcal, ENERGY)} above rest, {eaten}", indent=2))
    if session.during_g is not None:
        hourly = _carbohydrate(session.carbohydrate_g_per_h)
        eaten = f"to eat in it: {_carbohydrate(session.during_g)} carbohydrate in all"
        parts.append(paragraph(f"{eaten}, {hourly} an hour" if hourly else eaten, indent=2))
    if session.fuel is not None and session.fuel.steps:
        parts.append(paragraph(_by_the_clock([(step.time, step.says) for step in session.fuel.steps]), indent=2))
    parts += [paragraph(note, CAUTION, indent=2) for note in session.notes]
    return Group(*parts)


#: So many characters of a session's clock stand in the day: what is eaten in five hours.
_CLOCK_MOST = 800


def _by_the_clock(steps: Sequence[tuple[str, str]]) -> str:
    """Times and what to take then, as far as a few lines hold them."""
    told = [f"{on_the_clock(time)} {says}" for time, says in steps]
    kept = next((count for count in range(len(told), 1, -1) if len("; ".join(told[:count])) <= _CLOCK_MOST), 1)
    more = "" if kept == len(told) else f"; and {len(told) - kept} more: `mealopt fuel`"
    return f"session's sheet: {'; '.join(told[:kept])}{more}"


def _carbohydrate(band: TargetBand | None) -> str:
    return "" if band is None else limits(_band(band), "g")


def meal_words(meal: Meal, entry: PlanDay, method: bool) -> Group:
    """One meal: its dish, its foods, what it gives, its window, and how it is made."""
    kitchen = f" ({meal.minutes} min)" if meal.minutes else ""
    slot = SLOTS.get(meal.slot, meal.slot)
    title = Text(overflow="fold").append(f"{meal.number}. {slot.capitalize()}{late(meal.time)}: ", style=HEADING)
    title.append(meal.dish)
    parts: list[RenderableType] = [title.append(kitchen, style=QUIET)]
    parts += [paragraph(portion(item), indent=2) for item in meal.items]
    given = ", ".join(_gives(meal, key) for key in _GIVEN if key in meal.totals)
    parts.append(paragraph(f"= {given}", GOOD, indent=2))
    if meal.limits:
        parts.append(paragraph(_window(meal, entry), indent=2))
    parts += [paragraph(note, CAUTION, indent=2) for note in meal.notes]
    if meal.also:
        parts.insert(1 + len(meal.items), paragraph(f"to season: {', '.join(meal.also)}", QUIET, indent=2))
    if method and meal.method:
        parts.append(paragraph(" ".join(meal.method), QUIET, indent=2))
    return Group(*parts)


def _gives(meal: Meal, key: str) -> str:
    value = held(meal.totals[key], key)
    return value if key == ENERGY else f"{label(key)} {value}"


def _held(key: str, value: float | None, most: float) -> str:
    return "unknown" if value is None else held_beside(value, most, key)


def _window(meal: Meal, entry: PlanDay) -> str:
    """The limits of the meal's window beside what it holds, and which session they are for."""
    held = ", ".join(
        f"{label(key)} at most {amount(most, key)} (holds {_held(key, meal.totals.get(key), most)})"
        for key, most in meal.limits.items()
    )
    if meal.lead_minutes is None:
        return f"limits: {held}"
    ahead = f"session {meal.before_session}" if meal.before_session is not None else "the next day's session"
    return f"{duration(meal.lead_minutes)} before {ahead}: {held}"


def _band(target: TargetBand) -> Band:
    return Band(target.least, target.aim, target.most)


def totals(entry: PlanDay) -> Iterator[RenderableType]:
    """The day's totals beside their bands, and what they are short or over of."""
    rows = [(key, _band(target), entry.totals.get(key)) for key, target in entry.targets.items()]
    if wide():
        table = plain_table(("", False), ("here", True), ("target", False), ("", False))
        for key, band, value in rows:
            table.add_row(label(key), _here(key, value), limits(band, UNITS[key]), _line(band, value))
        yield table
        yield paragraph("[ least, | aim, # this day, ] most", QUIET)
    else:
        for key, band, value in rows:
            yield paragraph(f"{label(key)}: {_here(key, value)}; {limits(band, UNITS[key])}")
            yield Text("  ").append(_line(band, value))
    yield from _shortfalls(entry, rows)
    yield paragraph(f"In the kitchen: {duration(sum(meal.minutes for meal in entry.meals))}.")
    blanks = [f"{label(key)} {int(100 * share)} %" for key, share in entry.coverage.items() if key in entry.targets]
    if blanks:
        yield paragraph(f"Not known for all of the food; known share by weight: {', '.join(blanks)}.")


def _here(key: str, value: float | None) -> str:
    return "unknown" if value is None else amount(value, key)


def _line(band: Band, value: float | None) -> Text:
    if value is None:
        return Text("")
    return Text(drawn(band, value), style=BAD if missed(band, value) else GOOD)


def _shortfalls(entry: PlanDay, rows: list[tuple[str, Band, float | None]]) -> Iterator[RenderableType]:
    for key, band, value in rows:
        off = 0.0 if value is None else missed(band, value)
        if off:
            words = f"short of its least by {amount(-off, key)}" if off < 0 else f"over its most by {amount(off, key)}"
            yield paragraph(f"{label(key)}: {words}", BAD)
    for words in (one for one in entry.missed if one not in entry.targets):
        yield paragraph(f"not met: {words}", BAD)


def found_words(plan: Plan, solve: Solve, penalty: Mapping[str, float]) -> Iterator[RenderableType]:
    """How an answer was found, and its penalty by terms."""
    yield paragraph(_solve(solve))
    total = sum(penalty.values())
    if total > 0:
        yield paragraph("The penalty, 0 for an ideal day, by its terms:")
        shares = sorted(penalty.items(), key=lambda share: -share[1])
        rows = [(f"  {term}", [f"{points:.1f}", f"{100 * points / total:.0f} %"]) for term, points in shares]
        yield from numbered(["points", "share"], rows)
    yield paragraph(f"Food table: {plan.table.name}, SHA-256 {plan.table.sha256[:12]}...", QUIET)


def _solve(solve: Solve) -> str:
    value = "" if solve.objective is None else f": penalty {solve.objective:.2f}"
    bound = "" if solve.bound is None else f", at best {solve.bound:.2f}"
    if solve.bound is not None and solve.objective:
        share = 100 * (solve.objective - solve.bound) / solve.objective
        bound += f" ({share:.{0 if share >= 10 else 1}f} % less)"
    gap = "" if solve.gap is None else f", gap {100 * solve.gap:.2g} %"
    size = f"{solve.rows:,} rows, {solve.columns:,} columns"
    return f"{solve.solver}, {ENDED[solve.status]}{value}{bound}{gap}; {solve.seconds:.1f} s; {size}."
