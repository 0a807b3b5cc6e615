"""What a dish is made of: how many foods of a part, how much of them, and ratios between parts."""

from __future__ import annotations

from collections.abc import Iterator

from mealopt.menu.dishes import Ratio
from mealopt.milp.model import Row, Term
from mealopt.rules.problem import PartColumns, Problem, Serving
from mealopt.rules.registry import family


@family("dish", unit="g")
def components(problem: Problem) -> Iterator[Row]:
    """Keep every plate within its dish (shape: a few rows a plate and one a food)."""
    for serving in problem.all_servings:
        name = f"{serving.plate.dish.id}_{serving.slot.index}"
        for number, part in enumerate(serving.parts):
            yield from _amounts(serving, part, f"{name}_{number}")
        by_role = {part.part.role: part for part in serving.parts}
        for number, ratio in enumerate(serving.plate.dish.ratio):
            if ratio.of in by_role and ratio.to in by_role:
                yield from _ratio(serving, ratio, by_role[ratio.of], by_role[ratio.to], f"{name}_ratio_{number}")
        for number, group in enumerate(serving.plate.dish.apart):
            used = [food.used for food in serving.foods if food.choice.name in group]
            if len(used) > 1:
                terms = (*((column, 1.0) for column in used), (serving.served, -1.0))
                yield Row(f"{name}_apart_{number}", terms, most=0.0, says="foods that do not go together")


def _total(part: PartColumns) -> list[Term]:
    return [term for food in part.foods for term in food.amounts()]


def _amounts(serving: Serving, part: PartColumns, name: str) -> Iterator[Row]:
    fewest, most = part.part.pick
    chosen = [food for food in part.foods if food.used != serving.served]
    if chosen:
        count = [(food.used, 1.0) for food in chosen]
        if fewest == most:
            yield Row(f"{name}_pick", (*count, (serving.served, -float(most))), 0.0, 0.0)
        else:
            yield Row(f"{name}_pick_most", (*count, (serving.served, -float(most))), most=0.0)
            if fewest:
                yield Row(f"{name}_pick_least", (*count, (serving.served, -float(fewest))), least=0.0)
        if most > 1:
            for place, food in enumerate(chosen):
                yield Row(f"{name}_used_{place}", ((food.used, 1.0), (serving.served, -1.0)), most=0.0)
    for place, food in enumerate(part.foods):
        if food.more is not None:
            span = float(food.choice.steps[1] - food.choice.steps[0])
            yield Row(f"{name}_steps_{place}", ((food.more, 1.0), (food.used, -span)), most=0.0)
    yield from _part_total(serving, part, name)


def _part_total(serving: Serving, part: PartColumns, name: str) -> Iterator[Row]:
    """Grams of the whole part, where its foods' own steps do not hold them already."""
    least, most = part.part.grams
    total = _total(part)
    if sum(sorted(food.choice.most_g for food in part.foods)[-part.part.pick[1] :]) > most + 1e-9:
        yield Row(f"{name}_most", (*total, (serving.served, -most)), most=0.0)
    if all(food.choice.least_g >= least - 1e-9 for food in part.foods):
        return
    if part.part.pick[0] > 0:
        yield Row(f"{name}_least", (*total, (serving.served, -least)), least=0.0)
    else:
        for place, food in enumerate(part.foods):
            if food.choice.least_g < least:
                yield Row(f"{name}_least_{place}", (*total, (food.used, -least)), least=0.0)


def _presences(part: PartColumns) -> list[list[Term]]:
    """For each row that a ratio needs: terms that are 1 where the part is there. Empty terms: it always is."""
    if part.part.pick[0] > 0:
        return [[]]
    if part.part.pick[1] == 1:
        return [[(food.used, 1.0) for food in part.foods]]
    return [[(food.used, 1.0)] for food in part.foods]


def _ratio(serving: Serving, ratio: Ratio, of: PartColumns, to: PartColumns, name: str) -> Iterator[Row]:
    """Hold of / to between least and most where both are there.

    An optional part that is not there holds no grams: "at most" then holds by itself, unless it is the part that is
    divided by; that row, and "at least" where the divided part is not there, are eased by the most there could be.
    """
    grams_of, grams_to = _total(of), _total(to)
    says = f"{serving.plate.dish.id}: {ratio.of} {ratio.least:g} to {ratio.most:g} times {ratio.to}"
    upper = [*grams_of, *((column, -ratio.most * grams) for column, grams in grams_to)]
    for number, here in enumerate(_presences(to)):
        eased = _eased(serving, here, -_most(of))
        yield Row(f"{name}_most_{number}", (*upper, *eased), most=0.0, says=says)
    if ratio.least <= 0:
        return
    lower = [*grams_of, *((column, -ratio.least * grams) for column, grams in grams_to)]
    for number, here in enumerate(_presences(of)):
        eased = _eased(serving, here, ratio.least * _most(to))
        yield Row(f"{name}_least_{number}", (*lower, *eased), least=0.0, says=says)


def _eased(serving: Serving, here: list[Term], slack: float) -> list[Term]:
    """Terms that are the slack where the plate is served but the part is not there, and 0 where it is."""
    return [(serving.served, slack), *((column, -slack * one) for column, one in here)] if here else []


def _most(part: PartColumns) -> float:
    """The most grams that the part may hold."""
    foods = sum(sorted(food.choice.most_g for food in part.foods)[-part.part.pick[1] :])
    return min(foods, part.part.grams[1])
