"""Meals that the case settles (`[[kitchen.fixed]]`): what they hold, and the one plate that stands in their slots."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace

from mealopt.core.filters import FoodFilter
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, PROTEIN, SATURATED
from mealopt.core.slots import Slot
from mealopt.errors import BadInput
from mealopt.menu.dishes import Dish, Menu
from mealopt.menu.plates import Choice, Larder, Part, Plate, per_gram, plate
from mealopt.people.case import Case
from mealopt.people.days import KitchenDay
from mealopt.people.kitchen import Fixed
from mealopt.table.finding import shorter
from mealopt.table.pantry import Food, Pantry
from mealopt.targets.mealtimes import MAIN_MINUTES
from mealopt.targets.settled import SettledMeal
