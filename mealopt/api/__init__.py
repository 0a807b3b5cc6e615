"""The one public door: what a command, a page or a script asks of the program.

Importing this loads neither solver nor table; each function loads what it needs when it is called. One file a kind of
question; all of it is handed out here.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from mealopt.api.cases import case_data as case_data
from mealopt.api.cases import case_from_data as case_from_data
from mealopt.api.cases import case_from_text as case_from_text
from mealopt.api.cases import case_notes as case_notes
from mealopt.api.cases import case_text as case_text
from mealopt.api.cases import caution_names as caution_names
from mealopt.api.cases import day_targets as day_targets
from mealopt.api.cases import equation_names as equation_names
from mealopt.api.cases import example_case_path as example_case_path
from mealopt.api.cases import example_names as example_names
from mealopt.api.cases import heaviest_day as heaviest_day
from mealopt.api.cases import read_case as read_case
from mealopt.api.cases import week_targets as week_targets
from mealopt.api.changes import choices as choices
from mealopt.api.changes import day_of as day_of
from mealopt.api.changes import offers as offers
from mealopt.api.changes import swap as swap
from mealopt.api.changes import unlike as unlike
from mealopt.api.days import plan_day as plan_day
from mealopt.api.days import plan_from_text as plan_from_text
from mealopt.api.days import plan_schema as plan_schema
from mealopt.api.days import plan_text as plan_text
from mealopt.api.days import read_plan as read_plan
from mealopt.api.days import read_whole_plan as read_whole_plan
from mealopt.api.days import recheck as recheck
from mealopt.api.foods import check_foods as check_foods
from mealopt.api.foods import composition_frame as composition_frame
from mealopt.api.foods import dish_names as dish_names
from mealopt.api.foods import find_dishes as find_dishes
from mealopt.api.foods import find_foods as find_foods
from mealopt.api.foods import food_names as food_names
from mealopt.api.foods import import_foods as import_foods
from mealopt.api.foods import show_dish as show_dish
from mealopt.api.foods import show_food as show_food
from mealopt.api.pictures import EnergyStep as EnergyStep
from mealopt.api.pictures import LightSpan as LightSpan
from mealopt.api.pictures import energy_steps as energy_steps
from mealopt.api.pictures import light_spans as light_spans
from mealopt.api.progress import Progress as Progress
from mealopt.api.progress import Stop as Stop
from mealopt.api.reasons import why as why
from mealopt.api.reasons import why_not as why_not
from mealopt.api.replanning import replan as replan
from mealopt.api.sessions import event_sheet as event_sheet
from mealopt.api.sessions import fuel as fuel
from mealopt.api.shopping import aisle_sign as aisle_sign
from mealopt.api.shopping import groceries as groceries
from mealopt.api.shopping import groceries_after as groceries_after
from mealopt.api.shopping import groceries_csv as groceries_csv
from mealopt.api.shopping import groceries_data as groceries_data
from mealopt.api.shopping import groceries_text as groceries_text
from mealopt.api.shopping import in_vain_words as in_vain_words
from mealopt.api.shopping import left_over as left_over
from mealopt.api.shopping import own_folder as own_folder
from mealopt.api.shopping import read_have as read_have
from mealopt.api.shopping import shopping_words as shopping_words
from mealopt.api.weeks import plan_week as plan_week
from mealopt.api.writing import check_writable as check_writable
from mealopt.api.writing import write_text as write_text

if TYPE_CHECKING:
    # Under their own names, so that a command or a page can annotate with what this door hands out.
    from mealopt.documents.fuel import FuelPlan as FuelPlan
    from mealopt.documents.parts import TargetBand as TargetBand
    from mealopt.documents.plan import Grocery as Grocery
    from mealopt.documents.plan import Item as Item
    from mealopt.documents.plan import Meal as Meal
    from mealopt.documents.plan import Plan as Plan
    from mealopt.documents.plan import PlanDay as PlanDay
    from mealopt.documents.plan import SessionEntry as SessionEntry
    from mealopt.documents.plan import Solve as Solve
    from mealopt.documents.plan import WeekCheck as WeekCheck
    from mealopt.menu.dishes import Component as Component
    from mealopt.menu.dishes import Dish as Dish
    from mealopt.menu.dishes import Menu as Menu
    from mealopt.people.case import Case as Case
    from mealopt.plans.groceries.after import AfterChange as AfterChange
    from mealopt.plans.groceries.shopping import Left as Left
    from mealopt.plans.groceries.shopping import Shopping as Shopping
    from mealopt.plans.replan.replan import Replanned as Replanned
    from mealopt.plans.replan.words import MealPair as MealPair
    from mealopt.plans.swap.offers import Offer as Offer
    from mealopt.plans.swap.swapped import Swapped as Swapped
    from mealopt.plans.swap.told import MealChange as MealChange
    from mealopt.plans.why.binding import Binding as Binding
    from mealopt.plans.why.not_in import WhyNot as WhyNot
    from mealopt.table.composition import CompositionRow as CompositionRow
    from mealopt.table.find import Found as Found
    from mealopt.table.find import Shown as Shown
    from mealopt.table.finding import Finding as Finding
    from mealopt.table.pantry import Food as Food
    from mealopt.targets.model import DayTargets as DayTargets
    from mealopt.targets.model import SessionEnergy as SessionEnergy
    from mealopt.targets.model import Step as Step
    from mealopt.targets.model import WeekTargets as WeekTargets
