"""The least that must give, and the rows that clash."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

import pytest

from mealopt.milp import elastic
from mealopt.milp.answer import Status
from mealopt.milp.elastic import clashing_rows, find_clash, least_relaxation, linear_relaxation
from mealopt.milp.model import Model, Row
from tests.milp.conftest import market_split


def three_wishes(whole: bool = False) -> Model:
    """One column that should be at least 8 and at most 5, must be at most 6, and comes in whole numbers or not."""
    model = Model()
    model.column(0, 20, whole=whole, cost=1000.0)
    model.column(0, 20)
    model.rows += [
        Row("floor", ((0, 1.0),), least=8.0, relaxable=True),
        Row("bystander", ((1, 1.0),), 2.0, 3.0, relaxable=True),
        Row("ceiling", ((0, 1.0),), most=5.0, relaxable=True, scale=10.0),
        Row("wall", ((0, 1.0),), most=6.0),
    ]
    return model


def test_the_row_with_the_larger_scale_gives_first() -> None:
    """The ceiling gives 1 up to the wall at a tenth of the harm; what is left, the floor gives."""
    relief = least_relaxation(three_wishes())
    assert relief is not None
    assert {name: (give.side, give.by) for name, give in relief.by_name.items()} == {
        "floor": ("least", pytest.approx(2.0)),
        "ceiling": ("most", pytest.approx(1.0)),
    }
    assert relief.total == pytest.approx(2.1)
    assert relief.bound == pytest.approx(2.1)
    assert relief.values[0] == pytest.approx(6.0)
    assert len(relief.values) == 2


def test_only_the_rows_asked_give() -> None:
    relief = least_relaxation(three_wishes(), [0])
    assert relief is not None
    assert [(give.row, give.name, give.by) for give in relief.gives] == [(0, "floor", pytest.approx(3.0))]


def test_nothing_gives_where_all_can_be_met() -> None:
    model = three_wishes()
    model.rows[0] = replace(model.rows[0], least=4.0)
    relief = least_relaxation(model)
    assert relief is not None
    assert (relief.gives, relief.total) == ((), 0.0)
    assert clashing_rows(model) == []


def test_whole_numbers_stay_whole() -> None:
    """Twice a whole number cannot be 3: it gives 1 on either side, not 0."""
    model = Model(rows=[Row("odd", ((0, 2.0),), 3.0, 3.0)])
    model.column(0, 9, whole=True)
    relief = least_relaxation(model)
    assert relief is not None
    (give,) = relief.gives
    assert give.by == pytest.approx(1.0)
    assert (give.side, relief.values[0]) in (("least", pytest.approx(1.0)), ("most", pytest.approx(2.0)))
    assert clashing_rows(model) == ["odd"]


def test_no_relief_where_the_others_clash() -> None:
    model = three_wishes()
    model.rows.append(Row("rock", ((0, 1.0),), least=7.0))
    assert least_relaxation(model) is None
    assert set(clashing_rows(model)) == {"wall", "rock"}


def test_the_clash_is_looked_for_among_relaxable_rows() -> None:
    """The wall holds meanwhile: with it the floor cannot be met, whatever the ceiling says."""
    assert clashing_rows(three_wishes()) == ["floor"]
    model = three_wishes()
    model.rows[3] = replace(model.rows[3], most=9.0)
    assert sorted(clashing_rows(model)) == ["ceiling", "floor"]
    assert clashing_rows(model, [2]) == ["ceiling"]


def test_one_clash_among_very_many_rows() -> None:
    model = Model()
    for number in range(400):
        model.column(0, 10, cost=1.0)
        model.rows.append(Row(f"wanted_{number}", ((number, 1.0),), least=float(number % 10)))
    model.rows.insert(123, Row("few", ((7, 1.0), (301, 1.0), (158, 1.0)), most=13.0))
    assert sorted(clashing_rows(model)) == ["few", "wanted_158", "wanted_7"]


def test_the_program_itself_is_left_alone() -> None:
    model, fresh = three_wishes(), three_wishes()
    least_relaxation(model)
    clashing_rows(model)
    assert model == fresh


def test_maximising_plays_no_part() -> None:
    model = three_wishes()
    model.maximise = True
    relief = least_relaxation(model)
    assert relief is not None
    assert relief.total == pytest.approx(2.1)


def test_out_of_time_is_said() -> None:
    model, _ = market_split(planted=False)
    model.rows[0] = replace(model.rows[0], relaxable=True)
    relief = least_relaxation(model, seconds=0.2)
    assert relief is not None
    assert (relief.status, relief.gives, relief.values) == (Status.NOTHING, (), [])
    clash = find_clash(model, seconds=0.2)
    assert (clash.rows, clash.irreducible) == ((), False)


def test_a_clash_within_no_time_is_not_called_irreducible() -> None:
    clash = find_clash(three_wishes(), seconds=0.0)
    assert not clash.irreducible


def test_a_scale_of_nought_is_refused() -> None:
    model = three_wishes()
    model.rows[0] = replace(model.rows[0], scale=0.0)
    with pytest.raises(ValueError, match="floor has a scale of 0"):
        least_relaxation(model)


def test_a_row_stays_in_the_clash_where_time_ends_before_it_is_known_to_be_needless(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    known = elastic._Filter.clashes

    def only_all_or_none(self: elastic._Filter, held: Iterable[int]) -> bool | None:
        if len(tuple(held)) in (0, len(self.candidates)):
            return known(self, held)
        self.sure = False
        return None

    monkeypatch.setattr(elastic._Filter, "clashes", only_all_or_none)
    clash = find_clash(three_wishes())
    assert clash.names == ("floor", "bystander", "ceiling")
    assert not clash.irreducible


def test_the_linear_program_gives_no_more_than_whole_numbers_must() -> None:
    """Half a step either way is enough for what cannot be 3 in whole twos."""
    model = Model(rows=[Row("odd", ((0, 2.0),), 3.5, 3.5), Row("few", ((0, 1.0),), most=1.0)])
    model.column(0, 9, whole=True)
    linear, whole = linear_relaxation(model), least_relaxation(model)
    assert linear is not None
    assert whole is not None
    assert linear.total == pytest.approx(0.75)
    assert linear.total <= whole.total
    assert [(give.name, give.by) for give in linear.gives] == [("few", pytest.approx(0.75))]
    assert linear.values == [pytest.approx(1.75)]
    assert [model.rows[number].name for number in linear.weighing] == ["odd", "few"]


def test_the_rows_that_the_linear_programs_total_hangs_on_clash() -> None:
    model = three_wishes()
    model.rows[3] = replace(model.rows[3], most=9.0)
    linear = linear_relaxation(model)
    assert linear is not None
    assert linear.total == pytest.approx(0.3)
    assert [model.rows[number].name for number in linear.weighing] == ["floor", "ceiling"]


@pytest.mark.parametrize("groups", [(), ((1,),)])
def test_a_row_gives_within_its_reach_only(groups: tuple[tuple[int, ...], ...]) -> None:
    """The ceiling would give 1; with half of that in reach, the floor gives the rest, and with too little, nothing."""
    model = three_wishes()
    model.column(1, 1, whole=True)
    relief = least_relaxation(model, reach={(2, "most"): 0.5}, groups=groups and ((2,),))
    assert relief is not None
    assert {name: give.by for name, give in relief.by_name.items()} == {
        "floor": pytest.approx(2.5),
        "ceiling": pytest.approx(0.5),
    }
    assert linear_relaxation(model, reach={(2, "most"): 0.5, (0, "least"): 2.0}) is None
    assert least_relaxation(model, reach={(2, "most"): 0.5, (0, "least"): 2.0}, groups=groups and ((2,),)) is None
