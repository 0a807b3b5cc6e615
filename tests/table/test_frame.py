"""The table as a frame holds what the table holds."""

from __future__ import annotations

import math

from mealopt.core.nutrients import KEYS
from mealopt.table.composition import shipped_composition
from mealopt.table.frame import composition_frame


def test_the_frame_is_the_table() -> None:
    frame, table = composition_frame(), shipped_composition()
    assert set(frame.index) == set(table.rows)
    for ndb in ("08120", "09040", "20045", "04053"):
        for key in KEYS:
            here, there = frame.loc[ndb, key], table.rows[ndb].per_100g.get(key)
            assert math.isnan(here) if there is None else here == there


def test_a_blank_is_not_a_number() -> None:
    assert composition_frame()["fibre_g"].isna().any()
