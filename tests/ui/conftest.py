"""The page without a browser: each part by itself, run as Streamlit's own test harness runs it."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from streamlit.testing.v1 import AppTest

from mealopt.ui import keeping

Open = Callable[..., AppTest]

#: Seconds for one run of a part; they take a fraction of one.
SECONDS = 60


@pytest.fixture
def part() -> Open:
    """Opens a part of the page by its address, for the person of a page that is open already or for a newcomer."""

    def opened(path: str, same_as: AppTest | None = None) -> AppTest:
        page = AppTest.from_string(f"from mealopt.ui.main import alone\nalone({path!r})\n", default_timeout=SECONDS)
        if same_as is not None:
            page.query_params[keeping.PARAMETER] = same_as.session_state[keeping.PARAMETER]
        return clean(page.run())

    return opened


def clean(page: AppTest) -> AppTest:
    """The page, which must not have raised."""
    assert not page.exception, [one.value for one in page.exception]
    return page


def field(kind: object, label: str, place: int = 0) -> object:
    """The input with this label; the place-th of several."""
    found = [one for one in kind if one.label == label]  # type: ignore[attr-defined]
    assert found, f"{label}: {[one.label for one in kind]}"  # type: ignore[attr-defined]
    return found[place]


def text(page: AppTest) -> str:
    """All words of the page's paragraphs, captions and messages."""
    kinds = (page.title, page.header, page.subheader, page.markdown, page.caption, page.info, page.warning, page.error)
    return "\n".join(str(one.value) for kind in kinds for one in kind).replace("\\", "")


def finished(page: AppTest) -> AppTest:
    """The page after the work that is going on has ended."""
    kept = keeping.shelf().find(page.session_state[keeping.PARAMETER])
    assert kept is not None
    if kept.work is None:
        # It ended while the page was drawn, which took its answer in.
        return page
    assert kept.work.wait(SECONDS)
    return clean(page.run())
