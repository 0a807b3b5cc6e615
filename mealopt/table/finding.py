"""What a check of the food files found."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True)
class Finding:
    """One row that fails one check.

    where: the file. food: the table's number and name, or the pantry's name. what: what was checked, with its unit.
    value: what stands there. allowed: what the check allows. severity: "fault" where our own pantry is wrong, "fact"
    where the published table says so, which stays as it is and is only told, "note" where a person should hear
    something of a food of their own. reason: why a fact stands, where it is known; "" where it is not.
    """

    where: str
    food: str
    what: str
    value: str
    allowed: str
    severity: Literal["fault", "fact", "note"]
    reason: str = ""
