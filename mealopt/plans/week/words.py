"""What a week says beside its numbers: cautions, and why a rule is not met."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from mealopt.documents.plan import WeekCheck
from mealopt.people.case import Case
from mealopt.rules.weekly.micronutrients import TOLD_ONLY
from mealopt.rules.weekly.registry import WeekRow

NOT_COUNTED = (
    "Iodine and the long omega-3 fats stand in no column of the food table, so this week says nothing of them: iodised "
    "salt, milk, fish and seaweed bring the one, oily fish the other"
)
VEGAN = (
    "A vegan week needs vitamin B12 and iodine from fortified food or a supplement, whatever stands here; ask a doctor "
    "or registered dietitian which and how much"
)
FAT = (
    "Fat is under {least:g} % of this week's energy: too little for long. Eat more nuts, oily fish or oil, or ask a "
    "registered dietitian"
)
#: Beside a row that is not met and nobody looked into.
COSTS_MORE = "meeting it would cost more elsewhere: in the days' aims, the order of dishes or the other rules"

#: Beside one of a week whose time ended before it was proven to be near the best.
NOT_FOUND = "no better week was found in the time: it may cost more elsewhere, or need more time with --seconds"

#: Beside nutrients that are told only.
TOLD = {
    "vitamin_d_ug": (
        "ordinary food hardly holds it: sunlight, oily fish and fortified food bring it, or a supplement; ask a doctor "
        "or registered dietitian"
    ),
    "choline_mg": "the table knows it for part of the food only, so more is eaten than is counted",
}


def week_cautions(case: Case, checks: Sequence[WeekCheck]) -> tuple[str, ...]:
    """What touches the whole week."""
    cautions = []
    if case.kitchen.diet == "vegan":
        cautions.append(VEGAN)
    cautions.append(NOT_COUNTED)
    for check in checks:
        if check.rule.startswith("fat at least") and not check.met:
            cautions.append(FAT.format(least=check.least or 20.0))
    return tuple(cautions)


def generic_reason(row: WeekRow) -> str:
    """Why a row may be missed, without another look at the days."""
    return TOLD[row.key] if row.key in TOLD_ONLY else COSTS_MORE


def reasons_for(rows: Iterable[WeekRow], reach: Mapping[str, float], proven: bool = True) -> dict[str, str]:
    """Row's name -> why it is missed, if it is. reach: the most that the days allow, where that was looked into.

    proven: whether the week is within the gap that was asked for.
    """
    return {
        row.name: _out_of_reach(row, reach[row.name])
        if row.least is not None and reach.get(row.name, float("inf")) < row.least * (1 - 1e-6)
        else generic_reason(row)
        if proven or row.key in TOLD_ONLY
        else NOT_FOUND
        for row in rows
    }


def _out_of_reach(row: WeekRow, most: float) -> str:
    return f"no choice of these days' dishes reaches it: at most {most:,.4g} {row.unit}, each day's own rules kept"
