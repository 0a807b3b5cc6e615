"""What somebody asks about: a dish of the menu, or foods of the pantry; and where it could stand in a day."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection
from dataclasses import dataclass

from mealopt.core.filters import FoodFilter
from mealopt.core.slots import Slot
from mealopt.errors import BadInput
from mealopt.menu.dishes import Dish
from mealopt.menu.find import find_dishes
from mealopt.menu.plates import Larder, Plate
from mealopt.plans.day.kept_out import reason_of, wishes_apart
from mealopt.plans.day.settled import against
from mealopt.plans.held.standing import StandingDay
from mealopt.plans.swap.names import dish_of, listed, matches
from mealopt.table.find import nearest

#: Foods that one name may mean at most.
MOST = 12


@dataclass(frozen=True, slots=True)
class AskedFor:
    """Dishes by their ids, or foods by their names; any of them would do."""

    words: str
    dishes: tuple[str, ...]
    foods: tuple[str, ...]

    def on(self, plate: Plate) -> bool:
        """Whether this plate is it or may hold it."""
        if self.dishes:
            return plate.dish.id in self.dishes
        return any(choice.name in self.foods for part in plate.parts for choice in part.choices)

    def in_meal(self, dish_id: str | None, foods: Collection[str]) -> bool:
        """Whether a meal of this dish and these foods holds it."""
        return dish_id in self.dishes if self.dishes else any(name in self.foods for name in foods)

    def made_into(self, dish: Dish) -> bool:
        """Whether this dish is it or lists it."""
        if self.dishes:
            return dish.id in self.dishes
        return any(name in self.foods for part in dish.component for name in part.foods)


def asked_for(words: str, standing: StandingDay) -> AskedFor:
    """The dish or the foods that these words mean. Raises BadInput with the nearest that there are."""
    menu = standing.wide.menu
    text = " ".join(words.split())
    if not text or len(text) > 200:
        raise BadInput(f"why-not: read {text[:40]!r}; the name of a food or a dish is expected")
    served = next((meal.meal.dish_id for meal in standing.meals if meal.meal.dish == text), None)
    dish = served or dish_of(text, menu.dishes)
    foods = tuple(matches(text, menu.pantry.foods))
    if text in menu.pantry.foods:
        return AskedFor(text, (), (text,))
    if dish is not None:
        return AskedFor(text, (dish,), ())
    if len(foods) > MOST:
        raise BadInput(f"why-not: read {text!r}, which may be {listed(foods, 'or')}; the name of one is expected")
    if foods:
        return AskedFor(text, (), foods)
    dishes = tuple(found.id for found in find_dishes(text, menu))
    if not dishes:
        raise BadInput(
            f"why-not: read {text!r}; no food of the pantry and no dish is called so{nearest(text, menu.pantry)}"
        )
    return AskedFor(text, dishes, ())


def plates_with(asked: AskedFor, standing: StandingDay) -> dict[int, tuple[Plate, ...]]:
    """Index of a slot -> every plate of it that is what was asked for, or may hold it."""
    found: dict[int, tuple[Plate, ...]] = {}
    for slot in standing.posed.slots:
        if slot.settled is not None:
            continue
        plates = (standing.plate(slot.index, dish.id) for dish in standing.wide.menu.for_slot(slot))
        fitting = tuple(plate for plate in plates if plate is not None and asked.on(plate))
        if fitting:
            found[slot.index] = fitting
    return found


def kept_out(asked: AskedFor, standing: StandingDay) -> tuple[str, ...]:
    """Why nothing of it may stand in any meal of the day, as sentences."""
    larder, menu = standing.wide, standing.wide.menu
    wishes = larder.filter
    reasons = []
    for name in asked.foods:
        why = against(menu.pantry.foods[name], "", wishes)
        if why is not None:
            reasons.append(f"{name} {why}")
        elif larder.choice(name) is None:
            reasons.append(f"{name} stands in for what this athlete may eat anyway")
    reasons += [f"{dish} is on your list of what is never planned" for dish in asked.dishes if dish in wishes.never]
    if reasons:
        return tuple(reasons)
    made = [dish for dish in menu.dishes.values() if asked.made_into(dish)]
    if not made:
        return (f"no dish of the menu holds {asked.words}",)
    return tuple(_by_meal(asked, standing, made))


def _by_meal(asked: AskedFor, standing: StandingDay, made: list[Dish]) -> list[str]:
    menu, larder = standing.wide.menu, standing.wide
    free = Larder(menu, FoodFilter())
    apart = {words: Larder(menu, one) for words, one in wishes_apart(larder.filter).items()}
    found = []
    for slot in standing.posed.slots:
        suiting = [dish for dish in made if slot.suits(dish.slots)]
        if slot.settled is not None or not suiting:
            continue
        counts = Counter(_reason(dish, slot, standing, free, apart, asked) for dish in suiting)
        listing = ", ".join(f"{count} {reason}" for reason, count in counts.most_common())
        dishes = "dish" if len(suiting) == 1 else "dishes"
        found.append(f"{slot.label}: of {len(suiting)} {dishes} with it, {listing}")
    if not found:
        kinds = sorted({kind for dish in made for kind in dish.slots})
        found.append(f"its dishes are for {', '.join(kinds)}; the day has no such meal that is still open")
    return found


def _reason(
    dish: Dish, slot: Slot, standing: StandingDay, free: Larder, apart: dict[str, Larder], asked: AskedFor
) -> str:
    if standing.plate(slot.index, dish.id) is not None:
        return f"cannot hold {asked.words} within what the meal may hold"
    return reason_of(dish, slot, standing.wide, free, apart)
