"""What this athlete may carry: things to eat, and drinks for the bottles, each with what one of it holds."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise, product

from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, FIBRE, PROTEIN, SODIUM
from mealopt.menu.carried import Carried, Drink, Thing, shipped_carried
from mealopt.menu.plates import Choice, Larder, draw
from mealopt.plans.fuel.need import Need, bottle_edges
from mealopt.plans.words import kitchen_measure
from mealopt.table.extra import Extra, shipped_extra, single_sugars
from mealopt.targets.session_coefficients import DRINK_LEAST

WATER = "water_g"
GLUCOSE, FRUCTOSE = "glucose", "fructose"
SALT = "salt"

#: Salt goes into bottles in steps of so many grams: half a pinch, a pinch, an eighth of a teaspoon ...
SALT_STEP_G = 0.25

#: A drink that is mixed from juice or lemonade is at most this share of it.
JUICE_MOST = 0.7

#: A sitting that is more than this share of an hour's most is eaten in smaller ones.
SITTING_OF_HOUR = 0.6

#: What must be known of a food before it stands in a session.
KNOWN = (ENERGY, CARBOHYDRATE, FIBRE, FAT)


@dataclass(frozen=True, slots=True)
class Eaten:
    """One thing as this athlete may have it. grams: food -> grams in one; holds: what one holds, single sugars too.

    likes: -1 preferred, 1 rather not, 0 otherwise; jitter: 0 to 1, its place in this athlete's order.
    """

    thing: Thing
    one: str
    many: str
    bite: str
    grams: dict[str, float]
    holds: dict[str, float]
    price: float | None
    likes: int
    jitter: float

    @property
    def weight(self) -> float:
        """Grams of one."""
        return sum(self.grams.values())

    @property
    def sitting_g(self) -> float:
        """Carbohydrate that is eaten of it in one sitting, g."""
        return self.holds[CARBOHYDRATE] / max(1, self.thing.bites)


@dataclass(frozen=True, slots=True)
class Mix:
    """One way to fill a bottle, salt left out: food -> grams, in a bottle of the session's filling."""

    drink: Drink | None
    says: str
    grams: dict[str, float]
    holds: dict[str, float]
    percent: float
    price: float | None
    likes: int
    jitter: float


def things_for(need: Need, larder: Larder, seed: str, carried: Carried | None = None) -> list[Eaten]:
    """Everything that may be eaten in the session, own foods for sessions included."""
    found = []
    for thing in (carried or shipped_carried()).thing:
        if need.session.kind not in thing.kinds or thing.id in larder.filter.never:
            continue
        if thing.salt_g and larder.choice(SALT) is None:
            continue
        fillings = [[choice for name in part.of if (choice := _known(name, larder))] for part in thing.foods]
        ways = []
        for foods in product(*fillings):
            portions = [(food, part.steps) for food, part in zip(foods, thing.foods, strict=True)]
            ways.append(_in_bites(_eaten(thing, portions, larder, seed), portions, need, larder, seed))
        # Jam or honey makes no odds to the numbers: one way to make a thing is enough, the one that is liked best.
        found += sorted(ways, key=lambda way: (way.likes, way.jitter))[:1]
    return [*found, *_own(need, larder, seed)]


def _in_bites(eaten: Eaten, portions: list[tuple[Choice, int]], need: Need, larder: Larder, seed: str) -> Eaten:
    """The thing in sittings that an hour has room for."""
    thing = eaten.thing
    if eaten.sitting_g <= SITTING_OF_HOUR * need.most:
        return eaten
    return _eaten(thing.in_small_bites(), portions, larder, seed)


def mixes_for(need: Need, larder: Larder, seed: str, carried: Carried | None = None) -> list[Mix]:
    """Every way to fill a bottle of the session: plain water first, then drinks within their strength."""
    plain = Mix(None, "plain water", {}, {WATER: float(need.fill_ml)}, 0.0, 0.0, 0, 0.0)
    if not need.bottles:
        return []
    found = [plain]
    for drink in (carried or shipped_carried()).drink:
        foods = [choice for name in drink.parts if (choice := _known(name, larder))]
        if not foods or foods[0].name != drink.parts[0] or drink.id in larder.filter.never:
            continue
        for steps in _strengths(foods, need):
            found.append(_mix(drink, list(zip(foods, steps, strict=False)), need, larder, seed))
    return found


def _known(name: str, larder: Larder) -> Choice | None:
    """The food where this athlete may have it and all is known of it that a session limits."""
    choice = larder.choice(name)
    if choice is None or any(key not in choice.per_gram for key in KNOWN):
        return None
    return choice


def _strengths(foods: list[Choice], need: Need) -> list[tuple[int, ...]]:
    """Kitchen steps of a drink's foods: weak, middle and strong, within 4 % (or less by wish) and the most."""
    least = min(float(DRINK_LEAST), need.drink_most / 2.0)
    # While a bottle lasts it brings no more than the hour's most: no hour holds the next one's sugar.
    shortest = min(end - begin for begin, end in pairwise(bottle_edges(need.session.minutes, need.bottles)))
    strongest = need.most * shortest / 60.0
    first, wet = foods[0], foods[0].per_gram.get(WATER, 0.0) > 0.5
    second = foods[1] if len(foods) > 1 else None
    found: list[tuple[float, tuple[int, ...]]] = []
    for many in range(1, 60):
        if wet and many * first.step_g > JUICE_MOST * need.fill_ml:
            break
        for more in range(12) if second else range(1):
            grams = many * first.step_g * first.per_gram[CARBOHYDRATE]
            grams += more * second.step_g * second.per_gram[CARBOHYDRATE] if second else 0.0
            percent = 100.0 * grams / need.fill_ml
            if least - 1e-9 <= percent <= need.drink_most + 1e-9 and grams <= strongest + 1e-9:
                found.append((percent, (many, more) if second else (many,)))
    found.sort()
    if not found:
        return []
    places = {0, len(found) // 3, 2 * len(found) // 3, len(found) - 1}
    return [found[place][1] for place in sorted(places)]


def _mix(drink: Drink, portions: list[tuple[Choice, int]], need: Need, larder: Larder, seed: str) -> Mix:
    grams = {food.name: steps * food.step_g for food, steps in portions if steps}
    holds = _holds([(food, steps * food.step_g) for food, steps in portions if steps])
    percent = 100.0 * holds[CARBOHYDRATE] / need.fill_ml
    holds[WATER] = float(need.fill_ml)
    likes = _likes({drink.id, *grams}, larder)
    return Mix(drink, drink.says, grams, holds, percent, _price(portions), likes, _jitter(seed, drink.id))


def _eaten(thing: Thing, portions: list[tuple[Choice, int]], larder: Larder, seed: str) -> Eaten:
    grams: dict[str, float] = {}
    for food, steps in portions:
        grams[food.name] = grams.get(food.name, 0.0) + steps * food.step_g
    holds = _holds([(food, steps * food.step_g) for food, steps in portions])
    salt = larder.choice(SALT) if thing.salt_g else None
    if salt is not None:
        grams[SALT] = thing.salt_g
        holds[SODIUM] += thing.salt_g * salt.per_gram[SODIUM]
    words = [food.says for food, _ in portions]
    one, many, bite = (text.format(*words) for text in (thing.one, thing.many, thing.bite))
    likes = _likes({thing.id, *grams}, larder)
    jitter = _jitter(seed, f"{thing.id}|{'|'.join(words)}")
    return Eaten(thing, one, many, bite, grams, holds, _price(portions), likes, jitter)


def _own(need: Need, larder: Larder, seed: str) -> Iterator[Eaten]:
    """A person's own foods that count as food for sessions: one kitchen measure of each is a thing to eat."""
    for food in larder.menu.pantry.foods.values():
        if not food.source.startswith("own:") or "session_food" not in food.counts or "supplement" in food.counts:
            continue
        choice = _known(food.name, larder)
        if choice is None or choice.per_gram[CARBOHYDRATE] < 0.1:
            continue
        steps = max(1, round(food.measure_g / choice.step_g))
        name = f"{food.measure} of {food.says}"
        measures = kitchen_measure(2.0 * food.measure_g, food.measure, food.measure_g).removeprefix("2 ")
        many = f"{measures} of {food.says}"
        thing = Thing(
            id=f"own {food.name}"[:60], one=name, many=many, bite=f"a {name}", bites=1, taste="sweet",
            flavour=food.name,
            foods=({"of": (food.name,), "steps": min(steps, 20)},),  # type: ignore[arg-type]
            most_per_hour=2.0, minutes=0, packs=f"Carry {food.says} as it comes.", kinds=(need.session.kind,),  # type: ignore[arg-type]
        )  # fmt: skip
        yield _eaten(thing, [(choice, min(steps, 20))], larder, seed)


def _holds(portions: list[tuple[Choice, float]]) -> dict[str, float]:
    extra: dict[str, Extra] = shipped_extra()
    found = dict.fromkeys((ENERGY, CARBOHYDRATE, PROTEIN, FAT, FIBRE, SODIUM, WATER, GLUCOSE, FRUCTOSE), 0.0)
    for food, grams in portions:
        for key in (ENERGY, CARBOHYDRATE, PROTEIN, FAT, FIBRE, SODIUM, WATER):
            found[key] += grams * food.per_gram.get(key, 0.0)
        glucose, fructose = single_sugars(food.name, food.per_gram, extra)
        found[GLUCOSE] += grams * glucose
        found[FRUCTOSE] += grams * fructose
    return found


def _price(portions: list[tuple[Choice, int]]) -> float | None:
    prices = [(food.price_per_gram, steps * food.step_g) for food, steps in portions if steps]
    if any(price is None for price, _ in prices):
        return None
    return sum((price or 0.0) * grams for price, grams in prices)


def _likes(names: set[str], larder: Larder) -> int:
    wishes = larder.filter
    return 1 if names & wishes.less else -1 if names & wishes.prefer else 0


def _jitter(seed: str, name: str) -> float:
    return int.from_bytes(draw(seed, name)[:4], "big") / 2**32
