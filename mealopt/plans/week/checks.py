"""How the week's rules come out for planned days, as the document holds them, and what is told beside them."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from mealopt.core.nutrients import ENERGY, FAT, SODIUM
from mealopt.documents.plan import PlanDay, WeekCheck
from mealopt.documents.totals import rounded
from mealopt.plans.week.ahead import Ahead
from mealopt.plans.week.pose import shares_of
from mealopt.rules.weekly.registry import WeekRow
from mealopt.rules.weekly.shares import lacking, value
from mealopt.table.pantry import Pantry
from mealopt.targets.micronutrients import SODIUM_TOLD_MG

#: Nutrients that food without animals hardly holds.
B12 = "vitamin_b12_ug"


def all_checks(
    days: Sequence[PlanDay],
    rows: Sequence[WeekRow],
    ahead: Ahead,
    pantry: Pantry,
    reasons: Mapping[str, str] | None = None,
) -> tuple[WeekCheck, ...]:
    """The week's rules, what comes from an earlier day's pot, and sodium. reasons: row's name -> why it is not met."""
    return (*week_checks(days, rows, pantry, reasons), *ahead_checks(days, ahead), sodium_check(days))


def week_checks(
    days: Sequence[PlanDay], rows: Sequence[WeekRow], pantry: Pantry, reasons: Mapping[str, str] | None = None
) -> tuple[WeekCheck, ...]:
    """Each rule with its number. reasons: row's name -> why it is not met."""
    shares = [shares_of(day, rows, pantry) for day in days]
    checks = []
    for row in rows:
        found, least = rounded(value(row, shares)), row.least
        unit = row.unit
        # As it is written: a hair below 15 mg is written 15, and met.
        written = (least is None or found >= least) and (row.most is None or found <= row.most)
        met = written or lacking(row, shares) == 0.0
        if row.name == "fat":
            found, least, unit = _fat_percent(days), _fat_least(row), "%"
            met = found >= least - 1e-9
        checks.append(
            WeekCheck(
                rule=row.rule,
                least=least,
                value=found,
                most=row.most,
                met=met,
                unit=unit,
                says="" if met else (reasons or {}).get(row.name, ""),
                known=known_share(row.key, days) if row.key else 1.0,
                source=row.source,
            )
        )
    return tuple(checks)


#: Beside sodium over what is advised. The hour's loss: mean of endurance athletes, 51.7 mmol.
SALTY = (
    "told, not held: cooking salt and what is eaten in sessions are counted, and sweat takes about 1,200 mg an hour of "
    "endurance work in the mean. With raised blood pressure or kidney trouble ask a doctor or registered dietitian"
)


def sodium_check(days: Sequence[PlanDay]) -> WeekCheck:
    """The days' mean of sodium, beside what adults at large are advised not to go over."""
    found = rounded(math.fsum(day.totals.get(SODIUM, 0.0) for day in days) / len(days))
    met = found <= SODIUM_TOLD_MG
    return WeekCheck(
        rule=f"sodium at most {SODIUM_TOLD_MG:,.0f} mg a day in the mean",
        least=None,
        value=found,
        most=SODIUM_TOLD_MG,
        met=met,
        unit="mg",
        says="" if met else SALTY,
        known=known_share(SODIUM, days),
        source="Dietary Reference Intakes, adults",
    )


#: Why no more meals come from an earlier day's pot.
NO_POT = "no dish that keeps suited two meals so well that it was worth its place"


def ahead_checks(days: Sequence[PlanDay], ahead: Ahead) -> tuple[WeekCheck, ...]:
    """How many meals come from an earlier day's pot, where the case asks for some."""
    if not ahead.least:
        return ()
    found = sum(meal.cooked_on is not None for day in days for meal in day.meals)
    met = found >= ahead.least
    return (
        WeekCheck(
            rule=f"at least {ahead.least} meal{'s' if ahead.least > 1 else ''} from an earlier day's pot",
            least=float(ahead.least),
            value=float(found),
            most=None,
            met=met,
            unit="meals",
            says="" if met else NO_POT,
            source="common practice, no source",
        ),
    )


def _fat_least(row: WeekRow) -> float:
    return float(row.rule.split()[3])


def _fat_percent(days: Sequence[PlanDay]) -> float:
    fat = math.fsum(day.totals.get(FAT, 0.0) for day in days)
    energy = math.fsum(day.totals.get(ENERGY, 0.0) for day in days)
    return rounded(100.0 * 9.0 * fat / energy) if energy else 0.0


def known_share(key: str, days: Sequence[PlanDay]) -> float:
    """Share of the week's food, by grams, for which the table knows a nutrient; cut to three digits."""
    grams = [math.fsum(item.grams for meal in day.meals for item in meal.items) for day in days]
    known = math.fsum(day.coverage.get(key, 1.0) * weight for day, weight in zip(days, grams, strict=True))
    whole = math.fsum(grams)
    return int(1000 * known / whole + 1e-9) / 1000 if whole else 0.0
