"""A made-up day in which every family has something to say: the day of the golden rows."""

from __future__ import annotations

from dataclasses import replace

from mealopt.core.bands import Band
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, FIBRE, FRUIT_VEGETABLE, PROTEIN, SODIUM
from mealopt.core.slots import RefuelWindow
from mealopt.menu.dishes import Ratio
from mealopt.menu.plates import Plate
from mealopt.rules.problem import OwnLimit, Problem
from tests.rules import tiny

OATS = tiny.food("oats", "whole_food", steps=(4, 10), settles="slowly", kin="oats", price_per_gram=0.002)
FLAKES = tiny.food("flakes", steps=(3, 8), kin="maize", price_per_gram=0.004)
MILK = tiny.food("milk", "whole_food", step=50.0, steps=(2, 8), price_per_gram=0.001, **{ENERGY: 0.5, FIBRE: 0.0})
APPLE = tiny.food("apple", "fruit", "whole_food", steps=(5, 20), kin="apples", **{ENERGY: 0.5})
BERRIES = tiny.food("berries", "fruit", "whole_food", steps=(3, 15), **{ENERGY: 0.4})
NUTS = tiny.food("nuts", "whole_food", step=5.0, steps=(2, 8), most_day_g=60.0, **{ENERGY: 6.0, FAT: 0.5})
JAM = tiny.food("jam", "added_sugar", step=5.0, steps=(2, 8), **{ENERGY: 2.5})
JUICE = tiny.food("juice", "juice", step=50.0, steps=(2, 5), **{ENERGY: 0.5, FIBRE: 0.0})
DRINK = tiny.food("drink", "session_food", step=100.0, steps=(1, 8), **{CARBOHYDRATE: 0.06, ENERGY: 0.25})
POTATO = tiny.food("potato", "whole_food", step=25.0, steps=(4, 20))
BEANS = tiny.food("beans", "vegetable", "whole_food", "soy", step=20.0, steps=(3, 12), **{PROTEIN: 0.08})
OIL = tiny.food("oil", "oil", step=5.0, steps=(1, 4), **{ENERGY: 9.0, FAT: 1.0})
LEEKS = tiny.food("leeks", "vegetable", "whole_food", step=50.0, steps=(1, 20))
POWDER = tiny.food("powder", "protein_powder", "soy", step=5.0, steps=(2, 6), **{PROTEIN: 0.8})


def bowl() -> Plate:
    return tiny.plate(
        "bowl",
        tiny.part("base", OATS, FLAKES),
        tiny.part("wet", MILK),
        tiny.part("fruit", APPLE, BERRIES, pick=(1, 2), grams=(60, 250)),
        tiny.part("top", NUTS, JAM, pick=(0, 1), grams=(10, 40)),
        ratio=(Ratio(of="wet", to="base", least=2, most=5), Ratio(of="top", to="base", least=0.2, most=0.8)),
        apart=(("nuts", "flakes"),),
        kind="cereal",
        minutes=8,
        energy=(250.0, 700.0),
    )


def supper() -> Plate:
    return tiny.plate(
        "supper",
        tiny.part("base", POTATO),
        tiny.part("greens", BEANS, tiny.food("kale", "vegetable", "whole_food"), pick=(0, 2), grams=(80, 300)),
        tiny.part("fat", OIL, pick=(0, 1)),
        kind="plate",
        minutes=30,
        served="warm",
        heat="stove",
        energy=(200.0, 900.0),
    )


def soup() -> Plate:
    """Cooked with salt, which a plan adds when it is written."""
    made = tiny.plate(
        "soup",
        tiny.part("base", LEEKS),
        tiny.part("powder", POWDER, pick=(0, 1)),
        kind="soup",
        minutes=15,
        served="warm",
        salt_percent=0.4,
    )
    return replace(made, salt={SODIUM: 400.0})


def small_day() -> Problem:
    """Breakfast, a snack before a session, a drink in it, lunch, dinner; nothing of it is posed yet."""
    slots = (
        tiny.slot(0, "breakfast", energy_least=200.0, energy_aim=500.0, energy_most=800.0, protein_least=20.0),
        tiny.slot(
            1,
            "before",
            lead_minutes=50,
            limits={FIBRE: 4.0, FAT: 10.0},
            settles=True,
            energy_aim=200.0,
            energy_most=300.0,
        ),
        tiny.slot(2, "during", carbohydrate_least=20.0, carbohydrate_most=45.0, energy_most=300.0),
        tiny.slot(3, "lunch", energy_least=200.0, energy_aim=700.0, energy_most=1000.0),
        tiny.slot(4, "dinner", energy_least=100.0, energy_aim=300.0, energy_most=500.0),
    )
    snack = tiny.plate("snack", tiny.part("base", FLAKES, OATS), tiny.part("glass", JUICE, pick=(0, 1)), kind="cereal",
                       heat="stove")  # fmt: skip
    drink = tiny.plate("bottle", tiny.part("bottle", DRINK), kind="drink", minutes=1)
    return tiny.day(
        slots,
        (bowl(), tiny.simple("toast", "whole_food")),
        (snack,),
        (drink,),
        (supper(), bowl()),
        (soup(), tiny.simple("salad")),
        bands={
            ENERGY: Band(1350.0, 1400.0, 1450.0),
            PROTEIN: Band(least=80.0, aim=90.0, most=120.0),
            CARBOHYDRATE: Band(100.0, 140.0, 180.0),
            FIBRE: Band(least=5.0, aim=12.0),
            FRUIT_VEGETABLE: Band(least=200.0),
            SODIUM: Band(most=1500.0),
        },
        refuel=(RefuelWindow((2, 3), 30.0, 60.0, "60 g carbohydrate between the sessions"),),
        own_limits=(OwnLimit(3, PROTEIN, Band(15.0, None, 60.0)),),
        minutes_most=45.0,
        budget=4.5,
        prefer=frozenset({"berries", "supper"}),
        less=frozenset({"kale"}),
        produce_kinds=2,
        quickest={"breakfast": 3, "before": 2, "during": 1, "lunch": 10, "dinner": 10},
    )
