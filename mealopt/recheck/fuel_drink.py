"""Fluid, sodium and strength of what is drunk in a session, found again from bottles and the case."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from mealopt.documents.fuel import FuelFluid, FuelPlan, FuelSodium
from mealopt.recheck.facts import Facts
from mealopt.recheck.tolerances import slack

#: L/h: with a test, and without one. mg of sodium for each litre drunk; a millimole of sodium is 22.99 mg.
TESTED_MOST, GUIDE_MOST = 1.0, 0.8
SODIUM_MOST, MMOL = 1150.0, 22.99
#: Whole body from forearm, mmol/L: 0.57 x + 11.05 (Baker and others 2016).
SLOPE, CONSTANT = 0.57, 11.05
#: How near to its aim sodium is held.
NEAR = 0.15


def broken_drink(plan: FuelPlan, sodium_mg: float, eaten: Mapping[str, float], facts: Facts) -> Iterator[str]:
    """Every promise of the drink. sodium_mg: of everything; eaten: nutrients of what is eaten, its water too."""
    litres = sum(bottle.count * bottle.ml for bottle in plan.bottles) / 1000.0
    if "hyponatraemia_before" in (facts.athlete.cautions or ()):
        if plan.fluid is not None or plan.sodium is not None or plan.bottles:
            yield "a drinking plan, after low blood sodium in exercise"
        return
    if plan.fluid is None or plan.sodium is None:
        yield "no word of how much to drink"
        return
    if not any("thirst" in caution for caution in plan.cautions):
        yield "the caution about drinking too much is not there"
    yield from _fluid(plan, plan.fluid, litres, eaten.get("water_g", 0.0) / 1000.0, facts)
    yield from _sodium(plan.sodium, litres, sodium_mg, facts)
    for bottle in plan.bottles:
        if bottle.percent > facts.fuel.drink_percent_most + 0.06:
            yield f"{bottle.name} of {bottle.percent:g} %, at most {facts.fuel.drink_percent_most:g} % is asked for"
    drunk = sum(step.ml for step in plan.steps)
    if abs(drunk - 1000.0 * litres) > 0.5:
        yield f"the bottles hold {1000 * litres:.0f} ml, the clock has {drunk} ml"


def _fluid(plan: FuelPlan, fluid: FuelFluid, litres: float, food: float, facts: Facts) -> Iterator[str]:
    hours = plan.minutes / 60.0
    tests = facts.athlete.sweat.test if facts.athlete.sweat else ()
    highest = min(max((test.rate for test in tests), default=0.0), TESTED_MOST) if fluid.tested else GUIDE_MOST
    if tests and not fluid.tested:
        highest = min(highest, max(test.rate for test in tests))
    if fluid.ceiling_l_per_h > highest + slack(highest) + 5e-4:
        yield f"a ceiling of {fluid.ceiling_l_per_h:g} L/h, at most {highest:.3g} L/h by the case"
    if litres + food > fluid.ceiling_l_per_h * hours + 0.0006 * hours:
        yield f"{litres + food:.2f} L with the water in food, at most {fluid.ceiling_l_per_h * hours:.2f} L"
    if abs(fluid.litres - litres) > 0.006 or abs(fluid.planned_l_per_h - litres / hours) > 0.001:
        yield f"{fluid.litres:g} L are said, the bottles hold {litres:.2f} L"
    if fluid.tested and fluid.loss_l_per_h is not None:
        if not any(abs(test.rate - fluid.loss_l_per_h) < 0.001 for test in tests):
            yield f"a sweat rate of {fluid.loss_l_per_h:g} L/h, which no test of the case says"
        lost = fluid.loss_l_per_h * hours
        if litres + food > lost + 0.001 * hours:
            yield f"{litres + food:.2f} L are drunk and eaten, {lost:.2f} L are lost: body mass would rise"
        if fluid.short_kg is not None and abs(fluid.short_kg - (lost - litres - food)) > 0.01 + 0.001 * hours:
            yield f"a loss of {fluid.short_kg:g} kg is said, {lost - litres - food:.2f} kg are left"


def _sodium(sodium: FuelSodium, litres: float, found_mg: float, facts: Facts) -> Iterator[str]:
    if abs(sodium.planned_mg - found_mg) > 1.0 + slack(found_mg):
        yield f"{sodium.planned_mg:g} mg of sodium are said, {found_mg:.0f} mg are packed"
    if litres and found_mg > SODIUM_MOST * litres * 1.001:
        yield f"{found_mg / litres:.0f} mg of sodium for each litre, at most {SODIUM_MOST:,.0f}"
    tests = facts.athlete.sweat.test if facts.athlete.sweat else ()
    known = [
        test.sodium_mg_per_l if test.sodium_from != "forearm" else SLOPE * test.sodium_mg_per_l + CONSTANT * MMOL
        for test in tests
        if test.sodium_mg_per_l is not None
    ]
    if known:
        own = min(sum(known) / len(known), SODIUM_MOST)
        if abs(sodium.aim_mg_per_l - own) > 1.0:
            yield f"an aim of {sodium.aim_mg_per_l:g} mg/L of sodium, the case's tests say {own:.0f}"
        low, high = (1.0 - NEAR) * own, min((1.0 + NEAR) * own, SODIUM_MOST)
        if sodium.least_mg_per_l < low - 1.0 or sodium.most_mg_per_l > high + 1.0:
            yield f"a sodium band of {sodium.least_mg_per_l:g} to {sodium.most_mg_per_l:g} mg/L about {own:.0f}"
