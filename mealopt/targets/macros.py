"""How a day's energy splits into protein, fat and carbohydrate, as bands that never contradict each other.

Grams count with 4, 4 and 9 kcal. Food energy is the table's own, so the energy band is the hard one and carbohydrate
and fat absorb the difference.
"""

from __future__ import annotations

from dataclasses import dataclass

from mealopt.core.bands import Band
from mealopt.targets.coefficients import (
    CARBOHYDRATE_BAND,
    CARBOHYDRATE_KCAL,
    CARBOHYDRATE_REFERENCE,
    ENERGY_BAND,
    FAT_KCAL,
    FAT_MOST_SHARE,
    NARROWEST_G,
    NARROWEST_SHARE,
    PROTEIN_KCAL,
    ROOM,
)
from mealopt.targets.model import percent


@dataclass(frozen=True, slots=True)
class Wishes:
    """What the day's split is asked to hold, in g unless said. fat_least_share: of energy.

    protein_give: the protein floor below which a small day's carbohydrate gives way instead.
    """

    protein_least: float
    protein_most: float
    protein_give: float
    fat_aim: float
    fat_least: float
    fat_least_share: float
    carbohydrate_least: float
    carbohydrate_most: float


@dataclass(frozen=True, slots=True)
class Split:
    """Three bands in g, and notes on what gave way."""

    protein: Band
    fat: Band
    carbohydrate: Band
    notes: tuple[str, ...]


@dataclass(slots=True)
class _Work:
    """The split while it is worked out: leasts, aims and mosts in g, energy in kcal."""

    energy: float
    protein_least: float
    protein_most: float
    fat_least: float
    fat_most: float
    carbohydrate_least: float
    protein: float = 0.0
    fat: float = 0.0
    carbohydrate: float = 0.0

    @property
    def remainder(self) -> float:
        """Carbohydrate that the energy leaves beside the aims of protein and fat, g."""
        return (self.energy - PROTEIN_KCAL * self.protein - FAT_KCAL * self.fat) / CARBOHYDRATE_KCAL


def kcal_of(protein_g: float, carbohydrate_g: float, fat_g: float) -> float:
    """Energy of grams by 4, 4 and 9 kcal."""
    return PROTEIN_KCAL * protein_g + CARBOHYDRATE_KCAL * carbohydrate_g + FAT_KCAL * fat_g


def energy_band(aim: float) -> Band:
    """The day's energy, 2 % either way."""
    return Band((1 - ENERGY_BAND) * aim, aim, (1 + ENERGY_BAND) * aim)


def limits_of(band: Band) -> tuple[float, float, float]:
    """Least, aim and most of a band that has all three. Raises ValueError where one is missing."""
    if band.least is None or band.aim is None or band.most is None:
        raise ValueError(f"a band with all three limits is needed, not {band}")
    return band.least, band.aim, band.most


def leasts_may_hold(energy_least: float) -> float:
    """What the three leasts may hold together, kcal, so that food still fits: 3 % under the energy band."""
    return (1 - ROOM) * energy_least


def mosts_must_hold(energy_most: float) -> float:
    """What the three mosts must hold together at least, kcal: 3 % over the energy band."""
    return (1 + ROOM) * energy_most


def split(energy: Band, wishes: Wishes) -> Split:
    """Split a day's energy (kcal, with all three limits) by the wishes. Never fails; what gives way is noted."""
    least, aim, most = limits_of(energy)
    fat_most = FAT_MOST_SHARE * aim / FAT_KCAL
    share_g = wishes.fat_least_share * aim / FAT_KCAL
    fat_least = max(share_g, min(wishes.fat_least, fat_most - NARROWEST_G))
    work = _Work(
        aim, wishes.protein_least, wishes.protein_most, min(fat_least, fat_most), fat_most,
        wishes.carbohydrate_least,
    )  # fmt: skip
    notes = _leasts_fit(work, wishes, leasts_may_hold(least))
    notes += _aims(work, wishes)
    carbohydrate, more = _carbohydrate_band(work, wishes, least, most)
    notes += more
    protein = Band(work.protein_least, work.protein, work.protein_most)
    return Split(protein, Band(work.fat_least, work.fat, work.fat_most), carbohydrate, tuple(notes))


def _leasts_fit(work: _Work, wishes: Wishes, may_hold: float) -> list[str]:
    """On a small day: carbohydrate gives way to 130 g, then protein to its lowest, then carbohydrate further."""
    notes = []
    left = (may_hold - FAT_KCAL * work.fat_least) / CARBOHYDRATE_KCAL
    asked = work.carbohydrate_least
    if work.protein_least + work.carbohydrate_least > left:
        lowest = min(float(CARBOHYDRATE_REFERENCE), asked)
        work.carbohydrate_least = max(lowest, left - work.protein_least)
    if work.protein_least + work.carbohydrate_least > left + 1e-9:
        before = work.protein_least
        work.protein_least = max(min(wishes.protein_give, before), left - work.carbohydrate_least)
        notes.append(
            f"The day's energy leaves room for {work.protein_least:.0f} g of protein, not {before:.0f} g, beside "
            f"the least of carbohydrate and fat"
        )
    if work.protein_least + work.carbohydrate_least > left + 1e-9:
        work.carbohydrate_least = max(0.0, left - work.protein_least)
        work.protein_least = min(work.protein_least, left)
    if work.carbohydrate_least < asked - 0.5:
        notes.append(
            f"The least of carbohydrate is {work.carbohydrate_least:.0f} g, not {asked:.0f} g, so that the day's "
            "energy can hold protein and fat"
        )
    # A band of one gram's width fits no food: where little room is left, the top of the protein band moves up.
    floor = work.protein_least
    if work.protein_most < floor * (1 + NARROWEST_SHARE) - 1e-9:
        work.protein_most = floor * (1 + NARROWEST_SHARE)
        notes.append(f"Protein may reach {work.protein_most:.0f} g, so that real food fits above its floor")
    return notes


def _aims(work: _Work, wishes: Wishes) -> list[str]:
    """Protein at its floor, fat at its aim, carbohydrate the rest; then what is too little or too much moves on."""
    notes = []
    work.protein = work.protein_least
    work.fat = min(max(wishes.fat_aim, work.fat_least), work.fat_most)
    if abs(work.fat - wishes.fat_aim) > 0.5:
        bound = "at least" if work.fat > wishes.fat_aim else "at most"
        share = FAT_KCAL * work.fat / work.energy
        notes.append(
            f"The aim for fat is {bound} {work.fat:.0f} g ({percent(share)} of energy), not {wishes.fat_aim:.0f} g"
        )
    if work.remainder < wishes.carbohydrate_least:
        target = wishes.carbohydrate_least
        room = work.energy - PROTEIN_KCAL * work.protein - CARBOHYDRATE_KCAL * target
        lower = max(work.fat_least, room / FAT_KCAL)
        if lower < work.fat - 0.5:
            notes.append(f"Fat sinks from {work.fat:.0f} to {lower:.0f} g, so that carbohydrate has its least")
        work.fat = min(work.fat, lower)
    elif work.remainder > wishes.carbohydrate_most:
        notes += _pour_over(work, wishes)
    work.carbohydrate = max(0.0, work.remainder)
    return notes


def _pour_over(work: _Work, wishes: Wishes) -> list[str]:
    """What carbohydrate cannot hold goes to fat up to 35 % of energy, then to protein up to its most."""
    over = CARBOHYDRATE_KCAL * (work.remainder - wishes.carbohydrate_most)
    to_fat = min(over, FAT_KCAL * (work.fat_most - work.fat))
    work.fat = min(work.fat_most, work.fat + to_fat / FAT_KCAL)
    to_protein = min(over - to_fat, PROTEIN_KCAL * (work.protein_most - work.protein))
    work.protein = min(work.protein_most, work.protein + to_protein / PROTEIN_KCAL)
    notes = [f"Carbohydrate stands at its most, so {to_fat:,.0f} kcal go to fat instead"]
    if to_protein > 0.5:
        notes.append(f"Fat stands at its most too, so {to_protein:,.0f} kcal go to protein")
    return notes


def _carbohydrate_band(work: _Work, wishes: Wishes, energy_least: float, energy_most: float) -> tuple[Band, list[str]]:
    """15 % either way, inside the least and most, moved where the three bands would contradict the energy."""
    aim = work.carbohydrate
    others = PROTEIN_KCAL * work.protein_least + FAT_KCAL * work.fat_least
    fits = (leasts_may_hold(energy_least) - others) / CARBOHYDRATE_KCAL
    least = max(0.0, min(max((1 - CARBOHYDRATE_BAND) * aim, work.carbohydrate_least), aim, fits))
    most = max((1 + CARBOHYDRATE_BAND) * aim, least + NARROWEST_G, aim)
    if aim <= wishes.carbohydrate_most + 1e-6:
        most = max(aim, min(most, wishes.carbohydrate_most))
    above = PROTEIN_KCAL * work.protein_most + FAT_KCAL * work.fat_most
    needed = (mosts_must_hold(energy_most) - above) / CARBOHYDRATE_KCAL
    notes = []
    if needed > most:
        most = needed
    if most > wishes.carbohydrate_most + 0.5:
        notes.append(
            f"Carbohydrate may reach {most:.0f} g, above the published {wishes.carbohydrate_most:.0f} g, because "
            "fat and protein at their most cannot hold the day's energy"
        )
    return Band(least, aim, most), notes
