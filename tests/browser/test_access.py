"""Everybody can use it: an accessibility engine finds nothing serious, text is large, nothing scrolls sideways."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from mealopt.ui.main import PAGES
from tests.browser.conftest import Visit, settle

#: axe-core, from the npm registry, with its licence beside it.
AXE = Path(__file__).with_name("axe") / "axe.min.js"

#: Smallest text, in pixels.
LEAST = 14

SMALL = """least => [...document.querySelectorAll('[data-testid="stApp"] *')].filter(one =>
  [...one.childNodes].some(child => child.nodeType === 3 && child.textContent.trim()) &&
  one.checkVisibility({opacityProperty: true, visibilityProperty: true}) &&
  getComputedStyle(one).clip !== 'rect(0px, 0px, 0px, 0px)' &&
  !one.closest('[data-testid="stIconMaterial"], style, [aria-hidden="true"]') &&
  parseFloat(getComputedStyle(one).fontSize) < least - 0.01
).map(one => `${one.textContent.trim().slice(0, 40)}: ${getComputedStyle(one).fontSize}`)"""


def serious(page: Any) -> list[str]:
    """What the engine calls serious or critical: rule, and where."""
    page.evaluate(AXE.read_text(encoding="utf-8"))
    found = page.evaluate("axe.run(document, {resultTypes: ['violations']})")
    return [
        f"{one['id']}: {node['target']} {node['html'][:160]} {node.get('failureSummary', '')[:200]}"
        for one in found["violations"]
        if one["impact"] in ("serious", "critical")
        for node in one["nodes"]
    ]


@pytest.mark.parametrize(("width", "theme"), [(1280, "light"), (390, "dark")])
def test_each_part_can_be_used_by_everybody(visit: Visit, width: int, theme: str) -> None:
    page = visit(width, theme)
    root = page.url.split("?")[0].rstrip("/")
    for title, path, _ in PAGES:
        page.goto(f"{root}/{path}" if path != "day" else root)
        page.get_by_role("heading", level=1).first.wait_for()
        settle(page)
        assert serious(page) == [], title
        assert page.evaluate(SMALL, LEAST) == [], title
        wide = page.evaluate("[document.documentElement.scrollWidth, innerWidth]")
        assert wide[0] <= wide[1], f"{title} scrolls sideways"
        main = page.get_by_test_id("stMain").evaluate("one => [one.scrollWidth, one.clientWidth]")
        assert main[0] <= main[1], f"{title} scrolls sideways"


def test_every_input_has_a_label_and_is_reached_by_keyboard(visit: Visit) -> None:
    page = visit(1280, "light", "training")
    fields = page.evaluate("""() => [...document.querySelectorAll('input:not([type=file]), textarea, [role=combobox]')]
        .filter(one => one.checkVisibility())
        .map(one => [one.getAttribute('aria-label') || one.labels?.[0]?.textContent || '', one.tabIndex])""")
    assert fields
    assert [name for name, _ in fields if not name] == []
    assert [name for name, tab in fields if tab < 0] == []
    page.get_by_label("Start", exact=True).first.focus()
    page.keyboard.press("Control+a")
    page.keyboard.type("16:00")
    page.keyboard.press("Tab")
    settle(page)
    assert page.get_by_label("Start", exact=True).first.input_value() == "16:00"
