"""A dish is refused only where no plate of it exists: against every plate there could be, one by one."""

from __future__ import annotations

import itertools
import random
from collections.abc import Iterator

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from mealopt.menu.cookable import Measured, measured, why_not
from mealopt.menu.dishes import Component, Dish, Ratio, shipped_menu

FOODS = {
    "grain": Measured(40.0, 2, 6, 1.3),
    "root": Measured(20.0, 4, 12, 0.8),
    "bean": Measured(10.0, 5, 15, 1.2),
    "curd": Measured(31.25, 1, 6, 0.7),
    "leaf": Measured(15.0, 1, 6, 0.2),
    "oil": Measured(2.25, 1, 5, 8.8),
}
NAMES = sorted(FOODS)


@st.composite
def dishes(draw: st.DrawFn) -> Dish:
    """Two or three parts of one to three foods, with ratios, energy and foods apart, sensible or not."""
    parts = []
    for role in ("one", "two", "three")[: draw(st.integers(2, 3))]:
        foods = draw(st.lists(st.sampled_from(NAMES), min_size=1, max_size=3, unique=True))
        most = draw(st.integers(1, min(2, len(foods))))
        low = draw(st.sampled_from([2, 10, 30, 50, 80, 120, 150]))
        high = low + draw(st.sampled_from([5, 20, 60, 150]))
        parts.append(
            Component(role=role, foods=tuple(foods), pick=(draw(st.integers(0, most)), most), grams=(low, high))
        )
    roles = [part.role for part in parts]
    ratios = []
    for of, to in draw(st.lists(st.permutations(roles).map(lambda pair: pair[:2]), max_size=3)):
        least = draw(st.sampled_from([0.0, 0.2, 0.5, 1.0, 2.0]))
        ratios.append(Ratio(of=of, to=to, least=least, most=least + draw(st.sampled_from([0.1, 0.4, 1.0]))))
    listed = sorted({name for part in parts for name in part.foods})
    apart = [tuple(listed[:2])] if len(listed) > 1 and draw(st.booleans()) else []
    least_kcal = draw(st.sampled_from([20, 80, 150, 250, 400, 700]))
    return a_dish(parts, ratios, apart, (least_kcal, least_kcal + draw(st.sampled_from([30, 100, 300]))))


def a_dish(
    parts: list[Component], ratios: list[Ratio], apart: list[tuple[str, ...]], energy: tuple[float, float]
) -> Dish:
    return Dish.model_validate(
        {
            "id": "made",
            "name": "made",
            "kind": "made",
            "kitchen": "made",
            "slots": ("lunch",),
            "heat": "none",
            "served": "cold",
            "minutes": 1,
            "fridge_days": 0,
            "hours_out": 1,
            "energy": energy,
            "method": ("Make.",),
            "component": tuple(part.model_dump() for part in parts),
            "ratio": tuple(ratio.model_dump() for ratio in ratios),
            "apart": tuple(apart),
        }
    )


def fillings(part: Component) -> Iterator[dict[str, float]]:
    """Every way to fill a part, left out included where it may be."""
    for count in range(part.pick[0], part.pick[1] + 1):
        for names in itertools.combinations(part.foods, count):
            spans = [range(FOODS[name].fewest, FOODS[name].most + 1) for name in names]
            for steps in itertools.product(*spans):
                grams = {name: step * FOODS[name].step for name, step in zip(names, steps, strict=True)}
                if not names or part.grams[0] <= sum(grams.values()) + 1e-9 <= part.grams[1] + 2e-9:
                    yield grams


def can_be_cooked(dish: Dish, tries: int = 60_000) -> bool | None:
    """Whether any plate meets the dish's own words; None where there are too many to look through."""
    ways = [list(fillings(part)) for part in dish.component]
    total = 1
    for way in ways:
        total *= len(way)
    if total > tries:
        return None
    for plate in itertools.product(*ways):
        by_role = dict(zip(dish.roles, plate, strict=True))
        names = [name for foods in plate for name in foods]
        if any(sum(name in group for name in names) > 1 for group in dish.apart):
            continue
        energy = sum(FOODS[name].kcal * grams for foods in plate for name, grams in foods.items())
        if not dish.energy[0] <= energy <= dish.energy[1]:
            continue
        if all(
            not by_role[ratio.of]
            or not by_role[ratio.to]
            or ratio.least * sum(by_role[ratio.to].values()) - 1e-9
            <= sum(by_role[ratio.of].values())
            <= ratio.most * sum(by_role[ratio.to].values()) + 1e-9
            for ratio in dish.ratio
        ):
            return True
    return False


@settings(max_examples=400, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(dishes())
def test_no_dish_is_refused_that_could_be_cooked(dish: Dish) -> None:
    refused = why_not(dish, FOODS)
    if refused is not None:
        assert can_be_cooked(dish, 200_000) is not True, refused


def test_most_dishes_that_cannot_be_cooked_are_refused() -> None:
    """Of made-up dishes that no plate fits, nine in ten are told so."""
    chance = random.Random(11)
    impossible = told = 0
    while impossible < 120:
        parts = []
        for role in ("one", "two", "three"):
            low = chance.choice([10, 30, 50, 80, 120])
            foods = tuple(chance.sample(NAMES, 2))
            parts.append(Component(role=role, foods=foods, pick=(1, 1), grams=(low, low + chance.choice([10, 60]))))
        least = chance.choice([0.2, 0.5, 1.0, 2.0])
        ratios = [Ratio(of="one", to="two", least=least, most=least + 0.4), Ratio(of="two", to="three", most=1.0)]
        low_kcal = chance.choice([80, 150, 250, 400])
        dish = a_dish(parts, ratios, [], (low_kcal, low_kcal + 60))
        if can_be_cooked(dish) is False:
            impossible += 1
            told += why_not(dish, FOODS) is not None
    assert told >= 0.9 * impossible, (told, impossible)


def test_the_shipped_dishes_pass_and_without_a_food_that_they_need_do_not() -> None:
    menu = shipped_menu()
    foods = measured(menu.pantry)
    assert [dish.id for dish in menu.dishes.values() if why_not(dish, foods)] == []
    without = {name: food for name, food in foods.items() if name != "lentils"}
    assert why_not(menu.dishes["mujaddara"], without) is not None
    assert why_not(menu.dishes["cottage_pie"], without) is None
