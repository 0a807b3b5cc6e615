"""The pantry: foods that a shop sells and a kitchen cooks, each tied to one row of the table.

A row of pantry.csv is one food in the state in which it is eaten or weighed. Lists in a cell are separated by ";".
"""

from __future__ import annotations

import csv
from collections.abc import Iterable
from functools import lru_cache
from pathlib import Path
from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationError, model_validator

from mealopt.core.filters import ALLERGENS, DIETS
from mealopt.errors import BadInput
from mealopt.table.composition import Composition, CompositionRow, shipped_composition
from mealopt.table.files import foods_folder

AISLES = (
    "grains",
    "bread",
    "breakfast",
    "vegetables",
    "fruit",
    "dried fruit and nuts",
    "pulses and tins",
    "dairy",
    "eggs",
    "meat",
    "fish",
    "soya and plant drinks",
    "oils and vinegars",
    "spreads and sweets",
    "sauces and seasonings",
    "drinks",
    "sports",
    "frozen",
)

#: What a food may count as. whole_food is the closed list of the design: grain, bread, pasta, rice, potato, pulse,
#: vegetable, fruit, plain dairy, egg, fish, meat, nut; not sugar, syrup, jam, juice, isolate, oil or sweets.
COUNTS = (
    "whole_food",
    "fruit",
    "vegetable",
    "juice",
    "starchy",
    "pulse",
    "nut",
    "egg",
    "dairy",
    "fish",
    "oily_fish",
    "red_meat",
    "processed_meat",
    "poultry",
    "soy",
    "added_sugar",
    "oil",
    "sauce",
    "seasoning",
    "protein_powder",
    "session_food",
    "drink",
    "salt",
    "fortified",
    "instead_of_gluten",
    "instead_of_milk",
    "instead_of_meat",
)

#: What only a food of a person's own may count as: the program itself marks supplements so.
SUPPLEMENT = "supplement"


def _listed(value: Any) -> Any:
    return tuple(part.strip() for part in value.split(";") if part.strip()) if isinstance(value, str) else value


def _blank(value: Any) -> Any:
    return None if value == "" else value


Listed = Annotated[tuple[str, ...], BeforeValidator(_listed)]
Optional = BeforeValidator(_blank)


class Food(BaseModel):
    """One row of the pantry.

    name: as the case file, dishes and plans know it. says: how a dish's name and its method speak of it ("rice").
    ndb: the table's row. state: in which it is weighed. measure, measure_g: the kitchen measure and its grams.
    step: the smallest share of that measure that a cook would measure (1, 0.5, 0.25). least_g, most_meal_g, most_day_g:
    the least that makes sense in a meal where it is used at all, the most in a meal and in a day.
    edible_percent: share of the bought food that is eaten (peel, stone and bones gone; 100 where all is).
    bought_ndb: the table's row of the food as bought; yield_factor: grams as weighed per gram as bought and trimmed
    (cooked rice 2.8; 1 where it is bought as eaten). pack_g: what a shop sells; keeps_days: unopened at home or, for
    fresh food, in the fridge. diet: the strictest diet that may eat it. settles: before hard work.
    kin: foods that are much the same thing share this word (white and brown rice: "rice").
    """

    model_config = ConfigDict(extra="forbid", frozen=True)

    name: str = Field(min_length=2, max_length=60)
    says: str = Field(min_length=2, max_length=40)
    ndb: str = Field(pattern=r"^\d{5}$")
    state: Literal["raw", "dry", "cooked", "drained", "ready", "liquid"]
    measure: str = Field(min_length=1)
    measure_g: float = Field(gt=0, le=1000)
    step: float = Field(gt=0, le=2)
    least_g: float = Field(ge=0)
    most_meal_g: float = Field(gt=0)
    most_day_g: float = Field(gt=0)
    edible_percent: float = Field(gt=0, le=100)
    bought_ndb: str = Field(pattern=r"^\d{5}$")
    yield_factor: float = Field(gt=0, le=10)
    aisle: str
    pack_g: float = Field(gt=0)
    keeps_days: int = Field(ge=1)
    diet: Literal["omnivore", "pescatarian", "vegetarian", "vegan"]
    allergens: Listed
    counts: Listed
    settles: Literal["well", "slowly", "badly"]
    kin: str = Field(min_length=2)

    @property
    def bought_per_gram(self) -> float:
        """Grams as bought, peel and stones with them, of one gram as weighed."""
        return 1.0 / self.yield_factor / (self.edible_percent / 100.0)

    @model_validator(mode="after")
    def _closed_lists(self) -> Food:
        if self.aisle not in AISLES:
            raise ValueError(f"aisle {self.aisle!r} is not one of {', '.join(AISLES)}")
        for word in self.allergens:
            if word not in ALLERGENS:
                raise ValueError(f"allergen {word!r} is not one of {', '.join(ALLERGENS)}")
        for word in self.counts:
            if word not in COUNTS and word != SUPPLEMENT:
                raise ValueError(f"counts {word!r} is not one of {', '.join(COUNTS)}")
        if not self.least_g <= self.most_meal_g <= self.most_day_g:
            raise ValueError("least_g <= most_meal_g <= most_day_g does not hold")
        if self.diet not in DIETS:
            raise ValueError(f"diet {self.diet!r} is not one of {', '.join(DIETS)}")
        return self

    @property
    def step_g(self) -> float:
        """Grams of the smallest step that a cook would measure."""
        return self.measure_g * self.step

    @property
    def source(self) -> str:
        """Where the nutrients of this food stand, as the plan document writes it."""
        return f"USDA-SR28:{self.ndb}"


class Pantry:
    """All foods by name, with the table that they are tied to."""

    def __init__(self, foods: Iterable[Food], composition: Composition) -> None:
        self.foods: dict[str, Food] = {food.name: food for food in foods}
        self.composition = composition

    def row(self, food: Food) -> CompositionRow:
        """The table's row of a food, in the state in which it is weighed."""
        return self.composition.rows[food.ndb]


def read_pantry(path: Path, composition: Composition) -> Pantry:
    """The pantry in a file. Raises BadInput with file and line where a row breaks a rule or is tied to nothing."""
    try:
        text = path.read_text(encoding="utf-8")
    except (OSError, UnicodeDecodeError) as error:
        raise BadInput(f"{path}: cannot be read ({error})") from error
    foods: dict[str, Food] = {}
    reader = csv.DictReader(text.splitlines())
    columns = list(Food.model_fields)
    if list(reader.fieldnames or ()) != columns:
        raise BadInput(f"{path}, line 1: the columns must be {','.join(columns)}")
    for fields in reader:
        where = f"{path}, line {reader.line_num}"
        if None in fields or None in fields.values():
            cells = sum(value is not None for key, value in fields.items() if key) + len(fields.get(None) or ())
            raise BadInput(f"{where}: {cells} cells read, {len(columns)} expected")
        try:
            food = Food.model_validate({key: value.strip() for key, value in fields.items()})
        except ValidationError as error:
            first = error.errors()[0]
            key = ".".join(str(part) for part in first["loc"]) or "row"
            raise BadInput(
                f"{where}: {fields.get('name')}: {key}: {first['msg']} (read: {first['input']!r})"
            ) from error
        for ndb in (food.ndb, food.bought_ndb):
            if ndb not in composition.rows:
                raise BadInput(f"{where}: {food.name}: the table has no generic row {ndb}")
        if food.name in foods:
            raise BadInput(f"{where}: {food.name} stands twice")
        foods[food.name] = food
    return Pantry(foods.values(), composition)


@lru_cache(maxsize=1)
def shipped_pantry() -> Pantry:
    """The pantry that ships with the program, read once a process."""
    return read_pantry(foods_folder() / "pantry.csv", shipped_composition())
