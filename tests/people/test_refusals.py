"""Each kind of bad input is refused in one sentence: file, line, key, what was read, what is allowed."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from mealopt.errors import BadInput
from mealopt.people.reading import case_from_text

Refused = Callable[..., str]

MOVE = '[[goal.move]]\nfrom = "sat"\nto = "fri"\nkcal = 250'
FIXED = 'never = ["liver",\n  "cod"]\n[[kitchen.fixed]]\nday = "tue"\nwhat = "canteen"\n'
NEVER = 'never = ["liver",\n  "cod"]'
PROTEIN = "protein_g_per_kg = 1.8"

#: what is changed: (old, new), then the line, the key, and the words for what was read and what is allowed.
CASES: dict[str, tuple[tuple[str, str], int, str, tuple[str, ...]]] = {
    "mass in grams or pounds": (
        ("mass_kg = 68.0", "mass_kg = 680"),
        8, "[athlete] mass_kg", ("read 680", "kg expected, 30 to 250", "was it grams or pounds?"),
    ),
    "mass and height that no body has": (
        ("mass_kg = 68.0\nheight_cm = 171.0", "mass_kg = 160\nheight_cm = 165"),
        8, "[athlete] mass_kg", ("read 160 with height_cm = 165", "59 kg/m2", "is the mass in kg and the height in cm"),
    ),
    "a light body that no height explains": (
        ("mass_kg = 68.0\nheight_cm = 171.0", "mass_kg = 31\nheight_cm = 171"),
        8, "[athlete] mass_kg", ("read 31 with height_cm = 171", "12 to 50 kg/m2"),
    ),
    "height in metres": (
        ("height_cm = 171.0", "height_cm = 1.71"),
        9, "[athlete] height_cm", ("read 1.71", "cm expected, 120 to 230", "was it metres or inches?"),
    ),
    "a year of birth": (
        ("age = 31", "age = 1990"), 7, "[athlete] age", ("read 1990", "10 to 100", "was it a year of birth?"),
    ),
    "a broken age": (("age = 31", "age = 31.5"), 7, "[athlete] age", ("read 31.5", "whole years expected")),
    "a number as text": (
        ("mass_kg = 68.0", 'mass_kg = "68"'), 8, "[athlete] mass_kg", ('read "68"', "kg expected", "without quotation"),
    ),
    "true for a number": (("mass_kg = 68.0", "mass_kg = true"), 8, "[athlete] mass_kg", ("read true", "30 to 250")),
    "a number for true": (
        ('wake = "06:30"', "gluten_free = 1"), 16, "[kitchen] gluten_free", ("read 1", "true or false expected"),
    ),
    "a share of a table for one": (
        ('wake = "06:30"', "your_share_percent = 40"),
        16, "[kitchen] your_share_percent", ("read 40 with people_at_table = 1", "two or more people"),
    ),
    "not a number": (("mass_kg = 68.0", "mass_kg = nan"), 8, "[athlete] mass_kg", ("read nan", "30 to 250")),
    "infinite": (("mass_kg = 68.0", "mass_kg = inf"), 8, "[athlete] mass_kg", ("read inf", "30 to 250")),
    "too large for the machine": (("mass_kg = 68.0", "mass_kg = 1e400"), 8, "[athlete] mass_kg", ("read inf", "30 to")),
    "hundreds of digits": (
        ("mass_kg = 68.0", f"mass_kg = {'9' * 400}"), 8, "[athlete] mass_kg", ("more than 60 digits", "30 to 250"),
    ),
    "a text for a list": (("cautions = []", 'cautions = "kidney"'), 10, "[athlete] cautions", ('"kidney"', "a list")),
    "a caution misspelt": (
        ("cautions = []", 'cautions = ["heart", "kidneys"]'),
        10, "[athlete] cautions, entry 2", ('read "kidneys"', "missed_periods", 'did you mean "kidney"?'),
    ),
    "a third sex": (('"female"', '"both"'), 6, "[athlete] sex", ('read "both"', "one of female, male expected")),
    "a key misspelt": (
        ("mass_kg", "mass_kgs"), 8, "[athlete] mass_kgs", ("key that does not exist", 'did you mean "mass_kg"?'),
    ),
    "a key by another name": (
        ("mass_kg", "weight"), 8, "[athlete] weight", ("key that does not exist", 'did you mean "mass_kg"?'),
    ),
    "a key in the wrong table": (
        ("age = 31", 'age = 31\ndiet = "vegan"'), 8, "[athlete] diet", ("does not exist", "it belongs in [kitchen]"),
    ),
    "a key like no other": (
        ("age = 31", "age = 31\nqqq = 1"), 8, "[athlete] qqq", ("does not exist", "allowed here: name, sex, age"),
    ),
    "a missing key": (("age = 31\n", ""), 4, "[athlete]", ("read no age", "whole years expected, 10 to 100")),
    "another version": (
        ("case-1", "case-2"), 1, "schema", ('read "mealopt/case-2"', '"mealopt/case-1" is the one form'),
    ),
    "a week that begins on a Tuesday": (
        ("2027-03-08", "2027-03-09"), 2, "week_of", ("read 2027-03-09", "a Monday expected", "Tuesday"),
    ),
    "a number for a date": (("2027-03-08", "20270308"), 2, "week_of", ("read 20270308", "a date expected")),
    "a date with a time": (("2027-03-08", "2027-03-08T00:00:00"), 2, "week_of", ("00:00:00", "a date expected")),
    "not a day": (
        ('day = "tue"', 'day = "Tuesday"'), 22, "[[session]] 1 day", ('read "Tuesday"', "mon, tue,", 'mean "tue"?'),
    ),
    "not a time": (("17:30", "5 pm"), 30, "[[session]] 2 start", ('read "5 pm"', '"HH:MM" from 00:00 to 47:59')),
    "a time without quotation marks": (
        ('wake = "06:30"', "wake = 06:30:00"), 16, "[kitchen] wake", ("read 06:30:00", "a time expected"),
    ),
    "hours for minutes": (
        ("minutes = 75", "minutes = 1"), 24, "[[session]] 1 minutes", ("read 1;", "5 to 1440", "was it hours?"),
    ),
    "a kind by another name": (
        ('"run"', '"running"'), 25, "[[session]] 1 kind", ('read "running"', "ride, swim", 'did you mean "run"?'),
    ),
    "sessions that overlap": (
        ("17:30", "08:00"), 30, "[[session]] 2 start", ('read "08:00" on tue', "lasts until 08:45", "after its end"),
    ),
    "sessions that overlap, written the other way round": (
        ("07:30", "18:00"), 23, "[[session]] 1 start", ('read "18:00" on tue', "lift that starts on tue"),
    ),
    "a session before waking": (
        ("07:30", "05:00"), 23, "[[session]] 1 start", ('read "05:00"', "sleeping hours", "waking at 06:30", "29:00"),
    ),
    "a session after midnight of another day": (
        ("07:30", "01:30"), 23, "[[session]] 1 start", ('read "01:30"', "sleeping hours", "25:30 on the day before"),
    ),
    "a session after bedtime": (
        ("17:30", "22:00"), 30, "[[session]] 2 start", ("ends at 23:00 in sleeping hours", "an end by 22:30", "a race"),
    ),
    "a session after the next waking": (
        ("17:30", "31:00"), 30, "[[session]] 2 start", ('read "31:00"', "it is expected on wed at 07:00"),
    ),
    "a race past the next waking": (
        ('minutes = 60\nkind = "lift"\neffort = "steady"', 'minutes = 900\nkind = "ride"\neffort = "race"'),
        31, "[[session]] 2 minutes", ("read 900", "ends at 32:30", "at the latest it may end at 30:30"),
    ),
    "an energy that no body burns in the time": (
        ('effort = "hard"', 'effort = "hard"\nactive_kcal = 6400'),
        27, "[[session]] 1 active_kcal", ("read 6400 in 75 min", "68 kg", "2125 kcal", "was it kilojoules?"),
    ),
    "metres for kilometres": (
        ('effort = "hard"', 'effort = "hard"\ndistance_km = 120'),
        27, "[[session]] 1 distance_km", ("read 120 in 75 minutes", "96 km/h", "at most 26 km/h", "was it metres?"),
    ),
    "percent for a share": (
        (PROTEIN, "energy_replaced = 85"), 13, "[goal] energy_replaced", ("read 85", "0.7 to 1", "was it percent?"),
    ),
    "a steep loss": (
        (PROTEIN, "mass_change_percent_per_week = -1.5"),
        13, "[goal] mass_change_percent_per_week", ("read -1.5", "-1 to 0.5"),
    ),
    "moves that add up": (
        (PROTEIN, '[[goal.move]]\nfrom = "sat"\nto = "sun"\nkcal = 300\n' + MOVE),
        20, "[[goal.move]] 2 kcal", ("read 250", "550 kcal out of sat", "at most 500 kcal"),
    ),
    "a move from a day to itself": (
        (PROTEIN, '[[goal.move]]\nfrom = "sat"\nto = "sat"\nkcal = 300'),
        15, "[[goal.move]] 1 to", ('read "sat"', "another day is expected"),
    ),
    "a nutrient without its unit": (
        (PROTEIN, '[[goal.band]]\nnutrient = "fibre"\nleast = 3'),
        14, "[[goal.band]] 1 nutrient", ('read "fibre"', 'did you mean "fibre_g"?'),
    ),
    "a band upside down": (
        (PROTEIN, '[[goal.band]]\nnutrient = "fibre_g"\nleast = 30\nmost = 20'),
        16, "[[goal.band]] 1 most", ("read 20 with least = 30", "least <= aim <= most"),
    ),
    "a band without a limit": (
        (PROTEIN, '[[goal.band]]\nnutrient = "fibre_g"'),
        14, "[[goal.band]] 1 nutrient", ("without a limit", "least, aim or most is expected"),
    ),
    "a band for a slot and a meal": (
        (PROTEIN, '[[goal.band]]\nnutrient = "fibre_g"\nleast = 1\nslot = "lunch"\nmeal = 2'),
        17, "[[goal.band]] 1 meal", ('read 2 with slot = "lunch"', "not both"),
    ),
    "a band given twice": (
        (PROTEIN, '[[goal.band]]\nnutrient = "fibre_g"\nleast = 1\n[[goal.band]]\nnutrient = "fibre_g"\nmost = 9'),
        17, "[[goal.band]] 2 nutrient", ("a second time", "one band for each"),
    ),
    "an allergen by another name": (
        ('wake = "06:30"', 'avoid_allergens = ["dairy"]'),
        16, "[kitchen] avoid_allergens, entry 1", ('read "dairy"', "crustaceans", 'did you mean "milk"?'),
    ),
    "a food that is a number": (('"cod"]', "4]"), 18, "[kitchen] never, entry 2", ("read 4", "a text of 1 to 200")),
    "a table that does not exist": (
        (NEVER, "[kitchen.days]\nmon = 1"), 18, "[kitchen] days", ("key that does not exist", 'did you mean "day"?'),
    ),
    "two entries for a day": (
        (NEVER, '[[kitchen.day]]\nday = "mon"\n[[kitchen.day]]\nday = "mon"'),
        21, "[[kitchen.day]] 2 day", ('read "mon" a second time', "one entry for each day"),
    ),
    "away without hours": (
        (NEVER, '[[kitchen.day]]\nday = "mon"\naway = "can_buy"\naway_from = "08:00"'),
        20, "[[kitchen.day]] 1 away", ('read "can_buy" without away_to', "both away_from and away_to"),
    ),
    "hours without away": (
        (NEVER, '[[kitchen.day]]\nday = "mon"\naway_to = "08:00"'),
        20, "[[kitchen.day]] 1 away_to", ('read "08:00" without away', "microwave"),
    ),
    "away upside down": (
        (NEVER, '[[kitchen.day]]\nday = "mon"\naway = "can_buy"\naway_from = "22:00"\naway_to = "06:00"'),
        22, "[[kitchen.day]] 1 away_to", ('read "06:00"', "a later time", "25:30"),
    ),
    "waking after midnight": (('wake = "06:30"', 'wake = "24:30"'), 16, "[kitchen] wake", ("24:30", "00:00 to 23:59")),
    "no waking hours": (
        ('sleep = "22:30"', 'sleep = "06:30"'), 17, "[kitchen] sleep", ('read "06:30"', "another time is expected"),
    ),
    "asleep after the next waking": (
        (NEVER, '[[kitchen.day]]\nday = "mon"\nsleep = "31:00"'),
        20, "[[kitchen.day]] 1 sleep", ("31:00 for mon", "tue begins at 30:30", "before the next waking"),
    ),
    "a stove at no hours": (
        ('wake = "06:30"', 'can_cook = ["09:00-08:00"]'),
        16, "[kitchen] can_cook, entry 1", ('read "09:00-08:00"', "ending after it starts"),
    ),
    "a settled meal with nothing in it": (
        (NEVER, f'{FIXED}time = "13:00"'),
        22, "[[kitchen.fixed]] 1 what", ("read no energy_kcal, dish or foods", "exactly one"),
    ),
    "a settled meal given two ways": (
        (NEVER, f'{FIXED}time = "13:00"\nenergy_kcal = 700\ndish = "porridge"'),
        25, "[[kitchen.fixed]] 1 dish", ("read energy_kcal and dish", "exactly one"),
    ),
    "a settled meal in a session": (
        (NEVER, f'{FIXED}time = "18:00"\nenergy_kcal = 700'),
        23, "[[kitchen.fixed]] 1 time", ('read "18:00" on tue', "the lift from 17:30 to 18:30", "outside sessions"),
    ),
    "a settled meal in the night": (
        (NEVER, f'{FIXED}time = "02:00"\nenergy_kcal = 700'),
        23, "[[kitchen.fixed]] 1 time", ('read "02:00" on tue', "waking at 06:30", "sleeping at 22:30"),
    ),
    "two settled meals at once": (
        (NEVER, f'{FIXED}time = "13:00"\nenergy_kcal = 700\n{FIXED[len(NEVER) + 1:]}time = "13:00"\ndish = "soup"'),
        28, "[[kitchen.fixed]] 2 time", ('read "13:00" on tue a second time', "one settled meal at a time"),
    ),
    "a food without grams": (
        (NEVER, f'{FIXED}time = "13:00"\nfoods = ["oats, rolled 80"]'),
        24, "[[kitchen.fixed]] 1 foods, entry 1", ('read "oats, rolled 80"', "1 to 2000 g"),
    ),
    "a table given twice": (("[kitchen]", "[goal]\n[kitchen]"), 15, "column 6", ('"[goal]"', "given twice", "once")),
    "a key given twice": (("age = 31", "age = 31\nage = 32"), 8, "column 9", ('"age = 32"', "given twice")),
    "broken TOML": (("age = 31", "age = "), 7, "column 7", ("age =", "key = value is expected")),
    "a word without quotation marks": (('"female"', "female"), 6, "column 7", ("sex = female", 'words in "..."')),
    "a date that no calendar has": (("2027-03-08", "2027-02-30"), 2, "column 11", ("2027-02-30", "Invalid date")),
    "a list left open": (('"cod"]', '"cod"'), 21, "column 1", ("[[session]]", "key = value is expected")),
}  # fmt: skip


@pytest.mark.parametrize("kind", CASES)
def test_one_sentence(kind: str, refused: Refused) -> None:
    change, line, key, says = CASES[kind]
    sentence = refused(change)
    assert sentence.startswith(f"case.toml, line {line}, {key}: "), sentence
    for words in says:
        assert words in sentence, sentence
    assert "\n" not in sentence


def test_a_days_energy_that_no_body_burns(refused: Refused) -> None:
    """Three rides, each within 25 kcal per kg and hour, make more than a day holds."""
    ride = (
        '\n[[session]]\nday = "sat"\nstart = "{}"\nminutes = 240\nkind = "ride"\neffort = "hard"\nactive_kcal = 6700\n'
    )
    rides = "".join(ride.format(start) for start in ("07:00", "12:00", "17:00"))
    sentence = refused(('effort = "steady"\n', f'effort = "steady"\n{rides}'))
    assert "line 57, [[session]] 5 active_kcal: read 20100 kcal for the sessions of sat" in sentence
    assert "17000 kcal in a day" in sentence


def test_a_session_into_the_following_days_first(refused: Refused) -> None:
    """A night race on Monday that lasts into Tuesday's run, on a Tuesday that begins early enough for both."""
    race = '[[session]]\nday = "mon"\nstart = "20:00"\nminutes = 700\nkind = "ride"\neffort = "race"\n\n'
    sentence = refused(("[[session]]", f"{race}[[session]]"))
    assert "[[session]] 2 start" in sentence
    assert 'read "07:30" on tue, while the ride that starts on mon at 20:00 lasts until 31:40' in sentence


def test_sunday_runs_into_the_next_monday(refused: Refused) -> None:
    """The week is taken to repeat: Sunday's night ends with Monday's waking."""
    sentence = refused(
        ('day = "tue"\nstart = "07:30"', 'day = "mon"\nstart = "07:30"'),
        ('day = "tue"\nstart = "17:30"\nminutes = 60', 'day = "sun"\nstart = "20:00"\nminutes = 700'),
        ('"steady"', '"race"'),
    )
    assert 'read "07:30" on mon, while the lift that starts on sun at 20:00 lasts until 31:40' in sentence


def test_one_table_for_a_list_of_tables(base: str) -> None:
    text = base[: base.rindex("[[session]]")].replace("[[session]]", "[session]")
    with pytest.raises(BadInput) as caught:
        case_from_text(text, "case.toml")
    assert str(caught.value) == "case.toml, line 21, [session]: read a table; a table [[session]] is expected"


def test_sessions_in_one_line_are_counted_though_their_line_is_the_lists(base: str) -> None:
    """Keys of inline tables have no line of their own: the list's is given, with the number of the entry."""
    run = '{day = "mon", start = "09:00", minutes = 60, kind = "run", effort = "easy"}'
    bad = run.replace("mon", "fri").replace("easy", "lazy")
    text = base[: base.index("[[session]]")].replace("[athlete]", f"session = [{run}, {bad}]\n[athlete]")
    with pytest.raises(BadInput, match=r'line 4, \[\[session\]\] 2 effort: read "lazy"; one of easy, steady, hard'):
        case_from_text(text, "case.toml")


def test_schema_missing_goes_before_all(refused: Refused) -> None:
    sentence = refused(('schema = "mealopt/case-1"\n', ""), ("age = 31", "age = 3100"))
    assert sentence == 'case.toml: read no schema; schema = "mealopt/case-1" is expected'


def test_first_line_goes_before_later_ones(refused: Refused) -> None:
    assert ", line 7, " in refused(("mass_kg = 68.0", "mass_kg = 680"), ("age = 31", "age = 3100"))
