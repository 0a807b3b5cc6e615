"""A session's food and drink as a small program of whole numbers."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, FIBRE, PROTEIN, SODIUM
from mealopt.milp.model import Model, Row, Term
from mealopt.plans.fuel.choices import FRUCTOSE, GLUCOSE, SALT, SALT_STEP_G, WATER, Eaten, Mix
from mealopt.plans.fuel.need import Need, hours_to_eat, own_mosts
from mealopt.targets.session_coefficients import (
    DURING_FAT_MOST,
    DURING_FIBRE_MOST,
    DURING_PROTEIN_MOST,
    FRUCTOSE_MOST,
    GLUCOSE_MOST,
    SODIUM_CEILING,
)

#: What a thing costs beside the others, in points: each gram of carbohydrate under and over the aim, under the least;
#: each mg of sodium outside its band; each different thing and drink, and one that is rather not wanted; each sitting.
UNDER, OVER, SHORT = 0.6, 0.8, 6.0
#: So near to the aim a gram costs next to nothing.
FREE, FREE_COST = 0.05, 0.05
SALT_OFF = 1.0
DIFFERENT, DIFFERENT_DRINK, LESS = 4.0, 2.0, 12.0
SITTING, GRAM, HEAVY = 0.25, 0.004, 0.05
NEAR_ZERO = {PROTEIN: 0.3, FAT: 0.6, FIBRE: 1.0}
COIN = 0.3

#: From so many hours on no flavour holds more than this share of the aim, and something is not sweet.
VARIED_FROM, FLAVOUR_MOST, SWEET_MOST = 3.0, 0.4, 0.5
#: From then on bread, rice, potato or banana comes once in so many hours.
HOURS_A_PLAIN = 1.5
#: From so many hours on something salty comes every three hours.
SALTY_FROM = 4.0
#: On a day of so many hours one flavour holds less, and one drink is not all.
LONG_DAY, FLAVOUR_LONG = 6.0, 0.2
SITTINGS_AN_HOUR = 3.5
#: Over those hours no more than this share of the aim is drunk, but at so many points a gram.
DRUNK_MOST, OVER_DRUNK = 0.7, 0.3
#: Sittings are counted by their size down to this part of an hour's room.
SITTINGS_KNOWN = 5

#: Of what is eaten while something keeps, it is so much at most.
IN_TIME = 0.7


@dataclass(frozen=True, slots=True)
class ClockRoom:
    """What is known of the clock before a session is packed. most_g: carbohydrate in all that has a place in it.

    drunk_g: of what an hour holds, so much is drunk in it. dry: no drink that is filled at home and drunk first.
    """

    most_g: float = math.inf
    drunk_g: float = 0.0
    dry: bool = False


#: Before anything is packed.
NOTHING_KNOWN = ClockRoom()


@dataclass(slots=True)
class Posed:
    """The program and its columns. pieces, bottles: count of each thing and mix. salt: steps in each bottle."""

    model: Model
    need: Need
    things: list[Eaten]
    mixes: list[Mix]
    pieces: list[int]
    bottles: list[int]
    salt: int | None
    salt_mg: float


def pose(
    need: Need,
    things: list[Eaten],
    mixes: list[Mix],
    salt_mg_per_g: float,
    room: Mapping[str, float],
    kins: Mapping[str, tuple[str, float]],
    clock: ClockRoom = NOTHING_KNOWN,
) -> Posed:
    """The program. clock: what its hours have room for. salt_mg_per_g: sodium in a gram of salt, 0 where there is none.
    room: kin -> share of a day's most that is left for the session; kins: food -> (kin, grams that are a day's most).
    """
    model = Model()
    pieces = [model.column(0, _most_of(thing, need), whole=True, cost=_cost(thing)) for thing in things]
    bottles = [model.column(0, need.bottles, whole=True, cost=COIN * (mix.price or 0.0)) for mix in mixes]
    salt = None
    if need.bottles and salt_mg_per_g:
        most = SODIUM_CEILING * need.fill_ml / 1000.0 / (SALT_STEP_G * salt_mg_per_g)
        salt = model.column(0, int(most + 1e-9), whole=True, cost=0.05)
    posed = Posed(model, need, things, mixes, pieces, bottles, salt, SALT_STEP_G * salt_mg_per_g)
    _carbohydrate(posed, clock.most_g)
    _sittings(posed, clock)
    _limits(posed)
    _sodium(posed)
    _bottles(posed, clock)
    _variety(posed)
    _room(posed, room, kins)
    return posed


def _most_of(thing: Eaten, need: Need) -> int:
    hours = need.hours if thing.thing.hours_out is None else min(need.hours, thing.thing.hours_out)
    return max(1, int(thing.thing.most_per_hour * hours + 1e-9))


def _cost(thing: Eaten) -> float:
    near = sum(points * thing.holds[key] for key, points in NEAR_ZERO.items())
    return SITTING * thing.thing.bites + GRAM * thing.weight + near + COIN * (thing.price or 0.0)


def _terms(posed: Posed, key: str) -> list[Term]:
    """Everything that holds a nutrient."""
    found = [(column, thing.holds[key]) for column, thing in zip(posed.pieces, posed.things, strict=True)]
    found += [(column, mix.holds.get(key, 0.0)) for column, mix in zip(posed.bottles, posed.mixes, strict=True)]
    return [(column, amount) for column, amount in found if amount]


def _add(posed: Posed, name: str, terms: list[Term], least: float | None = None, most: float | None = None) -> None:
    if terms:
        posed.model.rows.append(Row(name, tuple(terms), least=least, most=most))


def _carbohydrate(posed: Posed, most_g: float) -> None:
    need, model = posed.need, posed.model
    terms, hours = _terms(posed, CARBOHYDRATE), need.hours
    under, over = model.column(cost=UNDER), model.column(cost=OVER)
    little, more = (model.column(0.0, FREE * need.aim * hours, cost=FREE_COST) for _ in range(2))
    short = model.column(cost=SHORT)
    near = [(under, 1.0), (little, 1.0), (over, -1.0), (more, -1.0)]
    most = min(need.most * hours, most_g)
    aim = min(need.aim * hours, most)
    _add(posed, "aim", [*terms, *near], aim, aim)
    _add(posed, "least", [*terms, (short, 1.0)], need.least * hours)
    _add(posed, "most", terms, most=most)
    _add(posed, "glucose", _terms(posed, GLUCOSE), most=GLUCOSE_MOST * hours)
    _add(posed, "fructose", _terms(posed, FRUCTOSE), most=FRUCTOSE_MOST * hours)


def _sittings(posed: Posed, clock: ClockRoom) -> None:
    """Of sittings that are more than a half, a third ... of an hour's room, one, two ... go into an hour."""
    need = posed.need
    room, hours = need.most - clock.drunk_g, hours_to_eat(need.session.minutes)
    if room <= 0:
        return
    if clock.drunk_g > 0:
        drunk = [(c, m.holds.get(CARBOHYDRATE, 0.0)) for c, m in zip(posed.bottles, posed.mixes, strict=True)]
        _add(posed, "drunk", drunk, most=clock.drunk_g * need.hours)
    for many in range(1, SITTINGS_KNOWN):
        large = [(c, float(t.thing.bites)) for c, t in zip(posed.pieces, posed.things, strict=True)
                 if t.sitting_g > room / (many + 1) + 1e-6]  # fmt: skip
        _add(posed, f"{many} an hour", large, most=float(many * hours))
    too_large = [(c, 1.0) for c, t in zip(posed.pieces, posed.things, strict=True) if t.sitting_g > room + 1e-6]
    _add(posed, "none an hour", too_large, most=0.0)


def _limits(posed: Posed) -> None:
    need, hours = posed.need, posed.need.hours
    limits = ((FIBRE, DURING_FIBRE_MOST), (FAT, DURING_FAT_MOST), (PROTEIN, DURING_PROTEIN_MOST))
    for key, most in limits:
        _add(posed, key, _terms(posed, key), most=most * hours)
    for key, own in own_mosts(need.case, need.day).items():
        if key in (*NEAR_ZERO, ENERGY, CARBOHYDRATE):
            _add(posed, f"your own {key}", _terms(posed, key), most=own)
    if need.fluid is not None:
        _add(posed, "water", _terms(posed, WATER), most=1000.0 * need.fluid.ceiling * hours)
    short = [(c, t) for c, t in zip(posed.pieces, posed.things, strict=True) if t.thing.hours_out is not None]
    for limit in sorted({thing.thing.hours_out or 0.0 for _, thing in short}):
        # What does not keep is eaten within its hours, at the pace that the drink leaves.
        share = IN_TIME * min(limit, hours) / hours
        terms = [(c, t.holds[CARBOHYDRATE]) for c, t in short if (t.thing.hours_out or 0.0) <= limit]
        drunk = zip(posed.bottles, posed.mixes, strict=True)
        terms += [(c, share * mix.holds.get(CARBOHYDRATE, 0.0)) for c, mix in drunk]
        _add(posed, f"within {limit:g} h", terms, most=share * max(need.aim, 1.0) * hours)
    sittings = [(c, float(t.thing.bites)) for c, t in zip(posed.pieces, posed.things, strict=True)]
    _add(posed, "sittings", sittings, most=max(2.0, SITTINGS_AN_HOUR * hours))
    heavy = posed.model.column(cost=HEAVY)
    weights = [(c, t.weight) for c, t in zip(posed.pieces, posed.things, strict=True)]
    _add(posed, "pockets", [*weights, (heavy, -1.0)] if weights else [], most=need.pockets_g)


def _sodium(posed: Posed) -> None:
    need, sodium = posed.need, posed.need.sodium
    terms = _terms(posed, SODIUM)
    if posed.salt is not None:
        terms.append((posed.salt, need.bottles * posed.salt_mg))
    if sodium is None or not need.litres:
        return
    ceiling = sodium.ceiling * need.litres
    _add(posed, "sodium ceiling", terms, most=ceiling)
    if sodium.asked:
        low, high = posed.model.column(cost=SALT_OFF), posed.model.column(cost=SALT_OFF)
        off, more = posed.model.column(cost=SALT_OFF / 100), posed.model.column(cost=SALT_OFF / 100)
        _add(posed, "sodium low", [*terms, (low, 1.0)], sodium.least * need.litres)
        _add(posed, "sodium high", [*terms, (high, -1.0)], most=sodium.most * need.litres)
        aim = sodium.aim * need.litres
        _add(posed, "sodium aim", [*terms, (off, 1.0), (more, -1.0)], aim, aim)


def _bottles(posed: Posed, clock: ClockRoom) -> None:
    need, model = posed.need, posed.model
    if not posed.mixes:
        return
    _add(posed, "bottles", [(column, 1.0) for column in posed.bottles], need.bottles, need.bottles)
    wet = [(c, 1.0) for c, mix in zip(posed.bottles, posed.mixes, strict=True) if mix.drink and not mix.drink.dry]
    _add(posed, "filled at home", wet, most=0 if clock.dry else need.at_hand)
    used: list[Term] = []
    strengths: dict[str, list[Term]] = defaultdict(list)
    for place, (column, mix) in enumerate(zip(posed.bottles, posed.mixes, strict=True)):
        cost = DIFFERENT_DRINK * (1 + mix.jitter) + LESS * (mix.likes > 0) - DIFFERENT_DRINK * (mix.likes < 0)
        one = model.column(0, 1, whole=True, cost=0.0 if mix.drink is None else cost)
        _add(posed, f"drink {place}", [(column, 1.0), (one, -float(need.bottles))], most=0.0)
        _add(posed, f"drink {place} is there", [(column, 1.0), (one, -1.0)], least=0.0)
        used.append((one, 1.0))
        if mix.drink is not None:
            strengths[mix.drink.id].append((one, 1.0))
    for name, terms in strengths.items():
        _add(posed, f"one strength of {name}", terms, most=1.0)
    if need.hours >= VARIED_FROM and posed.things and need.session.kind != "swim":
        drunk = [(c, m.holds.get(CARBOHYDRATE, 0.0)) for c, m in zip(posed.bottles, posed.mixes, strict=True)]
        over = model.column(cost=OVER_DRUNK)
        _add(posed, "not by drink alone", [*drunk, (over, -1.0)], most=DRUNK_MOST * need.aim * need.hours)
    if need.hours >= LONG_DAY and need.bottles > 2:
        lacking = model.column(cost=LESS)
        _add(posed, "another drink", [*used, (lacking, 1.0)], least=2.0)
    _add(posed, "drinks", used, most=1.0 if need.bottles == 1 else 2.0 if need.bottles < 6 else 3.0)


def _variety(posed: Posed) -> None:
    need, model = posed.need, posed.model
    # Over many hours another thing is welcome.
    different = DIFFERENT / max(1.0, need.hours / 2.0)
    used: list[Term] = []
    by_thing: dict[str, list[Term]] = defaultdict(list)
    for place, (column, thing) in enumerate(zip(posed.pieces, posed.things, strict=True)):
        cost = different * (0.6 + 0.8 * thing.jitter) + LESS * (thing.likes > 0) - 0.5 * different * (thing.likes < 0)
        one = model.column(0, 1, whole=True, cost=cost)
        _add(posed, f"thing {place}", [(column, 1.0), (one, -float(_most_of(thing, need)))], most=0.0)
        used.append((one, 1.0))
        by_thing[thing.thing.id].append((one, 1.0))
    _add(posed, "things", used, most=float(need.things))
    for name, terms in by_thing.items():
        _add(posed, f"one kind of {name}", terms, most=1.0)
    if need.hours < VARIED_FROM:
        return
    whole = need.aim * need.hours
    flavour_most = FLAVOUR_MOST if need.hours < LONG_DAY else FLAVOUR_LONG
    for flavour in sorted({thing.thing.flavour for thing in posed.things}):
        of = [(c, t.holds[CARBOHYDRATE]) for c, t in zip(posed.pieces, posed.things, strict=True)
              if t.thing.flavour == flavour]  # fmt: skip
        _add(posed, f"flavour {flavour}", of, most=max(flavour_most * whole, 60.0))
    sweet = [(c, t.holds[CARBOHYDRATE]) for c, t in zip(posed.pieces, posed.things, strict=True)
             if t.thing.taste == "sweet"]  # fmt: skip
    _add(posed, "sweet", sweet, most=max(SWEET_MOST * whole, 60.0))
    plain = [(c, 1.0) for c, t in zip(posed.pieces, posed.things, strict=True)
             if t.thing.taste in ("salty", "sweet bread", "rice") or t.thing.flavour == "banana"]  # fmt: skip
    if plain and whole:
        lacking = model.column(cost=LESS / 2)
        _add(posed, "not sweet", [*plain, (lacking, 1.0)], least=float(int(need.hours / HOURS_A_PLAIN)))
    salty = [(c, 1.0) for c, t in zip(posed.pieces, posed.things, strict=True) if t.thing.taste == "salty"]
    if need.hours >= SALTY_FROM and salty and whole:
        lacking = model.column(cost=LESS / 2)
        _add(posed, "salty", [*salty, (lacking, 1.0)], least=float(int(need.hours / 3)))


def _room(posed: Posed, room: Mapping[str, float], kins: Mapping[str, tuple[str, float]]) -> None:
    by_kin: dict[str, list[Term]] = defaultdict(list)
    held = [(c, t.grams) for c, t in zip(posed.pieces, posed.things, strict=True)]
    held += [(c, m.grams) for c, m in zip(posed.bottles, posed.mixes, strict=True)]
    for column, grams in held:
        for name, amount in grams.items():
            # Salt goes by what is drunk, not by what a day's meals may hold of it.
            if name != SALT:
                kin, most = kins[name]
                by_kin[kin].append((column, amount / most))
    for kin, terms in sorted(by_kin.items()):
        _add(posed, f"a day's {kin}", terms, most=max(0.0, room.get(kin, 1.0)))
