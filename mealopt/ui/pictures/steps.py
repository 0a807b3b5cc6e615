"""From resting energy to a day's energy, step by step, as bars that stand on each other."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import altair as alt
import pandas as pd

from mealopt.core.words import number
from mealopt.ui.look import BLUE, GREEN, VERMILLION

if TYPE_CHECKING:
    from mealopt.api import EnergyStep

EACH = 52
WHAT = ["reached", "added", "taken off"]


def step_rows(steps: tuple[EnergyStep, ...]) -> pd.DataFrame:
    """A row a step: from where to where its bar goes, in kcal, and its words."""
    rows: list[dict[str, Any]] = []
    at = 0.0
    for place, step in enumerate(steps, 1):
        start = 0.0 if step.reached else at
        end = step.kcal if step.reached else at + step.kcal
        what = "reached" if step.reached else "added" if step.kcal >= 0 else "taken off"
        sign = "" if step.reached else "+" if step.kcal >= 0 else "-"
        said = f"{step.name}: {sign}{number(abs(step.kcal))} kcal"
        rows.append({"place": place, "from": start, "to": end, "what": what, "says": said, "how": step.how,
                     "source": step.source})  # fmt: skip
        at = end
    return pd.DataFrame(rows)


def steps_picture(steps: tuple[EnergyStep, ...]) -> tuple[Any, int, str]:
    """The chart, its height, and the same in words."""
    rows = step_rows(steps)
    most = float(rows[["from", "to"]].to_numpy().max()) * 1.02
    across = alt.X("from:Q", scale=alt.Scale(domain=[0, most], nice=False),
                   axis=alt.Axis(title="kcal", tickCount=5, format=",d"))  # fmt: skip
    base = alt.Chart(rows).encode(y=alt.Y("place:O", axis=None))
    colour = alt.Color("what:N", scale=alt.Scale(domain=WHAT, range=[BLUE, GREEN, VERMILLION]), legend=None)
    tips = [
        alt.Tooltip("says:N", title="step"),
        alt.Tooltip("how:N", title="how"),
        alt.Tooltip("source:N", title="source"),
    ]
    bars = base.mark_bar(height=16, yOffset=9, cornerRadius=2).encode(x=across, x2="to:Q", color=colour, tooltip=tips)
    names = base.mark_text(align="left", dy=-10).encode(x=alt.value(0), text="says:N")
    return alt.layer(bars, names), EACH * len(rows) + 40, "; ".join(rows["says"])
