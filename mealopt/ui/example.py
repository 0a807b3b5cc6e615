"""`python -m mealopt.ui.example`: plans the example and writes it down for the first opening of the page."""

from __future__ import annotations

from mealopt import api
from mealopt.ui.desk import EXAMPLE


def main() -> None:
    """Plan the week of the example, proven within the usual gap, and write the plan document."""
    plan = api.plan_week(api.read_case(), seconds=300)
    api.write_text(EXAMPLE, api.plan_text(plan))


if __name__ == "__main__":
    main()
