"""What a week says beside its numbers: cautions, and why a rule is not met."""

from __future__ import annotations

from collections.abc import Sequence

from mealopt.documents.plan import WeekCheck
from mealopt.people.case import Case

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
BLANKS = "a table that knows a nutrient for part of the food only counts less of it than was eaten"


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
