"""What a reader hears though nothing is refused, and the foods that a case names."""

from __future__ import annotations

from collections.abc import Callable

from mealopt.people.case import Case
from mealopt.people.notes import case_notes, named_foods

Read = Callable[..., Case]
NEVER = 'never = ["liver",\n  "cod"]'


def said(notes: list[str], words: str) -> bool:
    return any(words in note for note in notes)


def test_cautions_not_asked(read: Read) -> None:
    assert not said(case_notes(read()), "not asked")
    assert said(case_notes(read(("cautions = []\n", ""))), "cautions: not asked")


def test_a_stove_is_taken_to_be_at_hand(read: Read) -> None:
    assert "A stove is taken to be at hand all day; if it is not, write can_cook in the case" in case_notes(read())
    assert not said(case_notes(read(('wake = "06:30"', 'can_cook = ["07:00-08:00"]'))), "can_cook")
    one_day = read((NEVER, '[[kitchen.day]]\nday = "sat"\ncan_cook = ["07:00-08:00"]'))
    assert said(case_notes(one_day), "A stove is taken to be at hand all day on mon, tue, wed, thu, fri, sun; if")


def test_who_cooks_for_others_hears_how_much(read: Read) -> None:
    assert not said(case_notes(read()), "for the table")
    assert said(
        case_notes(read(('wake = "06:30"', "people_at_table = 3"))), "1 of 3; for the table cook 3 times as much"
    )
    shared = read(('wake = "06:30"', "people_at_table = 3\nyour_share_percent = 40"))
    assert said(case_notes(shared), "40 % of the dish; for the table cook 2.5 times as much")


def test_the_equations_know_two_sexes(read: Read) -> None:
    assert said(case_notes(read()), "know only two sexes, female and male")


def test_what_is_taken_for_granted_is_said(read: Read) -> None:
    notes = case_notes(read())
    assert said(notes, "7000 steps a day (steps_per_day)")
    assert said(notes, "an omnivore diet (diet)")
    assert said(notes, "no allergens to avoid (avoid_allergens)")
    assert not said(notes, "waking at")
    assert not said(notes, "protein_g_per_kg")
    assert not said(case_notes(read(("cautions", "steps_per_day = 7000\ncautions"))), "steps_per_day")


def test_lifting_hours_are_not_taken_where_lifts_are_written(read: Read) -> None:
    assert not said(case_notes(read()), "lifting_hours_per_week")
    assert said(case_notes(read(('"lift"', '"run"'))), "0 hours of lifting a week")


def test_where_a_figure_comes_from(read: Read) -> None:
    given = read(('effort = "hard"', 'effort = "hard"\nactive_kcal = 640'))
    assert given.session[0].energy_from == "wrist"
    assert said(case_notes(given), "tue 07:30 run: energy_from not given; the figure is taken as a wrist device's")
    assert read().session[0].energy_from == "estimate"
    power = read(('effort = "hard"', 'effort = "hard"\nactive_kcal = 640\nenergy_from = "power"'))
    assert not said(case_notes(power), "energy_from")
    nothing = read(('effort = "hard"', 'effort = "hard"\nenergy_from = "wrist"'))
    assert said(case_notes(nothing), "names a figure that is not given")


def test_energy_of_lifting_is_not_added(read: Read) -> None:
    lifted = read(('effort = "steady"', 'effort = "steady"\nactive_kcal = 300'))
    assert said(case_notes(lifted), "tue 17:30 lift: active_kcal adds no energy")


def test_foods_that_a_case_names(read: Read) -> None:
    fixed = '\n[[kitchen.fixed]]\nday = "fri"\ntime = "19:30"\nwhat = "out"\n'
    case = read(
        (NEVER, f'{NEVER}\nprefer = ["salmon"]\nless = ["swede"]{fixed}foods = ["oats, rolled=80g", "honey=10g"]'
                f'{fixed.replace("19:30", "12:30")}dish = "porridge"'),
    )  # fmt: skip
    assert named_foods(case) == [
        ("[kitchen] never, entry 1", "liver"),
        ("[kitchen] never, entry 2", "cod"),
        ("[kitchen] prefer, entry 1", "salmon"),
        ("[kitchen] less, entry 1", "swede"),
        ("[[kitchen.fixed]] 1 foods, entry 1", "oats, rolled"),
        ("[[kitchen.fixed]] 1 foods, entry 2", "honey"),
        ("[[kitchen.fixed]] 2 dish", "porridge"),
    ]
