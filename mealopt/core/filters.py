"""What an athlete eats and does not eat, as rooms that know no athlete can use it."""

from __future__ import annotations

from dataclasses import dataclass

#: From the widest to the strictest. A food is labelled with the strictest diet that may eat it.
DIETS: tuple[str, ...] = ("omnivore", "pescatarian", "vegetarian", "vegan")

#: The 14 of Regulation (EU) No 1169/2011, Annex II, in its order, by short list names.
ALLERGENS: tuple[str, ...] = (
    "gluten",
    "crustaceans",
    "eggs",
    "fish",
    "peanuts",
    "soybeans",
    "milk",
    "nuts",
    "celery",
    "mustard",
    "sesame",
    "sulphites",
    "lupin",
    "molluscs",
)


@dataclass(frozen=True, slots=True)
class FoodFilter:
    """Which foods may be chosen, and which rather or rather not.

    diet: one of DIETS; gluten_free: no cereal with gluten, oats included; avoid_allergens: names of ALLERGENS; never,
    prefer, less: names of pantry foods or ids of dishes.
    """

    diet: str = "omnivore"
    gluten_free: bool = False
    avoid_allergens: frozenset[str] = frozenset()
    never: frozenset[str] = frozenset()
    prefer: frozenset[str] = frozenset()
    less: frozenset[str] = frozenset()

    def refuses(self, diet: str, allergens: frozenset[str]) -> str | None:
        """Why a food with this diet label and these allergens may not be eaten; None where it may."""
        if DIETS.index(diet) < DIETS.index(self.diet):
            return f"not {self.diet}"
        if self.gluten_free and "gluten" in allergens:
            return "holds gluten"
        shared = sorted(self.avoid_allergens & allergens)
        return f"holds {', '.join(shared)}" if shared else None
