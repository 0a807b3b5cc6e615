"""Plates cut down to what may stand on them: just these foods, to the gram, or without some."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, replace

from mealopt.menu.plates import Choice, Part, Plate

#: The choices of a part that are kept.
Choosing = Callable[[Part], tuple[Choice, ...]]


@dataclass(frozen=True, slots=True)
class StandingFood:
    """A food of a standing meal. role: of the dish's part that it fills. choice: with the steps that are allowed."""

    role: str
    choice: Choice
    grams: float

    @property
    def steps(self) -> int:
        """Its kitchen steps."""
        return round(self.grams / self.choice.step_g)


def same_foods(plate: Plate, foods: Collection[StandingFood], *, to_the_gram: bool = False) -> Plate:
    """The plate with just these foods, all of which stand on it; amounts free within the plate, or as they are."""
    parts = []
    for part in plate.parts:
        here = {food.choice.name: food.steps for food in foods if food.role == part.role}
        choices = [choice for choice in part.choices if choice.name in here]
        if to_the_gram:
            choices = [replace(one, steps=(here[one.name], here[one.name])) for one in choices]
        if choices:
            parts.append(replace(part, pick=(len(choices), len(choices)), choices=tuple(choices)))
    return replace(plate, parts=tuple(parts))


def without(plate: Plate, struck: Collection[str]) -> Plate | None:
    """The plate without these foods; None where a part then has too few."""
    return kept(plate, lambda part: tuple(choice for choice in part.choices if choice.name not in struck))


def only_steps(plate: Plate, grams: Mapping[str, float]) -> Plate | None:
    """The plate on which these foods stand with just these grams; None where a part then has too few foods."""

    def asked(choice: Choice) -> Choice | None:
        if choice.name not in grams:
            return choice
        steps = round(grams[choice.name] / choice.step_g)
        fits = choice.steps[0] <= steps <= choice.steps[1]
        return replace(choice, steps=(steps, steps)) if fits else None

    return kept(plate, lambda part: tuple(found for one in part.choices if (found := asked(one)) is not None))


def kept(plate: Plate, choices: Choosing) -> Plate | None:
    """The plate with the choices that are kept of each part; None where a part then has fewer than it asks for."""
    parts = []
    for part in plate.parts:
        left = choices(part)
        if len(left) < part.pick[0]:
            return None
        if left:
            pick = (part.pick[0], min(part.pick[1], len(left)))
            parts.append(replace(part, pick=pick, choices=left))
    return replace(plate, parts=tuple(parts))
