"""Each target of a day as a band, with the day's value in it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import altair as alt
import pandas as pd

from mealopt.core.bands import Band
from mealopt.core.nutrients import UNITS
from mealopt.core.words import amount, label, limits, missed
from mealopt.ui.look import GREY, VERMILLION, value_colour

if TYPE_CHECKING:
    from mealopt.api import PlanDay

#: How much of a band's width is drawn on either side of it.
AROUND = 0.22
#: Pixels for one band.
EACH = 66


def band_rows(entry: PlanDay) -> pd.DataFrame:
    """A row a target: where its value and aim lie between its limits (0 and 1), and the words for it."""
    rows = []
    for key, target in entry.targets.items():
        band, value = Band(target.least, target.aim, target.most), entry.totals.get(key)
        low = band.least if band.least is not None else 0.0
        high = band.most if band.most is not None else max(2 * low, 1.05 * (value or 0.0), low + 1)
        width = (high - low) or 1.0
        off = 0.0 if value is None else missed(band, value)
        short = f"{amount(abs(off), key)} {'short' if off < 0 else 'over'}; " if off else ""
        place = None if value is None else min(1 + AROUND, max(-AROUND, (value - low) / width))
        rows.append(
            {"name": label(key), "value": f"{label(key)} {'unknown' if value is None else amount(value, key)}",
             "limits": f"{short}{limits(band, UNITS[key])}", "at": place, "from": 0.0, "to": 1.0,
             "aim": None if band.aim is None else (band.aim - low) / width, "met": not off}
        )  # fmt: skip
    return pd.DataFrame(rows)


def bands_picture(entry: PlanDay) -> tuple[Any, int, str]:
    """The chart, its height, and the same in words."""
    rows = band_rows(entry)
    across = alt.X("from:Q", scale=alt.Scale(domain=[-AROUND, 1 + AROUND], nice=False), axis=None)
    down = alt.Y("name:N", sort=list(rows["name"]), axis=None)
    base = alt.Chart(rows).encode(y=down)
    track = base.mark_bar(height=12, color=GREY, opacity=0.45, cornerRadius=2, yOffset=17)
    track = track.encode(x=across, x2="to:Q")
    aim = base.mark_tick(thickness=2, height=18, color=GREY, yOffset=17).encode(x=alt.X("aim:Q"))
    met = [True, False]
    value = base.mark_point(filled=True, size=190, opacity=1, yOffset=17).encode(
        x=alt.X("at:Q"),
        shape=alt.Shape("met:N", scale=alt.Scale(domain=met, range=["diamond", "triangle-up"]), legend=None),
        color=alt.Color("met:N", scale=alt.Scale(domain=met, range=[value_colour(), VERMILLION]), legend=None),
        tooltip=[alt.Tooltip("value:N", title="here"), alt.Tooltip("limits:N", title="target")],
    )
    here = base.mark_text(align="left", dy=-21, fontWeight="bold").encode(x=alt.value(0), text="value:N")
    wanted = base.mark_text(align="left", dy=-4).encode(x=alt.value(0), text="limits:N")
    words = "; ".join(f"{row['value']}, target {row['limits']}" for row in rows.to_dict("records"))
    return alt.layer(track, aim, value, here, wanted), EACH * len(rows), words
