"""A plan day from waking to sleep in one picture: sessions, meals, and when meals must be light."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import altair as alt
import pandas as pd

from mealopt.core.clock import clock, minutes_of
from mealopt.core.words import number
from mealopt.ui.look import BLUE, GREEN, VERMILLION, clock_axis

if TYPE_CHECKING:
    from mealopt.api import LightSpan, PlanDay

ROWS = ["training", "light food", "meals"]


def day_line(entry: PlanDay, spans: tuple[LightSpan, ...], hours: tuple[int, int]) -> tuple[Any, str]:
    """The chart, and the same in words. hours: waking and sleep, in minutes."""
    sessions = pd.DataFrame(
        [
            {"row": "training", "from": minutes_of(one.start), "to": minutes_of(one.ends), "name": one.kind,
             "says": f"{one.start} {one.kind}, {one.effort}, until {one.ends}"}
            for one in entry.sessions
        ],
        columns=["row", "from", "to", "name", "says"],
    )  # fmt: skip
    light = pd.DataFrame(
        [
            {"row": "light food", "from": one.start, "to": one.end, "strict": 1 - one.fibre_most_g / 12,
             "says": f"{clock(one.start)} to {clock(one.end)}: fibre at most {number(one.fibre_most_g)} g, fat at most "
             f"{number(one.fat_most_g)} g in a meal"}
            for one in spans
        ],
        columns=["row", "from", "to", "strict", "says"],
    )  # fmt: skip
    meals = pd.DataFrame(
        [
            {"row": "meals", "at": minutes_of(one.time), "number": str(one.number),
             "says": f"{one.time} {one.number}. {one.dish}"}
            for one in entry.meals
        ],
        columns=["row", "at", "number", "says"],
    )  # fmt: skip
    first, last = hours
    scale = alt.Scale(domain=[first - 15, last + 15], nice=False)
    across = alt.X("from:Q", scale=scale, axis=clock_axis(first, last, 120))
    rows = alt.Y("row:N", sort=ROWS, scale=alt.Scale(domain=ROWS, paddingOuter=0.3), title=None,
                 axis=alt.Axis(ticks=False, domain=False, labelPadding=6))  # fmt: skip
    bars = alt.Chart(sessions).mark_bar(color=VERMILLION, height=26, cornerRadius=3)
    bars = bars.encode(x=across, x2="to:Q", y=rows, tooltip=alt.Tooltip("says:N", title="session"))
    names = alt.Chart(sessions).mark_text(align="left", dy=-22).encode(x=across, y=rows, text="name:N")
    windows = alt.Chart(light).mark_bar(color=GREEN, height=20, stroke=GREEN)
    windows = windows.encode(x=across, x2="to:Q", y=rows, fillOpacity=alt.FillOpacity("strict:Q", legend=None,
                             scale=alt.Scale(domain=[0, 1], range=[0.1, 0.9])),
                             tooltip=alt.Tooltip("says:N", title="light food"))  # fmt: skip
    at = alt.X("at:Q", scale=scale)
    dots = alt.Chart(meals).mark_circle(color=BLUE, size=620, opacity=1)
    dots = dots.encode(x=at, y=rows, tooltip=alt.Tooltip("says:N", title="meal"))
    numbers = alt.Chart(meals).mark_text(color="white", fontWeight="bold", dy=1).encode(x=at, y=rows, text="number:N")
    ends = pd.DataFrame([{"at": first, "says": "waking"}, {"at": last, "says": "sleep"}])
    edges = alt.Chart(ends).mark_rule(strokeDash=[4, 3], color="#808784").encode(x=at, tooltip="says:N")
    said = [f"Awake from {clock(first)} to {clock(last)}", *sessions["says"], *light["says"], *meals["says"]]
    return alt.layer(edges, windows, bars, names, dots, numbers), ". ".join(said)


def light_words(spans: tuple[LightSpan, ...]) -> list[str]:
    """When meals must be light, a sentence a session."""
    lines = []
    for number_of in dict.fromkeys(one.session for one in spans):
        own = [one for one in spans if one.session == number_of]
        ahead = "the next day's session" if number_of is None else f"session {number_of}"
        most = f"{number(max(one.fibre_most_g for one in own))} g"
        least = f"{number(min(one.fibre_most_g for one in own))} g"
        falls = f"at most {most} fibre in a meal" + (f", falling to {least}" if least != most else "")
        lines.append(f"{clock(own[0].start)} to {clock(own[-1].end)}, before {ahead}: {falls}")
    return lines
