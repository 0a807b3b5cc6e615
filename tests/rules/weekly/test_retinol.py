"""Preformed vitamin A under its upper level."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tests.rules import tiny
from tests.rules.weekly.eaten import eaten, missed

COVERS = "preformed vitamin A"
LIVER = replace(tiny.food("liver"), per_gram={"retinol_ug": 90.0})


def test_liver_comes_seldom() -> None:
    once = [eaten((LIVER, 100.0)), *[eaten()] * 6]
    assert missed(COVERS, once) == {}
    assert missed(COVERS, [eaten((LIVER, 100.0))] * 7) == pytest.approx({"retinol_ug": 6000.0})
