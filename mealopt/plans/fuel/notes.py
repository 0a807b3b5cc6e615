"""What a fuel plan has to say beside its numbers: what was assumed, what falls short, and the cautions."""

from __future__ import annotations

from mealopt.core.clock import clock
from mealopt.core.nutrients import CARBOHYDRATE
from mealopt.plans.fuel.need import Need
from mealopt.plans.fuel.rehearsal import rehearsal_words
from mealopt.plans.fuel.solve import Packed
from mealopt.targets.coefficients import ONE_SUGAR_MOST
from mealopt.targets.fluid import CAUTION, TEST_ADVICE
from mealopt.targets.safety import ALWAYS, NOT_ASKED, SPORTS_REFERRAL
from mealopt.targets.session_coefficients import LOSS_AIM
from mealopt.targets.sweat import doubts

READ_LABELS = "A food table cannot know a product's recipe, nor traces of other foods: read each label for allergens"
NO_DRINKING_PLAN = f"After low blood sodium in exercise there is no drinking plan here. See {SPORTS_REFERRAL}."


def cautions(need: Need) -> tuple[str, ...]:
    """What stands where the numbers stand."""
    first = NO_DRINKING_PLAN if need.fluid is None else CAUTION
    asked = () if need.case.athlete.cautions is not None else (NOT_ASKED,)
    return (first, *asked, READ_LABELS, ALWAYS)


def notes(packed: Packed, refills: tuple[int, ...]) -> tuple[str, ...]:
    """Assumptions, shortfalls and advice, in sentences."""
    return (*_eating(packed), *_drinking(packed, refills), *rehearsal_words(packed.need))


def _eating(packed: Packed) -> list[str]:
    need, found = packed.need, []
    gives = sum(count * thing.holds[CARBOHYDRATE] for thing, count in packed.things)
    gives += sum(count * mix.holds.get(CARBOHYDRATE, 0.0) for mix, count in packed.mixes)
    rate = gives / need.hours
    if need.aim == 0:
        found.append("nothing needs to be eaten in this session; drink to thirst")
    elif need.session.effort == "easy":
        found.append("easy work: all of this is optional; what you do not eat, eat afterwards, for the day counts it")
    if rate < need.least - 0.5:
        found.append(
            f"short: {rate:.0f} g/h of the {need.least:.0f} g/h that would suit; more does not go into the bottles and "
            "pockets of this session with what you eat"
        )
    if need.session.kind == "swim":
        found.append(
            "in water nothing is carried: bottle and food stand at the wall, or come from a boat; without either eat "
            "and drink before and after"
        )
    if rate > ONE_SUGAR_MOST:
        found.append("over 60 g/h only as glucose and fructose together; keep to the mix that is packed")
    if rate > 0:
        found.append(
            "assumed: glucose and fructose by what each food is (foods/extra.csv); the table knows only sugars"
        )
    return found


def _drinking(packed: Packed, refills: tuple[int, ...]) -> list[str]:
    need, fluid, found = packed.need, packed.need.fluid, []
    if fluid is None:
        return []
    if not fluid.tested:
        found.append(TEST_ADVICE)
    else:
        lost = fluid.loss_l_per_h * need.hours - need.litres
        percent = lost / need.case.athlete.mass_kg
        if percent > LOSS_AIM:
            found.append(
                f"the loss passes 2 % of body mass ({100 * percent:.1f} %), and the ceiling stands all the same: slow "
                "down, cool yourself, and drink more in the hours after, not faster now"
            )
    if not need.at_hand and need.bottles == 0 and need.session.bottles == 0:
        found.append("no bottle is carried, as the case says: drink where there is water, to thirst")
    if refills and need.session.kind != "swim":
        times = ", ".join(clock(need.session.start_minute + minute) for minute in refills)
        found.append(
            f"the way should pass water at about {times}; take what is mixed dry along in bags, one for each bottle"
        )
    found += doubts(need.case.athlete.sweat.test if need.case.athlete.sweat else ())
    return found
