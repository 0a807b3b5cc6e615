"""The week's numbers, on a page and as JSON, and how each came about."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from mealopt import api
from tests.cli.conftest import EXAMPLES, Process, Run, squeezed


@pytest.mark.parametrize("width", [80, 40, 20])
@pytest.mark.parametrize("day", [None, "sat"])
@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.stem)
def test_no_line_is_wider_and_nothing_is_cut_off(run: Run, example: Path, day: str | None, width: int) -> None:
    result = run("targets", example, *(["--day", day] if day else []), columns=width)
    assert result.exit_code == 0, result.stderr
    assert result.stdout.isascii()
    assert max(len(line) for line in result.stdout.splitlines()) <= width
    whole, week = squeezed(result.stdout), api.week_targets(api.read_case(example))
    steps = [*week.steps, *(week.days[day].steps if day else ())]
    said = [part for step in steps for part in (step.name, step.how, f"source: {step.source}")]
    for words in [*said, *week.notes, *week.cautions]:
        assert squeezed(words) in whole
    energy = "energy_kcal"
    numbers = (
        [day.bands[energy].aim for day in week.days.values()] if day is None else [week.days[day].bands[energy].most]
    )
    for value in numbers:
        assert re.search(rf"(?<![\d,]){value:,.0f}(?![\d,])", result.stdout)


def test_the_table_holds_each_day_s_numbers(run: Run) -> None:
    case = api.read_case()
    lines = run("targets").stdout.splitlines()
    for name, day in api.week_targets(case).days.items():
        row = next(line for line in lines if line.startswith(f"{name}  "))
        aims = {key: band.aim if band.aim is not None else band.least for key, band in day.bands.items()}
        assert f"{aims['energy_kcal']:,.0f}" in row
        assert f"{aims['protein_g']:.0f}" in row
        assert f"{aims['carbohydrate_g']:.0f} ({aims['carbohydrate_g'] / case.athlete.mass_kg:.1f})" in row
        assert row.split()[-1] == f"{aims['fibre_g']:.0f}"
        for session in day.sessions:
            assert any(session.session.start in line and session.session.kind in line for line in lines)


def test_one_day_shows_its_bands_and_steps(run: Run) -> None:
    text = run("targets", "--day", "SAT").stdout
    assert "Saturday 13 March 2027" in text
    assert "How Saturday's numbers came about" in text
    band = api.week_targets(api.read_case()).days["sat"].bands["energy_kcal"]
    assert f"{band.least:,.0f}-{band.most:,.0f} kcal, aim {band.aim:,.0f}" in text


def test_cautions_stand_before_the_numbers(run: Run, case_file: Callable[..., Path]) -> None:
    text = " ".join(run("targets").stdout.split())
    assert text.index("not medical advice") < text.index("kcal")
    kept = case_file(("cautions = []", 'cautions = ["diabetes"]'))
    told = " ".join(run("targets", kept).stdout.split())
    assert "With diabetes these are meals that keep body mass, and nothing else" in told
    unasked = case_file(("cautions = []\n", ""))
    assert "Cautions were not asked" in " ".join(run("targets", unasked).stdout.split())


def test_json_holds_bands_steps_notes_and_cautions(run: Run) -> None:
    result = run("targets", "--json")
    document = json.loads(result.stdout)
    assert document["schema"] == "mealopt/targets-1"
    assert document["case"]["athlete"]["name"] == "Skerry demo athlete"
    assert [day["day"] for day in document["days"]] == ["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
    week = api.week_targets(api.read_case())
    for day in document["days"]:
        truth = week.days[day["day"]]
        assert day["targets"]["energy_kcal"]["aim"] == pytest.approx(truth.bands["energy_kcal"].aim, abs=1e-3)
        assert set(day["targets"]) == set(truth.bands)
        assert [step["name"] for step in day["steps"]] == [step.name for step in truth.steps]
        assert all(step["how"] and step["source"] for step in day["steps"])
        assert day["notes"] == list(truth.notes)
        assert day["cautions"]
        assert [one["start"] for one in day["sessions"]] == [one.session.start for one in truth.sessions]
    assert document["days"][5]["date"] == "2027-03-13"
    assert document["week"]["sum_kcal"] == pytest.approx(week.sum_kcal, abs=1e-3)
    assert "example" in result.stderr


def test_json_of_one_day_holds_that_day_only(run: Run) -> None:
    document = json.loads(run("targets", "--json", "--day", "wed").stdout)
    assert [day["day"] for day in document["days"]] == ["wed"]


def test_a_case_without_a_week_has_no_dates(run: Run, case_file: Callable[..., Path]) -> None:
    path = case_file(("week_of = 2027-03-08\n", ""))
    assert {day["date"] for day in json.loads(run("targets", path, "--json").stdout)["days"]} == {None}
    assert run("targets", path).stdout.startswith("Skerry test athlete: targets for the week\n")


def test_neither_solver_nor_table_is_loaded(process: Process) -> None:
    code = (
        "import atexit, sys\n"
        "heavy = ('pandas', 'pulp', 'highspy', 'mealopt.table', 'mealopt.milp', 'mealopt.rules')\n"
        "atexit.register(lambda: print('LOADED', [name for name in heavy if name in sys.modules], file=sys.stderr))"
    )
    done = process("targets", code=code)
    assert done.returncode == 0
    assert done.stderr == "LOADED []\n"
