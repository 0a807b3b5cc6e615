"""A session's program solved: how many of what, and how much salt in each bottle."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from mealopt.core.nutrients import SODIUM
from mealopt.errors import OutOfTime
from mealopt.menu.plates import Larder, per_gram
from mealopt.plans.fuel.choices import SALT, SALT_STEP_G, Eaten, Mix, mixes_for, things_for
from mealopt.plans.fuel.need import FILL_LEAST, Need
from mealopt.plans.fuel.pose import Posed, pose

#: Distance from the best that is proven, as a share and in points: half a thing more or less.
GAP, GAP_POINTS = 0.02, 1.0

#: ml less in each bottle that are tried in turn where salt misses its band.
LESS_FILLED = (50, 100)


@dataclass(frozen=True, slots=True)
class Packed:
    """What is packed. things, mixes: each with its count, none at 0; salt_g: in each bottle. gap: in points."""

    need: Need
    things: tuple[tuple[Eaten, int], ...]
    mixes: tuple[tuple[Mix, int], ...]
    salt_g: float
    gap: float = 0.0
    seconds: float = 0.0

    @property
    def grams(self) -> dict[str, float]:
        """Grams of each food in all, in the order in which they are packed."""
        found: dict[str, float] = {}
        salt = {SALT: self.salt_g} if self.salt_g else {}
        held = [(mix.grams, count) for mix, count in self.mixes]
        held += [(salt, self.need.bottles), *((thing.grams, count) for thing, count in self.things)]
        for foods, count in held:
            for name, grams in foods.items():
                found[name] = found.get(name, 0.0) + count * grams
        return {name: round(grams, 2) for name, grams in found.items()}


def pack(need: Need, larder: Larder, seed: str, room: Mapping[str, float], seconds: float = 5.0) -> Packed:
    """Choose food and drink for a session. room: kin -> share of a day's most that is left. Raises OutOfTime."""
    things = things_for(need, larder, seed) if need.aim > 0 else []
    mixes = mixes_for(need, larder, seed)
    if not things and not mixes:
        return Packed(need, (), (), 0.0)
    salt = larder.choice(SALT)
    foods = larder.menu.pantry.foods
    held = [*(thing.grams for thing in things), *(mix.grams for mix in mixes), {SALT: 0.0}]
    names = {name for grams in held for name in grams}
    kins = {name: (foods[name].kin, foods[name].most_day_g) for name in names if name in foods}
    posed = pose(need, things, mixes, salt.per_gram[SODIUM] if salt else 0.0, room, kins)
    return _solved(posed, seconds)


def best_packed(need: Need, larder: Larder, seed: str, room: Mapping[str, float], seconds: float = 5.0) -> Packed:
    """The same; where salt in whole steps misses its band, with bottles that are filled a little less."""
    found = pack(need, larder, seed, room, seconds)
    for less in LESS_FILLED:
        if need.fill_ml - less < FILL_LEAST or _salt_off(found, larder) <= 0.0:
            break
        other = pack(replace(need, fill_ml=need.fill_ml - less), larder, seed, room, seconds)
        if _salt_off(other, larder) < _salt_off(found, larder):
            found = other
    return found


def _salt_off(packed: Packed, larder: Larder) -> float:
    """How far sodium lies outside its band, mg for each litre; 0 where none is asked."""
    sodium, litres = packed.need.sodium, packed.need.litres
    if sodium is None or not sodium.asked or not litres:
        return 0.0
    foods, pantry = larder.menu.pantry.foods, larder.menu.pantry
    held = sum(grams * per_gram(foods[name], pantry).get(SODIUM, 0.0) for name, grams in packed.grams.items()) / litres
    return max(0.0, sodium.least - held, held - sodium.most)


def _solved(posed: Posed, seconds: float) -> Packed:
    from mealopt.milp.highs import Highs

    answer = Highs(posed.model).solve(GAP, seconds, GAP_POINTS)
    if not answer.values:
        raise OutOfTime(f"no fuel plan was found in {seconds:g} s; give it more with --seconds")
    values = answer.values
    things = [(thing, round(values[c])) for thing, c in zip(posed.things, posed.pieces, strict=True)]
    mixes = [(mix, round(values[c])) for mix, c in zip(posed.mixes, posed.bottles, strict=True)]
    salt = 0.0 if posed.salt is None else SALT_STEP_G * round(values[posed.salt])
    return Packed(
        posed.need,
        tuple(entry for entry in things if entry[1]),
        tuple(entry for entry in mixes if entry[1]),
        salt,
        max(0.0, answer.objective - answer.bound),
        answer.seconds,
    )
