"""A session's fuel as the settled plate of its slot, so that the day's sums hold it once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from mealopt.core.nutrients import CARBOHYDRATE, ENERGY
from mealopt.core.slots import Slot
from mealopt.documents.plan import Meal
from mealopt.menu.dishes import Dish
from mealopt.menu.plates import Choice, Larder, Part, Plate, per_gram
from mealopt.plans.fuel.choices import SALT
from mealopt.plans.fuel.plan import Fuelled

OPTIONAL = "optional: easy work can do without it; what is left over is eaten afterwards"

#: What a slot's energy band leaves around the plan's own energy, for rounding.
ROUNDING = 1.001


def fuelled_slots(slots: Sequence[Slot], fuel: Mapping[int, Fuelled]) -> tuple[Slot, ...]:
    """The slots, those in sessions with the room that their plan takes and no more."""
    return tuple(_slot(slot, fuel) for slot in slots)


def _slot(slot: Slot, fuel: Mapping[int, Fuelled]) -> Slot:
    one = fuel.get(slot.during_session or 0)
    if slot.kind != "during" or one is None:
        return slot
    kcal = one.plan.totals.get(ENERGY, 0.0)
    grams = one.plan.totals.get(CARBOHYDRATE, 0.0)
    return replace(
        slot,
        energy_least=0.0,
        energy_aim=kcal,
        energy_most=ROUNDING * kcal + 1.0,
        carbohydrate_least=0.0,
        carbohydrate_most=ROUNDING * grams + 0.5,
        given="foods",
    )


def fuel_plates(
    slots: Sequence[Slot], fuel: Mapping[int, Fuelled], larder: Larder, prices: Mapping[str, float]
) -> dict[int, Plate]:
    """Slot index -> the plate that a session's plan makes."""
    packed = ((slot, fuel.get(slot.during_session or 0)) for slot in slots if slot.kind == "during")
    return {slot.index: _plate(slot, one, larder, prices) for slot, one in packed if one is not None}


def _plate(slot: Slot, one: Fuelled, larder: Larder, prices: Mapping[str, float]) -> Plate:
    foods = larder.menu.pantry.foods
    parts = []
    for place, (name, grams) in enumerate(one.packed.grams.items()):
        food = foods[name]
        choice = Choice(
            name=name,
            says=food.says,
            kin=food.kin,
            per_gram=per_gram(food, larder.menu.pantry),
            counts=frozenset(food.counts),
            settles="well",
            step_g=grams,
            steps=(1, 1),
            # Salt for sweat goes by what is drunk: it leaves the meals what a day may hold of it.
            most_day_g=1e6 if name == SALT else food.most_day_g,
            price_per_gram=prices.get(name),
        )
        parts.append(Part(f"food_{place}", (1, 1), (grams, grams), (choice,)))
    dish = Dish.model_construct(
        id=f"session_{slot.during_session}",
        name=one.name,
        kind=f"session {slot.during_session}",
        kitchen="any",
        slots=("during",),
        heat="none",
        served="cold",
        minutes=one.minutes,
        fridge_days=0,
        hours_out=12.0,
        energy=(0.0, max(1.0, 2.0 * slot.energy_most)),
        method=(),
        component=(),
    )
    return Plate(dish, tuple(parts))


def as_fuelled(meal: Meal, slot: Slot, fuel: Mapping[int, Fuelled]) -> Meal:
    """The meal of a session as its plan has it; every other meal as it is."""
    one = fuel.get(slot.during_session or 0)
    if slot.kind != "during" or one is None:
        return meal
    measures = {food.food: food.measure for food in one.plan.foods}
    items = tuple(item.model_copy(update={"measure": measures.get(item.food, item.measure)}) for item in meal.items)
    notes = (OPTIONAL,) if one.plan.optional else ()
    return meal.model_copy(
        update={"dish": one.name, "dish_id": None, "items": items, "method": _method(one), "notes": notes}
    )


def _method(one: Fuelled) -> tuple[str, ...]:
    """How it is made ready: each drink, then each thing."""
    drinks = [f"{bottle.count} x {bottle.name}: {bottle.says}." for bottle in one.plan.bottles if bottle.holds]
    packs = dict.fromkeys(thing.says for thing in one.plan.carried)
    return (*drinks, *packs, "When to take what stands in the session's sheet.")
