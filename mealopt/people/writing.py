"""Writes a case file that `people.reading` reads to an equal case; keys that nobody wrote stay unwritten."""

from __future__ import annotations

from datetime import date

import tomli_w

from mealopt.people.case import Case
from mealopt.people.reading import case_to_dict

HEAD = (
    "# A case of mealopt: one athlete's training week, goal and kitchen.\n"
    "# Planning help for healthy adults, not medical advice: with a condition, ask a doctor or registered dietitian.\n"
)


def case_to_text(case: Case) -> str:
    """The case as TOML text, tables in the order of the models. Comments of a file that it came from are not kept."""
    data = case_to_dict(case)
    if "week_of" in data:
        data["week_of"] = date.fromisoformat(data["week_of"])
    return HEAD + tomli_w.dumps(data)
