"""The coefficients of food and drink in sessions: sweat, fluid, sodium, what is carried, short events, caffeine.

Marked as those in coefficients.py.
"""

from __future__ import annotations

from mealopt.targets.coefficients import ACSM2016, COMMON, LADDER_SOURCE, ONE_SUGAR_MOST, PROJECT, Coefficient

# Sweat, fluid and sodium
ACSM2007 = "Sawka and others 2007, ACSM position on fluid replacement, Med Sci Sports Exerc 39:377-390"
BAKER2016 = "Baker and others 2016, J Sports Sci 34:358-368"
MMOL_SODIUM = Coefficient(22.99, "mg/mmol", "molar mass of sodium")
FOREARM_SLOPE = Coefficient(0.57, "whole body per forearm, mmol/L", BAKER2016)
FOREARM_CONSTANT = Coefficient(11.05, "mmol/L", BAKER2016)
FLUID_MOST = Coefficient(1.0, "L/h", COMMON)
FLUID_GUIDE_LEAST = Coefficient(0.4, "L/h", ACSM2016)
FLUID_GUIDE_MOST = Coefficient(0.8, "L/h", ACSM2016)
FLUID_OF_CEILING = Coefficient(0.7, "share of the ceiling that bottles are filled for", PROJECT)
FLUID_ROOM = Coefficient(0.9, "share of the ceiling at most in bottles, the rest for water in food", PROJECT)
LOSS_AIM = Coefficient(0.02, "share of body mass", "NATA 2017, J Athl Train 52:877; " + ACSM2007)
HEAT_SHARE = Coefficient(0.75, "share of energy that becomes heat", "gross efficiency of 20-25 % [memory]")
EVAPORATION_KCAL = Coefficient(580, "kcal per litre of sweat", "latent heat of water, 2.43 MJ/kg")
#: Share of the heat that leaves as sweat, by conditions, on the low side so that losses are not overrated.
SWEAT_OF_HEAT: dict[str, Coefficient] = {
    "cold": Coefficient(0.4, "share of heat", PROJECT),
    "mild": Coefficient(0.75, "share of heat", PROJECT),
    "hot": Coefficient(1.0, "share of heat", PROJECT),
}
FLUID_BEFORE = (Coefficient(5, "ml/kg in the 2-4 h before", ACSM2016), Coefficient(10, "ml/kg", ACSM2016))
FLUID_AFTER = (Coefficient(1.25, "L per kg lost", ACSM2016), Coefficient(1.5, "L per kg lost", ACSM2016))
SODIUM_AIM = (
    Coefficient(460, "mg/L", ACSM2007 + ", 20-30 mmol/L [memory]"),
    Coefficient(690, "mg/L", ACSM2007 + ", 20-30 mmol/L [memory]"),
)
SODIUM_CEILING = Coefficient(1150, "mg/L", "50 mmol/L, upper end of drinks in use [memory]")
SODIUM_FROM_MINUTES = Coefficient(120, "min", ACSM2016)
SODIUM_FROM_RATE = Coefficient(1.2, "L/h of sweat", ACSM2016)
SODIUM_NEAR = Coefficient(0.15, "share of the aim", PROJECT)

# What is carried and eaten
GLUCOSE_MOST = Coefficient(60, "g/h", ONE_SUGAR_MOST.source)
FRUCTOSE_MOST = Coefficient(40, "g/h", "90 g/h at 1 to 0.8 (later work after Jeukendrup 2013) [memory]")
DRINK_LEAST = Coefficient(
    4, "g in 100 ml", "6-8 % (Kerksick and others 2017), 5-10 % [memory]; the lower end " + PROJECT
)
DURING_FIBRE_MOST = Coefficient(2, "g/h", PROJECT)
DURING_FAT_MOST = Coefficient(3, "g/h", PROJECT)
DURING_PROTEIN_MOST = Coefficient(4, "g/h", PROJECT)
EASY_FROM = Coefficient(90, "min of easy work from which something is packed", PROJECT)
EASY_AIM = Coefficient(30, "g/h", LADDER_SOURCE + "; easy work: optional")
LITTLE_AIM = Coefficient(20, "g/h in hard work under 75 min", ACSM2016)
GUT_STEP = Coefficient(10, "g/h a week", COMMON)

# Short events, and caffeine
SHORT_EVENT_DAY = (Coefficient(7, "g/kg in the 24 h before", ACSM2016), Coefficient(12, "g/kg", ACSM2016))
EFSA2015 = "EFSA 2015, Scientific Opinion on the safety of caffeine, EFSA Journal 13(5):4102 [memory]"
CAFFEINE_PER_KG = Coefficient(3, "mg/kg", EFSA2015)
CAFFEINE_ONCE = Coefficient(200, "mg at once", EFSA2015)
CAFFEINE_DAY = Coefficient(400, "mg a day from all sources", EFSA2015)
CAFFEINE_SLEEP = Coefficient(480, "min before sleep", PROJECT)
CAFFEINE_BEFORE = Coefficient(60, "min before the start", "Guest and others 2021, J Int Soc Sports Nutr 18:1")
