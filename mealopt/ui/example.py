"""`python -m mealopt.ui.example`: plans the example and writes it down for the first opening of the page."""

from __future__ import annotations

from mealopt import api
from mealopt.ui.desk import EXAMPLE


def main() -> None:
    """Plan the heaviest day of the example, proven, and write the plan document."""
    plan = api.plan_day(api.read_case(), seconds=60)
    api.write_text(EXAMPLE, api.plan_text(plan))


if __name__ == "__main__":
    main()
