"""What a reader of the page waits for: the first day, an interaction that needs no plan, the week's part."""

from __future__ import annotations

import itertools
import os
import shutil
import signal
import socket
import subprocess
import sys
import time
import urllib.request
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from bench.measure import ROOT, stopwatch
from bench.table import Section, Table, seconds, spread
from bench.whole import Days

Act = Callable[[], None]

TIMES = 5
#: The largest example: the most sessions and settled days.
LARGEST = "double_day"
BROWSERS = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
FLAGS = ("--no-sandbox", "--disable-gpu", "--no-first-run", "--disable-background-networking", "--disable-sync")
#: Seconds since the first byte of the page, by the browser's own clock.
SINCE = "(performance.now() - performance.getEntriesByType('navigation')[0].responseStart) / 1000"
WEEK = r"() => document.body.innerText.match(/[\d,]+ kcal in the week/)?.[0]"
AT_REST = "document.querySelector('[data-testid=stApp]')?.dataset.testScriptState === 'notRunning'"


def measure(days: Days) -> Section:
    """A fresh server for each first opening; then interactions, one after the other, on one of them."""
    browser = next((found for name in BROWSERS if (found := shutil.which(name))), None)
    try:
        from playwright.sync_api import sync_playwright
    except ImportError:
        browser = None
    if browser is None:
        return Section("The page", [], ["no browser, or no playwright: nothing was measured"])
    found: dict[str, list[float]] = {}
    work: dict[str, list[float]] = {}
    with sync_playwright() as play:
        one = play.chromium.launch(executable_path=browser, args=list(FLAGS))
        for _ in range(TIMES):
            with _server() as (address, _), _visitor(one) as page:
                found.setdefault("first byte to a planned day, new server", []).append(_first(page, address))
        with _server() as (address, server), _visitor(one) as page:
            _first(page, address)
            for name, prepare, act in _acts(page):
                for _ in range(TIMES):
                    prepare()
                    page.wait_for_timeout(300)
                    before = _cpu(server)
                    with stopwatch() as took:
                        act()
                    found.setdefault(name, []).append(took.wall)
                    page.wait_for_function(AT_REST)
                    work.setdefault(name, []).append(_cpu(server) - before)
                print(f"page: {name}", file=sys.stderr, flush=True)
        one.close()
    table = Table(f"Seconds, {TIMES} times each.", ("what", "median", "least", "worst", "median, server's processor"))
    for name, walls in found.items():
        cpu = seconds(sorted(work[name])[TIMES // 2]) if name in work else "-"
        table.rows.append((name, *spread(walls), cpu))
    return Section("The page", [table], [f"the last two on the example {LARGEST.replace('_', ' ')}"])


def _first(page: Any, address: str) -> float:
    page.goto(address)
    page.get_by_text("Gives").first.wait_for(timeout=120_000)
    return float(page.evaluate(SINCE))


def _open(page: Any) -> None:
    """The largest example, opened by its name at the side."""
    page.get_by_text("Open", exact=True).click()
    chosen = page.get_by_role("combobox", name="Or an example")
    page.wait_for_timeout(1500)
    chosen.click()
    page.get_by_role("option", name=LARGEST.replace("_", " "), exact=True).click()
    page.get_by_text("nothing to buy yet").first.wait_for()


def _to(page: Any, part: str) -> None:
    page.get_by_role("link", name=part, exact=True).click()
    page.get_by_role("heading", name=part, exact=True).first.wait_for()
    page.wait_for_function(AT_REST)


def _acts(page: Any) -> Iterator[tuple[str, Act, Act]]:
    """Name, what is done before the clock runs, and what is timed; each ends when its answer is seen."""
    days = itertools.cycle((("Mon", "Monday"), ("Tue", "Tuesday"), ("Wed", "Wednesday")))
    masses, marks = itertools.count(74), itertools.count(1)

    def tick() -> None:
        done = next(marks)
        page.get_by_test_id("stMain").get_by_test_id("stCheckbox").nth(done).click()
        page.get_by_text(f"{done} of ").first.wait_for()

    def another_day() -> None:
        short, name = next(days)
        page.get_by_role("radio", name=short, exact=True).click()
        page.get_by_role("heading", name=name).first.wait_for()

    def another_mass() -> None:
        before = page.evaluate(WEEK)
        field = page.get_by_label("Body mass, kg", exact=True)
        field.fill(str(next(masses)))
        field.press("Enter")
        page.wait_for_function(f"old => ({WEEK})() !== old", arg=before)

    def week() -> None:
        page.get_by_role("link", name="Week", exact=True).click()
        page.get_by_role("button", name="Sunday", exact=True).wait_for()

    def at(part: str) -> Act:
        return lambda: None if page.get_by_role("heading", name=part, exact=True).count() else _to(page, part)

    yield "the planned week's part is drawn", lambda: _to(page, "Numbers"), week
    yield "a line of the week's shopping is ticked", at("Shopping"), tick
    _open(page)
    yield "another day of the numbers", at("Numbers"), another_day
    yield "another mass, and the numbers follow", at("Athlete and goal"), another_mass


def _cpu(server: subprocess.Popen[bytes]) -> float:
    """Seconds of processor time that the server has used; 0 where the system does not tell."""
    try:
        fields = Path(f"/proc/{server.pid}/stat").read_text(encoding="utf-8").rsplit(")", 1)[1].split()
    except OSError:
        return 0.0
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


@contextmanager
def _visitor(browser: Any) -> Iterator[Any]:
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    try:
        page = context.new_page()
        page.set_default_timeout(120_000)
        yield page
    finally:
        context.close()


@contextmanager
def _server() -> Iterator[tuple[str, subprocess.Popen[bytes]]]:
    """A fresh server, and its address."""
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        port = one.getsockname()[1]
    words = [str(ROOT / "app.py"), "--server.headless", "true", "--server.port", str(port)]
    # What `mealopt app` starts, without the process between, so that its processor time can be read.
    server = subprocess.Popen([sys.executable, "-m", "mealopt.ui.serve", *words], cwd=ROOT, stdout=subprocess.DEVNULL)
    try:
        for _ in range(1200):
            try:
                with urllib.request.urlopen(f"http://localhost:{port}/_stcore/health", timeout=2):
                    break
            except OSError:
                time.sleep(0.1)
        yield f"http://localhost:{port}", server
    finally:
        server.send_signal(signal.SIGTERM)
        server.wait(30)
