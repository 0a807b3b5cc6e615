"""The same thing not again and again in one day."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping

from mealopt.core.bands import Band
from mealopt.core.nutrients import ENERGY
from mealopt.core.slots import Slot
from mealopt.menu.plates import Choice
from mealopt.milp.model import Row
from mealopt.rules.problem import FoodColumn, Problem
from mealopt.rules.registry import family

#: In how many meals of a day one food may stand; what merely seasons, dresses or is drunk may stand in more.
MEALS_A_FOOD = 2
MEALS_A_SEASONING = 4

#: In how many meals foods of one kin (white and brown rice) may stand, and on a day of many meals.
MEALS_A_KIN, MEALS_A_KIN_BIG, MANY_MEALS = 2, 3, 7
SEASONINGS = frozenset({"seasoning", "salt", "oil", "sauce", "drink"})

#: Food for sessions (white bread, bananas) is not counted before and in one: there it is what settles.
SESSION_FOOD = "session_food"

#: From this energy on the day's most of a food grows with the day, up to twice (project's assumption).
BIG_DAY_KCAL = 2800.0


def day_scale(problem: Problem) -> float:
    """How many times the day's most of a food a big day may hold: 1 to 2."""
    return scale_of(problem.bands)


def scale_of(bands: Mapping[str, Band]) -> float:
    """The same from the day's bands."""
    band = bands.get(ENERGY)
    aim = band.aim if band is not None and band.aim is not None else BIG_DAY_KCAL
    return min(2.0, max(1.0, aim / BIG_DAY_KCAL))


@family("no repeats", unit="meals")
def repeats(problem: Problem) -> Iterator[Row]:
    """One dish of a kind, and no food in a third meal of the day (shape: one row a kind, two a food or kin).

    What the case itself settles may come more often; nothing is then added to it.
    """
    kinds: dict[str, list[int]] = defaultdict(list)
    settled: Counter[str] = Counter()
    for serving in problem.all_servings:
        if serving.slot.kind != "during":
            kinds[serving.plate.dish.kind].append(serving.served)
            settled[serving.plate.dish.kind] += serving.slot.settled is not None
    for kind, columns in sorted(kinds.items()):
        most = float(max(1, settled[kind]))
        yield Row(f"kind_{kind}", tuple((column, 1.0) for column in columns), most=most, says=f"one {kind} a day")
    yield from _foods(problem)


def _foods(problem: Problem) -> Iterator[Row]:
    given: Counter[str] = Counter()
    by_name: dict[str, list[FoodColumn]] = defaultdict(list)
    by_kin: dict[str, list[FoodColumn]] = defaultdict(list)
    for slot in problem.slots:
        for food in problem.foods([slot]):
            by_kin[food.choice.kin].append(food)
            if not _apart(slot, food.choice):
                by_name[food.choice.name].append(food)
                given[food.choice.name] += bool(slot.given)
    for name, foods in sorted(by_name.items()):
        usual = MEALS_A_SEASONING if foods[0].choice.counts & SEASONINGS else MEALS_A_FOOD
        most = max(usual, given[name])
        terms = tuple((food.used, 1.0) for food in foods)
        if len(problem.slots) > most:
            yield Row(f"meals_{name}", terms, most=float(most), says=f"{name} in at most {most} meals of a day")
    yield from _kins(problem, by_kin)
    scale = day_scale(problem)
    yield from _doses(problem)
    for kin, foods in sorted(by_kin.items()):
        grams = tuple(term for food in foods for term in food.amounts(1.0 / food.choice.most_day_g))
        yield Row(f"day_{kin}", grams, most=scale, says=f"no more {kin} in a day than makes sense", unit="share")


def _apart(slot: Slot, choice: Choice) -> bool:
    """Whether a food does not count as come again in this meal."""
    return slot.kind == "during" or (slot.kind == "before" and SESSION_FOOD in choice.counts)


def _doses(problem: Problem) -> Iterator[Row]:
    """A supplement's most of a day holds on big days too, in sessions too."""
    by_name: dict[str, list[FoodColumn]] = defaultdict(list)
    for food in problem.foods(problem.slots):
        if "supplement" in food.choice.counts:
            by_name[food.choice.name].append(food)
    for name, foods in sorted(by_name.items()):
        grams = tuple(term for food in foods for term in food.amounts(1.0 / food.choice.most_day_g))
        yield Row(f"dose_{name}", grams, most=1.0, says=f"no more {name} in a day than its label says", unit="share")


def _settled_kins(problem: Problem) -> Counter[str]:
    """How many foods of each kin stand in settled or eaten meals, whatever is chosen."""
    held: Counter[str] = Counter()
    for slot in problem.slots:
        if not (slot.given or slot.settled is not None):
            continue
        for serving in problem.servings[slot.index]:
            for part in serving.parts:
                kins = {food.choice.kin for food in part.foods if not _apart(slot, food.choice)}
                if len(kins) == 1 and not any(_apart(slot, food.choice) for food in part.foods):
                    held[kins.pop()] += part.part.pick[0]
    return held


def _kins(problem: Problem, by_kin: dict[str, list[FoodColumn]]) -> Iterator[Row]:
    """No kin of food in too many meals of the day (shape: one row a kin)."""
    apart = {food.used for slot in problem.slots for food in problem.foods([slot]) if _apart(slot, food.choice)}
    meals = sum(slot.kind != "during" for slot in problem.slots)
    usual = MEALS_A_KIN_BIG if meals >= MANY_MEALS else MEALS_A_KIN
    settled = _settled_kins(problem)
    for kin, foods in sorted(by_kin.items()):
        most = max(usual, settled[kin])
        eaten = [food for food in foods if food.used not in apart and not food.choice.counts & SEASONINGS]
        if eaten and meals > most and not any("juice" in food.choice.counts for food in eaten):
            terms = tuple((food.used, 1.0) for food in eaten)
            yield Row(f"meals_kin_{kin}", terms, most=float(most), says=f"{kin} in at most {most} meals of a day")
