"""Finding dishes by words."""

from __future__ import annotations

from mealopt.menu.dishes import Dish, Menu, shipped_menu


def find_dishes(words: str, menu: Menu | None = None) -> list[Dish]:
    """Dishes that hold all the words in id, name, kind, kitchen or foods; those with them in the name first."""
    asked = words.casefold().split()
    found = []
    for dish in (menu or shipped_menu()).dishes.values():
        name = f"{dish.id} {dish.name} {dish.kind} {dish.kitchen}".casefold()
        foods = " ".join(food for part in dish.component for food in part.foods).casefold()
        if asked and all(word in name or word in foods for word in asked):
            found.append((sum(word not in name for word in asked), dish.id, dish))
    return [dish for _, _, dish in sorted(found, key=lambda entry: entry[:2])]
