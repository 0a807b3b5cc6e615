"""Bands of one's own: the sides that a case gives replace the day's, and cannot get round safety."""

from __future__ import annotations

from dataclasses import dataclass

from mealopt.core.bands import Band
from mealopt.core.nutrients import (
    CARBOHYDRATE,
    ENERGY,
    FAT,
    LABELS,
    PROTEIN,
    SODIUM,
    UNITS,
)
from mealopt.errors import BadInput, Refused
from mealopt.people.case import Case, OwnBand
from mealopt.targets.coefficients import (
    ENERGY_BAND,
    FAT_EVE_SHARE,
    FAT_KCAL,
    NARROWEST_SHARE,
    PROTEIN_MOST,
    PROTEIN_REFERENCE,
)
from mealopt.targets.macros import energy_band, kcal_of, leasts_may_hold, limits_of, mosts_must_hold
from mealopt.targets.model import percent
from mealopt.targets.safety import REFERRAL

#: Over this many times the day's own energy a band is taken for a mistake: [project].
ENERGY_MISTAKE = 1.5


@dataclass(frozen=True, slots=True)
class Limits:
    """Energy of a day, kcal, under and over which no band may lead; most is None where nothing forbids more.

    own: the day's energy without a deficit. least: for the least side; aim_least: for the aim and the most, so that a
    wider band does not become a deficit. least_why: what sets the least.
    """

    own: float
    least: float
    aim_least: float
    most: float | None
    least_why: str


def own_bands(case: Case, day: str) -> tuple[OwnBand, ...]:
    """The case's bands of a nutrient for a whole day: this day or every day; one for this day comes last and wins."""
    whole = [
        band
        for band in case.goal.band
        if band.nutrient in UNITS and band.slot is None and band.meal is None and band.day in (None, day)
    ]
    return tuple(sorted(whole, key=lambda band: band.day is not None))


def merged(band: Band, own: OwnBand, width: float) -> Band:
    """A band with the given sides replaced; the others move only as far as they must.

    width: least share between least and most where a side that was not given has to move.
    """
    aim = own.aim if own.aim is not None else band.aim
    if own.aim is None and aim is not None:
        aim = max(aim, own.least) if own.least is not None else aim
        aim = min(aim, own.most) if own.most is not None else aim
    top = min(value for value in (aim, own.most, float("inf")) if value is not None)
    bottom = max(value for value in (aim, own.least, 0.0) if value is not None)
    least = own.least if own.least is not None else band.least
    if own.least is None and least is not None and least > top * (1 - width):
        least = min(least, top * (1 - width))
    most = own.most if own.most is not None else band.most
    if own.most is None and most is not None and most < bottom * (1 + width):
        most = max(most, bottom * (1 + width))
    return Band(least, aim, most)


def with_own_energy(case: Case, day: str, band: Band, limits: Limits) -> tuple[Band, tuple[str, ...]]:
    """The day's energy band with the case's own.

    Raises Refused where a band would lead under the least that safety allows (or over the most), BadInput where it asks
    for what no day of this athlete spends.
    """
    notes = []
    for own in own_bands(case, day):
        if own.nutrient != ENERGY:
            continue
        if own.aim is not None and own.least is None and own.most is None:
            band = energy_band(own.aim)
        else:
            band = merged(band, own, 2 * ENERGY_BAND)
        _check_energy(day, band, own, limits)
        notes.append(_said(day, own, band))
    return band, tuple(notes)


def with_own(case: Case, day: str, bands: dict[str, Band], *, maintenance_only: bool) -> tuple[str, ...]:
    """Put the case's own bands for all but energy into a day's bands (changed in place); notes on what they did.

    Raises Refused for protein, carbohydrate or sodium that safety does not plan.
    """
    notes = []
    for own in own_bands(case, day):
        if own.nutrient == ENERGY:
            continue
        before = bands.get(own.nutrient, Band())
        _check_safety(case, day, own, before, maintenance_only)
        bands[own.nutrient] = merged(before, own, float(NARROWEST_SHARE))
        notes.append(_said(day, own, bands[own.nutrient]))
    if notes:
        notes += _doubts(bands)
    return tuple(notes)


def _check_energy(day: str, band: Band, own: OwnBand, limits: Limits) -> None:
    least, aim, most = limits_of(band)
    for value, bound in ((min(aim, most), limits.aim_least), (least if own.least is not None else aim, limits.least)):
        if value < bound - 1e-6:
            raise Refused(
                f"goal.band: an energy of {value:,.0f} kcal on {day} is under the {bound:,.0f} kcal that "
                f"{limits.least_why}; ask {REFERRAL}"
            )
    highest = max(aim, least, most if own.most is not None else aim)
    if limits.most is not None and highest > limits.most + 1e-6:
        raise Refused(
            f"goal.band: an energy of {highest:,.0f} kcal on {day} is over the {limits.most:,.0f} kcal that keep body "
            f"mass, and with these cautions nothing else is planned; ask {REFERRAL}"
        )
    if aim > ENERGY_MISTAKE * limits.own:
        raise BadInput(
            f"goal.band: read an energy of {aim:,.0f} kcal on {day}; at most {ENERGY_MISTAKE * limits.own:,.0f} kcal, "
            f"{ENERGY_MISTAKE:g} x the day's own, is allowed"
        )


def _check_safety(case: Case, day: str, own: OwnBand, band: Band, maintenance_only: bool) -> None:
    given = [value for value in (own.least, own.aim, own.most) if value is not None]
    asked = [value for value in (own.least, own.aim) if value is not None]
    mass = case.athlete.mass_kg
    reason = ""
    if own.nutrient == PROTEIN:
        top = band.most or 0.0
        ceiling = top if maintenance_only else max(top, PROTEIN_MOST * mass)
        floor = min(PROTEIN_REFERENCE * mass, band.least or 0.0)
        if max(given if maintenance_only else asked, default=0.0) > ceiling + 1e-6:
            reason = f"{max(given):,.0f} g protein is over the {ceiling:,.0f} g that are planned at most"
        elif min(given) < floor - 1e-6:
            reason = f"{min(given):,.0f} g protein is under the {floor:,.0f} g that every adult needs"
    elif maintenance_only and own.nutrient == CARBOHYDRATE and max(asked, default=0.0) > (band.most or 0.0) + 1e-6:
        reason = f"{max(asked):,.0f} g carbohydrate is over the {band.most or 0.0:,.0f} g of an ordinary day"
    elif maintenance_only and own.nutrient == SODIUM:
        reason = "no sodium plan is made with these cautions"
    if reason:
        raise Refused(f"goal.band on {day}: {reason}; ask {REFERRAL}")


def _said(day: str, own: OwnBand, band: Band) -> str:
    names = (("least", own.least), ("aim", own.aim), ("most", own.most))
    sides = ", ".join(f"{name} {value:g}" for name, value in names if value is not None)
    limits = " / ".join("-" if value is None else f"{value:,.0f}" for value in (band.least, band.aim, band.most))
    label, unit = LABELS[own.nutrient], UNITS[own.nutrient]
    return f"On {day} the case asks for {label} {sides} {unit} by a band of its own: now {limits} {unit}"


def _doubts(bands: dict[str, Band]) -> list[str]:
    """What no longer fits together once bands of one's own have replaced the engine's."""
    least, aim, most = limits_of(bands[ENERGY])
    three = [bands[key] for key in (PROTEIN, CARBOHYDRATE, FAT)]
    lowest = kcal_of(*(band.least or 0.0 for band in three))
    highest = kcal_of(*(float("inf") if band.most is None else band.most for band in three))
    notes = []
    if lowest > leasts_may_hold(least):
        notes.append(
            f"Please check: the leasts of protein, carbohydrate and fat make {lowest:,.0f} of {most:,.0f} kcal"
        )
    if highest < mosts_must_hold(most):
        notes.append(
            f"Please check: the mosts of protein, carbohydrate and fat make {highest:,.0f} of {least:,.0f} kcal"
        )
    fat = bands[FAT].most
    if fat is not None and fat * FAT_KCAL < FAT_EVE_SHARE * aim:
        notes.append(f"Please check: fat of at most {fat:.0f} g is under {percent(FAT_EVE_SHARE)} of the energy")
    return notes
