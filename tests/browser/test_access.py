"""Everybody can use it: an accessibility engine finds nothing serious, text is large, nothing scrolls sideways."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest

from mealopt.ui.main import PAGES
from tests.browser.conftest import Visit, go, settle, type_in

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


#: Opens all that is folded away.
UNFOLD = """() => [...document.querySelectorAll('[data-testid="stMain"] details:not([open]) > summary')]
    .forEach(one => one.click())"""


def usable(page: Any, what: str) -> None:
    """Nothing serious, no small text, nothing to scroll sideways."""
    assert serious(page) == [], what
    assert page.evaluate(SMALL, LEAST) == [], what
    wide = page.evaluate("[document.documentElement.scrollWidth, innerWidth]")
    assert wide[0] <= wide[1], f"{what} scrolls sideways"
    main = page.get_by_test_id("stMain").evaluate("one => [one.scrollWidth, one.clientWidth]")
    assert main[0] <= main[1], f"{what} scrolls sideways"


@pytest.mark.parametrize(("width", "theme"), [(1280, "light"), (390, "dark")])
def test_each_part_can_be_used_by_everybody(visit: Visit, width: int, theme: str) -> None:
    page = visit(width, theme)
    for title, path, _ in PAGES:
        if path != "day":
            go(page, title)
        # What is folded away is looked at too.
        page.evaluate(UNFOLD)
        settle(page)
        usable(page, title)


def test_its_states_can_be_used_by_everybody(visit: Visit) -> None:
    """Offers, a change that was made, work that goes on, and work that was stopped before it had an answer."""
    page = visit(390, "dark")
    page.get_by_role("button", name=re.compile("^Swap ")).first.click()
    page.get_by_text(re.compile("^Instead of ")).wait_for()
    settle(page)
    usable(page, "offers")
    page.locator("[class*='st-key-take']").get_by_role("button").first.click()
    page.get_by_role("button", name="Take it back").wait_for()
    settle(page)
    usable(page, "a change")
    go(page, "Athlete and goal")
    type_in(page, "Kitchen time, minutes", "0")
    go(page, "Day")
    page.get_by_role("radio", name="Fri", exact=True).click()
    page.get_by_role("button", name="Plan Friday").click()
    page.get_by_role("button", name="Stop and take the best so far").wait_for()
    usable(page, "work that goes on")
    page.get_by_role("button", name="Stop and take the best so far").click(no_wait_after=True)
    page.get_by_text("Stopped before there was a first answer").or_(page.get_by_text("no dishes meet")).first.wait_for()
    settle(page)
    usable(page, "work that ended without an answer")
    assert page.get_by_role("button", name="Plan Friday").count() == 1, "the rest of the page stays"


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
