"""What is preferred is wanted every other day of a week."""

from __future__ import annotations

import itertools

from mealopt.plans.week.wanted import wanted_on, with_shared_wishes
from tests.plans.cases import posed

LIKED = frozenset({"salmon", "oats, rolled"})


def test_each_name_is_wanted_every_other_day_and_never_two_days_running() -> None:
    days = [wanted_on(LIKED, place) for place in range(7)]
    for name in LIKED:
        places = [place for place, wanted in enumerate(days) if name in wanted]
        assert len(places) in (3, 4)
        assert all(later - earlier == 2 for earlier, later in itertools.pairwise(places))
    assert all(days), "no day of this week is without one of them"


def test_card_and_penalty_ask_for_the_same() -> None:
    day = with_shared_wishes(posed(prefer=sorted(LIKED)), 0)
    assert day.wishes.prefer == day.larder.filter.prefer == wanted_on(LIKED, 0)
    assert day.seed == posed(prefer=sorted(LIKED)).seed


def test_the_same_breakfast_every_day_keeps_all_of_it() -> None:
    day = posed(prefer=sorted(LIKED), same_breakfast=True)
    assert with_shared_wishes(day, 1) is day


def test_without_wishes_nothing_changes() -> None:
    day = posed()
    assert with_shared_wishes(day, 3) is day
