"""The penalty's weights, in points: the one place. One point is what a person would just notice.

Frozen with the benchmark: a change of one moves the figures that stand in the README. All are the project's own.
"""

from __future__ import annotations

#: A gap is (value - bound) / max(value, FLOOR): 1 % of a day better than this is half a point, half of what a person
#: would notice.
FLOOR = 50.0

#: nutrient key -> (share of the aim that is free below it, free above it, points per 1 % beyond, points per 1 % above)
AIM: dict[str, tuple[float, float, float, float]] = {
    "energy_kcal": (0.005, 0.005, 2.0, 2.0),
    "protein_g": (0.0, 0.12, 0.5, 0.5),
    "carbohydrate_g": (0.04, 0.04, 0.5, 0.5),
    "fat_g": (0.06, 0.06, 0.4, 0.4),
    "fibre_g": (0.10, 0.25, 0.3, 0.2),
}

#: Fibre above the larger of these (g a day, g per 1000 kcal) costs this many points a gram more.
FIBRE_HIGH = (45.0, 18.0, 0.4)

#: Points per 10 % of a meal's suitable energy that it lies beyond the free share.
MEAL_SIZE = 0.5
MEAL_SIZE_FREE = 0.2

#: Points for serving something marked "less", and for a day without something marked "prefer".
LESS = 6.0
PREFER = 3.0

#: Points a place for a dish by its place in the order in which this day's dishes come (the first has place 0).
PLACE = 0.4

#: Points for each meal that a food stands in beyond its first, and for a food that settles slowly before a session.
REPEAT = 0.8
SETTLES_SLOWLY = 1.5

#: Points for a cold dinner, where it could be warm.
COLD = 2.5

#: Points for a protein powder in a meal: food comes first, where somebody does not ask for it.
POWDER = 0.6

#: Points for each main meal beyond the first on one staple (bread, rice) or one kind of protein (fish, soy).
ALIKE = 2.0

#: Points for each food on a plate beyond this many.
FOODS_FREE = 5
FOODS_MORE = 0.25

#: Points per minute in the kitchen above the quickest that the slots allow.
MINUTE = 0.025

#: Points per gram of carbohydrate that a refuelling window lacks.
REFUEL = 0.015

#: Points per 10 % of the fruit and vegetables' aim that one meal holds beyond half of it.
PRODUCE_SPREAD = 0.2

#: Points per gram of fat in a main meal beyond this share of its energy.
MEAL_FAT = 0.08
MEAL_FAT_FREE = 0.38

#: Points per gram of fibre in a meal beyond what is free, and in one that ends within so many minutes of long or hard
#: work; what is free in a main meal, in another, and before work.
MEAL_FIBRE, MEAL_FIBRE_BEFORE = 0.15, 0.3
FIBRE_MAIN, FIBRE_OTHER = 15.0, 8.0
FIBRE_BEFORE, FIBRE_BEFORE_MINUTES = 8.0, 180

#: Points for each meal with soya beyond so many, and for each bowl of soup beyond the first.
SOYA, SOYA_FREE = 2.0, 3
SOUP = 2.0

#: Points for each meal with juice beyond the first.
JUICE = 1.5

#: Points for what is heated before a session outside main meals, and for milk in the last minutes before one.
HEATED_BEFORE = 3.0
MILK_BEFORE, NO_MILK_MINUTES = 2.0, 60

#: Points per gram of protein in a main meal beyond so many times the least of a main meal (0.25 g/kg).
PROTEIN_HEAPED, PROTEIN_FREE = 0.05, 2.8

#: Points for each time that a rule of the week is missed by: a dish once too often, a day with fish or pulses too few.
WEEK_TIME = 3.0

#: Points for each meal from an earlier day's pot that the week lacks of those that the case asks for.
WEEK_AHEAD = 1.5

#: Points for each kind of plant that the week lacks, and for each gram over a most of the week.
WEEK_KIND = 0.5
WEEK_GRAMS = 0.02

#: Points per 1 % that the week's mean of a vitamin or mineral lies under its reference.
WEEK_PERCENT = 0.12

#: Points per 1 % of a food to use up that is left over.
WEEK_USE_UP = 0.3
