"""What the report says of dishes and foods that no day chose."""

from __future__ import annotations

from bench.chosen import Seen, report, why_no_dish, why_no_food
from mealopt.menu.dishes import shipped_menu

MENU = shipped_menu()


def test_each_reason_is_told_apart() -> None:
    seen = Seen()
    assert "never fits" in why_no_dish("muesli", MENU, seen)
    seen.fits["muesli"] = 3
    assert "always beyond" in why_no_dish("muesli", MENU, seen)
    seen.dealt["muesli"] = 2
    assert "others cost less" in why_no_dish("muesli", MENU, seen)
    assert why_no_food("coffee", MENU, seen) == "in no dish"
    assert "never on a plate" in why_no_food("oats, rolled", MENU, seen)
    seen.offered["oats, rolled"] = 5
    assert "on 5 plates" in why_no_food("oats, rolled", MENU, seen)


def test_what_was_chosen_is_not_listed() -> None:
    seen = Seen(days=1)
    seen.dishes["muesli"] = 1
    seen.foods["oats, rolled"] = 1
    lines = report(seen, MENU)
    assert not any(line.startswith(("  muesli:", "  oats, rolled:")) for line in lines)
    assert any(line.startswith("  bolognese:") for line in lines)
    assert lines[1].startswith(f"1 of {len(MENU.dishes)} dishes chosen")
