"""Reference intakes of vitamins and minerals for a day, by sex and age.

Source: Dietary Reference Intakes (US National Academies), adults: recommended allowance, or adequate intake where
there is none. Iodine and the long omega-3 fats have no column in the food table, so they cannot be counted here.
"""

from __future__ import annotations

#: Nutrient key -> (men, women): each one number, or three for 19-30, 31-50 and 51 years on.
_Value = float | tuple[float, float, float]

REFERENCES: dict[str, tuple[_Value, _Value]] = {
    "calcium_mg": (1000, (1000, 1000, 1200)),
    "iron_mg": (8, (18, 18, 8)),
    "magnesium_mg": ((400, 420, 420), (310, 320, 320)),
    "potassium_mg": (3400, 2600),
    "zinc_mg": (11, 8),
    "phosphorus_mg": (700, 700),
    "selenium_ug": (55, 55),
    "copper_mg": (0.9, 0.9),
    "manganese_mg": (2.3, 1.8),
    "vitamin_a_ug": (900, 700),
    "vitamin_c_mg": (90, 75),
    "vitamin_d_ug": (15, 15),
    "vitamin_e_mg": (15, 15),
    "vitamin_k_ug": (120, 90),
    "thiamin_mg": (1.2, 1.1),
    "riboflavin_mg": (1.3, 1.1),
    "niacin_mg": (16, 14),
    "pantothenic_acid_mg": (5, 5),
    "vitamin_b6_mg": ((1.3, 1.3, 1.7), (1.3, 1.3, 1.5)),
    "folate_ug": (400, 400),
    "vitamin_b12_ug": (2.4, 2.4),
    "choline_mg": (550, 425),
}

#: Preformed vitamin A: no more than this a day over the week, ug (upper level of the same source).
RETINOL_MOST_UG = 3000.0

#: Sodium: adults who eat more than this a day are advised to eat less, mg (chronic disease risk reduction intake of the
#: same source, 2019 [memory]). Sweat comes on top, so it is told and never a limit.
SODIUM_TOLD_MG = 2300.0


def references(sex: str, age: int) -> dict[str, float]:
    """Nutrient key -> reference intake a day, in the key's unit. Adults only."""
    band = 0 if age <= 30 else 1 if age <= 50 else 2
    found = {key: men if sex == "male" else women for key, (men, women) in REFERENCES.items()}
    return {key: float(value[band] if isinstance(value, tuple) else value) for key, value in found.items()}
