"""What to buy for a plan."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from mealopt.documents.plan import Plan
    from mealopt.plans.groceries.after import AfterChange
    from mealopt.plans.groceries.shopping import Left, Shopping
    from mealopt.plans.groceries.words import Words


def groceries(
    plan: Plan,
    have: Mapping[str, float] | None = None,
    *,
    shops: int = 1,
    prices: str | Path | None = None,
    people: int | None = None,
    folder: str | Path | None = None,
) -> Shopping:
    """What to buy for the plan of a day or a week, in whole packs, less what is at home.

    have: food -> grams as bought, by the pantry's or the shop's name. shops: 1, or 2 with one in the middle. prices: a
    file of packs and prices; None: those that ship, which are invented. people: at the table, None: as the case says.
    folder: that of the case file, beside which the file of the athlete's own foods lies; without it such foods have no
    pack. Raises BadInput, Refused.
    """
    from mealopt.plans.groceries.shop import shop_for
    from mealopt.plans.own import plan_menu
    from mealopt.table.prices import read_price_list

    menu = plan_menu(plan, None if folder is None else Path(folder))
    listed = None if prices is None else read_price_list(Path(prices), menu.pantry)
    return shop_for(plan, menu, have, shops=shops, prices=listed, people=people)


def groceries_after(
    before: Plan,
    after: Plan,
    have: Mapping[str, float] | None = None,
    *,
    shops: int = 1,
    prices: str | Path | None = None,
    people: int | None = None,
    folder: str | Path | None = None,
) -> AfterChange:
    """What to buy for a plan after a change, when the list of the plan before it has been bought; and what in vain.

    What the changed plan says is past is taken as eaten from it. have: what was at home before that list; the other
    arguments as in `groceries`. Raises BadInput, Refused.
    """
    from mealopt.plans.groceries.after import shop_after
    from mealopt.plans.own import plan_menu
    from mealopt.table.prices import read_price_list

    menu = plan_menu(after, None if folder is None else Path(folder))
    listed = None if prices is None else read_price_list(Path(prices), menu.pantry)
    return shop_after(before, after, menu, have, shops=shops, prices=listed, people=people)


def read_have(*sources: str | Path) -> dict[str, float]:
    """Food -> grams as bought that are at home, from files (a Path) and texts, one food a line: "oats=400g", or with
    the last day on which it can be eaten: "milk=300g by 2027-03-16".

    Amounts of one name are added. Raises BadInput.
    """
    from mealopt.files import read_text
    from mealopt.plans.groceries.have import AtHome, have_from_text

    found: dict[str, list[float]] = {}
    for source in sources:
        text, where = (read_text(source), str(source)) if isinstance(source, Path) else (source, "at home")
        for food, grams in have_from_text(text, where).items():
            found.setdefault(food, []).append(grams)
    return {food: AtHome.of(amounts) for food, amounts in found.items()}


def groceries_csv(shopping: Shopping) -> str:
    """The lines as a table that a spreadsheet opens: UTF-8 with a mark, a header, one line a thing to buy."""
    from mealopt.plans.groceries.export import csv_of

    return csv_of(shopping)


def groceries_text(shopping: Shopping) -> str:
    """The list as plain text to copy or send, with a box to tick at each line."""
    from mealopt.plans.groceries.export import text_of

    return text_of(shopping)


def aisle_sign(aisle: str) -> str:
    """How an aisle of a line is signed: "Dairy and chilled"."""
    from mealopt.plans.groceries.words import sign

    return sign(aisle)


def shopping_words(shopping: Shopping) -> Words:
    """What stands under a list: the total, what may be needed, what is taken from home, what remains."""
    from mealopt.plans.groceries.words import words_of

    return words_of(shopping)


def own_folder(plan: Plan, beside: Path) -> Path | None:
    """The folder, where the file of the athlete's own foods that the plan's case names lies in it; else None."""
    kitchen = plan.case.get("kitchen")
    named = kitchen.get("own_foods") if isinstance(kitchen, dict) else None
    return beside if isinstance(named, str) and (beside / named).is_file() else None


def groceries_data(shopping: Shopping, in_vain: tuple[Left, ...] | None = None) -> dict[str, Any]:
    """The shopping as plain data, for JSON; its lines as the plan document has them.

    in_vain: what was bought in vain, where the list follows a change of plan.
    """
    from mealopt.plans.groceries.export import data_of

    return data_of(shopping, in_vain)


def in_vain_words(in_vain: tuple[Left, ...]) -> str:
    """What was bought in vain, in words; "" where nothing was."""
    from mealopt.plans.groceries.words import in_vain_words as words

    return words(in_vain)


def left_over(shopping: Shopping) -> str:
    """What remains and keeps, as the text that `read_have` reads for the next week."""
    from mealopt.plans.groceries.export import left_text

    return left_text(shopping)
