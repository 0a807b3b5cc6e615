"""`mealopt app`: the page."""

from __future__ import annotations

import importlib.util
import subprocess
import sys
from pathlib import Path

import click

from mealopt.cli import options
from mealopt.cli.program import Command, Whole
from mealopt.errors import BadInput

#: What the page needs beyond the commands, and how it is had.
LIBRARIES = ("streamlit", "altair")
MISSING = "the page needs {names}, which are not installed; python -m pip install 'mealopt[page]' brings them"


@click.command(cls=Command, epilog=options.CAUTION, short_help="Open the page.")
@click.option("--port", type=Whole(1, 65535), default=8501, show_default=True, help="Where it listens.")
@click.option("--no-browser", is_flag=True, help="Start the server, and open no browser.")
@click.option("--network", is_flag=True, help="Let other devices of your network open it, such as a phone.")
def app(port: int, no_browser: bool, network: bool) -> int:
    """Open the page in a browser; it runs until Ctrl-C."""
    missing = [name for name in LIBRARIES if importlib.util.find_spec(name) is None]
    if missing:
        raise BadInput(MISSING.format(names=" and ".join(missing)))
    words = ["--server.port", str(port), "--server.headless", str(no_browser).lower()]
    words += ["--server.address", "0.0.0.0" if network else "localhost"]
    # Neither a question before the page opens, nor a word to anybody about its use.
    words += ["--server.showEmailPrompt", "false", "--browser.gatherUsageStats", "false"]
    try:
        return subprocess.call([sys.executable, "-m", "mealopt.ui.serve", str(script()), *words])
    except KeyboardInterrupt:
        return 0


def script() -> Path:
    """The file that starts the page: beside the package in a checkout, inside it where it was installed."""
    package = Path(__file__).resolve().parents[2]
    for path in (package / "ui" / "app.py", package.parent / "app.py"):
        if path.is_file():
            return path
    raise BadInput("the file that starts the page, app.py, is missing: install the program again")
