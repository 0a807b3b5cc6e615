"""Days planned with foods of one's own: they are chosen, counted, rechecked, and kept from whom they would hurt."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from mealopt import api
from mealopt.documents.plan import Plan
from mealopt.errors import BadInput, Refused
from mealopt.people.case import Case
from mealopt.people.reading import case_from_dict, case_to_dict
from mealopt.plans.day.pose import pose_day
from tests.plans.cases import ATHLETE, RUN, case
from tests.table.own_files import BAR, TABLET, own, write

EXAMPLE = Path(__file__).parents[2] / "examples" / "own_shelf.toml"
SMALL = {**BAR, "step": 0.5}


def shelf_case(folder: Path, *foods: dict[str, Any], sessions: tuple[dict[str, Any], ...] = (), **keys: Any) -> Case:
    """A case beside a file with these foods."""
    write(folder, own(*foods))
    return case(*sessions, own_foods="own.toml", **keys).beside(folder)


def sources(plan: Plan) -> dict[str, float]:
    """Source -> grams over the day, of own foods."""
    found: dict[str, float] = {}
    for meal in plan.days[0].meals:
        for item in meal.items:
            if item.source.startswith("own:"):
                found[item.source] = found.get(item.source, 0.0) + item.grams
    return found


@pytest.fixture(scope="module")
def preferred(tmp_path_factory: pytest.TempPathFactory) -> tuple[Plan, Path]:
    """A day on which an own bar is preferred, and the folder of its file."""
    folder = tmp_path_factory.mktemp("preferred")
    athlete = shelf_case(folder, SMALL, prefer=["harbour oat bar"], meals_per_day=5)
    return api.plan_day(athlete, "tue", gap=0.05), folder


def test_a_preferred_own_food_is_planned(preferred: tuple[Plan, Path]) -> None:
    plan, _ = preferred
    assert list(sources(plan)) == ["own:own.toml#harbour oat bar"]
    assert any("foods of your own (own.toml)" in note for note in plan.days[0].notes)


def test_its_numbers_are_counted(preferred: tuple[Plan, Path]) -> None:
    """A meal's energy less that of its other foods, from the table alone, is the bar's 408 kcal per 100 g."""
    plan, _ = preferred
    rows = api.show_food("banana")
    assert rows.row.per_100g["energy_kcal"] == 89
    for meal in plan.days[0].meals:
        own_g = sum(item.grams for item in meal.items if item.source.startswith("own:"))
        if own_g:
            others = [item for item in meal.items if not item.source.startswith("own:")]
            kcal = sum(item.grams * api.show_food(item.food).row.per_100g["energy_kcal"] / 100 for item in others)
            assert meal.totals["energy_kcal"] - kcal == pytest.approx(own_g * 4.08, abs=0.01)


def test_the_recheck_needs_the_file_and_uses_its_numbers(preferred: tuple[Plan, Path], tmp_path: Path) -> None:
    plan, folder = preferred
    assert api.recheck(plan, folder) == []
    (without,) = api.recheck(plan)
    assert "cannot be checked without the file" in without
    assert "own:own.toml#harbour oat bar" in without
    write(tmp_path, own({**SMALL, "energy_kcal": 388}))
    assert any("kcal" in says for says in api.recheck(plan, tmp_path))
    write(tmp_path, own({**SMALL, "allergens": ["gluten"], "free_of": BAR["free_of"]}))
    assert api.recheck(plan, tmp_path) == [], "nuts are not avoided here"


def test_the_recheck_finds_an_allergen_of_the_file(preferred: tuple[Plan, Path]) -> None:
    plan, folder = preferred
    case_data = {**plan.case, "kitchen": {**plan.case["kitchen"], "avoid_allergens": ["nuts"]}}
    broken = api.recheck(plan.model_copy(update={"case": case_data}), folder)
    assert any("harbour oat bar holds nuts" in says for says in broken)


def offered(athlete: Case, windows_only: bool = False) -> set[str]:
    """Every food that the posed tuesday offers; windows_only: in meals that limit fibre."""
    posed = pose_day(athlete, "tue")
    card = posed.card()
    card.deal(10_000)
    plates = (
        one
        for options, slot in zip(card.plates, posed.slots, strict=True)
        if not windows_only or (slot.kind != "during" and "fibre_g" in slot.limits)
        for one in options
    )
    return {choice.name for one in plates for part in one.parts for choice in part.choices}


def test_allergens_unsaid_keep_it_from_an_allergic_eater(tmp_path: Path) -> None:
    quiet = {**SMALL, "diet": None, "free_of": None}
    keys: dict[str, Any] = {"prefer": ["harbour oat bar"], "meals_per_day": 5}
    assert "harbour oat bar" in offered(shelf_case(tmp_path, quiet, **keys))
    assert "harbour oat bar" not in offered(shelf_case(tmp_path, quiet, avoid_allergens=["milk"], **keys))
    assert "harbour oat bar" in offered(shelf_case(tmp_path, SMALL, avoid_allergens=["milk"], **keys))


def test_unknown_fibre_keeps_it_out_of_windows(tmp_path: Path) -> None:
    keys: dict[str, Any] = {"prefer": ["harbour oat bar"], "sessions": ({**RUN, "effort": "hard"},)}
    well = {**SMALL, "settles": "well", "stands_for": ["bread, white"]}
    assert "harbour oat bar" in offered(shelf_case(tmp_path, well, **keys), windows_only=True)
    assert "harbour oat bar" not in offered(shelf_case(tmp_path, {**well, "fibre_g": None}, **keys), windows_only=True)


def test_a_day_s_most_of_a_supplement_does_not_grow_with_the_day(tmp_path: Path) -> None:
    """Other foods may be eaten up to twice as much on very big days; a dose may not."""
    powder = {**TABLET, "name": "club whey powder", "stands_for": ["whey protein powder"], "dose": "scoop",
              "dose_g": 20, "iron_mg": None, "protein_g": 16, "energy_kcal": 80, "fat_g": 1, "carbohydrate_g": 2,
              "fibre_g": 0, "salt_g": 0.1, "saturated_fat_g": 0.5, "settles": "well"}  # fmt: skip
    long_ride = {"day": "tue", "start": "09:00", "minutes": 240, "kind": "ride", "effort": "steady"}
    athlete = shelf_case(tmp_path, powder, sessions=(long_ride,), prefer=["club whey powder"], meals_per_day=6)
    posed = pose_day(athlete, "tue")
    assert posed.bands["energy_kcal"].aim > 3500
    card = posed.card()
    card.deal(15)
    rows = {row.name: row for row in posed.problem(card).model.rows}
    dose = rows["dose_club whey powder"]
    assert dose.most == 1.0
    assert rows["day_protein powder"].most > 1.2, "the other foods of its kin"
    plan = api.plan_day(athlete, "tue", gap=0.1)
    assert sum(sources(plan).values()) <= 20.0 + 1e-6


def test_settled_doses_are_held_to_a_day_s_most(tmp_path: Path) -> None:
    meal = {"time": "10:00", "what": "fruit and a tablet", "foods": ["banana=118g", "iron tablet=1g"]}
    plan = api.plan_day(shelf_case(tmp_path, TABLET, fixed=[meal]), "tue", gap=0.1)
    assert sources(plan) == {"own:own.toml#iron tablet": 1.0}
    assert any("iron tablet" in caution and "registered dietitian" in caution for caution in plan.days[0].cautions)
    assert api.recheck(plan, tmp_path) == []
    twice = [meal, {**meal, "time": "15:00"}]
    with pytest.raises(BadInput, match="2 g of iron tablet on tue; at most 1 g a day"):
        api.plan_day(shelf_case(tmp_path, TABLET, fixed=twice), "tue")


def test_too_much_of_a_supplement_is_refused_before_anything_is_planned(tmp_path: Path) -> None:
    with pytest.raises(Refused, match=r"60 mg iron a day; the upper limit is 45 mg.*doctor or registered dietitian"):
        api.plan_day(shelf_case(tmp_path, {**TABLET, "iron_mg": 60}), "tue")


def test_an_illness_keeps_supplements_out_of_the_dishes(tmp_path: Path) -> None:
    powder = {**TABLET, "name": "club whey powder", "stands_for": ["whey protein powder"], "dose": "scoop",
              "dose_g": 30, "iron_mg": None, "protein_g": 24, "energy_kcal": 118, "fat_g": 2, "fibre_g": 0}  # fmt: skip
    well = shelf_case(tmp_path, powder, prefer=["club whey powder"])
    assert "club whey powder" in offered(well)
    ill = well.model_copy(update={"athlete": well.athlete.model_copy(update={"cautions": ("heart",)})})
    assert "club whey powder" not in offered(ill)
    assert any("planned in no dish" in note for note in pose_day(ill, "tue").notes)


def test_the_file_is_looked_for_beside_the_case(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    read = api.read_case(EXAMPLE)
    monkeypatch.chdir(tmp_path)
    assert read.folder == EXAMPLE.parent
    assert "harbour oat bar" in pose_day(read, "tue").larder.menu.pantry.foods
    assert read.model_copy().folder == EXAMPLE.parent
    data = case_to_dict(read)
    assert data["kitchen"]["own_foods"] == "own/own_foods.toml", "a document says what was read"
    again = case_from_dict(data, "plan")
    assert again == read, "where a case was read is no part of it"
    with pytest.raises(BadInput, match=r"own_foods: .*a full path is expected"):
        pose_day(again, "tue")
    assert pose_day(again.beside(EXAMPLE.parent), "tue")


def test_a_missing_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(BadInput, match=r"none.toml: cannot be read"):
        pose_day(case(own_foods="none.toml").beside(tmp_path), "tue")


def test_a_full_path_needs_no_folder(tmp_path: Path) -> None:
    path = write(tmp_path, own(BAR))
    assert "harbour oat bar" in pose_day(case(own_foods=str(path)), "tue").larder.menu.pantry.foods


def test_without_a_file_the_shipped_menu_itself_is_used() -> None:
    from mealopt.menu.dishes import shipped_menu

    assert pose_day(case(), "tue").larder.menu is shipped_menu()
    assert ATHLETE["cautions"] == []
