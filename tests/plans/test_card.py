"""The order of a day's card: what the day cannot do without stands first where there is little of it."""

from __future__ import annotations

import pulp
import pytest

from bench.cases import CASES, DAY
from bench.whole import read
from mealopt import api
from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FIBRE
from mealopt.menu.fit import fills_stores, price_per_kcal, protein_per_kcal
from mealopt.menu.plates import Plate
from mealopt.plans.day import card as cards
from mealopt.plans.day.pose import PosedDay, pose_day
from tests.plans import cases

#: PuLP 3 tells of its fourth version, which the project does not allow yet.
pytestmark = pytest.mark.filterwarnings("ignore::DeprecationWarning")


def posed(name: str) -> PosedDay:
    """A day of the bench by name."""
    return pose_day(read(next(case for case in CASES if case.name == name)), DAY)


def test_where_few_plates_are_as_rich_in_protein_as_the_day_they_stand_first() -> None:
    day = posed("vegan without soy, at rest")
    assert day.protein_wanted > 0
    few = 0
    for plates in day.card().all:
        rich = [protein_per_kcal(plate) >= day.protein_wanted for plate in plates]
        if sum(rich) <= cards.SCARCE * len(rich):
            few += 1
            assert rich == sorted(rich, reverse=True)
    assert few


def test_elsewhere_the_order_is_drawn(monkeypatch: pytest.MonkeyPatch) -> None:
    """With enough rich plates nothing is put first for its protein, so that days keep their variety."""
    drawn = posed("small rest day").card().all
    monkeypatch.setattr(cards, "SCARCE", 0.0)
    assert posed("small rest day").card().all == drawn
    monkeypatch.setattr(cards, "SCARCE", 1.0)
    assert posed("small rest day").card().all != drawn


def test_where_a_budget_is_set_plates_that_it_pays_for_stand_first_and_the_cheaper_of_alike_foods_is_taken() -> None:
    """Half of what such a day costs: in no slot does a plate that fits as well and is liked as much stand before one
    within the budget, and no food of a choice could be had cheaper among those alike."""
    plain, tight = cases.posed(meals_per_day=4), cases.posed(meals_per_day=4, budget_per_day=5.0)
    money = 5.0 / (tight.bands[ENERGY].aim or 1.0)
    for before, after in zip(plain.card().all, tight.card().all, strict=True):
        firsts = [
            sum(price_per_kcal(plate) <= money for plate in plates[: len(plates) // 4]) for plates in (before, after)
        ]
        assert firsts[1] >= firsts[0]
    first = [plates[0] for plates in tight.card().all]
    assert all(price_per_kcal(plate) <= money for plate in first)


def test_the_least_that_a_plate_can_cost_is_what_a_linear_program_finds() -> None:
    """With PuLP and CBC, as a linear-fractional program made linear (Charnes and Cooper 1962, from memory)."""
    for plates in cases.posed(meals_per_day=4).card().all:
        for one in plates[:10]:
            assert price_per_kcal(one) == pytest.approx(cheapest(one), rel=1e-4)


def cheapest(one: Plate) -> float:
    """The least money for one kcal, each part that must be there of the food that is cheapest for its energy."""
    foods = [
        (min(part.choices, key=lambda food: (food.price_per_gram or 0.0) / food.per_gram[ENERGY]), part.grams)
        for part in one.parts
        if part.pick[0] > 0
    ]
    money = [food.price_per_gram or 0.0 for food, _ in foods]
    least = [max(food.least_g, grams[0]) for food, grams in foods]
    most = [max(food.least_g, min(food.most_g, grams[1])) for food, grams in foods]
    kcal = [food.per_gram[ENERGY] for food, _ in foods]
    problem = pulp.LpProblem("cheapest", pulp.LpMinimize)
    grams = [pulp.LpVariable(f"grams_{n}", 0.0) for n in range(len(foods))]
    share = pulp.LpVariable("share", 0.0)
    problem += pulp.lpDot(money, grams)
    problem += pulp.lpDot(kcal, grams) == 1.0
    for n, gram in enumerate(grams):
        problem += gram >= least[n] * share
        problem += gram <= most[n] * share
    problem.solve(pulp.PULP_CBC_CMD(msg=False))
    return float(pulp.value(problem.objective))


def test_on_the_eve_of_a_long_event_plates_that_fill_the_stores_with_little_fibre_stand_first() -> None:
    """Each that stands behind cannot, by the linear program, reach the day's carbohydrate and its fibre at once."""
    day = pose_day(api.read_case("examples/race_week.toml"), "fri")
    energy = day.bands[ENERGY].aim or 1.0
    starch, fibre = (day.bands[CARBOHYDRATE].least or 0.0) / energy, (day.bands[FIBRE].most or 0.0) / energy
    assert starch * energy >= 10.0 * day.case.athlete.mass_kg
    for plates in day.card().all:
        fills = [fills_stores(plate, starch, fibre) for plate in plates]
        liked = [bool(day.wishes.prefer & {food.name for part in one.parts for food in part.choices}) for one in plates]
        assert sum(fills) >= 5
        usual = [found for found, first in zip(fills, liked, strict=True) if not first]
        assert usual[: sum(usual) // 2] == [True] * (sum(usual) // 2)
        for one, found in list(zip(plates, fills, strict=True))[:40:4]:
            assert found or not _can_fill(one, starch, fibre)


def _can_fill(one: Plate, starch: float, fibre: float) -> bool:
    """Whether one food a part, of whatever grams it may have, keeps to both shares, by PuLP: foods of one part are
    mixed at will, so this says yes more often than a cook would."""
    problem = pulp.LpProblem("fills", pulp.LpMinimize)
    held: dict[str, list[tuple[float, pulp.LpVariable]]] = {ENERGY: [], CARBOHYDRATE: [], FIBRE: []}
    for m, part in enumerate(one.parts):
        grams = [pulp.LpVariable(f"grams_{m}_{n}", 0.0) for n in range(len(part.choices))]
        most = max(max(food.least_g, min(food.most_g, part.grams[1])) for food in part.choices)
        problem += pulp.lpSum(grams) <= most
        problem += pulp.lpSum(grams) >= (part.grams[0] if part.pick[0] > 0 else 0.0)
        for key, terms in held.items():
            terms.extend((food.per_gram.get(key, 0.0), gram) for food, gram in zip(part.choices, grams, strict=True))
    kcal, carbohydrate, roughage = (pulp.lpSum(per * gram for per, gram in terms) for terms in held.values())
    problem += carbohydrate >= starch * kcal
    problem += roughage <= fibre * kcal
    problem += kcal >= 1.0
    return bool(problem.solve(pulp.PULP_CBC_CMD(msg=False)) == 1)
