"""`python -m mealopt.ui.serve app.py ...`: the server that `mealopt app` starts; it gets ready before somebody asks.

Pictures, documents and the example are loaded beside the start of the server, while a browser loads the page.
"""

from __future__ import annotations

import sys
import threading


def ready() -> None:
    """Load what the first opening needs, and draw its picture once."""
    from mealopt.ui import main as _page  # noqa: F401
    from mealopt.ui.desk import first_state, light_spans, week_targets
    from mealopt.ui.pictures.day_line import day_line

    state = first_state()
    entry, kitchen = state.planned(state.day), state.case.kitchen_on(state.day)
    week_targets(state.case)
    if entry is not None:
        day_line(entry, light_spans(state.case, state.day), (kitchen.wake, kitchen.sleep))[0].to_dict()


def main() -> None:
    """Serve the page; the words of the command line are those of the server's own `run`."""
    from streamlit.web.cli import main as serve

    threading.Thread(target=ready, name="ready", daemon=True).start()
    sys.argv = ["streamlit", "run", *sys.argv[1:]]
    serve()


if __name__ == "__main__":
    main()
