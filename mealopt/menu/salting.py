"""How much salt a dish is cooked with."""

from __future__ import annotations

import math

#: Less than this nobody would taste, tenths of a gram: half a pinch.
LEAST_TENTHS = 2

#: More than this no cook puts on one plate, tenths of a gram: half a teaspoon.
MOST_TENTHS = 30

#: Grams under half a tenth that still are rounded up: a sum of grams is not exact.
TIE = 1e-5


def cooking_salt(percent: float, grams: float) -> float:
    """Salt for a dish of so many grams, g; 0 where nobody would taste it."""
    tenths = min(MOST_TENTHS, math.floor(percent / 10.0 * grams + 0.5 + TIE))
    return tenths / 10.0 if tenths >= LEAST_TENTHS else 0.0
