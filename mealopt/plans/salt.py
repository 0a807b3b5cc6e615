"""Cooking salt as a cook takes it."""

from __future__ import annotations

#: Pinches and spoons of salt, g (the table's household weight is 6 g a tsp; a pinch is common practice, no source).
PINCH_G, TSP_G = 0.4, 6.0

#: From here on a spoon is taken instead of pinches, g.
SPOON_FROM_G = 1.1

#: Grams of a teaspoon's parts; what lies between two is said as the nearest one.
_PARTS = (
    (1.2, "a scant 1/4 tsp"),
    (1.5, "1/4 tsp"),
    (1.8, "a heaped 1/4 tsp"),
    (2.1, "1/3 tsp"),
    (2.5, "a scant 1/2 tsp"),
    (3.0, "1/2 tsp"),
)

#: Up to here one of the parts is said, g; above it, as in a session's bottles, quarters.
_MOST_PART_G = 3.2

_QUARTERS = ("", "1/4", "1/2", "3/4")


def salt_measure(grams: float) -> str:
    """Pinches below a gram or so, then parts of a level teaspoon."""
    if grams < SPOON_FROM_G:
        pinches = max(1, round(grams / PINCH_G))
        return "1 pinch" if pinches == 1 else f"{pinches} pinches"
    if grams <= _MOST_PART_G:
        return min(_PARTS, key=lambda part: abs(part[0] - grams))[1]
    whole, quarters = divmod(max(1, round(4.0 * grams / TSP_G)), 4)
    return f"{' '.join(part for part in (str(whole) if whole else '', _QUARTERS[quarters]) if part)} tsp"
