"""A real Chromium in front of the real page: the server as the README starts it, a visitor of any width and theme."""

from __future__ import annotations

import os
import shutil
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[2]

#: Without these, Chromium as root does not start, and looks for hosts that a test has no business with.
FLAGS = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
)  # fmt: skip
NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
#: Milliseconds that a page may take to show what is waited for; a busy machine needs many.
PATIENCE = 90_000

Visit = Callable[..., Any]


def lacking(what: str) -> None:
    """Skip with a sentence; with CI set, where all is installed, fail with it."""
    if os.environ.get("CI"):
        pytest.fail(what)
    pytest.skip(what)


@pytest.fixture(scope="session")
def chromium() -> str:
    """The system's own browser."""
    found = next((path for name in NAMES if (path := shutil.which(name))), None)
    if found is None:
        lacking("no browser was found; apt-get install chromium brings one")
    return str(found)


@pytest.fixture(scope="session")
def address(chromium: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Where the page is served, for as long as the tests run."""
    pytest.importorskip("streamlit", reason="the page needs streamlit; pip install -e '.[test]' brings it")
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        port = one.getsockname()[1]
    log = tmp_path_factory.mktemp("server") / "log"
    words = [sys.executable, "-m", "mealopt", "app", "--no-browser", "--port", str(port)]
    with log.open("w") as out:
        server = subprocess.Popen(words, cwd=ROOT, stdout=out, stderr=subprocess.STDOUT, start_new_session=True)
    try:
        _wait(f"http://localhost:{port}/_stcore/health", server, log)
        yield f"http://localhost:{port}"
    finally:
        os.killpg(server.pid, 15)
        server.wait(30)
    assert "Traceback" not in log.read_text(), log.read_text()


def _wait(url: str, server: subprocess.Popen[bytes], log: Path) -> None:
    for _ in range(600):
        assert server.poll() is None, log.read_text()
        try:
            with urllib.request.urlopen(url, timeout=2):
                return
        except OSError:
            time.sleep(0.1)
    pytest.fail(f"the server did not start: {log.read_text()}")


@pytest.fixture(scope="session")
def browser(chromium: str) -> Iterator[Any]:
    """One browser for all tests; each visitor has a context of their own."""
    sync = pytest.importorskip("playwright.sync_api", reason="the tests need playwright; pip install -e '.[test]'")
    with sync.sync_playwright() as play:
        one = play.chromium.launch(executable_path=chromium, args=list(FLAGS))
        yield one
        one.close()


@pytest.fixture
def visit(browser: Any, address: str) -> Iterator[Visit]:
    """Opens the page for a new visitor: width in pixels, light or dark, at one of its parts."""
    contexts = []

    def opened(width: int = 1280, theme: str = "light", part: str = "", title: str | None = None) -> Any:
        context = browser.new_context(
            viewport={"width": width, "height": 900}, color_scheme=theme, accept_downloads=True
        )
        contexts.append(context)
        page = context.new_page()
        page.set_default_timeout(PATIENCE)
        page.goto(f"{address}/{part}")
        page.get_by_role("heading", level=1).first.wait_for()
        settle(page)
        return page

    yield opened
    for context in contexts:
        context.close()


#: Whether nothing runs on the server, nothing on the page is stale or still to come, and it has been so for a while.
RESTS = """([least, fresh]) => {
    const app = document.querySelector('[data-testid="stApp"]');
    const busy = app?.dataset.testScriptState !== 'notRunning'
        || document.querySelector('[data-stale="true"], [data-testid="stSkeleton"], [data-testid="stAppSkeleton"]');
    const seen = document.body.innerHTML.length;
    if (busy || window.resting?.fresh !== fresh || window.resting.seen !== seen)
        window.resting = {fresh, seen, since: performance.now()};
    return !busy && performance.now() - window.resting.since > least;
}"""
#: Milliseconds for which a page that has come to rest has not changed.
STILL = 300


def settle(page: Any) -> None:
    """Wait until the page has come to rest: nothing runs on the server, and what it sent is drawn."""
    page.wait_for_function(RESTS, arg=[STILL, time.monotonic_ns() % 10**9], polling=50)


def until(page: Any, holds: Callable[[], bool], what: str) -> None:
    """Wait until something holds; what: the words for it where it never does."""
    end = time.monotonic() + PATIENCE / 1000
    while not holds():
        assert time.monotonic() < end, f"{what}: never, in {PATIENCE / 1000:.0f} s"
        page.wait_for_timeout(100)


def go(page: Any, title: str) -> None:
    """To another part, by its name: at the side, or on a phone at the head of the page."""
    page.get_by_role("link", name=title, exact=True).filter(visible=True).last.click()
    page.get_by_role("heading", level=1, name=title if title != "Day" else None).first.wait_for()
    settle(page)


def press(page: Any, button: Any, seen: Callable[[], bool], what: str) -> None:
    """Press a button until what it does is seen to begin: on a busy machine a press can meet a page that is redrawn."""
    for _ in range(6):
        button.click()
        end = time.monotonic() + PATIENCE / 6000
        while time.monotonic() < end:
            if seen():
                return
            page.wait_for_timeout(100)
    pytest.fail(f"{what}: not seen; the page says {page.get_by_test_id('stMain').inner_text()[:3000]}")


def type_in(page: Any, label: str, value: str, place: int = 0) -> None:
    """Type into the field with this label, and leave it."""
    field = page.get_by_label(label, exact=True).nth(place)
    field.fill(value)
    field.press("Enter")
    settle(page)


def choose(page: Any, label: str, option: str) -> None:
    """Choose from the list with this label; it is scrolled into view first, for scrolling closes an open list."""
    one = page.get_by_role("combobox", name=label)
    one.scroll_into_view_if_needed()
    page.wait_for_timeout(600)
    one.click()
    page.get_by_role("option", name=option, exact=True).click()
    settle(page)
