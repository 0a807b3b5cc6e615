"""Cooking salt as a cook takes it."""

from __future__ import annotations

#: Pinches and spoons of salt, g (the table's household weight is 6 g a tsp; a pinch is common practice, no source).
PINCH_G, TSP_G = 0.4, 6.0

#: From here on a spoon is taken instead of pinches, g.
SPOON_FROM_G = 1.1

_QUARTERS = ("", "1/4", "1/2", "3/4")


def salt_measure(grams: float) -> str:
    """Pinches below a gram or so, then quarters of a teaspoon."""
    if grams < SPOON_FROM_G:
        pinches = max(1, round(grams / PINCH_G))
        return "1 pinch" if pinches == 1 else f"{pinches} pinches"
    whole, quarters = divmod(max(1, round(4.0 * grams / TSP_G)), 4)
    return f"{' '.join(part for part in (str(whole) if whole else '', _QUARTERS[quarters]) if part)} tsp"
