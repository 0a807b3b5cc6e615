"""One [[food]] of an own file: its keys, what stands where one is left out, and the checks that it must pass."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError

from mealopt.core.filters import ALLERGENS
from mealopt.errors import BadInput
from mealopt.table.find import nearest, plain
from mealopt.table.own_label import LABEL_KEYS, SMALL_DOSE_G, Impossible, per_100g
from mealopt.table.pantry import AISLES, COUNTS, SUPPLEMENT, Food, Pantry
from mealopt.table.pantry_checks import ANIMAL_ALLERGENS, SEA_ALLERGENS

#: What an own food takes over from the food that it stands for, where it says nothing: words that limit it, and none
#: that speak for it.
TAKEN_OVER = ("added_sugar", "juice")

#: Allergens that a diet rules out, and so a label of that diet.
_RULED_OUT = {"vegan": ANIMAL_ALLERGENS, "vegetarian": SEA_ALLERGENS}
_HOLDS = {"egg": "eggs", "dairy": "milk", "soy": "soybeans"}
_FLESH = {"red_meat", "processed_meat", "poultry"}


class OwnFood(Food):
    """A food of a person's own: of the pantry's kind, with its source (own:FILE#NAME) where a row's number stands.

    stands_for: pantry foods in whose place it may stand. supplement: counted in doses, of which a day's most is never
    passed. unsaid: allergens that count as present because the file rules them out nowhere.
    """

    ndb: str = Field(pattern=r"^own:[^#]+#.+$")
    bought_ndb: str = Field(pattern=r"^own:[^#]+#.+$")
    stands_for: tuple[str, ...] = ()
    supplement: bool = False
    unsaid: tuple[str, ...] = ()

    @property
    def source(self) -> str:
        """Where its nutrients stand, as the plan document writes it."""
        return self.ndb


@dataclass(frozen=True, slots=True)
class ReadEntry:
    """A food as read. per_100g: as the table counts. a_day: what a supplement's most of a day holds, by its label."""

    food: OwnFood
    per_100g: dict[str, float]
    a_day: dict[str, float]


class _Entry(BaseModel):
    """The keys of an entry but for its nutrients; None: left out. Grams are as eaten."""

    model_config = ConfigDict(extra="forbid", frozen=True, strict=True, allow_inf_nan=False)

    name: str = Field(min_length=2, max_length=60)
    kind: Literal["food", "supplement"] = "food"
    says: str | None = Field(None, min_length=2, max_length=40)
    per: Literal["100 g", "100 ml"] = "100 g"
    grams_per_100ml: float | None = Field(None, ge=20, le=200)
    carbohydrate_holds_fibre: bool = False
    stands_for: list[str] = Field([], max_length=20)
    allergens: list[str] = []
    free_of: list[str] = []
    diet: Literal["omnivore", "pescatarian", "vegetarian", "vegan"] = "omnivore"
    state: Literal["raw", "dry", "cooked", "drained", "ready", "liquid"] | None = None
    measure: str | None = Field(None, min_length=1, max_length=40)
    measure_g: float | None = Field(None, gt=0, le=1000)
    step: float = Field(1.0, gt=0, le=2)
    least_g: float | None = Field(None, ge=0)
    most_meal_g: float | None = Field(None, gt=0)
    most_day_g: float | None = Field(None, gt=0)
    dose: str | None = Field(None, min_length=1, max_length=40)
    dose_g: float | None = Field(None, gt=0, le=500)
    doses_a_day: float | None = Field(None, gt=0, le=20)
    aisle: str | None = None
    pack_g: float = Field(gt=0, le=100_000)
    keeps_days: int | None = Field(None, ge=1, le=10_000)
    counts: list[str] | None = None
    settles: Literal["well", "slowly", "badly"] = "slowly"
    kin: str | None = Field(None, min_length=2, max_length=60)


_KEYS: tuple[str, ...] = (*_Entry.model_fields, *LABEL_KEYS)
_OF_FOOD = ("measure", "measure_g", "most_meal_g", "most_day_g", "per", "grams_per_100ml")
_OF_SUPPLEMENT = ("dose", "dose_g", "doses_a_day")


class _Place:
    """Where an entry stands, and the refusals that begin there."""

    def __init__(self, where: str, number: int, name: object) -> None:
        shown = f" ({name[:60]})" if isinstance(name, str) else ""
        self._words = f"{where}, [[food]] {number}{shown}"

    def bad(self, key: str, says: str) -> BadInput:
        return BadInput(" ".join(f"{self._words} {key}: {says}".split()))


def read_entry(entry: Mapping[str, Any], where: str, number: int, file: str, pantry: Pantry) -> ReadEntry:
    """One food of an own file. number: its place, from 1; file: the file's name; pantry: the shipped one.

    Raises BadInput with file, entry and key.
    """
    place = _Place(where, number, entry.get("name"))
    keys = _keys(entry, place)
    stood = _stands_for(keys, place, pantry)
    amounts = _amounts(entry, place)
    label, a_day = _of_100g(keys, amounts, place)
    small = keys.kind == "supplement" and (keys.dose_g or 0.0) < SMALL_DOSE_G
    try:
        held = per_100g(label, keys.carbohydrate_holds_fibre, check_energy=not small)
    except Impossible as error:
        raise place.bad(error.key, str(error)) from None
    return ReadEntry(_food(keys, stood, file, place), held, a_day)


def _keys(entry: Mapping[str, Any], place: _Place) -> _Entry:
    for key in entry:
        if key not in _KEYS:
            near = get_close_matches(key[:60], _KEYS, n=1, cutoff=0.5)
            meant = f': did you mean "{near[0]}"?' if near else "; the keys stand in the README"
            raise place.bad(key[:60], f"read a key that does not exist{meant}")
    try:
        keys = _Entry.model_validate({key: value for key, value in entry.items() if key not in LABEL_KEYS})
    except ValidationError as error:
        first = error.errors()[0]
        key, said = ".".join(str(part) for part in first["loc"]), first["msg"][:1].lower() + first["msg"][1:]
        read = "nothing" if first["type"] == "missing" else f"{first['input']!r:.60}"
        raise place.bad(key, f"read {read}; {said}") from None
    if not keys.name.isprintable() or keys.name != " ".join(keys.name.split()):
        raise place.bad("name", f"read {keys.name!r}; words with single spaces between them are expected")
    wrong, right = (_OF_FOOD, _OF_SUPPLEMENT) if keys.kind == "supplement" else (_OF_SUPPLEMENT, _OF_FOOD[:2])
    for key in wrong:
        if key in keys.model_fields_set:
            other = "supplement, which says dose, dose_g and doses_a_day" if keys.kind == "supplement" else "food"
            raise place.bad(key, f"read in a {other}; it belongs to the other kind")
    for key in right:
        if getattr(keys, key) is None:
            raise place.bad(key, f"read nothing; it is expected of a {keys.kind}")
    if (keys.per == "100 ml") != (keys.grams_per_100ml is not None):
        raise place.bad("grams_per_100ml", 'what 100 ml weigh is expected with per = "100 ml", and only there')
    _listed("allergens", keys.allergens, ALLERGENS, place)
    _listed("free_of", keys.free_of, ALLERGENS, place)
    _listed("counts", keys.counts or [], COUNTS, place)
    _listed("aisle", [keys.aisle] if keys.aisle else [], AISLES, place)
    return keys


def _listed(key: str, words: list[str], allowed: tuple[str, ...], place: _Place) -> None:
    for word in words:
        if word not in allowed:
            near = get_close_matches(word[:60], allowed, n=1)
            meant = f': did you mean "{near[0]}"?' if near else f"; allowed are {', '.join(allowed)}"
            raise place.bad(key, f"read {word!r:.60}{meant}")


def _stands_for(keys: _Entry, place: _Place, pantry: Pantry) -> list[Food]:
    """The pantry foods that it stands for, all weighed in its own state."""
    clash = {plain(name): name for name in pantry.foods}.get(plain(keys.name))
    if clash is not None:
        raise place.bad("name", f"read {keys.name!r}; the pantry has {clash!r} already, so another name is expected")
    for name in keys.stands_for:
        if name not in pantry.foods:
            raise place.bad("stands_for", f"read {name!r:.60}; no food of the pantry{nearest(name[:60], pantry)}")
    stood = [pantry.foods[name] for name in keys.stands_for]
    state = keys.state or (stood[0].state if stood else "ready")
    for food in stood:
        if food.state != state:
            raise place.bad(
                "stands_for", f"read {food.name!r}, which is weighed {food.state}; this food is weighed {state}"
            )
    return stood


def _amounts(entry: Mapping[str, Any], place: _Place) -> dict[str, float]:
    """The nutrients as printed."""
    amounts = {}
    for key in LABEL_KEYS:
        if key in entry:
            value = entry[key]
            if isinstance(value, bool) or not isinstance(value, int | float) or not math.isfinite(value):
                raise place.bad(key, f"read {value!r:.60}; a number is expected, without its unit")
            amounts[key] = float(value)
    return amounts


def _of_100g(keys: _Entry, amounts: dict[str, float], place: _Place) -> tuple[dict[str, float], dict[str, float]]:
    """Nutrients of 100 g, and what a supplement's most of a day holds (nothing for a food)."""
    if keys.kind == "supplement":
        dose_g, doses = keys.dose_g or 1.0, keys.doses_a_day or 1.0
        for key, value in amounts.items():
            if value < 0:
                raise place.bad(key, f"read {value:g}; 0 or more is expected")
        return {key: value * 100.0 / dose_g for key, value in amounts.items()}, {
            key: value * doses for key, value in amounts.items()
        }
    weight = keys.grams_per_100ml or 100.0
    return {key: value * 100.0 / weight for key, value in amounts.items()}, {}


def _food(keys: _Entry, stood: list[Food], file: str, place: _Place) -> OwnFood:
    """The food, with what is left out taken from the first food that it stands for."""
    first = stood[0] if stood else None

    def else_from(key: str) -> Any:
        value = getattr(keys, key)
        if value is None and first is None:
            raise place.bad(key, "read nothing; it is expected of a food that stands for no other")
        return getattr(first, key) if value is None else value

    given = {"measure": keys.measure, "measure_g": keys.measure_g}
    if keys.kind == "supplement":
        dose_g = keys.dose_g or 1.0
        given = {"measure": keys.dose, "measure_g": dose_g}
        most = {"most_meal_g": dose_g * (keys.doses_a_day or 1.0), "most_day_g": dose_g * (keys.doses_a_day or 1.0)}
    else:
        most = {"most_meal_g": else_from("most_meal_g"), "most_day_g": else_from("most_day_g")}
    step_g = keys.step * float(given["measure_g"] or 0.0)
    source = f"own:{file}#{keys.name}"
    unsaid = _unsaid(keys, place)
    fields = {
        **given, **most, "name": keys.name, "says": keys.says or keys.name, "ndb": source, "bought_ndb": source,
        "state": keys.state or (first.state if first else "ready"), "step": keys.step,
        "least_g": step_g if keys.least_g is None else keys.least_g, "edible_percent": 100.0, "yield_factor": 1.0,
        "aisle": else_from("aisle"), "pack_g": keys.pack_g, "keeps_days": else_from("keeps_days"), "diet": keys.diet,
        "allergens": tuple(name for name in ALLERGENS if name in keys.allergens or name in unsaid),
        "counts": _counts(keys, stood), "settles": keys.settles,
        "kin": keys.kin or (first.kin if first else keys.name),
        "stands_for": tuple(keys.stands_for), "supplement": keys.kind == "supplement", "unsaid": unsaid,
    }  # fmt: skip
    try:
        food = OwnFood.model_validate(fields)
    except ValidationError as error:
        details = error.errors()[0]
        key = ".".join(str(part) for part in details["loc"]) or "least_g, most_meal_g, most_day_g"
        raise place.bad(key, f"{details['msg']} (read: {details['input']!r:.60})") from None
    fewest = max(1, math.ceil(food.least_g / food.step_g - 1e-9))
    if fewest * food.step_g > food.most_meal_g * (1 + 1e-9):
        raise place.bad(
            "most_meal_g", f"read {food.most_meal_g:g} g; at least {fewest * food.step_g:g} g, its least in whole steps"
        )
    return food


def _counts(keys: _Entry, stood: list[Food]) -> tuple[str, ...]:
    taken = [word for word in TAKEN_OVER if any(word in food.counts for food in stood)]
    counts = taken if keys.counts is None else keys.counts
    return tuple(dict.fromkeys([*counts, *([SUPPLEMENT] if keys.kind == "supplement" else [])]))


def _unsaid(keys: _Entry, place: _Place) -> tuple[str, ...]:
    """The allergens that neither list names. Raises BadInput where the lists, the diet and the counts disagree."""
    both = [name for name in keys.allergens if name in keys.free_of]
    if both:
        raise place.bad("free_of", f"read {', '.join(both)}, which allergens names too; one of the two is expected")
    ruled_out = [name for name in ALLERGENS if name in _RULED_OUT.get(keys.diet, set())]
    holds = [name for name in ruled_out if name in keys.allergens]
    if holds:
        raise place.bad("diet", f'read "{keys.diet}", but allergens names {", ".join(holds)}')
    open_ones = [name for name in ruled_out if name not in keys.free_of]
    if open_ones:
        names = ", ".join(f'"{name}"' for name in open_ones)
        raise place.bad("diet", f'read "{keys.diet}", and free_of does not name {names}; they are expected there')
    counts = set(keys.counts or ())
    for word, allergen in _HOLDS.items():
        if word in counts and allergen in keys.free_of:
            raise place.bad("free_of", f'read {allergen}, but counts names "{word}"')
    if (counts & _FLESH and keys.diet != "omnivore") or (
        counts & {"fish", "oily_fish"} and keys.diet not in ("omnivore", "pescatarian")
    ):
        raise place.bad("diet", f'read "{keys.diet}", but it counts as {", ".join(sorted(counts))}')
    if "fish" in counts and set(keys.free_of) >= SEA_ALLERGENS:
        raise place.bad("free_of", 'read fish, crustaceans and molluscs, but counts names "fish"')
    return tuple(name for name in ALLERGENS if name not in keys.allergens and name not in keys.free_of)
