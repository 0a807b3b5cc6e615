"""The day planned anew with the same wishes: where nothing of the rest needs to stay, or the clock ended the levels."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from mealopt.errors import OutOfTime
from mealopt.menu.plates import Plate
from mealopt.milp.effort import SLOWEST, after
from mealopt.plans.day.found import NothingFits, SolvedDay
from mealopt.plans.day.pose import PosedDay
from mealopt.plans.day.solve import solve_posed
from mealopt.plans.held.standing import StandingDay
from mealopt.plans.swap.aims import Aim
from mealopt.plans.swap.level import ask
from mealopt.rules.problem import Problem


def fresh_day(day: StandingDay, aims: Sequence[Aim]) -> PosedDay:
    """The day as its card has it, less what is struck out, with what is held and asked for."""
    laid = tuple(tuple(_plates(day, aim)) for aim in aims)

    def wished(problem: Problem) -> None:
        for aim in aims:
            ask(problem, aim, problem.servings[aim.standing.index])

    return replace(day.posed, laid=laid, also=wished)


def planned_fresh(day: StandingDay, aims: Sequence[Aim], gap: float, seconds: float) -> SolvedDay | NothingFits:
    """That day solved. seconds: of work. Raises OutOfTime, KeyboardInterrupt as planning does."""
    ended = after(seconds)
    try:
        return solve_posed(fresh_day(day, aims), gap, SLOWEST * seconds, stop=ended)
    except KeyboardInterrupt:
        if not ended():
            raise
        raise OutOfTime("no plan was found in the time; give it more with --seconds") from None


def _plates(day: StandingDay, aim: Aim) -> list[Plate]:
    index = aim.standing.index
    if aim.held:
        return [aim.standing.held()]
    if index in day.posed.settled_plates:
        fitting = aim.fitting(aim.standing.plate)
        return [] if fitting is None else [fitting]
    found = []
    for drawn in day.drawn[index]:
        # Today's stand-ins may leave a part with nothing but what is struck out: then all of its foods are looked at.
        fitting = None if aim.came else aim.fitting(drawn)
        if fitting is None and (wide := day.plate(index, drawn.dish.id)) is not None:
            fitting = aim.fitting(wide)
        if fitting is not None:
            found.append(fitting)
    return found
