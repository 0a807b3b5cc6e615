"""What a person reads of a planned day, and what JSON holds of it."""

from __future__ import annotations

import csv
import json
import re
from pathlib import Path
from typing import Any

import pytest

from mealopt import api
from mealopt.cli.portions import portion
from tests.cli.conftest import ROOT, Process, Run, squeezed

WIDTHS = (80, 40, 20)


@pytest.fixture(params=WIDTHS)
def page(request: pytest.FixtureRequest, run: Run, planned: api.Plan) -> tuple[int, str]:
    result = run("day", "--day", "tue", columns=request.param)
    assert result.exit_code == 0, result.stderr
    assert result.stderr == ""
    return request.param, result.stdout


def test_no_line_is_wider_and_nothing_is_cut_off(page: tuple[int, str], plan: api.Plan) -> None:
    width, text = page
    assert max(len(line) for line in text.splitlines()) <= width
    whole = squeezed(text)
    day = plan.days[0]
    said = [meal.dish for meal in day.meals]
    said += [portion(item) for meal in day.meals for item in meal.items]
    said += [" ".join(meal.method) for meal in day.meals]
    said += [*day.cautions, *day.notes]
    for words in said:
        assert squeezed(words) in whole


def test_plain_letters_in_a_pipe(page: tuple[int, str]) -> None:
    assert page[1].isascii()
    assert "\x1b" not in page[1]


def test_the_day_is_a_timeline(run: Run, planned: api.Plan) -> None:
    text = run("day", "--day", "tue").stdout
    day = planned.days[0]
    times = re.findall(r"(?m)^(\d\d:\d\d) ", text)
    assert times == sorted(times)
    assert len(times) == len(day.meals) + len(day.sessions)
    for session in day.sessions:
        at = text.index(f"{session.start} Session {session.number}: {session.kind}")
        for meal in day.meals:
            before = text.index(f"{meal.time} {meal.number}. ") < at
            assert before == (meal.time < session.start), (meal.time, session.start)


def test_a_window_s_limits_stand_beside_what_the_meal_holds(run: Run, planned: api.Plan) -> None:
    text = " ".join(run("day", "--day", "tue").stdout.split())
    limited = [meal for meal in planned.days[0].meals if meal.limits]
    assert limited
    for meal in limited:
        for key, most in meal.limits.items():
            name = {"fibre_g": "fibre", "fat_g": "fat"}[key]
            assert f"{name} at most {most:g} g (holds {meal.totals.get(key, 0.0):.1f}".removesuffix(".0") in text


def test_totals_stand_beside_their_bands(run: Run, planned: api.Plan) -> None:
    day = planned.days[0]
    text = run("day", "--day", "tue").stdout
    energy = next(line for line in text.splitlines() if line.startswith("energy "))
    band = day.targets["energy_kcal"]
    assert f"{day.totals['energy_kcal']:,.0f} kcal" in energy
    assert f"{band.least:,.0f}-{band.most:,.0f} kcal, aim {band.aim:,.0f}" in energy
    assert "[" in energy
    assert "#" in energy


def test_the_caution_stands_before_the_first_number_of_food(run: Run, planned: api.Plan) -> None:
    text = " ".join(run("day", "--day", "tue").stdout.split())
    assert text.index("not medical advice") < text.index("kcal")
    assert text.count("not medical advice") >= 2


def test_the_solve_is_told_with_each_share(run: Run, planned: api.Plan) -> None:
    text = run("day", "--day", "tue").stdout
    day = planned.days[0]
    assert planned.solve.solver in text
    assert f"penalty {planned.solve.objective:.2f}" in " ".join(text.split())
    shares = [int(share) for share in re.findall(r"(?m)^  \S.*?([0-9]+) %$", text)]
    assert len(shares) == len(day.penalty)
    assert sum(shares) == pytest.approx(100, abs=len(shares) / 2 + 0.5)


def test_the_method_can_be_left_out(run: Run, planned: api.Plan) -> None:
    method = squeezed(planned.days[0].meals[0].method[0])
    assert method in squeezed(run("day", "--method").stdout)
    assert method in squeezed(run("day").stdout)
    assert method not in squeezed(run("day", "--no-method").stdout)


def _spoilt(plan: api.Plan, **changes: Any) -> api.Plan:
    data = json.loads(api.plan_text(plan))
    data["days"][0].update(changes)
    return type(plan).model_validate(data)


def test_a_shortfall_is_named(run: Run, plan: api.Plan, monkeypatch: pytest.MonkeyPatch) -> None:
    short = dict(plan.days[0].totals) | {"protein_g": 60.0, "fat_g": 400.0}
    spoilt = _spoilt(plan, totals=short, missed=["protein floor"], coverage={"fibre_g": 0.987})
    monkeypatch.setattr(api, "plan_day", lambda *_, **__: spoilt)
    text = " ".join(run("day").stdout.split())
    band = plan.days[0].targets
    assert f"protein: short of its least by {band['protein_g'].least - 60:.0f} g" in text
    assert f"fat: over its most by {400 - band['fat_g'].most:.0f} g" in text
    assert "not met: protein floor" in text
    assert "known share by weight: fibre 98 %" in text


def test_json_is_the_plan_document_and_nothing_else(run: Run, planned: api.Plan) -> None:
    result = run("day", "--json")
    assert result.stdout == api.plan_text(planned)
    assert "example" in result.stderr
    assert len(result.stderr.splitlines()) == 1


def test_the_example_is_named_as_such_only_without_a_case(run: Run, planned: api.Plan) -> None:
    assert "No case was named" in run("day").stdout
    named = run("day", api.example_case_path(), "--json")
    assert "No case was named" not in named.stdout + named.stderr


def test_the_file_written_is_the_document_that_was_shown(run: Run, planned: api.Plan, tmp_path: Path) -> None:
    out = tmp_path / "plan.json"
    result = run("day", "-o", out)
    assert result.exit_code == 0
    assert squeezed(f"The plan document is in {out}") in squeezed(result.stdout)
    assert api.read_plan(out) == planned
    assert [path.name for path in tmp_path.iterdir()] == ["plan.json"]


def test_totals_can_be_recomputed_from_the_published_table(process: Process) -> None:
    """A real run; then only the composition file, `source` and `grams` (USDA SR28, values for 100 g edible portion)."""
    done = process("day", "--json", "--gap", "0.05")
    assert done.returncode == 0, done.stderr
    assert "Traceback" not in done.stderr
    document = json.loads(done.stdout)
    with (ROOT / "foods" / "composition.csv").open(encoding="utf-8", newline="") as file:
        table = {f"USDA-SR28:{row['ndb']}": row for row in csv.DictReader(file)}
    day = document["days"][0]
    for key in ("energy_kcal", "protein_g", "carbohydrate_g", "fat_g", "fibre_g"):
        total = sum(
            item["grams"] / 100 * float(table[item["source"]][key] or 0)
            for meal in day["meals"]
            for item in meal["items"]
        )
        assert day["totals"][key] == pytest.approx(total, rel=0.005)
    band = day["targets"]["energy_kcal"]
    assert day["totals"]["energy_kcal"] == pytest.approx(band["aim"], rel=0.0201)
