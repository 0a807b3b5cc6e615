"""Fruit and vegetables of several kinds."""

from __future__ import annotations

from tests.rules import tiny

COVERS = "kinds of fruit and vegetables"


def plates() -> tuple[tuple[tiny.Plate, ...], tuple[tiny.Plate, ...]]:
    salad = tiny.plate(
        "salad",
        tiny.part(
            "greens",
            tiny.food("tomato", "vegetable", kin="tomatoes"),
            tiny.food("leaf", "vegetable"),
            tiny.food("potato"),
            pick=(1, 3),
        ),
    )
    dessert = tiny.plate(
        "dessert",
        tiny.part("fruit", tiny.food("apple", "fruit"), tiny.food("tinned tomato", "vegetable", kin="tomatoes")),
    )
    return (salad,), (dessert,)


def test_so_many_kinds_are_used() -> None:
    problem = tiny.day((tiny.slot(0), tiny.slot(1)), *plates(), produce_kinds=3)
    both = {"tomato": 10, "leaf": 10}
    assert tiny.holds(problem, COVERS, {0: ("salad", both), 1: ("dessert", {"apple": 10})})
    same_kin = {0: ("salad", both), 1: ("dessert", {"tinned tomato": 200})}
    assert not tiny.holds(problem, COVERS, same_kin), "two foods of one kin are one kind"
    uncounted = {0: ("salad", {"tomato": 10, "potato": 200}), 1: ("dessert", {"apple": 10})}
    assert not tiny.holds(problem, COVERS, uncounted), "a potato is neither"


def test_none_wanted_asks_nothing() -> None:
    problem = tiny.day((tiny.slot(0), tiny.slot(1)), *plates(), produce_kinds=0)
    assert tiny.rows(problem, COVERS) == {}
