"""When something is eaten or drunk in a session, in one picture."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import altair as alt
import pandas as pd

from mealopt.core.clock import minutes_of
from mealopt.ui.look import BLUE, GREEN, GREY, VERMILLION, clock_axis

if TYPE_CHECKING:
    from mealopt.api import FuelPlan

KINDS = ["eat", "drink", "refill"]
EACH = 44


def session_clock(plan: FuelPlan) -> tuple[Any, int, str]:
    """The chart, its height, and the same in words."""
    rows = [{"kind": step.kind, "at": minutes_of(step.time), "says": f"{step.time} {step.says}"} for step in plan.steps]
    frame = pd.DataFrame(rows, columns=["kind", "at", "says"])
    first, last = minutes_of(plan.start), minutes_of(plan.ends)
    shown = [kind for kind in KINDS if kind in set(frame["kind"])]
    across = alt.X("at:Q", scale=alt.Scale(domain=[first - 4, last + 4], nice=False),
                   axis=clock_axis(first, last, 30 if last - first <= 240 else 60))  # fmt: skip
    down = alt.Y("kind:N", sort=shown, scale=alt.Scale(domain=shown), title=None,
                 axis=alt.Axis(ticks=False, domain=False, labelPadding=6))  # fmt: skip
    shapes = alt.Scale(domain=KINDS, range=["square", "circle", "triangle-up"])
    marks = alt.Chart(frame).mark_point(filled=True, size=170, opacity=1).encode(
        x=across, y=down, tooltip=alt.Tooltip("says:N", title="then"),
        color=alt.Color("kind:N", legend=None, scale=alt.Scale(domain=KINDS, range=[VERMILLION, BLUE, GREEN])),
        shape=alt.Shape("kind:N", legend=None, scale=shapes),
    )  # fmt: skip
    ends = alt.Chart(pd.DataFrame({"at": [first, last]})).mark_rule(color=GREY, strokeDash=[4, 3]).encode(x=across)
    return alt.layer(ends, marks), EACH * len(shown) + 40, ". ".join(frame["says"])
