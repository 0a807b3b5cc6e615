"""A solved day written down as a plan document."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import timedelta

from mealopt import __version__
from mealopt.core.bands import Band
from mealopt.core.clock import DAYS, clock
from mealopt.core.slots import Slot
from mealopt.documents.fuel import FuelPlan
from mealopt.documents.parts import TargetBand
from mealopt.documents.plan import Item, Meal, Plan, PlanDay, SessionEntry, Solve, Table
from mealopt.documents.totals import Portion, Totals, day_totals
from mealopt.menu.dishes import Dish
from mealopt.menu.salting import cooking_salt
from mealopt.milp.answer import Answer, Status
from mealopt.people.case import Case
from mealopt.people.notes import case_notes
from mealopt.people.reading import case_to_dict
from mealopt.plans.ahead import cooked_ahead
from mealopt.plans.day.found import SolvedDay
from mealopt.plans.day.pose import PosedDay
from mealopt.plans.day.settled_words import as_settled, given_totals
from mealopt.plans.fuel.in_day import as_fuelled
from mealopt.plans.own import menu_cautions
from mealopt.plans.salt import salt_measure
from mealopt.plans.steps import complete
from mealopt.plans.words import as_said, dish_name, kitchen_measure, method_of
from mealopt.rules import weights
from mealopt.rules.problem import Problem, Serving
from mealopt.table.pantry import Food, Pantry
from mealopt.targets.model import DayTargets, SessionEnergy

SALT = "salt"

#: A shortfall of carbohydrate is worth a word under this share of what would suit.
SHORT = 0.93

#: What a plan is not: stands with every list of food.
READ_LABELS = "A food table cannot know a product's recipe, nor traces of other foods: read each label for allergens"


@dataclass(frozen=True, slots=True)
class Chosen:
    """One food of a plate as chosen: pantry name, grams, and the role that it fills ("" for cooking salt)."""

    food: str
    grams: float
    role: str


def chosen_foods(serving: Serving, values: list[float], pantry: Pantry, salted: bool = True) -> list[Chosen]:
    """The foods of the served plate in whole kitchen steps, with the salt that it is cooked with, if it is salted."""
    chosen = [
        Chosen(food.choice.name, round(grams, 2), part.part.role)
        for part in serving.parts
        for food in part.foods
        if (grams := food.grams(values)) > 0
    ]
    salt = cooking_salt(serving.plate.dish.salt_percent, sum(entry.grams for entry in chosen))
    if salted and salt and not any(entry.food == SALT for entry in chosen) and SALT in pantry.foods:
        chosen.append(Chosen(SALT, salt, ""))
    return chosen


def _item(chosen: Chosen, pantry: Pantry) -> Item:
    food = pantry.foods[chosen.food]
    bought = chosen.grams * food.bought_per_gram
    measure = (
        salt_measure(chosen.grams)
        if chosen.food == SALT and not chosen.role
        else kitchen_measure(chosen.grams, food.measure, food.measure_g)
    )
    return Item(
        food=food.name,
        source=food.source,
        grams=chosen.grams,
        measure=measure,
        state=food.state,
        as_bought_g=round(bought, 1),
        says=_said(food, chosen.grams),
    )


def _said(food: Food, grams: float) -> str:
    return as_said(food.says, grams, food.measure, food.measure_g)


def _named(dish: Dish, chosen: list[Chosen], pantry: Pantry) -> tuple[str, tuple[str, ...]]:
    roles: dict[str, list[str]] = {}
    for entry in chosen:
        if entry.role:
            roles.setdefault(entry.role, []).append(_said(pantry.foods[entry.food], entry.grams))
    foods = [pantry.foods[entry.food] for entry in chosen if entry.role]
    salted = any(entry.food == SALT and not entry.role for entry in chosen)
    return dish_name(dish.name, roles), complete(method_of(dish.method, roles), foods, salted)


def meal_entry(slot: Slot, dish: Dish, chosen: list[Chosen], totals: dict[str, float], pantry: Pantry) -> Meal:
    name, method = _named(dish, chosen, pantry)
    notes = []
    hurried = dish.minutes > slot.minutes_most
    if dish.heat == "stove" and (hurried or not slot.stove) and slot.kind != "during":
        notes.append("Made ahead and reheated" if dish.reheats and slot.heat else "Made ahead, taken along, eaten cold")
    else:
        notes.extend(cooked_ahead(((pantry.foods[entry.food], entry.role) for entry in chosen), dish))
    return Meal(
        number=slot.index + 1,
        slot=slot.kind,  # type: ignore[arg-type]
        time=clock(slot.start),
        ends=clock(slot.end),
        dish=name,
        dish_id=dish.id,
        minutes=dish.minutes,
        before_session=slot.before_session,
        lead_minutes=slot.lead_minutes,
        limits=dict(slot.limits) if slot.kind != "during" else {},
        items=tuple(_item(entry, pantry) for entry in chosen),
        totals=totals,
        method=method,
        also=dish.also,
        notes=tuple(notes),
    )


def _meals(posed: PosedDay, problem: Problem, values: list[float]) -> tuple[tuple[Meal, ...], Totals]:
    pantry = posed.larder.menu.pantry
    served = [
        next(serving for serving in options if round(values[serving.served]) == 1) for options in problem.servings
    ]
    salted = SALT not in posed.case.kitchen.never
    chosen = [
        [] if serving.slot.given == "energy" else chosen_foods(serving, values, pantry, salted) for serving in served
    ]
    totals = day_totals([[_portion(entry, pantry) for entry in meal] for meal in chosen], given_totals(posed))
    meals = (
        meal_entry(serving.slot, serving.plate.dish, foods, meal_totals, pantry)
        for serving, foods, meal_totals in zip(served, chosen, totals.meals, strict=True)
    )
    written = (as_settled(meal, slot, posed) for meal, slot in zip(meals, posed.slots, strict=True))
    return tuple(as_fuelled(meal, slot, posed.fuel) for meal, slot in zip(written, posed.slots, strict=True)), totals


def _portion(chosen: Chosen, pantry: Pantry) -> Portion:
    food = pantry.foods[chosen.food]
    return Portion(chosen.grams, pantry.row(food).per_100g, frozenset(food.counts))


def target_band(band: Band) -> TargetBand:
    return TargetBand(least=band.least, aim=band.aim, most=band.most)


def session_entry(entry: SessionEnergy, number: int, fuel: FuelPlan | None = None) -> SessionEntry:
    session = entry.session
    least, most = entry.carbohydrate_g_per_h
    during_least, during_most = entry.during_g
    return SessionEntry(
        number=number,
        kind=session.kind,
        effort=session.effort,
        start=clock(session.start_minute),
        ends=clock(session.end_minute),
        minutes=session.minutes,
        net_kcal=round(entry.net_kcal, 1),
        replaced_kcal=round(entry.replaced_kcal, 1),
        carbohydrate_g_per_h=TargetBand(least=round(least, 1), most=round(most, 1)) if most > 0 else None,
        during_g=TargetBand(least=round(during_least, 1), most=round(during_most, 1)) if during_most > 0 else None,
        how=entry.how,
        source=entry.source,
        notes=entry.notes,
        fuel=fuel,
    )


def refuel_notes(posed: PosedDay, meals: tuple[Meal, ...]) -> list[str]:
    notes = []
    for window in posed.refuel:
        eaten = sum(meals[index].totals.get("carbohydrate_g", 0.0) for index in window.slots)
        if eaten < SHORT * window.aim:
            notes.append(f"{window.says}: {eaten:.0f} g; {window.aim:.0f} g would suit better")
    return notes


def solve_entry(answer: Answer, rows: int, columns: int, seconds: float, stopped: bool = False) -> Solve:
    """How the answer was found, as the document has it."""
    status = {Status.OPTIMAL: "optimal", Status.GAP: "optimal", Status.LIMIT: "gap"}[answer.status]
    status = "stopped" if stopped else status
    known = answer.bound > -1e20
    return Solve(
        solver=answer.solver,
        status=status,  # type: ignore[arg-type]
        objective=round(answer.objective, 4),
        bound=round(answer.bound, 4) if known else None,
        gap=round(answer.gap(weights.FLOOR), 5) if known else None,
        seconds=round(seconds, 3),
        rows=rows,
        columns=columns,
    )


def _date(case: Case, day: str) -> str | None:
    return None if case.week_of is None else (case.week_of + timedelta(days=DAYS.index(day))).isoformat()


def plan_day_entry(solved: SolvedDay, solve: Solve) -> PlanDay:
    """One day of the document."""
    if solved.posed.anew is not None:
        from mealopt.plans.replan.again import entry_again

        return entry_again(solved, solve, solved.posed.anew)
    posed, targets = solved.posed, solved.posed.targets
    values = solved.answer.values
    meals, totals = _meals(posed, solved.problem, values)
    shares = {term: round(points, 2) for term, points in solved.problem.shares(values).items() if points >= 0.005}
    return PlanDay(
        day=posed.day,  # type: ignore[arg-type]
        date=_date(posed.case, posed.day),  # type: ignore[arg-type]
        sessions=tuple(
            session_entry(entry, number, posed.fuel[number].plan if number in posed.fuel else None)
            for number, entry in enumerate(targets.sessions, start=1)
        ),
        targets={key: target_band(band) for key, band in posed.bands.items()},
        meals=meals,
        totals=totals.day,
        coverage=totals.coverage,
        missed=(),
        cautions=(*day_cautions(posed.case, targets, meals), *menu_cautions(posed.larder.menu)),
        notes=(*case_notes(posed.case), *targets.notes, *posed.notes, *refuel_notes(posed, meals)),
        penalty=shares,
        solve=solve,
    )


#: Where oats are eaten.
OATS = "Oats need certification for coeliac disease"


def day_cautions(case: Case, targets: DayTargets, meals: tuple[Meal, ...]) -> tuple[str, ...]:
    oats = any(re.search(r"\boats?\b", item.food) for meal in meals for item in meal.items)
    return (*targets.cautions, READ_LABELS, *([OATS] if oats else []))


def day_plan(solved: SolvedDay) -> Plan:
    """The plan document of one solved day."""
    model = solved.problem.model
    solve = solve_entry(solved.answer, len(model.rows), model.columns, solved.seconds, solved.stopped)
    composition = solved.posed.larder.menu.pantry.composition
    return Plan(
        schema="mealopt/plan-1",
        kind="day",
        case=case_to_dict(solved.posed.case),
        table=Table(name=composition.name, sha256=composition.sha256),
        days=(plan_day_entry(solved, solve),),
        solve=solve,
        program=f"mealopt {__version__}",
    )
