"""Things that are eaten in sessions, and drinks that bottles are mixed from, read from foods/carried.toml."""

from __future__ import annotations

import tomllib
from functools import lru_cache
from pathlib import Path
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError, model_validator

from mealopt.errors import BadInput
from mealopt.table.files import foods_folder
from mealopt.table.find import nearest
from mealopt.table.pantry import Pantry, shipped_pantry

Kind = Literal["run", "ride", "swim", "row", "walk", "ski", "other"]
Taste = Literal["fruit", "sweet", "salty", "biscuit", "rice", "sweet bread"]
FORM = ConfigDict(extra="forbid", frozen=True)


class Filling(BaseModel):
    """One food of a thing: one of these, so many whole kitchen steps of it."""

    model_config = FORM

    of: tuple[str, ...] = Field(min_length=1)
    steps: int = Field(ge=1, le=20)


class Thing(BaseModel):
    """Something to carry and eat.

    one, many, bite: its words; {0} and {1} stand for its foods. bites: in how many sittings one is eaten. small_bites,
    small_bite: the same in smaller sittings, for a gut that is used to little. salt_g: rolled in. taste, flavour: what
    must not come all day long. most_per_hour: how many go down. minutes: to make them. hours_out: how long it keeps in
    a pocket; left out, all day. kinds: sessions in which hands and mouth are free, a swim's at the wall.
    """

    model_config = FORM

    id: str = Field(min_length=2)
    one: str = Field(min_length=2)
    many: str = Field(min_length=2)
    bite: str = Field(min_length=2)
    bites: int = Field(ge=1, le=4)
    small_bites: int | None = Field(default=None, ge=2, le=8)
    small_bite: str = ""
    foods: tuple[Filling, ...] = Field(min_length=1, max_length=3)
    salt_g: float = Field(default=0.0, ge=0, le=1)
    taste: Taste
    flavour: str = Field(min_length=2)
    most_per_hour: float = Field(gt=0, le=3)
    minutes: int = Field(default=1, ge=0, le=30)
    hours_out: float | None = Field(default=None, gt=0)
    packs: str = Field(min_length=2)
    kinds: tuple[Kind, ...] = Field(min_length=1)

    @model_validator(mode="after")
    def _small_is_smaller(self) -> Thing:
        if (self.small_bites is None) != (not self.small_bite) or (self.small_bites or 9) <= self.bites:
            raise ValueError("small_bites and small_bite belong together, and are more than bites")
        return self

    def in_small_bites(self) -> Thing:
        """The same eaten in smaller sittings, where it can be."""
        if self.small_bites is None:
            return self
        return self.model_copy(update={"bites": self.small_bites, "bite": self.small_bite})


class Drink(BaseModel):
    """A drink: its foods, thinned with water. dry: it can be carried as a bag and mixed at a tap."""

    model_config = FORM

    id: str = Field(min_length=2)
    says: str = Field(min_length=2)
    parts: tuple[str, ...] = Field(min_length=1, max_length=2)
    dry: bool


class Carried(BaseModel):
    """The whole file."""

    model_config = FORM

    thing: tuple[Thing, ...]
    drink: tuple[Drink, ...]

    @model_validator(mode="after")
    def _ids_differ(self) -> Carried:
        names = [*(thing.id for thing in self.thing), *(drink.id for drink in self.drink)]
        twice = sorted({name for name in names if names.count(name) > 1})
        if twice:
            raise ValueError(f"{twice[0]} stands twice")
        return self

    @property
    def foods(self) -> dict[str, str]:
        """Every food that is named -> the thing or drink that names it."""
        found = {name: thing.id for thing in self.thing for filling in thing.foods for name in filling.of}
        return found | {name: drink.id for drink in self.drink for name in drink.parts}


def read_carried(path: Path, pantry: Pantry) -> Carried:
    """The things and drinks of a file. Raises BadInput where it breaks a rule or names what the pantry has not."""
    try:
        data = tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise BadInput(f"{path}: cannot be read ({error})") from error
    try:
        carried = Carried.model_validate(data)
    except ValidationError as error:
        first = error.errors()[0]
        key = ".".join(str(part) for part in first["loc"])
        raise BadInput(f"{path}: {key}: {first['msg']}") from error
    for name, where in carried.foods.items():
        if name not in pantry.foods:
            raise BadInput(f"{path}: {where}: the pantry has no {name!r}{nearest(name, pantry)}")
    return carried


@lru_cache(maxsize=1)
def shipped_carried() -> Carried:
    """The file that ships with the program, read once a process."""
    return read_carried(foods_folder() / "carried.toml", shipped_pantry())
