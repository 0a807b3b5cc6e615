"""A food of a meal in kitchen measure and grams, as the terminal's views ask for it."""

from __future__ import annotations

from mealopt.core.words import measured as measured
from mealopt.core.words import portion as portion
