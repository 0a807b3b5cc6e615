"""The bench runs and says what it should, on two cases with hardly any time. Nothing here looks at a clock."""

from __future__ import annotations

import math
import re
from itertools import product
from pathlib import Path

import pytest

from bench.__main__ import main
from bench.cases import CASES, DAY, digest
from bench.day import Compared
from bench.engines import End, Run, contradiction, export, raw_cbc, raw_highs
from bench.measure import Took, load_lines
from bench.table import Table
from bench.whole import Days, Options, Planned, plan_once, read
from mealopt.milp.model import Model, Row
from mealopt.targets.day import day_targets


def tables(text: str) -> list[list[list[str]]]:
    """Every Markdown table of a text, as rows of cells, without the rule under the headings."""
    blocks = re.findall(r"(?:^\|.*\|\n)+", text, re.MULTILINE)
    found = [[[cell.strip() for cell in line.strip("|").split(" | ")] for line in b.splitlines()] for b in blocks]
    return [[rows[0], *rows[2:]] for rows in found]


@pytest.fixture(scope="module")
def figures(tmp_path_factory: pytest.TempPathFactory) -> tuple[str, Path]:
    """What a quick run writes to the file that it is given, and the folder that it stood in meanwhile."""
    folder = tmp_path_factory.mktemp("elsewhere")
    out = folder / "figures.md"
    with pytest.MonkeyPatch.context() as patch:
        patch.chdir(folder)
        assert (
            main(["startup", "day", "recheck", "--cases", "2", "--seconds", "1", "--pairs", "1", "-o", str(out)]) == 0
        )
    return out.read_text(encoding="utf-8"), folder


def test_every_table_is_whole(figures: tuple[str, Path]) -> None:
    text, _ = figures
    found = tables(text)
    assert [rows[0][0] for rows in found] == ["process", "ratio", "step", "ratio", "case", "what"]
    for rows in found[:-1]:
        assert len(rows) > 2
    for rows in found:
        assert {len(row) for row in rows} == {len(rows[0])}, rows[0]


def test_the_run_says_what_gave_the_figures(figures: tuple[str, Path]) -> None:
    text, _ = figures
    for words in (
        "cores",
        "Python 3",
        "highspy",
        "CBC",
        "load average",
        digest(),
        "Only 2 of 20 cases",
        "50 points",
        "last card",
    ):
        assert words in text, words


def test_each_case_stands_with_its_engines(figures: tuple[str, Path]) -> None:
    text, _ = figures
    by_case = next(rows for rows in tables(text) if rows[0][0] == "case")
    assert [row[0] for row in by_case[1:]] == [case.name for case in CASES[:2]]
    steps = next(rows for rows in tables(text) if rows[0][0] == "step")
    assert {"**whole**", "raw HiGHS, last card", "CBC, last card"} <= {row[0] for row in steps}


def test_nothing_is_written_but_what_was_asked_for(figures: tuple[str, Path]) -> None:
    _, folder = figures
    assert [path.name for path in folder.iterdir()] == ["figures.md"]


def test_the_naive_peer_poses_all_dishes(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["naive", "--cases", "1", "--seconds", "1"]) == 0
    (rows,) = tables(capsys.readouterr().out)
    assert rows[0][0] == "case"
    days = Days(CASES[:1], Options(limit=1.0))
    carded = days.planned(CASES[0]).problems[-1].model
    assert int(rows[1][1]) > carded.columns
    assert int(rows[1][2]) > len(carded.rows)


@pytest.mark.parametrize(
    "arguments", [["lunch"], ["--cases", "0"], ["--seconds", "no"], ["--only", "lunch"], ["-o", "/nowhere/at/all.md"]]
)
def test_what_cannot_be_run_is_refused(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(arguments)
    assert ended.value.code == 2
    assert capsys.readouterr().out == ""


def test_the_cases_are_the_ones_that_the_record_was_made_with() -> None:
    record = Path(__file__).resolve().parents[2] / "bench" / "RECORD.md"
    assert f"cases {digest()}" in record.read_text(encoding="utf-8")


def test_the_cases_cover_what_they_should() -> None:
    assert len(CASES) == len({case.name for case in CASES}) == 20
    assert {case.diet for case in CASES} == {"omnivore", "pescatarian", "vegetarian", "vegan"}
    assert {len(case.trained) for case in CASES} == {0, 1, 2, 3}
    for diet in ("omnivore", "vegetarian", "vegan"):
        assert any(case.kitchen.get("gluten_free") for case in CASES if case.diet == diet), diet
    left_out = {name for case in CASES for name in case.kitchen.get("avoid_allergens", ())}
    assert {"milk", "eggs", "nuts", "soybeans"} <= left_out
    energies = [day_targets(read(case), DAY).bands["energy_kcal"].aim or 0.0 for case in CASES]
    assert min(energies) < 1800
    assert max(energies) > 5000


def knapsack() -> tuple[Model, float]:
    """A small program in whole numbers, and its optimum by trying everything."""
    worth, weight, room = (9, 7, 6, 4, 3), (6, 5, 4, 3, 2), 11
    model = Model()
    columns = [model.column(0, 1, whole=True, cost=-float(value)) for value in worth]
    model.rows.append(Row("room", tuple(zip(columns, map(float, weight), strict=True)), most=float(room)))
    fitting = (
        picks for picks in product((0, 1), repeat=5) if sum(p * w for p, w in zip(picks, weight, strict=True)) <= room
    )
    return model, -max(sum(p * w for p, w in zip(picks, worth, strict=True)) for picks in fitting)


def test_an_exported_model_is_the_same_problem(tmp_path: Path) -> None:
    model, best = knapsack()
    highs = raw_highs(export(model, tmp_path), 0.0, 1e-9, 10.0)
    cbc = raw_cbc(model, 0.0, 1e-9, 10.0)
    assert (highs.end, cbc.end) == (End.PROVEN, End.PROVEN)
    assert highs.value == pytest.approx(best)
    assert cbc.value == pytest.approx(best)


def test_an_exported_model_without_an_answer_is_called_that(tmp_path: Path) -> None:
    model, _ = knapsack()
    model.rows.append(Row("too much", tuple((column, 1.0) for column in range(5)), least=5.0))
    assert raw_highs(export(model, tmp_path), 0.0, 1e-9, 10.0).end is End.INFEASIBLE
    assert raw_cbc(model, 0.0, 1e-9, 10.0).end is End.INFEASIBLE


def test_a_contradiction_is_seen() -> None:
    right = Run(End.PROVEN, Took(), value=4.0, bound=3.96)
    assert contradiction(right, Run(End.PROVEN, Took(), value=3.98, bound=3.9)) is None
    assert contradiction(right, Run(End.LIMIT, Took())) is None
    assert "below" in (contradiction(right, Run(End.PROVEN, Took(), value=3.5, bound=3.4)) or "")
    assert "below" in (contradiction(right, Run(End.PROVEN, Took(), value=5.0, bound=4.9)) or "")
    assert "proved" in (contradiction(right, Run(End.INFEASIBLE, Took(), bound=math.inf)) or "")


@pytest.mark.parametrize(
    ("whole", "raw", "kept"),
    [
        ((1.3, End.PROVEN), (1.0, End.PROVEN), True),
        ((1.4, End.PROVEN), (1.0, End.PROVEN), False),
        ((0.2, End.PROVEN), (0.06, End.PROVEN), True),
        ((2.0, End.PROVEN), (20.0, End.LIMIT), True),
        ((20.0, End.LIMIT), (2.0, End.PROVEN), False),
        ((20.0, End.LIMIT), (20.0, End.LIMIT), None),
    ],
)
def test_the_aim_is_judged(whole: tuple[float, End], raw: tuple[float, End], kept: bool | None) -> None:
    planned = Planned(CASES[0], Run(whole[1], Took(whole[0])), {"solving": Took(whole[0])})
    assert Compared(planned, Run(raw[1], Took(raw[0]))).kept() is kept


def test_a_case_that_is_refused_says_so_instead_of_ending_the_run() -> None:
    case = CASES[1]
    spoilt = type(case)(case.name, case.body, case.diet, kitchen={"never": ["no such food"]})
    planned = plan_once(spoilt, Options(limit=1.0))
    assert planned.solve.end is End.ERROR
    assert "no such food" in planned.error


def test_a_table_with_a_row_of_another_length_is_refused() -> None:
    with pytest.raises(ValueError, match="2 cells under 1"):
        Table("", ("one",), [("one", "two")]).text()


def test_a_busy_machine_is_named() -> None:
    assert "Others were at work" in " ".join(load_lines(2.0, 2.0))
    assert "Others were at work" not in " ".join(load_lines(0.4, 1.2))
