"""Colours, sizes and small pieces that all pages share.

The colours are from a palette made for colour-blind readers (Okabe and Ito 2008, Color Universal Design [memory]);
where one carries a meaning, a word or a shape carries it too.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import altair as alt
import streamlit as st

from mealopt.core.words import IN_SHORT

BLUE, VERMILLION, GREEN, GREY = "#0072B2", "#D55E00", "#009E73", "#808784"

#: Smallest text in a picture, in pixels.
TEXT = 14

_STYLE = """
<style>
.block-container, [data-testid="stMainBlockContainer"] {max-width: 76rem; padding: 3.2rem 2.6rem 4rem;}
[data-testid="stCaptionContainer"], [data-testid="stCaptionContainer"] p {
  font-size: 0.92rem; color: inherit; opacity: 0.93;
}
[data-testid="stWidgetLabel"] p {font-size: 0.94rem;}
[data-testid="stSidebarNav"] span {font-size: 1rem;}
[data-testid="stMarkdownContainer"] li {font-size: 1rem;}
.st-key-parts {display: none;}
[class*="st-key-aisles"] {display: block; columns: 17rem 3; column-gap: 2rem;}
[class*="st-key-aisle-"] {break-inside: avoid; margin-bottom: 1.1rem;}
@media (min-width: 1000px) and (min-height: 820px) {
  [data-testid="stColumn"]:has(.st-key-targets) {position: sticky; top: 4rem; align-self: flex-start;}
}
@media (max-width: 640px) {
  .st-key-parts {display: flex;}
  .st-key-parts a {padding: 0.2rem 0.45rem;}
  [data-testid="stMainBlockContainer"] {padding: 4rem 1rem 4rem;}
  [data-testid="stButtonGroup"] button {padding-left: 0.55rem; padding-right: 0.55rem;}
}
</style>
"""

#: On the light green of dark pages, words are dark.
_DARK = """
<style>
[data-testid="stBaseButton-primary"], [data-testid="stMultiSelect"] [data-tag], [data-baseweb="tag"] * {color: #0E1A18;}
</style>
"""


def style() -> str:
    """What the theme's own settings cannot say."""
    return _STYLE + (_DARK if st.context.theme.type == "dark" else "")


def ink() -> str:
    """The colour of text in pictures, for the reader's light or dark."""
    return "#ECEFEA" if st.context.theme.type == "dark" else "#1F2724"


def value_colour() -> str:
    """The colour of a value in its band: a blue that stands out on grey, in light and in dark."""
    return "#56B4E9" if st.context.theme.type == "dark" else BLUE


def dressed(chart: Any, height: int) -> Any:
    """The chart in the page's sizes: text of at least 14 pixels, no frame, no menu."""
    return (
        chart.properties(height=height, background="transparent")
        .configure(font='"Source Sans", sans-serif')
        .configure_view(stroke=None)
        .configure_axis(labelFontSize=TEXT, titleFontSize=TEXT, labelColor=ink(), titleColor=ink(), gridOpacity=0.35)
        .configure_legend(labelFontSize=TEXT, titleFontSize=TEXT, labelColor=ink(), titleColor=ink())
        .configure_text(fontSize=TEXT, color=ink())
    )


def picture(chart: Any, height: int, says: str, key: str) -> None:
    """Show a chart over the full width. says: the same in words, for whoever cannot see it."""
    with st.container(key=f"picture {key}"):
        st.altair_chart(dressed(chart, height), width="stretch", theme=None, alt=says)


#: A clock below or above a picture, from minutes of the plan day.
CLOCK = (
    "(floor(datum.value / 60) % 24 < 10 ? '0' : '') + floor(datum.value / 60) % 24 + ':' + "
    "(datum.value % 60 < 10 ? '0' : '') + datum.value % 60"
)


def clock_axis(first: int, last: int, step: int, orient: Any = "top") -> alt.Axis:
    """An axis of clock times every `step` minutes."""
    start = -(-first // step) * step
    return alt.Axis(values=list(range(start, last + 1, step)), labelExpr=CLOCK, orient=orient, title=None, grid=True,
                    labelOverlap="greedy")  # fmt: skip


def cautioned() -> None:
    """The caution that stands at the head of every page with numbers."""
    st.caption(IN_SHORT)


def listed(title: str, sentences: Sequence[str], *, open_at_first: bool = True) -> None:
    """Sentences under a heading that can be folded; nothing where there are none."""
    lines = list(dict.fromkeys(sentences))
    if lines:
        with st.expander(f"{title} ({len(lines)})", expanded=open_at_first):
            st.markdown("\n".join(f"- {plain(line)}" for line in lines))


def plain(text: str) -> str:
    """Words of a file or a person as they are: nothing in them is taken for markup."""
    for mark in ("\\", "`", "*", "_", "[", "]", "<", ">", "$", "#", "~", ":"):
        text = text.replace(mark, f"\\{mark}")
    return text
