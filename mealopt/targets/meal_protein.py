"""The least protein of each meal of a day."""

from __future__ import annotations

from dataclasses import replace

from mealopt.core.slots import Slot
from mealopt.targets.windows import TimedSession

#: Protein of a main meal and after lifting or hard work, g/kg (common practice within ISSN 2017's 0.25 g/kg a dose).
PROTEIN_MAIN, PROTEIN_AFTER = 0.25, 0.3

#: Most of a meal's energy that its least protein may take; of one that the next session is close upon, where little fat
#: and fibre leave few foods for it (project's assumption).
PROTEIN_SHARE, PROTEIN_SHARE_BEFORE = 0.35, 0.2


def with_protein(sessions: tuple[TimedSession, ...], mass_kg: float, slots: tuple[Slot, ...]) -> tuple[Slot, ...]:
    """The slots with their least protein: each main meal, and the first meal within 2 h of lifting or hard work."""
    after: set[int] = set()
    for session in sessions:
        if session.hard or not session.endurance:
            first = next((s.index for s in slots if s.kind != "during" and 0 <= s.start - session.end <= 120), None)
            after |= {first} if first is not None else set()
    least = {}
    for slot in slots:
        per_kg = PROTEIN_AFTER if slot.index in after else PROTEIN_MAIN if slot.main else 0.0
        per_kg = per_kg if slot.settled is None else 0.0
        share = PROTEIN_SHARE_BEFORE if slot.kind == "before" else PROTEIN_SHARE
        least[slot.index] = min(per_kg * mass_kg, share * slot.energy_most / 4.0)
    return tuple(_replaced(slot, least[slot.index]) for slot in slots)


def _replaced(slot: Slot, protein: float) -> Slot:
    return replace(slot, protein_least=round(protein, 1)) if protein > 0 else slot
