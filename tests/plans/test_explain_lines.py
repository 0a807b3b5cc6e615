"""Limits that give way, as lines for the case file: rounded outward, within safety, in place of bands that stand."""

from __future__ import annotations

import tomllib

import pytest

from mealopt.core.nutrients import CARBOHYDRATE, ENERGY, FAT, PROTEIN
from mealopt.errors import BadInput, Refused
from mealopt.people.goal import WISH_KEYS
from mealopt.plans.day.changes import dropped_wishes, more_room, remedies_of
from mealopt.plans.day.eased import WISH_WORDS, Ease, case_with, lines_for, reach
from mealopt.targets.day import day_targets
from tests.plans.cases import ATHLETE, RUN, case, posed


@pytest.mark.parametrize(
    ("ease", "eased", "missing", "giving"),
    [
        (Ease(PROTEIN, None, "least", 152.0, 8.6), 142.0, "protein 8.6 g short",
         "lower the least protein from 152 to 142 g"),
        (Ease(FAT, None, "most", 75.0, 3.0), 79.0, "fat 3 g over", "raise the most fat from 75 to 79 g"),
        (Ease(ENERGY, None, "least", 2450.0, 31.0), 2400.0, "energy 31 kcal short",
         "lower the least energy from 2,450 to 2,400 kcal"),
        (Ease(PROTEIN, 1, "least", 16.2, 1.6), 14.5, "protein at lunch 1.6 g short",
         "lower the least protein at lunch from 16.2 to 14.5 g"),
        (Ease("kitchen_minutes", None, "most", 45.0, 13.0), 59.0, "13 min in the kitchen over",
         "allow 59 min in the kitchen"),
        (Ease("cost", None, "most", 6.0, 1.24), 7.3, "1.24 of money over", "allow 7.30 for the day's food"),
        (Ease("fruit_vegetable_kinds", None, "least", 3.0, 0.4), 2.0, "0.4 kinds of fruit and vegetables short",
         "ask for 2 kinds of fruit and vegetables"),
        (Ease("whole_food_percent", None, "least", 70.0, 4.2), 65.0, "4.2 % of energy from whole foods short",
         "ask for 65 % of energy from whole foods"),
    ],
)  # fmt: skip
def test_rounded_outward_and_said(ease: Ease, eased: float, missing: str, giving: str) -> None:
    where = "" if ease.slot is None else "at lunch"
    assert ease.eased() == pytest.approx(eased)
    assert ease.missing(where) == missing
    assert ease.giving(where, ease.eased()) == giving
    given = abs(ease.limit - ease.eased())
    assert given >= ease.by
    assert abs(ease.limit - ease.eased(8.0)) >= given


def test_never_eased_past_what_safety_allows() -> None:
    held = Ease(ENERGY, None, "least", 2450.0, 31.0, reach=36.0)
    assert held.eased() == held.eased(100.0) == 2420.0
    upper = Ease(ENERGY, None, "most", 2550.0, 31.0, reach=36.0)
    assert upper.eased() == upper.eased(100.0) == 2580.0


def test_every_wish_that_a_band_may_hold_has_words() -> None:
    assert set(WISH_WORDS) == set(WISH_KEYS)


def test_a_band_of_ones_own_is_replaced_with_its_other_sides() -> None:
    own = [
        {"nutrient": "fat_g", "most": 40, "least": 30, "day": "tue"},
        {"nutrient": "protein_g", "least": 60, "slot": "dinner"},
    ]
    day = posed(goal={"band": own})
    dinner = next(slot for slot in day.slots if slot.kind == "dinner")
    assert dinner.protein_least == 60
    eases = (
        Ease(FAT, None, "most", 40.0, 5.0),
        Ease(PROTEIN, dinner.index, "least", 60.0, 10.0),
        Ease(PROTEIN, 0, "least", 17.0, 2.0),
    )
    fat, slot, meal = lines = lines_for(day, eases)
    assert tomllib.loads(fat.text)["goal"]["band"] == [{"nutrient": "fat_g", "least": 30, "most": 46, "day": "tue"}]
    assert "# in place of your band for fat_g, tue" in fat.text
    assert tomllib.loads(slot.text)["goal"]["band"] == [{"nutrient": "protein_g", "least": 49, "slot": "dinner"}]
    assert "dinner every day" in slot.text
    assert tomllib.loads(meal.text)["goal"]["band"] == [
        {"nutrient": "protein_g", "least": 14.5, "day": "tue", "meal": 1}
    ]
    assert "#" not in meal.text
    written = case_with(day.case, lines).goal.band
    assert len(written) == 3
    assert not set(written) & set(day.case.goal.band)


def test_two_sides_of_one_band_make_one_table() -> None:
    day = posed()
    (line,) = lines_for(day, (Ease(FAT, None, "least", 50.0, 5.0), Ease(FAT, None, "most", 75.0, 5.0)))
    assert (line.band.least, line.band.most, line.band.day) == (44, 81, "tue")


def test_safety_sets_the_end_of_energy_and_protein() -> None:
    """Protein: no band under 0.8 g/kg (US/Canadian RDA, DRI 2005) where the floor was above it."""
    day = posed(RUN)
    protein = day.bands[PROTEIN].least or 0.0
    far = reach(day, PROTEIN, "least", protein)
    assert far is not None
    assert protein - far == pytest.approx(0.8 * ATHLETE["mass_kg"], abs=2.5)
    energy = day.bands[ENERGY].least or 0.0
    room = reach(day, ENERGY, "least", energy)
    assert room is not None
    assert 0 <= room < 0.1 * energy
    for ease in (Ease(PROTEIN, None, "least", protein, far, far), Ease(ENERGY, None, "least", energy, room, room)):
        day_targets(case_with(day.case, lines_for(day, (ease,), 100.0)), "tue")
    with pytest.raises(Refused):
        day_targets(case(RUN, goal={"band": [{"nutrient": PROTEIN, "least": 0.7 * ATHLETE["mass_kg"]}]}), "tue")
    assert reach(day, CARBOHYDRATE, "least", 200.0) is None


def test_a_band_of_a_meal_replaces_what_the_meal_asks_for() -> None:
    usual = posed(RUN)
    slot = next(slot for slot in usual.slots if slot.protein_least > 0)
    own = [
        {"nutrient": "protein_g", "least": 5, "most": 50, "meal": slot.index + 1},
        {"nutrient": "carbohydrate_g", "least": 20, "most": 90, "slot": slot.kind},
        {"nutrient": "protein_g", "least": 6, "slot": slot.kind},
    ]
    day = posed(RUN, goal={"band": own})
    changed = day.slots[slot.index]
    assert (changed.protein_least, changed.carbohydrate_least, changed.carbohydrate_most) == (6, 20, 90)
    (left,) = day.own
    assert (left.slot, left.key, left.band.least, left.band.most) == (slot.index, PROTEIN, None, 50)
    others = [slot for slot in day.slots if slot.index != changed.index]
    assert others == [slot for slot in usual.slots if slot.index != changed.index]


def test_bands_for_the_day_hold_minutes_money_kinds_and_shares() -> None:
    given = {"fruit_vegetable_kinds": 5, "whole_food_percent": 55, "added_sugar_percent": 4, "kitchen_minutes": 25,
             "cost": 8.5}  # fmt: skip
    own = [{"nutrient": key, WISH_KEYS[key][0]: value, "day": "tue"} for key, value in given.items()]
    every = [{"nutrient": "kitchen_minutes", "most": 90}]
    day = posed(goal={"band": [*own, *every]}, cook_minutes=60, budget_per_day=3.0)
    wishes = day.wishes
    assert (wishes.produce_kinds, wishes.whole_food_share, wishes.added_sugar_share) == (5, 0.55, 0.04)
    assert (wishes.minutes_most, wishes.budget) == (25.0, 8.5)
    assert max(slot.minutes_most for slot in day.slots) == 25
    assert not set(given) & set(day.bands)


@pytest.mark.parametrize(
    ("band", "says"),
    [
        ({"nutrient": "kitchen_minutes", "most": 30, "slot": "lunch"}, "whole day only"),
        ({"nutrient": "cost", "most": 9, "meal": 2}, "whole day only"),
        ({"nutrient": "kitchen_minutes", "least": 30}, "only most is expected"),
        ({"nutrient": "fruit_vegetable_kinds", "aim": 4}, "only least is expected"),
        ({"nutrient": "whole_food_percent", "least": 101}, "0 to 100 is allowed"),
        ({"nutrient": "kitchen_minute", "most": 30}, 'did you mean "kitchen_minutes"'),
    ],
)
def test_a_band_for_the_day_that_says_nothing_is_refused(band: dict[str, object], says: str) -> None:
    with pytest.raises(BadInput, match=says):
        case(goal={"band": [band]})


def test_changes_are_lines_that_the_case_reads_as_they_were_meant() -> None:
    """Each change, written by its own lines, gives the case that it was tried with."""
    from tests.plans.remedies import with_lines

    away = {"day": "tue", "away": "no_kitchen", "away_from": "09:00", "away_to": "17:00", "cook_minutes": 10}
    before = case(RUN, {**RUN, "day": "wed"}, diet="vegan", avoid_allergens=["nuts", "milk"], gluten_free=True,
                  never=["liver"] if "liver" in _pantry() else [], can_cook=["06:00-08:00"], day=[away])  # fmt: skip
    changes = (*dropped_wishes(before), *more_room(before, "tue"))
    assert len(changes) > 10
    for change in changes:
        after = with_lines(before, remedies_of((change,)))
        meant = change.apply(before)
        assert after.kitchen == meant.kitchen, change.allow
        assert (set(after.goal.band), after.goal.move, after.goal.spread) == (
            set(meant.goal.band), meant.goal.move, meant.goal.spread,
        )  # fmt: skip
        assert change.apply(before) != before


def _pantry() -> dict[str, object]:
    from mealopt.table.pantry import shipped_pantry

    return dict(shipped_pantry().foods)
