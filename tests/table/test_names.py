"""No trade name stands in the food files.

A test cannot know every trade name, and none is to be repeated here. So the words themselves were read: every word of
the table's names and weights stands in read_words.txt, and every word with a capital in our own files in a list below.
A new word fails until somebody has read it in its place.
"""

from __future__ import annotations

import csv
import re
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from mealopt.table.composition import shipped_composition
from mealopt.table.files import foods_folder

_LETTERS = re.compile(r"[^\W\d_]+")
_SENTENCE = re.compile(r"(?<=[.!?:])\s+")
READ = Path(__file__).with_name("read_words.txt")

#: Places, peoples and kinds of food: all that is written with a capital in our own files, away from a sentence's start.
CAPITALS = {
    *("African", "American", "Asian", "Brazil", "Brazilian", "British", "Brussels", "Caribbean", "Central", "Cheddar"),
    *("Chinese", "Eastern", "East", "English", "European", "French", "German", "Gouda", "Greek", "Indian", "Irish"),
    *("Indonesian", "Italian", "Jamaican", "Japanese", "Javanese", "Korean", "Latin", "Lebanese", "Levantine"),
    *("Mediterranean", "Mex", "Mexican", "Middle", "Moroccan", "Nordic", "North", "Northern", "Parmesan", "Persian"),
    *("Peruvian", "Polish", "Portuguese", "Provencal", "Rican", "Russian", "Scandinavian", "Scottish", "Sichuan"),
    *("Singapore", "South", "Southern", "Spanish", "Swedish", "Swiss", "Tex", "Thai", "Turkish", "Ukrainian"),
    *("Vietnamese", "Welsh", "West", "Western", "Worcestershire", "C", "B"),
}


def test_every_word_of_the_table_was_read() -> None:
    lines = READ.read_text(encoding="utf-8").splitlines()
    read = set(" ".join(line for line in lines if not line.startswith("#")).split())
    unread: dict[str, str] = {}
    for row in shipped_composition().rows.values():
        for text in (row.name, *(words for _, words in row.weights)):
            unread |= {word: row.ndb for word in _LETTERS.findall(text.lower()) if word not in read}
    assert not unread, f"words that nobody has read yet, with a row of each: {unread}"


def test_no_word_in_capitals_is_left_in_the_table() -> None:
    found = {
        word
        for row in shipped_composition().rows.values()
        for text in (row.name, *(words for _, words in row.weights))
        for word in re.findall(r"\b[A-Z][A-Z&'\-]+[A-Z]\b", text)
    }
    assert found <= {"USDA", "BBQ", "NFS", "NFSMI", "NLEA", "TBSP"}


def strings(value: Any) -> Iterator[str]:
    """Every text in what a TOML file holds."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for one in value.values():
            yield from strings(one)
    elif isinstance(value, list):
        for one in value:
            yield from strings(one)


def capitals(text: str) -> set[str]:
    """Words with a capital that do not start a sentence."""
    return {
        found[0]
        for sentence in _SENTENCE.split(text)
        for found in re.finditer(r"\b[A-Z][^\W\d_]*", sentence)
        if found.start() > 0
    }


def test_our_own_files_name_kinds_of_food_only() -> None:
    found: dict[str, str] = {}
    for path in sorted((foods_folder() / "dishes").glob("*.toml")):
        for text in strings(tomllib.loads(path.read_text(encoding="utf-8"))):
            found |= dict.fromkeys(capitals(text) - CAPITALS, path.name)
    for name in ("pantry.csv", "prices.csv"):
        lines = (foods_folder() / name).read_text(encoding="utf-8").splitlines()
        for cells in csv.reader(line for line in lines if not line.startswith("#")):
            for cell in cells:
                found |= dict.fromkeys(set(re.findall(r"\b[A-Z][^\W\d_]*", cell)) - CAPITALS, name)
    assert not found, f"words with a capital that nobody has read yet: {found}"
