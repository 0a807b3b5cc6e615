"""Every coefficient of the planning engine, once, with its unit and where it comes from.

"[memory]" marks a value that was not read in a copy of its source; "[common practice, no source]" a rule of thumb;
"[project]" a choice of this program. The tables of session energies stand in compendium.py.
"""

from __future__ import annotations

from typing import NamedTuple

PROJECT = "[project]"
COMMON = "[common practice, no source]"
ACSM2016 = "Thomas, Erdman & Burke 2016, position of the American College of Sports Medicine [memory]"


class Coefficient(float):
    """A number that knows its unit and its source; arithmetic with it gives plain numbers."""

    unit: str
    source: str

    def __new__(cls, value: float, unit: str, source: str) -> Coefficient:
        """Make the number (value in `unit`, taken from `source`)."""
        made = super().__new__(cls, value)
        made.unit = unit
        made.source = source
        return made


class Linear(NamedTuple):
    """kcal a day = constant + mass x kg + height_cm x cm + height_m x m + age x years + lean x kg of fat-free mass."""

    constant: float
    mass: float = 0.0
    height_cm: float = 0.0
    height_m: float = 0.0
    age: float = 0.0
    lean: float = 0.0


class Equation(NamedTuple):
    """A published resting equation: rows of (sex or "any", from this age, coefficients), oldest row last."""

    title: str
    population: str
    source: str
    rows: tuple[tuple[str, int, Linear], ...]
    ages: tuple[int, int] = (18, 120)


EQUATIONS: dict[str, Equation] = {
    "harris_benedict_1919": Equation(
        "Harris-Benedict 1919",
        "136 men and 103 women, normal adults, basal",
        "Harris & Benedict 1919, Carnegie Institution publication 279",
        (
            ("male", 18, Linear(66.4730, mass=13.7516, height_cm=5.0033, age=-6.7550)),
            ("female", 18, Linear(655.0955, mass=9.5634, height_cm=1.8496, age=-4.6756)),
        ),
    ),
    "roza_shizgal_1984": Equation(
        "Roza-Shizgal 1984",
        "the 239 of Harris and Benedict and 98 later subjects, within about 14 %",
        "Roza & Shizgal 1984, Am J Clin Nutr 40:168-182",
        (
            ("male", 18, Linear(88.362, mass=13.397, height_cm=4.799, age=-5.677)),
            ("female", 18, Linear(447.593, mass=9.247, height_cm=3.098, age=-4.330)),
        ),
    ),
    "mifflin_st_jeor_1990": Equation(
        "Mifflin-St Jeor 1990",
        "251 men and 247 women, 19 to 78 years, normal weight and obese",
        "Mifflin and others 1990, Am J Clin Nutr 51:241-247",
        (
            ("male", 18, Linear(5, mass=10, height_cm=6.25, age=-5)),
            ("female", 18, Linear(-161, mass=10, height_cm=6.25, age=-5)),
        ),
        (19, 78),
    ),
    "cunningham_1980": Equation(
        "Cunningham 1980",
        "223 of the Harris-Benedict subjects; named the best fat-free mass equation for recreational athletes",
        "Cunningham 1980, Am J Clin Nutr 33:2372-2374 (read in later papers; original [memory])",
        (("any", 18, Linear(500, lean=22)),),
    ),
    "cunningham_1991": Equation(
        "Cunningham 1991",
        "a review's regression on fat-free mass, adults",
        "Cunningham 1991, Am J Clin Nutr 54:963-969 (read in later papers; original [memory])",
        (("any", 18, Linear(370, lean=21.6)),),
    ),
    "schofield_1985": Equation(
        "Schofield 1985",
        "the bands of FAO/WHO/UNU, by mass only; standard error 108 to 167 kcal",
        "Schofield 1985, Hum Nutr Clin Nutr 39C suppl 1:5-41; FAO/WHO/UNU 1985, TRS 724 (read in later papers)",
        (
            ("male", 18, Linear(692.2, mass=15.057)),
            ("male", 30, Linear(873.1, mass=11.472)),
            ("male", 60, Linear(587.7, mass=11.711)),
            ("female", 18, Linear(486.6, mass=14.818)),
            ("female", 30, Linear(845.6, mass=8.126)),
            ("female", 60, Linear(658.5, mass=9.082)),
        ),
    ),
    "henry_2005": Equation(
        "Henry (Oxford) 2005",
        "10,552 basal values, by mass and height",
        "Henry 2005, Public Health Nutr 8(7A):1133-1152; coefficients [memory]",
        (
            ("male", 18, Linear(113, mass=14.4, height_m=313)),
            ("male", 30, Linear(-137, mass=11.4, height_m=541)),
            ("male", 60, Linear(-256, mass=11.4, height_m=541)),
            ("female", 18, Linear(-282, mass=10.4, height_m=615)),
            ("female", 30, Linear(-11.6, mass=8.18, height_m=502)),
            ("female", 60, Linear(10.7, mass=8.52, height_m=421)),
        ),
    ),
    "ten_haaf_mass_2014": Equation(
        "ten Haaf-Weijs 2014, by mass",
        "53 men and 37 women, recreational athletes of 18 to 35 years",
        "ten Haaf & Weijs 2014, PLoS ONE 9(10):e108460 (coefficients read in later copies)",
        (
            ("male", 18, Linear(191.027 + 29.279, mass=11.936, height_m=587.728, age=-8.129)),
            ("female", 18, Linear(29.279, mass=11.936, height_m=587.728, age=-8.129)),
        ),
        (18, 35),
    ),
    "ten_haaf_lean_2014": Equation(
        "ten Haaf-Weijs 2014, by fat-free mass",
        "53 men and 37 women, recreational athletes of 18 to 35 years",
        "ten Haaf & Weijs 2014, PLoS ONE 9(10):e108460 (coefficients read in later copies)",
        (("any", 18, Linear(484.264, lean=22.771)),),
        (18, 35),
    ),
}

#: Adults of 19 and over: activity class -> sex -> coefficients, in kcal a day. Activity is already inside.
EER_2023_SOURCE = "NASEM 2023, Dietary Reference Intakes for Energy, summary table S-1 (read in later copies)"
EER_2023: dict[str, dict[str, Linear]] = {
    "inactive": {
        "male": Linear(753.07, mass=14.10, height_cm=6.50, age=-10.83),
        "female": Linear(584.90, mass=11.71, height_cm=5.72, age=-7.01),
    },
    "low active": {
        "male": Linear(581.47, mass=14.94, height_cm=8.30, age=-10.83),
        "female": Linear(575.77, mass=12.14, height_cm=6.60, age=-7.01),
    },
    "active": {
        "male": Linear(1004.82, mass=15.91, height_cm=6.52, age=-10.83),
        "female": Linear(710.25, mass=12.34, height_cm=6.54, age=-7.01),
    },
    "very active": {
        "male": Linear(-517.88, mass=19.11, height_cm=15.61, age=-10.83),
        "female": Linear(511.83, mass=12.56, height_cm=9.07, age=-7.01),
    },
}
EER_LEAST_AGE = Coefficient(19, "years", EER_2023_SOURCE)

#: The older equation: sex -> coefficients outside and inside the activity factor, and the four factors.
EER_2005_SOURCE = "IOM 2002/2005, Dietary Reference Intakes for Energy"
EER_2005: dict[str, tuple[Linear, Linear, tuple[float, float, float, float]]] = {
    "male": (Linear(662, age=-9.53), Linear(0, mass=15.91, height_m=539.6), (1.00, 1.11, 1.25, 1.48)),
    "female": (Linear(354, age=-6.91), Linear(0, mass=9.36, height_m=726), (1.00, 1.12, 1.27, 1.45)),
}

# The body
FAT_PER_BMI = Coefficient(1.20, "% of mass per kg/m2", "Deurenberg and others 1991, Br J Nutr 65:105-114 [memory]")
FAT_PER_YEAR = Coefficient(0.23, "% of mass per year", FAT_PER_BMI.source)
FAT_MALE = Coefficient(-10.8, "% of mass", FAT_PER_BMI.source)
FAT_CONSTANT = Coefficient(-5.4, "% of mass", FAT_PER_BMI.source)
FAT_ERROR = Coefficient(4.0, "% of mass", "standard error of that equation [memory], taken off: athletes are leaner")
FAT_DOUBTED = Coefficient(10.0, "% of mass", PROJECT)
LEAST_BMI = Coefficient(18.5, "kg/m2", "WHO class of underweight [memory]")
LEAST_FAT = {
    "male": Coefficient(5.0, "%", "Garthe and others 2011, exclusion"),
    "female": Coefficient(12.0, "%", "Garthe and others 2011, exclusion"),
}

# Baseline
REST_TO_BASELINE = Coefficient(1.25, "x resting energy", PROJECT)
STEPS_FREE = Coefficient(3000, "steps", PROJECT)
STEP_KCAL = Coefficient(0.44, "kcal/kg per 1000 steps", "derived from Ludlow & Weyand 2016, level walking, net")
LIFTING_MET = Coefficient(3.5, "MET", "2024 Compendium 02054, resistance exercise (Herrmann and others 2024)")
BASELINE_ERROR = Coefficient(0.10, "share", PROJECT)
MEASURED_LEAST = Coefficient(1.2, "x resting energy", PROJECT)
MEASURED_MOST = Coefficient(2.5, "x resting energy", "upper end of the very active class, " + EER_2023_SOURCE)

# The week
REPLACED_WRIST = Coefficient(0.85, "share", COMMON + "; trackers err by 20 % and more (Shcherbina and others 2017)")
REPLACED_OTHER = Coefficient(1.0, "share", COMMON)
KCAL_PER_KG = Coefficient(7700, "kcal/kg", "Wishnofsky 1958, as computed by Hall 2008 (7,696 to 7,716)")
DEFICIT_MOST = Coefficient(0.25, "share of energy", PROJECT + ", between the 19 and 30 % of Garthe and others 2011")
MOVE_MOST = Coefficient(500, "kcal in or out of a day", COMMON)
LOW_AVAILABILITY = Coefficient(30, "kcal/kg fat-free mass", "energy availability classes of the Triad statements")
FULL_AVAILABILITY = Coefficient(45, "kcal/kg fat-free mass", LOW_AVAILABILITY.source)
DAY_AVAILABILITY = Coefficient(25, "kcal/kg fat-free mass", PROJECT)
ENERGY_BAND = Coefficient(0.02, "share", PROJECT)
OWN_BAND_ROOM = Coefficient(0.05, "share of energy", PROJECT)

# Protein, fat, carbohydrate
PROTEIN_KCAL = Coefficient(4, "kcal/g", "Regulation (EU) No 1169/2011, Annex XIV")
CARBOHYDRATE_KCAL = Coefficient(4, "kcal/g", PROTEIN_KCAL.source)
FAT_KCAL = Coefficient(9, "kcal/g", PROTEIN_KCAL.source)
PROTEIN_DEFICIT_LEAST = Coefficient(1.8, "g/kg", COMMON + "; within Iraki and others 2019 (1.6-2.2)")
PROTEIN_DEFICIT_MOST = Coefficient(2.2, "g/kg", "Iraki and others 2019, Sports 7(7):154")
PROTEIN_MOST = Coefficient(2.5, "g/kg", COMMON)
PROTEIN_PER_LEAN = Coefficient(2.2, "g/kg fat-free mass", COMMON)
PROTEIN_LEAN_ABOVE = Coefficient(30, "% body fat", COMMON)
PROTEIN_LEAST = Coefficient(1.2, "g/kg", ACSM2016)
PROTEIN_MAINTENANCE = Coefficient(1.8, "g/kg", PROJECT + ": no high-protein plan")
PROTEIN_MAINTENANCE_MOST = Coefficient(2.0, "g/kg", ACSM2016)
PROTEIN_MAIN_MEAL = Coefficient(0.25, "g/kg", "Jager and others 2017, J Int Soc Sports Nutr 14:20")
PROTEIN_REFERENCE = Coefficient(0.8, "g/kg", "IOM 2005, recommended dietary allowance")
FAT_AIM = Coefficient(0.8, "g/kg", COMMON + "; within Iraki and others 2019 (0.5-1.5)")
FAT_AIM_SHARE = Coefficient(0.25, "share of energy", COMMON + "; within 20-35 %, " + ACSM2016)
FAT_LEAST = Coefficient(0.5, "g/kg", "Iraki and others 2019, Sports 7(7):154")
FAT_LEAST_SHARE = Coefficient(0.20, "share of energy", ACSM2016)
FAT_MOST_SHARE = Coefficient(0.35, "share of energy", ACSM2016)
FAT_EVE_SHARE = Coefficient(0.15, "share of energy", "Helms and others 2014, lower end, while filling stores")
SATURATED_SHARE = Coefficient(0.10, "share of energy", "WHO, Healthy diet")
CARBOHYDRATE_LEAST = Coefficient(3, "g/kg", "Iraki and others 2019; class 3-5 g/kg after Thomas and others 2016")
CARBOHYDRATE_REFERENCE = Coefficient(130, "g", "IOM 2005, recommended dietary allowance [memory]")
CARBOHYDRATE_MOST = Coefficient(12, "g/kg", "class 8-12 g/kg, table after Thomas and others 2016")
CARBOHYDRATE_BAND = Coefficient(0.15, "share", PROJECT)
ROOM = Coefficient(0.03, "share of energy", PROJECT + ": room for real food")
NARROWEST_SHARE = Coefficient(0.10, "share, least to most", PROJECT)
NARROWEST_G = Coefficient(20, "g, least to most", PROJECT)

# Fibre, fruit and vegetables
FIBRE_PER_1000 = Coefficient(14, "g/1000 kcal", "IOM 2005, adequate intake")
FIBRE_LEAST = Coefficient(25, "g", "EFSA 2010, adequate intake")
FIBRE_AIM_MOST = Coefficient(45, "g", PROJECT)
FIBRE_COST_PER_1000 = Coefficient(18, "g/1000 kcal", PROJECT)
FIBRE_WALL = Coefficient(90, "g", PROJECT)
FIBRE_AGE = Coefficient(51, "years", "IOM 2005, adequate intake of the older band from this age")
FIBRE_ADEQUATE: dict[str, tuple[float, float]] = {"male": (38, 30), "female": (25, 21)}
FRUIT_VEGETABLE_LEAST = Coefficient(400, "g", "WHO, Healthy diet")

# Fuelling: least, rung of the ladder and most, g/h, from this many minutes
LADDER_SOURCE = "Jeukendrup 2014, Sports Med 44 suppl 1:S25-S33; ranges of Thomas and others 2016 [memory]"
LADDER: tuple[tuple[int, float, float, float], ...] = (
    (0, 0, 0, 0),
    (45, 0, 0, 15),
    (60, 0, 0, 30),
    (75, 30, 30, 60),
    (120, 30, 60, 60),
    (150, 60, 90, 90),
)
ONE_SUGAR_MOST = Coefficient(60, "g/h", "Jeukendrup 2013, SSE 108; Jeukendrup 2014")
MIXED_SUGAR_MOST = Coefficient(90, "g/h", "Jeukendrup 2013, SSE 108; Jeukendrup 2014")
USED_TO_ROOM = Coefficient(10, "g/h", PROJECT)
PER_KG_RATE = Coefficient(0.75, "g/kg/h", COMMON)
PER_KG_FROM = Coefficient(60, "min", COMMON)
DURING_OF_DAY = Coefficient(0.6, "share of the day's carbohydrate", PROJECT)
BEFORE_LEAST_HOURS = Coefficient(1, "h", "Wallis & Podlogar 2022; Thomas and others 2016 [memory]")
BEFORE_MOST_HOURS = Coefficient(4, "h", BEFORE_LEAST_HOURS.source)
BEFORE_FROM = Coefficient(60, "min", BEFORE_LEAST_HOURS.source)
JUST_AWAKE_MOST = Coefficient(0.5, "g/kg", PROJECT)
AFTER_WITHIN = Coefficient(480, "min", "Wallis & Podlogar 2022; Thomas and others 2016 [memory]")
AFTER_LEAST = Coefficient(1.0, "g/kg/h", AFTER_WITHIN.source)
AFTER_MOST = Coefficient(1.2, "g/kg/h", AFTER_WITHIN.source)
AFTER_HOURS = Coefficient(4, "h", AFTER_WITHIN.source)

#: The published classes of a day: from this many minutes of endurance work, least and most g/kg, words.
DAY_CLASS_SOURCE = "table after Thomas and others 2016; the minutes between its rows are the project's"
DAY_CLASSES: tuple[tuple[int, float, float, str], ...] = (
    (0, 3, 5, "a light day"),
    (45, 5, 7, "about 1 h a day"),
    (90, 6, 10, "1-3 h a day"),
    (240, 8, 12, "more than 4 h a day"),
)

# The eve of a long event
EVE_EVENT_OVER = Coefficient(90, "min", ACSM2016)
EVE_HOURS = Coefficient(48, "h", ACSM2016)
EVE_LEAST = Coefficient(10, "g/kg", ACSM2016)
EVE_LEAST_HEAVY = Coefficient(8, "g/kg", "Kerksick and others 2017, J Int Soc Sports Nutr 14:33")
EVE_HEAVY = Coefficient(85, "kg", PROJECT)
EVE_PROTEIN = Coefficient(1.2, "g/kg", PROJECT)
EVE_FIBRE_AIM = Coefficient(12.5, "g", "the middle of 10-15 g/day: Vanhauwaert and others 2015, Adv Nutr 6:820-827")
EVE_FIBRE_MOST = Coefficient(15, "g", "low-fibre diet, 10-15 g/day (read in later copies)")
