"""Session energy tables: metabolic equivalents and the ACSM equations' coefficients, each once, with its source."""

from __future__ import annotations

from mealopt.targets.coefficients import Coefficient

MET_SOURCE = "2024 Compendium of Physical Activities (Herrmann and others 2024; read in later copies)"
ACSM_SOURCE = "ACSM's Guidelines, 10th edition, table 6.3 (Bushman 2020, ACSM's Health Fit J 24(4):5-8)"

REST_VO2 = Coefficient(3.5, "ml/kg/min", ACSM_SOURCE)
KCAL_PER_LITRE = Coefficient(5, "kcal per litre of oxygen", ACSM_SOURCE)
MET_KCAL = Coefficient(1.0, "kcal/kg/h per MET", "convention of the Compendium")
REST_MET = Coefficient(1, "MET", "convention of the Compendium")

WALK_FLAT = Coefficient(0.1, "ml/kg/min per m/min", ACSM_SOURCE)
WALK_UP = Coefficient(1.8, "ml/kg/min per m/min climbed", ACSM_SOURCE)
RUN_FLAT = Coefficient(0.2, "ml/kg/min per m/min", ACSM_SOURCE)
RUN_UP = Coefficient(0.9, "ml/kg/min per m/min climbed", ACSM_SOURCE)
RIDE_UNLOADED = Coefficient(3.5, "ml/kg/min", ACSM_SOURCE)
RIDE_POWER = Coefficient(10.8, "ml/min per W", ACSM_SOURCE + ", 1 W = 6 kg.m/min")

WALK_LEAST = Coefficient(50, "m/min", ACSM_SOURCE)
WALK_MOST = Coefficient(100, "m/min", ACSM_SOURCE)
JOG_LEAST = Coefficient(80, "m/min", ACSM_SOURCE + ", where truly jogging")
RUN_MOST = Coefficient(400, "m/min", "[project]: faster than people run for five minutes")
RIDE_LEAST_W = Coefficient(50, "W", ACSM_SOURCE)
RIDE_MOST_W = Coefficient(200, "W", ACSM_SOURCE)
STEEP = Coefficient(0.30, "m climbed per m", "[project]")

GIVEN_OFF = Coefficient(0.30, "share", "[project]; wrist devices err by 20 % and more (Shcherbina and others 2017)")

#: The rows of rowing by power: seen without their codes.
ROWER_100, ROWER_150 = "rower 100-149 W", "rower 150-199 W"

#: kind -> effort -> (code of the Compendium, MET). The effort's place in the table is the project's choice.
EFFORT_MET: dict[str, dict[str, tuple[str, float]]] = {
    "run": {"easy": ("12020", 7.5), "steady": ("12050", 9.3), "hard": ("12060", 10.5), "race": ("12070", 11.0)},
    "ride": {"easy": ("01020", 6.8), "steady": ("01030", 8.0), "hard": ("01040", 10.0), "race": ("01050", 12.0)},
    "swim": {"easy": ("18240", 5.8), "steady": ("18290", 8.0), "hard": ("18230", 9.8), "race": ("18280", 10.5)},
    "row": {"easy": ("02071", 5.0), "steady": ("02070", 7.3), "hard": (ROWER_100, 7.5), "race": (ROWER_150, 11.0)},
    "walk": {"easy": ("17190", 3.8), "steady": ("17200", 4.8), "hard": ("17220", 5.5), "race": ("17230", 7.0)},
    "ski": {"easy": ("02080", 6.8), "steady": ("02080", 6.8), "hard": ("02082", 10.5), "race": ("02082", 10.5)},
    "lift": {"easy": ("02054", 3.5), "steady": ("02054", 3.5), "hard": ("02052", 5.0), "race": ("02050", 6.0)},
    "circuit": {"easy": ("02034", 3.5), "steady": ("02035", 5.0), "hard": ("02040", 7.5), "race": ("02040", 7.5)},
    "other": {"easy": ("02034", 3.5), "steady": ("02035", 5.0), "hard": ("02210", 7.0), "race": ("02210", 7.0)},
}

#: kind -> rows of (from km/h, code, MET), slowest first: 1 mph is 1.609344 km/h, 1 yard 0.9144 m.
SPEED_MET: dict[str, tuple[tuple[float, str, float], ...]] = {
    "ride": (
        (0.0, "01010", 4.0),
        (10 * 1.609344, "01020", 6.8),
        (12 * 1.609344, "01030", 8.0),
        (14 * 1.609344, "01040", 10.0),
        (16 * 1.609344, "01050", 12.0),
        (20 * 1.609344, "01060", 16.8),
    ),
    "swim": ((0.0, "18240", 5.8), (50 * 0.05486400, "18290", 8.0), (75 * 0.05486400, "18280", 10.5)),
}
SPEED_MOST: dict[str, float] = {"ride": 55.0, "swim": 6.5}

#: Rowing ergometer: rows of (from W, name of the entry, MET).
POWER_MET: dict[str, tuple[tuple[float, str, float], ...]] = {
    "row": (
        (0, "02071", 5.0),
        (100, ROWER_100, 7.5),
        (150, ROWER_150, 11.0),
        (200, "rower 200 W and over", 14.0),
    ),
}
