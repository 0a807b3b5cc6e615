"""Words of a fuel plan: what a spoon measures, how a bottle is mixed, what is done when."""

from __future__ import annotations

from fractions import Fraction

from mealopt.core.clock import clock
from mealopt.documents.fuel import FuelFood
from mealopt.plans.fuel.choices import SALT, Mix
from mealopt.plans.fuel.solve import Packed
from mealopt.plans.words import joined, kitchen_measure
from mealopt.table.pantry import Pantry

#: A level teaspoon of salt and a pinch, g, as the pantry has them.
SPOON_G, PINCH_G = 6.0, 0.5

#: How often somebody drinks, minutes [common practice, no source].
SIP_EVERY = 15


def salt_words(grams: float) -> str:
    """Salt as it is measured: eighths of a teaspoon where it is whole ones, else pinches."""
    eighths = Fraction(grams).limit_denominator(100) / Fraction(SPOON_G) * 8
    if eighths.denominator == 1 and eighths > 0:
        return f"{_count(eighths / 8)} tsp"
    if grams > 3 * PINCH_G:
        near = Fraction(max(1, round(float(Fraction(grams) / Fraction(SPOON_G) * 8))), 8)
        return f"about {_count(near)} tsp"
    pinches = Fraction(grams / PINCH_G).limit_denominator(4)
    return f"{_count(pinches)} {'pinch' if pinches <= 1 else 'pinches'}"


def _count(number: Fraction) -> str:
    whole, rest = divmod(number.numerator, number.denominator)
    return " ".join([*([str(whole)] if whole else []), *([f"{rest}/{number.denominator}"] if rest else [])]) or "0"


def fuel_food(name: str, grams: float, pantry: Pantry) -> FuelFood:
    """A food with its kitchen measure."""
    food = pantry.foods[name]
    measure = salt_words(grams) if name == SALT else kitchen_measure(grams, food.measure, food.measure_g)
    return FuelFood(food=name, grams=round(grams, 2), measure=measure)


def mixed(mix: Mix, salt_g: float, ml: int, count: int, pantry: Pantry) -> str:
    """How a bottle is mixed, and how much that is for all of its kind."""
    parts = {**mix.grams, **({SALT: salt_g} if salt_g else {})}
    if not parts:
        return f"{ml} ml of plain water"
    each = joined([_amount(name, grams, pantry) for name, grams in parts.items()])
    says = f"{each}, filled up with water to {ml} ml"
    if count > 1:
        every = joined([_amount(name, count * grams, pantry) for name, grams in parts.items()])
        says += f"; for {'both' if count == 2 else f'all {count}'}: {every}"
    return says


def _amount(name: str, grams: float, pantry: Pantry) -> str:
    made = fuel_food(name, grams, pantry)
    weight = "" if made.measure.endswith(" g") else f" ({gram_words(grams)})"
    return f"{made.measure} {pantry.foods[name].says}{weight}"


def gram_words(grams: float) -> str:
    """Grams without false digits: "1030 g", "56.7 g", "0.25 g"."""
    return f"{grams:.0f} g" if grams >= 100 else f"{grams:.3g} g"


def a_or_several(count: int, one: str, many: str) -> str:
    """ "a banana", "3 bananas"."""
    if count > 1:
        return f"{count} {many}"
    bare = one.startswith(("half ", "two ", "a ", "an "))
    return one if bare else f"{'an' if one[0] in 'aeiou' else 'a'} {one}"


def sip_words(ml: int, minutes: int) -> str:
    """How a bottle lasts its time."""
    each = max(10, round(ml * SIP_EVERY / max(minutes, SIP_EVERY) / 10) * 10)
    return f"about {each} ml every {SIP_EVERY} min"


def meal_name(packed: Packed) -> str:
    """What is eaten and drunk in the session, in a few words."""
    drinks = [mix.says for mix, _ in packed.mixes if mix.drink is not None]
    salted = ["lightly salted water"] if packed.salt_g and not drinks else []
    eaten = [a_or_several(count, thing.one, thing.many) for thing, count in packed.things]
    return joined([*dict.fromkeys(drinks), *salted, *eaten])


def time_of(start: int, minute: int) -> str:
    """The clock at a minute of a session."""
    return clock(start + minute)
