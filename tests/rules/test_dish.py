"""What a dish is made of: picks, kitchen steps, grams of a part, ratios, foods apart."""

from __future__ import annotations

import pytest

from mealopt.menu.dishes import Ratio
from mealopt.menu.plates import Part, Plate
from mealopt.rules.problem import Problem
from tests.rules import tiny

COVERS = "dish"

OATS = tiny.food("oats", steps=(3, 8))
MILK = tiny.food("milk", steps=(5, 30))
NUTS = tiny.food("nuts", steps=(1, 4))
SEEDS = tiny.food("seeds", steps=(1, 4))
FRUIT = tuple(tiny.food(name, steps=(2, 6)) for name in ("apple", "berries", "cherries"))


def posed(made: Plate) -> Problem:
    return tiny.day((tiny.slot(0),), (made, tiny.simple("other")))


def obeys(made: Plate, **grams: float) -> bool:
    """Whether the dish's columns and rows allow these grams of its foods."""
    try:
        return tiny.holds(posed(made), COVERS, {0: (made.dish.id, grams)})
    except tiny.CannotBeSaid:
        return False


def test_amounts_lie_between_a_foods_least_and_most_steps() -> None:
    bowl = tiny.plate("bowl", tiny.part("base", OATS), tiny.part("wet", MILK))
    assert obeys(bowl, oats=30, milk=300)
    assert obeys(bowl, oats=80, milk=50)
    assert not obeys(bowl, oats=20, milk=100)
    assert not obeys(bowl, oats=90, milk=100)


def test_no_amounts_of_what_is_not_served() -> None:
    problem = posed(tiny.plate("bowl", tiny.part("base", OATS, SEEDS), tiny.part("wet", MILK)))
    rows = tiny.rows(problem, COVERS).values()
    (bowl, other) = problem.servings[0]
    values = [0.0] * problem.model.columns
    values[other.served] = 1.0
    assert all(meets(row.activity(values), row.least, row.most) for row in rows)
    for food in bowl.foods:
        for column in (food.more, food.used if food.used != bowl.served else None):
            if column is not None:
                spoilt = list(values)
                spoilt[column] = 1.0
                assert not all(meets(row.activity(spoilt), row.least, row.most) for row in rows), food.choice.name


def meets(activity: float, least: float | None, most: float | None) -> bool:
    return (least is None or activity >= least - 1e-9) and (most is None or activity <= most + 1e-9)


@pytest.mark.parametrize(
    ("pick", "allowed"),
    [((0, 1), {0, 1}), ((1, 1), {1}), ((0, 2), {0, 1, 2}), ((1, 2), {1, 2}), ((2, 2), {2}), ((3, 3), {3})],
)
def test_how_many_foods_of_a_part(pick: tuple[int, int], allowed: set[int]) -> None:
    bowl = tiny.plate("bowl", tiny.part("base", OATS), tiny.part("fruit", *FRUIT, pick=pick, grams=(20, 180)))
    for count in range(4):
        fruit = {food.name: 30.0 for food in FRUIT[:count]}
        assert obeys(bowl, oats=40, **fruit) == (count in allowed), count


def test_one_food_that_may_be_left_out() -> None:
    bowl = tiny.plate("bowl", tiny.part("base", OATS), tiny.part("top", NUTS, pick=(0, 1)))
    assert obeys(bowl, oats=40)
    assert obeys(bowl, oats=40, nuts=10)
    assert not obeys(bowl, oats=40, nuts=50)


@pytest.mark.parametrize(
    ("pick", "grams", "ok"),
    [
        ((1, 2), (60, 0, 0), True),
        ((1, 2), (50, 0, 0), False),
        ((1, 2), (30, 30, 0), True),
        ((1, 2), (60, 20, 0), True),
        ((1, 2), (60, 30, 0), False),
        ((0, 2), (0, 0, 0), True),
        ((0, 2), (40, 0, 0), False),
        ((0, 2), (20, 30, 0), False),
        ((0, 2), (20, 40, 0), True),
        ((0, 2), (60, 30, 0), False),
        ((1, 3), (20, 20, 20), True),
        ((1, 3), (30, 30, 30), False),
    ],
)
def test_grams_of_a_whole_part(pick: tuple[int, int], grams: tuple[float, ...], ok: bool) -> None:
    """60 to 80 g in all of what is there; nothing where the part may be left out and is."""
    bowl = tiny.plate("bowl", tiny.part("base", OATS), tiny.part("fruit", *FRUIT, pick=pick, grams=(60, 80)))
    assert obeys(bowl, oats=40, **dict(zip((food.name for food in FRUIT), grams, strict=True))) == ok


def test_the_least_of_a_part_holds_where_one_food_is_left_of_several() -> None:
    """A part of one or two foods whose other foods the eater does not eat still has its grams."""
    bowl = tiny.plate("bowl", Part("fruit", (1, 1), (60, 80), FRUIT[:1]), tiny.part("base", OATS))
    assert obeys(bowl, oats=40, apple=60)
    assert not obeys(bowl, oats=40, apple=50)


def ratio(*parts: Part, least: float = 0.0, most: float = 100.0) -> Plate:
    """A bowl in which the first part is so many times the second."""
    return tiny.plate("bowl", *parts, ratio=(Ratio(of=parts[0].role, to=parts[1].role, least=least, most=most),))


@pytest.mark.parametrize(("milk", "ok"), [(70, False), (80, True), (160, True), (170, False)])
def test_a_ratio_between_two_parts(milk: float, ok: bool) -> None:
    bowl = ratio(tiny.part("wet", MILK), tiny.part("base", OATS), least=2, most=4)
    assert obeys(bowl, oats=40, milk=milk) == ok


def test_a_ratio_counts_every_food_of_a_part() -> None:
    bowl = ratio(tiny.part("top", NUTS, SEEDS, pick=(1, 2), grams=(10, 80)), tiny.part("base", OATS), least=0.5, most=1)
    assert obeys(bowl, oats=60, nuts=30)
    assert obeys(bowl, oats=60, nuts=20, seeds=40)
    assert not obeys(bowl, oats=60, nuts=10, seeds=10)
    assert not obeys(bowl, oats=60, nuts=30, seeds=40)


@pytest.mark.parametrize("many", [1, 2])
def test_a_ratio_asks_nothing_of_a_divided_part_that_is_left_out(many: int) -> None:
    top = tiny.part("top", NUTS, SEEDS, pick=(0, many), grams=(10, 40))
    bowl = ratio(top, tiny.part("base", OATS), least=0.25, most=0.5)
    assert obeys(bowl, oats=80)
    assert obeys(bowl, oats=80, nuts=20)
    assert obeys(bowl, oats=80, seeds=40)
    assert not obeys(bowl, oats=80, nuts=10)
    assert not obeys(bowl, oats=40, nuts=30)
    if many == 2:
        assert obeys(bowl, oats=80, nuts=10, seeds=10)
        assert not obeys(bowl, oats=60, nuts=20, seeds=20)


@pytest.mark.parametrize("many", [1, 2])
def test_a_ratio_asks_nothing_where_the_part_divided_by_is_left_out(many: int) -> None:
    base = tiny.part("base", OATS, tiny.food("bran", steps=(3, 8)), pick=(0, many), grams=(30, 80))
    bowl = ratio(tiny.part("wet", MILK), base, least=2, most=4)
    assert obeys(bowl, milk=300)
    assert obeys(bowl, milk=50)
    assert obeys(bowl, milk=160, oats=40)
    assert not obeys(bowl, milk=160, oats=30)
    assert not obeys(bowl, milk=70, bran=40)
    if many == 2:
        assert obeys(bowl, milk=160, oats=30, bran=30)
        assert not obeys(bowl, milk=110, oats=30, bran=30)


@pytest.mark.parametrize("first", [(0, 1), (0, 2)])
@pytest.mark.parametrize("second", [(0, 1), (0, 2)])
def test_a_ratio_between_two_parts_that_may_be_left_out(first: tuple[int, int], second: tuple[int, int]) -> None:
    bowl = tiny.plate(
        "bowl",
        tiny.part("top", NUTS, SEEDS, pick=first, grams=(10, 40)),
        tiny.part("fruit", *FRUIT, pick=second, grams=(20, 60)),
        tiny.part("base", OATS),
        ratio=(Ratio(of="top", to="fruit", least=0.5, most=1),),
    )
    assert obeys(bowl, oats=40)
    assert obeys(bowl, oats=40, nuts=40)
    assert obeys(bowl, oats=40, berries=60)
    assert obeys(bowl, oats=40, nuts=30, berries=60)
    assert not obeys(bowl, oats=40, nuts=20, berries=60)
    assert not obeys(bowl, oats=40, nuts=40, berries=20)


def test_a_ratio_to_a_part_that_the_plate_does_not_have() -> None:
    """The eater eats none of the toppings: the plate comes without them, and without their ratio."""
    made = ratio(tiny.part("top", NUTS), tiny.part("base", OATS), least=0.5, most=1)
    assert obeys(Plate(made.dish, made.parts[1:]), oats=40)


def test_foods_apart() -> None:
    bowl = tiny.plate(
        "bowl",
        tiny.part("base", OATS),
        tiny.part("fruit", *FRUIT, pick=(0, 3), grams=(20, 180)),
        tiny.part("top", NUTS, pick=(0, 1)),
        apart=(("apple", "nuts"), ("berries", "cherries")),
    )
    assert obeys(bowl, oats=40, apple=20, berries=20)
    assert obeys(bowl, oats=40, nuts=20, cherries=20)
    assert not obeys(bowl, oats=40, apple=20, nuts=20)
    assert not obeys(bowl, oats=40, berries=20, cherries=20)


def test_a_food_apart_from_one_that_is_always_there() -> None:
    bowl = tiny.plate(
        "bowl", tiny.part("base", OATS), tiny.part("top", NUTS, SEEDS, pick=(0, 1)), apart=(("oats", "nuts"),)
    )
    assert obeys(bowl, oats=40)
    assert obeys(bowl, oats=40, seeds=20)
    assert not obeys(bowl, oats=40, nuts=20)
