"""The same thing not again and again in one day."""

from __future__ import annotations

import pytest

from mealopt.core.bands import Band
from mealopt.core.nutrients import ENERGY
from mealopt.rules.problem import Problem
from mealopt.rules.repeats import day_scale
from tests.rules import tiny

COVERS = "no repeats"


def days(food: tiny.Choice, meals: int, kind: str = "snack", aim: float | None = None) -> Problem:
    """A day of five meals, each a plate of a kind of its own with this food or with another one."""
    slots = tuple(tiny.slot(index, kind if index == 0 else "snack") for index in range(5))
    plates = tuple(
        (tiny.plate(f"p{index}", tiny.part("all", food, tiny.food(f"filler {index}")), kind=f"kind {index}"),)
        for index in range(5)
    )
    assert meals <= 5
    return tiny.day(slots, *plates, bands={ENERGY: Band(aim=aim)} if aim else None)


def eaten(name: str, meals: int, grams: float = 10.0) -> tiny.Eaten:
    return {index: (f"p{index}", {name if index < meals else f"filler {index}": grams}) for index in range(5)}


@pytest.mark.parametrize(("meals", "ok"), [(0, True), (1, True), (2, True), (3, False)])
def test_no_food_in_a_third_meal(meals: int, ok: bool) -> None:
    assert tiny.holds(days(tiny.food("rice"), meals), COVERS, eaten("rice", meals)) == ok


@pytest.mark.parametrize(("meals", "ok"), [(3, True), (4, True), (5, False)])
def test_seasonings_in_no_fifth(meals: int, ok: bool) -> None:
    assert tiny.holds(days(tiny.food("pepper", "seasoning"), meals), COVERS, eaten("pepper", meals)) == ok


def test_what_is_eaten_in_a_session_is_no_repeat() -> None:
    problem = days(tiny.food("rice"), 3, kind="during")
    assert tiny.holds(problem, COVERS, eaten("rice", 3))


def test_one_dish_of_a_kind() -> None:
    first, second = (tiny.plate(name, tiny.part("all", tiny.food(name)), kind="curry") for name in ("red", "green"))
    problem = tiny.day((tiny.slot(0), tiny.slot(1)), (first, tiny.simple("other")), (second,))
    assert tiny.holds(problem, COVERS, {0: ("other", {"other": 10}), 1: ("green", {"green": 10})})
    assert not tiny.holds(problem, COVERS, {0: ("red", {"red": 10}), 1: ("green", {"green": 10})})


@pytest.mark.parametrize(
    ("aim", "grams", "ok"),
    [(None, 160, True), (None, 170, False), (2800.0, 170, False), (4200.0, 260, True), (4200.0, 270, False),
     (9000.0, 360, True), (9000.0, 370, False)],
)  # fmt: skip
def test_no_more_of_a_kin_than_a_day_takes(aim: float | None, grams: float, ok: bool) -> None:
    """20 g of 100 and 160 g of 200 are the whole of the kin's most; a big day may hold up to twice as much."""
    first = tiny.food("cashews", kin="nuts", most_day_g=100.0, steps=(1, 100))
    second = tiny.food("walnuts", kin="nuts", most_day_g=200.0, steps=(1, 100))
    plates = tuple((tiny.plate(one.name, tiny.part("all", one)),) for one in (first, second))
    problem = tiny.day((tiny.slot(0), tiny.slot(1)), *plates, bands={ENERGY: Band(aim=aim)} if aim else None)
    eaten = {0: ("cashews", {"cashews": 20.0}), 1: ("walnuts", {"walnuts": grams})}
    assert tiny.holds(problem, COVERS, eaten) == ok


def test_how_a_big_day_grows() -> None:
    def scale(aim: float) -> float:
        return day_scale(tiny.day((), bands={ENERGY: Band(aim=aim)}))

    assert [scale(aim) for aim in (1800.0, 2800.0, 4200.0, 5600.0, 9000.0)] == [1.0, 1.0, 1.5, 2.0, 2.0]
    assert day_scale(tiny.day(())) == 1.0


@pytest.mark.parametrize(("meals", "ok"), [(2, True), (3, False)])
def test_no_kin_in_a_third_meal_of_an_ordinary_day(meals: int, ok: bool) -> None:
    """White, brown and wild rice are rice: two meals of it, not three."""
    slots = tuple(tiny.slot(index, "snack") for index in range(4))
    plates = tuple(
        (tiny.simple(f"rice_{index}", kin="rice"), tiny.simple(f"other_{index}")) for index in range(len(slots))
    )
    problem = tiny.day(slots, *plates)
    names = [f"rice_{index}" if index < meals else f"other_{index}" for index in range(len(slots))]
    assert tiny.holds(problem, COVERS, {index: (name, {name: 10.0}) for index, name in enumerate(names)}) == ok


@pytest.mark.parametrize(("kind", "ok"), [("before", True), ("snack", False)])
def test_bread_before_a_session_is_no_repeat(kind: str, ok: bool) -> None:
    """What settles before a session may be bread although two other meals hold some; a snack may not."""
    bread = tiny.food("bread", "session_food")
    assert tiny.holds(days(bread, 3, kind=kind), COVERS, eaten("bread", 3)) == ok
    slots = tuple(tiny.slot(index, kind if index == 0 else "snack") for index in range(4))
    plates = tuple((tiny.plate(f"p{index}", tiny.part("all", tiny.food(f"roll {index}", "session_food", kin="bread"))),)
                   for index in range(3))  # fmt: skip
    problem = tiny.day(slots, *plates, (tiny.simple("other"),))
    loaves = {index: (f"p{index}", {f"roll {index}": 10.0}) for index in range(3)}
    assert tiny.holds(problem, COVERS, {**loaves, 3: ("other", {"other": 10.0})}) == ok


@pytest.mark.parametrize(
    ("given", "chosen", "ok"), [(3, 0, True), (3, 1, False), (2, 0, True), (2, 1, False), (1, 1, True)]
)
def test_settled_meals_may_hold_one_kin_in_three_meals_and_chosen_ones_add_nothing(
    given: int, chosen: int, ok: bool
) -> None:
    slots = tuple(
        tiny.slot(index, **({"given": "foods", "settled": index} if index < given else {})) for index in range(5)
    )
    plates = tuple(
        (tiny.simple(f"rice_{index}", kin="rice"), *(() if index < given else (tiny.simple(f"other_{index}"),)))
        for index in range(5)
    )
    names = [f"rice_{index}" if index < given + chosen else f"other_{index}" for index in range(5)]
    eaten = {index: (name, {name: 10.0}) for index, name in enumerate(names)}
    assert tiny.holds(tiny.day(slots, *plates), COVERS, eaten) == ok


def test_a_settled_dish_counts_for_the_kin_that_it_cannot_do_without() -> None:
    pudding = tuple(
        tiny.plate(
            f"p{index}", tiny.part("base", *(tiny.food(f"{name} {index}", kin="rice") for name in ("white", "brown")))
        )
        for index in range(3)
    )
    slots = (*(tiny.slot(index, settled=index) for index in range(3)), tiny.slot(3))
    problem = tiny.day(slots, *((one,) for one in pudding), (tiny.simple("roll", kin="rice"), tiny.simple("other")))
    eaten = {index: (f"p{index}", {f"white {index}": 10.0}) for index in range(3)}
    assert tiny.holds(problem, COVERS, {**eaten, 3: ("other", {"other": 10.0})})
    assert not tiny.holds(problem, COVERS, {**eaten, 3: ("roll", {"roll": 10.0})})
