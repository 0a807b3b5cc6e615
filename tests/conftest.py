"""For all tests: nothing asserts on a clock, an example of hypothesis neither."""

from __future__ import annotations

from hypothesis import settings

settings.register_profile("no clock", deadline=None)
settings.load_profile("no clock")
