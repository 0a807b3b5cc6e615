"""Expected times on the way of a session: "KM=H:MM"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise
from typing import Annotated

from pydantic import AfterValidator, Field

from mealopt.people.fields import complaint

SPLIT_EXPECTED = 'a distance in km and a time from the start expected, like "10=0:52"'

_SPLIT = re.compile(r"^(?P<km>\d{1,4}(?:\.\d{1,2})?)\s*=\s*(?P<hours>\d{1,2}):(?P<minutes>[0-5]\d)$")


def split(text: str) -> tuple[float, int]:
    """Kilometres and minutes from the start of "10=0:52". Raises ValueError on anything else."""
    found = _SPLIT.match(text.strip())
    if not found:
        raise ValueError(SPLIT_EXPECTED)
    return float(found["km"]), 60 * int(found["hours"]) + int(found["minutes"])


def _split(text: str) -> str:
    split(text)
    return text.strip()


#: "10=0:52"
Split = Annotated[str, Field(max_length=20), AfterValidator(_split)]


def check_splits(splits: Sequence[str], distance_km: float | None, minutes: int) -> None:
    """Raise a complaint where splits go backwards, or leave the session's distance or time."""
    read = [split(text) for text in splits]
    for place, (first, second) in enumerate(pairwise([(0.0, 0), *read])):
        if second[0] <= first[0] or second[1] <= first[1]:
            raise complaint(
                f'read "{splits[place]}"; each split lies farther and later than the one before it', "splits", place
            )
    for place, (km, minute) in enumerate(read):
        if minute > minutes or (distance_km is not None and km > distance_km):
            whole = f"{minutes} min" + ("" if distance_km is None else f" and {distance_km:g} km")
            raise complaint(f'read "{splits[place]}"; a place within the session is expected, {whole}', "splits", place)
