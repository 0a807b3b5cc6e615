"""Tolerable upper intake levels, which no supplement may pass by itself or together with the others of its file.

Dietary Reference Intakes (US National Academies) for adults of 19 to 70, the lower one where ages differ, for a file
knows no age. Those of magnesium, vitamin E, niacin and folic acid hold for supplements alone, all others for food too.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limit:
    """One upper limit. keys: nutrient key -> the limit in that key's unit, for each way in which a label may say it.

    One amount may stand on a label twice, in two units: the worst one counts, they are not added. note: what the limit
    is of.
    """

    says: str
    keys: Mapping[str, float]
    note: str = ""


#: Dietary Reference Intakes tables of upper levels (elements, 2005 and 2011; vitamins, 1998 to 2011). The figures in
#: IU and in dietary folate equivalents are converted (40 IU vitamin D and 3.33 IU retinol in 1 ug, 1.7 ug equivalents
#: in 1 ug folic acid [memory]).
LIMITS: tuple[Limit, ...] = (
    Limit("calcium", {"calcium_mg": 2000.0}, "from 51 on; 2500 before"),
    Limit("iron", {"iron_mg": 45.0}),
    Limit("magnesium", {"magnesium_mg": 350.0}, "from supplements"),
    Limit("zinc", {"zinc_mg": 40.0}),
    Limit("phosphorus", {"phosphorus_mg": 4000.0}),
    Limit("selenium", {"selenium_ug": 400.0}),
    Limit("copper", {"copper_mg": 10.0}),
    Limit("manganese", {"manganese_mg": 11.0}),
    Limit("iodine", {"iodine_ug": 1100.0}),
    Limit("vitamin A", {"retinol_ug": 3000.0, "vitamin_a_ug": 3000.0, "vitamin_a_iu": 10000.0}, "as retinol"),
    Limit("vitamin C", {"vitamin_c_mg": 2000.0}),
    Limit("vitamin D", {"vitamin_d_ug": 100.0, "vitamin_d_iu": 4000.0}),
    Limit("vitamin E", {"vitamin_e_mg": 1000.0}, "from supplements"),
    Limit("niacin", {"niacin_mg": 35.0}, "from supplements"),
    Limit("vitamin B6", {"vitamin_b6_mg": 100.0}),
    Limit("folic acid", {"folic_acid_ug": 1000.0, "folate_total_ug": 1000.0, "folate_ug": 1700.0}, "from supplements"),
    Limit("choline", {"choline_mg": 3500.0}),
)

#: Lower upper levels of the European Food Safety Authority: vitamin E 300 mg (seen in a review of 2020), vitamin B6
#: 12 mg and selenium 255 ug (2023 [memory]). They are told, not held.
LOWER_IN_EUROPE: dict[str, float] = {"vitamin_e_mg": 300.0, "vitamin_b6_mg": 12.0, "selenium_ug": 255.0}

REFERRAL = "more than that is for a doctor or registered dietitian to decide, so this file is not used with it"


@dataclass(frozen=True, slots=True)
class Dosed:
    """A supplement: its name, and what a day's most of it holds, by nutrient key."""

    name: str
    a_day: Mapping[str, float]


def over(supplements: Iterable[Dosed]) -> Iterator[str]:
    """A sentence for each upper limit that a day's most of one supplement, or of all of them together, passes."""
    given = list(supplements)
    for limit in LIMITS:
        shares = {one.name: _share(one, limit) for one in given}
        alone = [one for one in given if shares[one.name] > 1.0 + 1e-9]
        if alone:
            yield from (f"{one.name}: {_amount(one, limit)} a day; {_allowed(limit)}" for one in alone)
        elif sum(shares.values()) > 1.0 + 1e-9:
            each = ", ".join(f"{one.name} {_amount(one, limit)}" for one in given if shares[one.name] > 0)
            yield f"supplements together: {each} a day; {_allowed(limit)}"


def over_in_europe(one: Dosed) -> Iterator[tuple[str, float, float]]:
    """Nutrient key, a day's most of it and the lower European level that it passes."""
    for key, most in LOWER_IN_EUROPE.items():
        if one.a_day.get(key, 0.0) > most:
            yield key, one.a_day[key], most


def _share(one: Dosed, limit: Limit) -> float:
    return max((one.a_day.get(key, 0.0) / most for key, most in limit.keys.items()), default=0.0)


def _amount(one: Dosed, limit: Limit) -> str:
    key = max(limit.keys, key=lambda key: one.a_day.get(key, 0.0) / limit.keys[key])
    return f"{one.a_day.get(key, 0.0):g} {_unit(key)} {limit.says}"


def _allowed(limit: Limit) -> str:
    key, most = next(iter(limit.keys.items()))
    note = f" {limit.note}" if limit.note else ""
    return f"the upper limit is {most:g} {_unit(key)}{note}"


def _unit(key: str) -> str:
    unit = key.rsplit("_", 1)[-1]
    return unit.upper() if unit == "iu" else unit
