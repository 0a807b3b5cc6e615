"""Planned days that several tests start from, planned once a session."""

from __future__ import annotations

import pytest

from mealopt import api
from mealopt.documents.plan import Plan
from mealopt.people.reading import case_from_dict
from tests.plans import cases, random_cases


@pytest.fixture(scope="session")
def evening_run() -> Plan:
    """The Skerry test athlete's tuesday with a run in the evening."""
    return cases.planned(cases.RUN)


@pytest.fixture(scope="session")
def vegan_day() -> Plan:
    """A vegan's day of the random cases."""
    return api.plan_day(case_from_dict(random_cases.make(0, "vegan"), "vegan 0"), "tue", gap=0.1, seconds=60)
