"""The checks of the food files: the published table, and our own pantry on top of it."""

from __future__ import annotations

from mealopt.table.finding import Finding
from mealopt.table.packs import shipped_packs
from mealopt.table.pantry import Pantry, shipped_pantry
from mealopt.table.pantry_checks import check_pantry
from mealopt.table.prices import shipped_price_list
from mealopt.table.shop_checks import check_shop
from mealopt.table.table_checks import check_row


def check_foods(pantry: Pantry | None = None) -> list[Finding]:
    """Every row of a pantry (the shipped one by default) and of its table that fails a check, our own faults first.

    A finding of severity "fault" is ours to mend; one of severity "fact" is what the published table says.
    """
    sold = [] if pantry else list(check_shop(shipped_pantry(), shipped_packs(), shipped_price_list()))
    pantry = pantry or shipped_pantry()
    found = sold + check_pantry(pantry) + [one for row in pantry.composition.rows.values() for one in check_row(row)]
    return sorted(found, key=lambda finding: finding.severity != "fault")
