"""The week's numbers as a person reads them, and as JSON (`mealopt/targets-1`)."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from datetime import date, timedelta
from typing import TYPE_CHECKING, Any

from rich.console import RenderableType
from rich.table import Table
from rich.text import Text

from mealopt.cli.wording import (
    CAUTION,
    DAY_NAMES,
    HEADING,
    IN_SHORT,
    QUIET,
    amount,
    dated,
    duration,
    facts,
    heading,
    label,
    limits,
    listed,
    long_date,
    number,
    paragraph,
    plain_table,
    wide,
)
from mealopt.core.bands import Band
from mealopt.core.clock import DAYS, clock
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, FIBRE, PROTEIN, UNITS
from mealopt.core.words import MARKS

if TYPE_CHECKING:
    from mealopt.api import Case, DayTargets, SessionEnergy, Step, WeekTargets

SCHEMA = "mealopt/targets-1"

_TABLED = (ENERGY, PROTEIN, CARBOHYDRATE, FAT, FIBRE)


def targets_page(case: Case, week: WeekTargets, notes: list[str], day: str | None) -> Iterator[RenderableType]:
    """The parts of the page: the week as a table, or one day's bands; then how the numbers came about.

    notes: what was assumed in reading the case. day: "mon" to "sun", None for the whole week.
    """
    yield Text(f"{case.athlete.name}: {_when(case, day)}", style=HEADING, overflow="fold")
    yield paragraph(IN_SHORT, CAUTION)
    if day is None:
        yield from _week(case, week)
        cautions, assumed = week.cautions, [*notes, *week.notes]
    else:
        entry = week.days[day]
        yield from _day(case, entry)
        cautions = tuple(dict.fromkeys((*week.cautions, *entry.cautions)))
        assumed = list(dict.fromkeys((*notes, *week.notes, *entry.notes)))
    yield heading("Cautions")
    yield listed(cautions, CAUTION)
    if day is not None:
        yield heading(f"How {DAY_NAMES[day]}'s numbers came about")
        yield from _steps(week.days[day].steps)
    yield heading("How the week's numbers came about")
    yield from _steps(week.steps)
    yield paragraph(MARKS, QUIET)
    yield heading("What was assumed")
    yield listed(dict.fromkeys(assumed))
    if day is None:
        yield paragraph("\nHow one day's numbers came about, with its bands: --day mon, and so on.", QUIET)


def _when(case: Case, day: str | None) -> str:
    if day is not None:
        return f"targets for {dated(_on(case, day), day)}"
    return "targets for the week" + (f" of {long_date(case.week_of)}" if case.week_of else "")


def _on(case: Case, day: str) -> date | None:
    return case.week_of + timedelta(days=DAYS.index(day)) if case.week_of else None


def _week(case: Case, week: WeekTargets) -> Iterator[RenderableType]:
    mass = case.athlete.mass_kg
    if wide():
        yield ""
        yield _week_table(week, mass)
    else:
        for day, entry in week.days.items():
            yield Text(f"\n{day}  {amount(_aim(entry, ENERGY), ENERGY)}", style=HEADING)
            for session in entry.sessions:
                yield paragraph(_session(session), indent=5)
            rest = ", ".join(f"{label(key)} {_cell(entry, key, mass)}" for key in _TABLED if key != ENERGY)
            yield paragraph(rest, indent=5)
    total = f"The week: {amount(week.sum_kcal, ENERGY)}. Baseline {amount(week.baseline_kcal, ENERGY)} a day."
    yield paragraph(
        f"\n{total} Energy and carbohydrate are aims, protein is a floor, fat and fibre are aims; the bands around "
        "them: --day.",
        QUIET,
    )


def _week_table(week: WeekTargets, mass: float) -> Table:
    table = plain_table(
        ("day", False), ("sessions", False), *((words, True) for words in (
            "energy\nkcal", "protein\ng", "carbohydrate\ng (g/kg)", "fat\ng", "fibre\ng"
        )),
    )  # fmt: skip
    for day, entry in week.days.items():
        sessions = "\n".join(_session(session) for session in entry.sessions) or "rest"
        cells = [_cell(entry, key, mass, unit=False) for key in _TABLED]
        table.add_row(day, Text(sessions, overflow="fold"), *cells)
    return table


def _aim(entry: DayTargets, key: str) -> float:
    band = entry.bands[key]
    value = next((one for one in (band.aim, band.least, band.most) if one is not None), None)
    return value or 0.0


def _cell(entry: DayTargets, key: str, mass: float, *, unit: bool = True) -> str:
    value = _aim(entry, key)
    words = amount(value, key) if unit else number(value)
    if key != CARBOHYDRATE:
        return words
    return f"{words} ({value / mass:.1f}{' g/kg' if unit else ''})"


def _session(session: SessionEnergy) -> str:
    one = session.session
    return f"{one.start} {one.kind} {duration(one.minutes)} {one.effort}"


def _day(case: Case, entry: DayTargets) -> Iterator[RenderableType]:
    for place, session in enumerate(entry.sessions, 1):
        one = session.session
        yield paragraph(
            f"\nSession {place}: {one.kind}, {one.effort}, {one.start}-{clock(one.end_minute)}, "
            f"{duration(one.minutes)}",
            HEADING,
        )
        yield paragraph(_session_energy(session), indent=2)
    if not entry.sessions:
        yield paragraph("\nNo session: a day of rest.")
    yield heading("Targets")
    rows = []
    for key, band in entry.bands.items():
        more = f" ({_aim(entry, key) / case.athlete.mass_kg:.1f} g/kg)" if key in (CARBOHYDRATE, PROTEIN) else ""
        rows.append((label(key), f"{limits(band, UNITS[key])}{more}"))
    rows.append(("in each main meal", f"at least {amount(entry.protein_main_least_g, PROTEIN)} protein"))
    yield from facts(rows, max(len(name) for name, _ in rows) + 1)


def _session_energy(session: SessionEnergy) -> str:
    back = (
        f"{amount(session.replaced_kcal, ENERGY)} eaten for it" if session.replaced_kcal else "counted in the baseline"
    )
    kcal = f"{amount(session.net_kcal, ENERGY)} above rest, {back}"
    eaten = ""
    if session.during_g[1] > 0:
        hourly, over_all = limits(_range(session.carbohydrate_g_per_h), "g"), limits(_range(session.during_g), "g")
        eaten = f"; to eat in it: {hourly} carbohydrate an hour, {over_all} in all"
    return f"{kcal}{eaten}"


def _range(ends: tuple[float, float]) -> Band:
    return Band(ends[0], None, ends[1])


def _steps(steps: tuple[Step, ...]) -> Iterator[RenderableType]:
    for step in steps:
        value = f"{step.value:,.1f}" if step.unit == "kg" else number(step.value)
        yield paragraph(f"{step.name}: {value} {step.unit}".rstrip())
        yield paragraph(step.how, indent=4)
        yield paragraph(f"source: {step.source}", QUIET, indent=4)


def targets_document(case: Case, week: WeekTargets, notes: list[str], day: str | None) -> dict[str, Any]:
    """The same as plain data; with a day, `days` holds that one only."""
    days = [_day_document(case, entry) for name, entry in week.days.items() if day in (None, name)]
    return {
        "schema": SCHEMA,
        "case": case.model_dump(mode="json", by_alias=True, exclude_unset=True, exclude_none=True),
        "week": {
            "sum_kcal": _tidy(week.sum_kcal),
            "resting_kcal": _tidy(week.resting_kcal),
            "baseline_kcal": _tidy(week.baseline_kcal),
            "fat_free_mass_kg": _tidy(week.fat_free_mass_kg),
            "mean_energy_availability": _tidy(week.mean_energy_availability),
            "activity_class": week.activity_class,
            "maintenance_only": week.maintenance_only,
            "steps": [_step_document(step) for step in week.steps],
            "notes": list(dict.fromkeys([*notes, *week.notes])),
            "cautions": list(week.cautions),
        },
        "days": days,
    }


def _day_document(case: Case, entry: DayTargets) -> dict[str, Any]:
    on = _on(case, entry.day)
    return {
        "day": entry.day,
        "date": on.isoformat() if on else None,
        "sessions": [_session_document(place, one) for place, one in enumerate(entry.sessions, 1)],
        "targets": {key: _band_document(band) for key, band in entry.bands.items()},
        "protein_main_least_g": _tidy(entry.protein_main_least_g),
        "carbohydrate_class": entry.carbohydrate_class,
        "baseline_kcal": _tidy(entry.baseline_kcal),
        "energy_availability": _tidy(entry.energy_availability),
        "eve": entry.eve,
        "maintenance_only": entry.maintenance_only,
        "steps": [_step_document(step) for step in entry.steps],
        "notes": list(entry.notes),
        "cautions": list(entry.cautions),
    }


def _session_document(place: int, entry: SessionEnergy) -> dict[str, Any]:
    one = entry.session
    return {
        "number": place,
        "kind": one.kind,
        "effort": one.effort,
        "start": one.start,
        "ends": clock(one.end_minute),
        "minutes": one.minutes,
        "net_kcal": _tidy(entry.net_kcal),
        "replaced_kcal": _tidy(entry.replaced_kcal),
        "carbohydrate_g_per_h": _band_document(_range(entry.carbohydrate_g_per_h)),
        "during_g": _band_document(_range(entry.during_g)),
        "how": entry.how,
        "source": entry.source,
        "notes": list(entry.notes),
    }


def _step_document(step: Step) -> dict[str, Any]:
    return {**asdict(step), "value": _tidy(step.value)}


def _band_document(band: Band) -> dict[str, float | None]:
    return {key: None if value is None else _tidy(value) for key, value in asdict(band).items()}


def _tidy(value: float) -> float:
    return round(value, 3)
