"""One day of a week: alone, given what the other days count, or with prices on the week's rows."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

from mealopt.errors import OutOfTime
from mealopt.milp.answer import Status
from mealopt.milp.highs import Highs
from mealopt.people.reading import case_from_dict
from mealopt.plans.day.card import Card
from mealopt.plans.day.document import plan_day_entry, solve_entry
from mealopt.plans.day.explain import explained, why_none
from mealopt.plans.day.found import NothingFits, SolvedDay
from mealopt.plans.day.pose import PosedDay, pose_day
from mealopt.plans.day.solve import first_places
from mealopt.plans.own import case_menu
from mealopt.plans.week.ahead import ahead_of, laid_after
from mealopt.plans.week.alone import dealt, first_answer, proof, stages
from mealopt.plans.week.job import Ask, DayAnswer, Stop, WeekTask
from mealopt.plans.week.pose import case_rows, shares_of
from mealopt.plans.week.potted import Freed, Pots, one_pot
from mealopt.plans.week.priced import priced_beyond
from mealopt.plans.week.wanted import with_shared_wishes
from mealopt.rules.problem import Problem
from mealopt.rules.weekly.ahead import free_minutes, pose_pots, potable
from mealopt.rules.weekly.joined import joined, prices_of
from mealopt.rules.weekly.pose import WEEK, pose_prices, pose_within

#: Plates a slot, beyond a first card's, on the card of a day that is to fit the others.
MORE_PLACES = 6


class Days:
    """The days of one week, each posed once."""

    def __init__(self, task: WeekTask) -> None:
        self.task = task
        folder = None if task.folder is None else Path(task.folder)
        self.case = case_from_dict(task.case, "the case of the week").beside(folder)
        self.menu = case_menu(self.case)
        self.rows = case_rows(self.case, len(task.days), self.menu, task.use_up)
        self.ahead = ahead_of(self.case, len(task.days), self.menu)
        self._posed: dict[str, PosedDay] = {}

    def posed(self, day: str) -> PosedDay:
        """The day posed. Raises as `pose_day` does."""
        if day not in self._posed:
            place = self.task.days.index(day)
            found = with_shared_wishes(pose_day(self.case, day), place)
            if self.ahead.least and place:
                found = laid_after(found, pose_day(self.case, self.task.days[place - 1]), self.ahead)
            self._posed[day] = found
        return self._posed[day]

    def answer(self, ask: Ask, stop: Stop | None = None) -> DayAnswer:
        """The answer. Raises BadInput, Refused; Unplannable and OutOfTime where a first answer is asked for."""
        answers = {"first": self._first, "alone": self._alone, "within": self._within, "priced": self._priced}
        if ask.what in answers:
            return answers[ask.what](ask, stop)
        return self._reach(ask) if ask.what == "reach" else self._prices(ask)

    def _first(self, ask: Ask, stop: Stop | None) -> DayAnswer:
        posed = self.posed(ask.day)
        solved: SolvedDay | NothingFits
        try:
            solved = first_answer(posed, ask.seconds, ask.solver, stop)
        except OutOfTime as out:
            raise why_none(posed, out, ask.seconds) from None
        if isinstance(solved, NothingFits):
            raise explained(solved, ask.seconds)
        return self._written(ask, solved, 0.0)

    def _alone(self, ask: Ask, stop: Stop | None) -> DayAnswer:
        """The day's own bound: it holds for whatever may come from an earlier day's pot, too."""
        posed = self.posed(ask.day)
        solved, bound = proof(posed, ask.beat, ask.gap, ask.seconds, self._pots(ask), stop)
        if not solved.answer.values:
            return DayAnswer(ask, None, 0.0, bound, {}, seconds=solved.seconds)
        # One that takes more minutes than the day has may stand where an earlier day cooks a pot for it.
        return replace(self._written(ask, solved, bound), ceiling=solved.answer.objective)

    def _eased_for(self, day: str) -> Callable[[Problem], None]:
        ahead = self.ahead
        if not ahead.span or day == self.task.days[0]:
            return lambda problem: None
        return lambda problem: free_minutes(problem, potable(problem, ahead.keeps, ahead.eaten))

    def _pots(self, ask: Ask) -> Pots | Freed:
        """What an earlier day's pot may save the day, and at what cost to the day before."""
        ahead, place = self.ahead, self.task.days.index(ask.day)
        if place and ahead.span:
            name = self.task.days[place - 1]
            if one_pot(ahead, self.posed(ask.day), self.posed(name)):
                return Pots(self.posed(name), ahead, self._eased_for(name), ask.base)
        return Freed(self._eased_for(ask.day))

    def _within(self, ask: Ask, stop: Stop | None) -> DayAnswer:
        _, problem = self._dealt(ask)
        start = time.perf_counter()
        elsewhere = pose_within(problem, self.rows, ask.others)
        pose_pots(problem, ask.pots, ask.need)
        answer = stages(problem, ask.gap, ask.seconds, stop, ask.beat - elsewhere)
        if not answer.values:
            return DayAnswer(ask, None, 0.0, float("-inf"), {}, seconds=answer.seconds)
        taken = time.perf_counter() - start
        return self._written(ask, SolvedDay(self.posed(ask.day), problem, answer, taken), float("-inf"))

    def _priced(self, ask: Ask, stop: Stop | None) -> DayAnswer:
        """The bound holds for every dish: more of the card is dealt while what is beyond it might cost less."""
        posed, start = self.posed(ask.day), time.perf_counter()
        card, problem = self._dealt(ask)
        places = self._places_of(ask)
        while True:
            pose_prices(problem, self.rows, ask.prices)
            self._eased_for(ask.day)(problem)
            answer = stages(problem, ask.gap, ask.seconds, stop)
            least = float("inf") if card.ended else priced_beyond(posed, self.rows, ask.prices, places)
            left = ask.seconds - (time.perf_counter() - start)
            if least >= answer.bound or left <= 0.5 or card.ended or not answer.values:
                break
            places = round(places * 1.5)
            card.deal(places)
            problem = posed.problem(card)
        bound = min(answer.bound, least)
        if not answer.values:
            return DayAnswer(ask, None, 0.0, bound, {}, seconds=answer.seconds)
        return self._written(ask, SolvedDay(posed, problem, answer, time.perf_counter() - start), bound)

    def _places_of(self, ask: Ask) -> int:
        """Plates a slot of a day that is to fit the others."""
        return max(ask.places, first_places(len(self.posed(ask.day).slots)) + MORE_PLACES)

    def _dealt(self, ask: Ask) -> tuple[Card, Problem]:
        return dealt(self.posed(ask.day), self._places_of(ask))

    def _written(self, ask: Ask, solved: SolvedDay, bound: float) -> DayAnswer:
        """The answer with the day as the document holds it, its penalty without the week's charges."""
        shares = solved.problem.shares(solved.answer.values)
        value = sum(points for term, points in shares.items() if term != WEEK)
        own = replace(solved.answer, objective=value, bound=min(value, solved.answer.bound))
        # The day's own bound is the search's to know: what is beyond the card is not looked at in every answer.
        own = replace(own, bound=float("-inf"), status=Status.LIMIT)
        model = solved.problem.model
        stopped = solved.stopped
        entry = plan_day_entry(solved, solve_entry(own, len(model.rows), model.columns, solved.seconds, stopped))
        entry = entry.model_copy(update={"penalty": {k: v for k, v in entry.penalty.items() if k != WEEK}})
        return DayAnswer(
            ask,
            entry,
            value,
            bound,
            shares_of(entry, self.rows, self.menu.pantry),
            solved.answer.solver,
            len(model.rows),
            model.columns,
            solved.seconds,
            stopped,
            places=max(len(options) for options in solved.problem.servings),
        )

    def _prices(self, ask: Ask) -> DayAnswer:
        """What a unit of each of the week's rows is worth, by one linear program of all its days' first cards."""
        problems = []
        for day in self.task.days:
            posed = self.posed(day)
            problems.append(dealt(posed, first_places(len(posed.slots)))[1])
        whole, _ = joined(problems, self.rows)
        relaxed = Highs(whole).relax()
        prices = prices_of(self.rows, whole, relaxed.duals) if relaxed.status.solved else {}
        return DayAnswer(ask, None, 0.0, float("-inf"), {}, reach=prices)

    def _reach(self, ask: Ask) -> DayAnswer:
        """The most that the day's linear program lets each row have: no choice of the card's plates brings more."""
        _, problem = self._dealt(ask)
        reach = {}
        for row in self.rows:
            if row.name in ask.rows and row.form != "times":
                problem.model.cost = [0.0] * len(problem.model.least)
                before = len(problem.model.rows)
                pose_prices(problem, [row], {row.name: 1.0})
                relaxed = Highs(problem.model).relax()
                reach[row.name] = -relaxed.objective if relaxed.status.solved else float("inf")
                del problem.model.rows[before:]
        return DayAnswer(ask, None, 0.0, float("-inf"), {}, reach=reach)
