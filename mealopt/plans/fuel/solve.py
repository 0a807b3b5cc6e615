"""A session's program solved: how many of what, and how much salt in each bottle."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from mealopt.core.nutrients import SODIUM
from mealopt.errors import OutOfTime
from mealopt.menu.plates import Larder, per_gram
from mealopt.plans.fuel.choices import SALT, SALT_STEP_G, Eaten, Mix, mixes_for, things_for
from mealopt.plans.fuel.need import Need
from mealopt.plans.fuel.pose import NOTHING_KNOWN, ClockRoom, Posed, pose

#: Distance from the best that is proven, as a share and in points: half a thing more or less.
GAP, GAP_POINTS = 0.02, 1.0


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


def pack(
    need: Need,
    larder: Larder,
    seed: str,
    room: Mapping[str, float],
    seconds: float = 5.0,
    clock: ClockRoom = NOTHING_KNOWN,
) -> Packed:
    """Choose food and drink for a session. room: kin -> share of a day's most that is left; clock: what its hours
    have room for. Raises OutOfTime."""
    things = things_for(need, larder, seed) if need.aim > 0 else []
    mixes = mixes_for(need, larder, seed)
    if not things and not mixes:
        return Packed(need, (), (), 0.0)
    salt = larder.choice(SALT)
    foods = larder.menu.pantry.foods
    held = [*(thing.grams for thing in things), *(mix.grams for mix in mixes), {SALT: 0.0}]
    names = {name for grams in held for name in grams}
    kins = {name: (foods[name].kin, foods[name].most_day_g) for name in names if name in foods}
    posed = pose(need, things, mixes, salt.per_gram[SODIUM] if salt else 0.0, room, kins, clock)
    return _solved(posed, seconds)


def resalted(packed: Packed, larder: Larder) -> Packed:
    """The same with the salt in its bottles that comes nearest to the aim, food included."""
    need, salt = packed.need, larder.choice(SALT)
    if salt is None or need.sodium is None or not need.sodium.asked or not need.litres:
        return packed
    each = salt.per_gram[SODIUM] * need.bottles
    eaten = sodium_mg(packed, larder) - each * packed.salt_g
    wanted = max(0.0, need.sodium.aim * need.litres - eaten) / each
    most = max(0.0, need.sodium.ceiling * need.litres - eaten) / each
    steps = min(round(wanted / SALT_STEP_G), int(most / SALT_STEP_G + 1e-9))
    return replace(packed, salt_g=SALT_STEP_G * steps)


def sodium_mg(packed: Packed, larder: Larder) -> float:
    """Sodium of everything that is packed, mg."""
    pantry = larder.menu.pantry
    return sum(
        grams * per_gram(pantry.foods[name], pantry).get(SODIUM, 0.0) for name, grams in packed.grams.items()
    )  # fmt: skip


def salt_off(packed: Packed, larder: Larder) -> float:
    """How far sodium lies outside its band, mg for each litre; 0 where none is asked."""
    sodium, litres = packed.need.sodium, packed.need.litres
    if sodium is None or not sodium.asked or not litres:
        return 0.0
    held = sodium_mg(packed, larder) / litres
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
