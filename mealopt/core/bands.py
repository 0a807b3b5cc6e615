"""A least, an aim and a most for one quantity."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Band:
    """Limits of one quantity, in the unit that its key names; None where there is no such limit.

    Raises ValueError where least > aim, aim > most or least > most.
    """

    least: float | None = None
    aim: float | None = None
    most: float | None = None

    def __post_init__(self) -> None:
        known = [value for value in (self.least, self.aim, self.most) if value is not None]
        if known != sorted(known):
            raise ValueError(f"a band needs least <= aim <= most, not {self.least}, {self.aim}, {self.most}")

    def holds(self, value: float, tolerance: float = 1e-6) -> bool:
        """Whether the value lies within the limits, each widened by the tolerance (absolute)."""
        above = self.least is None or value >= self.least - tolerance
        below = self.most is None or value <= self.most + tolerance
        return above and below
