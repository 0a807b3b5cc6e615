"""How far a document may be from the numbers of the table, all in one place."""

from __future__ import annotations

#: Share of a value that rounding may take: documents write five digits, and solvers hold a row to about 1e-6.
RELATIVE = 5e-4

#: In the nutrient's own unit, for values near zero.
ABSOLUTE = 1e-4

#: Of a coverage, which is a share that is cut to four decimals.
COVERAGE = 2e-4

#: Grams of an item and as bought may be written to a tenth of a gram.
GRAMS = 0.051

#: Energy stays this near to its aim, unless its band is wider (band +/- 2 % of the aim).
ENERGY_SHARE = 0.02


def slack(value: float) -> float:
    """What rounding may change in a value."""
    return ABSOLUTE + RELATIVE * abs(value)


def same(written: float, found: float) -> bool:
    """Whether a written value is the found one but for rounding."""
    return abs(written - found) <= slack(found)


def grams_same(written: float, found: float) -> bool:
    """Whether written grams are the found ones but for rounding to a tenth."""
    return abs(written - found) <= GRAMS + RELATIVE * found


def whole_steps(grams: float, step_g: float) -> bool:
    """Whether grams are one or more whole kitchen steps; a step below a gram is written less exactly than it is."""
    steps = max(1, round(grams / step_g))
    return abs(grams - steps * step_g) <= min(GRAMS, 0.2 * step_g + 1e-9)
