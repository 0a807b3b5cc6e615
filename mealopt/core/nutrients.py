"""The nutrients that the program counts: one key each, with its unit in the key.

The columns are those of the abbreviated file of USDA SR28, in the file's own order. A key is the name by which every
room, the case file and the plan document know the nutrient.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Nutrient:
    """One column of the food-composition table.

    key: our name, unit at its end; label: the words a person reads; unit: kcal, g, mg, ug or IU; source: the name of
    the column in the published file.
    """

    key: str
    label: str
    unit: str
    source: str


NUTRIENTS: tuple[Nutrient, ...] = (
    Nutrient("water_g", "water", "g", "Water"),
    Nutrient("energy_kcal", "energy", "kcal", "Energ_Kcal"),
    Nutrient("protein_g", "protein", "g", "Protein"),
    Nutrient("fat_g", "fat", "g", "Lipid_Tot"),
    Nutrient("ash_g", "ash", "g", "Ash"),
    Nutrient("carbohydrate_g", "carbohydrate", "g", "Carbohydrt"),
    Nutrient("fibre_g", "fibre", "g", "Fiber_TD"),
    Nutrient("sugars_g", "sugars", "g", "Sugar_Tot"),
    Nutrient("calcium_mg", "calcium", "mg", "Calcium"),
    Nutrient("iron_mg", "iron", "mg", "Iron"),
    Nutrient("magnesium_mg", "magnesium", "mg", "Magnesium"),
    Nutrient("phosphorus_mg", "phosphorus", "mg", "Phosphorus"),
    Nutrient("potassium_mg", "potassium", "mg", "Potassium"),
    Nutrient("sodium_mg", "sodium", "mg", "Sodium"),
    Nutrient("zinc_mg", "zinc", "mg", "Zinc"),
    Nutrient("copper_mg", "copper", "mg", "Copper"),
    Nutrient("manganese_mg", "manganese", "mg", "Manganese"),
    Nutrient("selenium_ug", "selenium", "ug", "Selenium"),
    Nutrient("vitamin_c_mg", "vitamin C", "mg", "Vit_C"),
    Nutrient("thiamin_mg", "thiamin", "mg", "Thiamin"),
    Nutrient("riboflavin_mg", "riboflavin", "mg", "Riboflavin"),
    Nutrient("niacin_mg", "niacin", "mg", "Niacin"),
    Nutrient("pantothenic_acid_mg", "pantothenic acid", "mg", "Panto_acid"),
    Nutrient("vitamin_b6_mg", "vitamin B6", "mg", "Vit_B6"),
    Nutrient("folate_total_ug", "folate, total", "ug", "Folate_Tot"),
    Nutrient("folic_acid_ug", "folic acid", "ug", "Folic_acid"),
    Nutrient("folate_food_ug", "folate, food", "ug", "Food_Folate"),
    Nutrient("folate_ug", "folate, DFE", "ug", "Folate_DFE"),
    Nutrient("choline_mg", "choline", "mg", "Choline_Tot"),
    Nutrient("vitamin_b12_ug", "vitamin B12", "ug", "Vit_B12"),
    Nutrient("vitamin_a_iu", "vitamin A", "IU", "Vit_A_IU"),
    Nutrient("vitamin_a_ug", "vitamin A, RAE", "ug", "Vit_A_RAE"),
    Nutrient("retinol_ug", "retinol", "ug", "Retinol"),
    Nutrient("alpha_carotene_ug", "alpha-carotene", "ug", "Alpha_Carot"),
    Nutrient("beta_carotene_ug", "beta-carotene", "ug", "Beta_Carot"),
    Nutrient("beta_cryptoxanthin_ug", "beta-cryptoxanthin", "ug", "Beta_Crypt"),
    Nutrient("lycopene_ug", "lycopene", "ug", "Lycopene"),
    Nutrient("lutein_zeaxanthin_ug", "lutein and zeaxanthin", "ug", "Lut+Zea"),
    Nutrient("vitamin_e_mg", "vitamin E", "mg", "Vit_E"),
    Nutrient("vitamin_d_ug", "vitamin D", "ug", "Vit_D_mcg"),
    Nutrient("vitamin_d_iu", "vitamin D", "IU", "Vit_D_IU"),
    Nutrient("vitamin_k_ug", "vitamin K", "ug", "Vit_K"),
    Nutrient("saturated_fat_g", "saturated fat", "g", "FA_Sat"),
    Nutrient("monounsaturated_fat_g", "monounsaturated fat", "g", "FA_Mono"),
    Nutrient("polyunsaturated_fat_g", "polyunsaturated fat", "g", "FA_Poly"),
    Nutrient("cholesterol_mg", "cholesterol", "mg", "Cholestrl"),
)

BY_KEY: dict[str, Nutrient] = {nutrient.key: nutrient for nutrient in NUTRIENTS}
KEYS: tuple[str, ...] = tuple(BY_KEY)

ENERGY = "energy_kcal"
PROTEIN = "protein_g"
CARBOHYDRATE = "carbohydrate_g"
FAT = "fat_g"
FIBRE = "fibre_g"
SATURATED = "saturated_fat_g"
SODIUM = "sodium_mg"

#: Not a column of the table: grams of food that the pantry counts as fruit or vegetable.
FRUIT_VEGETABLE = "fruit_vegetable_g"

#: What a day is planned to, in the order in which a person reads it.
TARGETED: tuple[str, ...] = (ENERGY, PROTEIN, CARBOHYDRATE, FAT, FIBRE, SATURATED, FRUIT_VEGETABLE)

LABELS: dict[str, str] = {nutrient.key: nutrient.label for nutrient in NUTRIENTS} | {
    FRUIT_VEGETABLE: "fruit and vegetables"
}
UNITS: dict[str, str] = {nutrient.key: nutrient.unit for nutrient in NUTRIENTS} | {FRUIT_VEGETABLE: "g"}
