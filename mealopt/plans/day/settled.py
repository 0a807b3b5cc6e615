"""Meals that the case settles (`[[kitchen.fixed]]`): what they hold, and the one plate that stands in their slots."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches

from mealopt.core.clock import DAY_MINUTES
from mealopt.core.filters import FoodFilter
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, PROTEIN, SATURATED
from mealopt.core.slots import Slot
from mealopt.errors import BadInput
from mealopt.menu.dishes import Dish, Menu
from mealopt.menu.plates import SALT, Choice, Larder, Part, Plate, per_gram, plate
from mealopt.people.case import Case
from mealopt.people.days import day_after
from mealopt.people.kitchen import Fixed
from mealopt.table.find import nearest
from mealopt.table.pantry import Food
from mealopt.targets.mealtimes import MAIN_MINUTES
from mealopt.targets.settled import SettledMeal

#: Where only a meal's energy is known: nutrient -> (share of the energy, kcal in a gram)
#: [common practice, no source: a mixed meal out; 4, 4 and 9 kcal/g are the general factors].
ASSUMED: dict[str, tuple[float, float]] = {
    PROTEIN: (0.17, 4.0),
    CARBOHYDRATE: (0.48, 4.0),
    FAT: (0.35, 9.0),
    SATURATED: (0.10, 9.0),
}

#: What the plan says of such a meal.
ASSUMED_WORDS = (
    "only its energy is known: 17 % of it is taken to be protein, 48 % carbohydrate and 35 % fat, 10 % saturated "
    "(common practice, no source); its fibre, fruit and vegetables, vitamins and minerals are not counted"
)


@dataclass(frozen=True, slots=True)
class SettledDay:
    """The day's settled meals in order of time, and what the plan has to say of them."""

    meals: tuple[SettledMeal, ...] = ()
    fixed: tuple[Fixed, ...] = ()

    def of(self, slot: Slot) -> Fixed | None:
        """What the case says of a slot; None where nothing is settled there."""
        return None if slot.settled is None else self.fixed[slot.settled]


def settled_notes(settled: SettledDay) -> tuple[str, ...]:
    """What the day's notes say of meals of which only the energy is known."""
    return tuple(
        f"{fixed.what} at {fixed.time}: {fixed.energy_kcal:,.0f} kcal as you gave it; {ASSUMED_WORDS}"
        for fixed in settled.fixed
        if fixed.energy_kcal is not None
    )


def assumed(kcal: float) -> dict[str, float]:
    """Nutrients of a meal of which only the energy is known, by the stated split."""
    return {ENERGY: kcal, **{key: share * kcal / per for key, (share, per) in ASSUMED.items()}}


def check_settled(case: Case, menu: Menu) -> None:
    """Raise BadInput where a settled dish is no dish, or a settled food no food, with what was perhaps meant."""
    foods = menu.pantry.foods
    for place, fixed in enumerate(case.kitchen.fixed, start=1):
        where = f"[[kitchen.fixed]] {place}"
        if fixed.dish is not None and fixed.dish not in menu.dishes:
            if fixed.dish in foods:
                raise BadInput(f'{where} dish: {fixed.dish!r} is a food, no dish; write foods = ["{fixed.dish}=100g"]')
            raise BadInput(f"{where} dish: {fixed.dish!r} is no dish{_nearest_dishes(fixed.dish, menu)}")
        for at, (name, _) in enumerate(fixed.portions, start=1):
            if name not in foods and name in menu.dishes:
                raise BadInput(f'{where} foods, entry {at}: {name!r} is a dish, no food; write dish = "{name}"')
            if name not in foods:
                raise BadInput(f"{where} foods, entry {at}: {name!r} is no food{nearest(name, menu.pantry)}")


def _nearest_dishes(name: str, menu: Menu) -> str:
    """The end of an error message: the dishes whose ids come nearest, or hold the word; "" where none does."""
    wanted = "_".join(name.casefold().split())
    close = get_close_matches(wanted, menu.dishes, n=3, cutoff=0.7)
    near = list(dict.fromkeys([*close, *(dish for dish in sorted(menu.dishes) if wanted in dish)]))[:3]
    return f" (nearest: {'; '.join(near)})" if near else ""


def settled_day(case: Case, day: str, menu: Menu) -> SettledDay:
    """The settled meals of a plan day. Raises BadInput as `check_settled` does."""
    check_settled(case, menu)
    kitchen = case.kitchen_on(day)
    busy = [session.start_minute for session in case.sessions_on(day)]
    busy += [session.start_minute + DAY_MINUTES for session in case.sessions_on(day_after(day))]
    busy += [kitchen.next_wake, *(fixed.minute for fixed in kitchen.fixed)]
    meals = []
    for index, fixed in enumerate(kitchen.fixed):
        next_thing = min(start for start in busy if start > fixed.minute)
        minutes = min(MAIN_MINUTES, next_thing - fixed.minute)
        given = "energy" if fixed.energy_kcal is not None else "foods" if fixed.foods else ""
        meals.append(SettledMeal(fixed.minute, minutes, index, given, _kcal(fixed, menu)))
    return SettledDay(tuple(meals), kitchen.fixed)


def _kcal(fixed: Fixed, menu: Menu) -> tuple[float, float]:
    """The least and the most energy that a settled meal may hold."""
    if fixed.dish is not None:
        return menu.dishes[fixed.dish].energy
    if fixed.energy_kcal is not None:
        return fixed.energy_kcal, fixed.energy_kcal
    pantry = menu.pantry
    kcal = sum(grams * per_gram(pantry.foods[name], pantry)[ENERGY] for name, grams in fixed.portions)
    return kcal, kcal


def settled_plates(
    settled: SettledDay, slots: Sequence[Slot], larder: Larder, scale: float, prices: Mapping[str, float]
) -> dict[int, Plate]:
    """Slot index -> the one plate that stands there. scale: how many times a food's day's most this day may hold."""
    crowded = _crowded(settled, larder.menu, scale)
    plates = {}
    for slot in slots:
        fixed = settled.of(slot)
        if fixed is None:
            continue
        if fixed.dish is not None:
            plates[slot.index] = dish_plate(larder.menu.dishes[fixed.dish], slot, larder)
        elif fixed.energy_kcal is not None:
            name = f"settled meal {slot.index + 1}"
            unknown = Choice(name, fixed.what, name, assumed(fixed.energy_kcal), frozenset(), "well", 1.0, (1, 1), 1e6)
            plates[slot.index] = _given_plate(slot, fixed, [unknown])
        else:
            foods = [
                _as_given(larder.menu.pantry.foods[name], grams, larder, crowded, prices)
                for name, grams in together(fixed).items()
            ]
            plates[slot.index] = _given_plate(slot, fixed, foods)
    return plates


def together(fixed: Fixed) -> dict[str, float]:
    """Grams of each food of a settled meal; a food that is written twice once, with the sum."""
    grams: Counter[str] = Counter()
    for name, amount in fixed.portions:
        grams[name] += amount  # type: ignore[assignment]
    return dict(grams)


def _crowded(settled: SettledDay, menu: Menu, scale: float) -> dict[str, float]:
    """Kin of foods -> how many times the day's most of them is settled already, where that is more than the day may
    hold: the rules then let that stand, and nothing be added."""
    shares: dict[str, float] = defaultdict(float)
    for fixed in settled.fixed:
        for name, grams in fixed.portions:
            food = menu.pantry.foods[name]
            shares[food.kin] += grams / food.most_day_g
    return {kin: 1.0001 * share / scale for kin, share in shares.items() if share > scale}


def _as_given(
    food: Food, grams: float, larder: Larder, crowded: Mapping[str, float], prices: Mapping[str, float]
) -> Choice:
    return Choice(
        name=food.name,
        says=food.says,
        kin=food.kin,
        per_gram=per_gram(food, larder.menu.pantry),
        counts=frozenset(food.counts),
        settles=food.settles,
        step_g=grams,
        steps=(1, 1),
        most_day_g=food.most_day_g * crowded.get(food.kin, 1.0),
        price_per_gram=prices.get(food.name),
    )


def _given_plate(slot: Slot, fixed: Fixed, foods: list[Choice]) -> Plate:
    """A plate on which nothing is left to choose. A lunch or dinner is taken to be warm."""
    dish = Dish.model_construct(
        id=f"settled_{slot.index + 1}",
        name=fixed.what,
        kind=f"settled meal {slot.index + 1}",
        kitchen="your own",
        slots=(slot.kind,),
        heat="none",
        served="warm" if slot.kind in ("lunch", "dinner") else "cold",
        minutes=0,
        fridge_days=0,
        hours_out=0.0,
        energy=(0.5, max(1.0, 2.0 * slot.energy_most)),
        method=(),
        component=(),
    )
    parts = (
        Part(f"food_{number}", (1, 1), (choice.step_g, choice.step_g), (choice,)) for number, choice in enumerate(foods)
    )
    return Plate(dish, tuple(parts))


def dish_plate(dish: Dish, slot: Slot, larder: Larder) -> Plate:
    """The settled dish: within what the athlete eats where that can be, else as near to it as the dish allows."""
    free = replace(slot, kind=dish.slots[0], settles=False)
    for wishes in _wider(larder.filter, dish.id):
        found = plate(dish, free, larder if wishes == larder.filter else Larder(larder.menu, wishes))
        if found is not None:
            return replace(found, salt={}) if SALT in larder.filter.never else found
    raise BadInput(f"[[kitchen.fixed]] dish: {dish.id!r} cannot be served as a settled meal")


def _wider(wishes: FoodFilter, dish_id: str) -> Iterator[FoodFilter]:
    """The athlete's filter, then ever wider ones; allergens and gluten are let in last."""
    yield wishes
    named = replace(wishes, never=wishes.never - {dish_id})
    yield named
    yield replace(named, never=frozenset())
    yield replace(named, never=frozenset(), diet="omnivore")
    yield FoodFilter()


def against(food: Food, dish_id: str, wishes: FoodFilter) -> str | None:
    """Why this food would not have been planned for this athlete; None where it might have been."""
    if food.name in wishes.never or dish_id in wishes.never:
        return "is on your list of what is never planned"
    why = wishes.refuses(food.diet, frozenset(food.allergens))
    return None if why is None else f"is {why}" if why.startswith("not") else why
