"""Files and data that are broken, huge, hostile or empty: one clear refusal, and never another error."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mealopt.errors import BadInput
from mealopt.people.case import Case
from mealopt.people.reading import MOST_BYTES, case_from_dict, case_from_text, read_case


def refusal(path: Path) -> str:
    with pytest.raises(BadInput) as caught:
        read_case(path)
    assert str(caught.value).startswith(str(path))
    assert "\n" not in str(caught.value)
    return str(caught.value)


def outcome(reading: Callable[[], Case]) -> str | None:
    """The one-line refusal; None where the case was read. Any other error passes through and fails the test."""
    try:
        case = reading()
    except BadInput as error:
        says = str(error)
    else:
        return None if isinstance(case, Case) else "not a case"
    return says if "\n" not in says else "more than one line"


def test_missing_file(tmp_path: Path) -> None:
    assert "there is no such file" in refusal(tmp_path / "nobody.toml")


def test_folder(tmp_path: Path) -> None:
    assert "read a folder; a case file is expected" in refusal(tmp_path)


@pytest.mark.parametrize("content", [b"", b"\n \t\n", b"\xef\xbb\xbf"])
def test_empty(tmp_path: Path, content: bytes) -> None:
    file = tmp_path / "case.toml"
    file.write_bytes(content)
    assert 'read an empty file; a case is expected, which begins with schema = "mealopt/case-1"' in refusal(file)


def test_only_a_comment(tmp_path: Path) -> None:
    file = tmp_path / "case.toml"
    file.write_text("# nothing yet\n")
    assert 'read no schema; schema = "mealopt/case-1" is expected' in refusal(file)


def test_hundred_megabytes_are_not_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "case.toml"
    file.touch()
    os.truncate(file, 100_000_000)

    def opened(*_: object, **__: object) -> None:
        raise AssertionError("the file was opened")

    monkeypatch.setattr(Path, "open", opened)
    assert "read a size of 100.0 MB; at most 5 MB is allowed" in refusal(file)


def test_a_file_that_grows_while_it_is_read(tmp_path: Path, base: str, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "case.toml"
    file.write_text(base + "#" + "\u00f8" * (MOST_BYTES // 2))
    small = tmp_path / "small.toml"
    small.touch()
    before = small.stat()
    monkeypatch.setattr(Path, "stat", lambda *_, **__: before)
    assert "at most 5 MB is allowed" in refusal(file)


def test_not_utf8(tmp_path: Path, base: str) -> None:
    file = tmp_path / "case.toml"
    file.write_bytes(base.replace("Skerry test athlete", "Sm\u00f8la").encode("latin-1"))
    assert "line 5: read the byte 0xf8, which is not UTF-8" in refusal(file)


def test_utf16(tmp_path: Path, base: str) -> None:
    file = tmp_path / "case.toml"
    file.write_bytes(base.encode("utf-16"))
    assert "which is not UTF-8" in refusal(file)


def test_byte_order_mark_and_windows_line_ends(tmp_path: Path, base: str) -> None:
    file = tmp_path / "case.toml"
    file.write_bytes(b"\xef\xbb\xbf" + base.replace("\n", "\r\n").encode())
    assert read_case(file).athlete.mass_kg == 68.0
    file.write_bytes(base.replace("\n", "\r\n").replace("68.0", "680").encode())
    assert "line 8, [athlete] mass_kg: read 680" in refusal(file)


def test_pipe_is_not_waited_for(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    assert "not a plain file" in refusal(pipe)


@pytest.mark.parametrize("error", [PermissionError(13, "Permission denied"), OSError(5, "Input/output error")])
def test_unreadable(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: OSError) -> None:
    file = tmp_path / "case.toml"
    file.write_text("x = 1")

    def opened(*_: object, **__: object) -> None:
        raise error

    monkeypatch.setattr(Path, "open", opened)
    assert f"cannot be read ({error.strerror}); a readable case file is expected" in refusal(file)


@pytest.mark.parametrize("name", ["a\0b", "x" * 5000])
def test_a_name_that_no_file_has(name: str) -> None:
    assert "cannot be read" in refusal(Path(name))


HOSTILE: dict[str, tuple[str, str]] = {
    "lists in lists": ("a = " + "[" * 100_000, "too deep"),
    "tables in tables": ("a = " + "{a=" * 100_000, "too deep"),
    "a key of many parts": ("a" + ".a" * 1_000_000 + " = 1", "line 1: read a key of 50 parts or more"),
    "a header of many parts": ("\n[" + "a." * 1_000_000 + "a]", "line 2: read a key of 50 parts or more"),
    "a number of many digits": ("\nb = " + "9" * 100_000, "line 2: read a number of thousands of digits"),
    "many lines": ("a = 1\n" * 500_000, "500,000 lines; at most 20,000"),
    "one long word": ("a" * 4_900_000, "key = value is expected"),
    "many quotation marks": ('"' * 4_900_000, "key = value is expected"),
    "one long text": ('a = "' + "x" * 4_900_000, "key = value is expected"),
    "a long unknown key": ('schema = "mealopt/case-1"\n' + "x" * 1_000_000 + " = 1", "xxx...: read a key that does"),
    "too long": ("#" * (MOST_BYTES + 1), "at most 5 MB"),
    "a zero byte": ("a = 1\n\0", "line 2, column 1"),
    "a control character": ('a = "\x07"', 'read "a = "\\x07""'),
    "many sessions": (
        'schema = "mealopt/case-1"\nsession = [' + "{}," * 100_000 + "]",
        "line 2, [session]: read 100,000 entries; at most 500 are allowed",
    ),
    "many names": (
        'schema = "mealopt/case-1"\n[kitchen]\nnever = [' + "1," * 1_000_000 + "]",
        "line 3, [kitchen] never: read",
    ),
}


@pytest.mark.parametrize("kind", HOSTILE)
def test_hostile_text(kind: str) -> None:
    text, says = HOSTILE[kind]
    with pytest.raises(BadInput) as caught:
        case_from_text(text, "case.toml")
    assert says in str(caught.value)
    assert len(str(caught.value)) < 500
    assert "\n" not in str(caught.value)


def test_too_many_sessions(read: Callable[..., Case]) -> None:
    text = "\n".join(
        '[[session]]\nday = "sat"\nstart = "09:00"\nminutes = 5\nkind = "run"\neffort = "easy"' for _ in range(80)
    )
    with pytest.raises(BadInput, match="entries; at most 70 are allowed"):
        read(("[[session]]", f"{text}\n[[session]]"))


@pytest.mark.parametrize("data", [None, 3, "x", [], [1], True, 1.5])
def test_data_that_is_no_table(data: object) -> None:
    with pytest.raises(BadInput, match=r"plan\.json: read .*a table with a case is expected"):
        case_from_dict(data, "plan.json")


@pytest.mark.parametrize("data", [{1: 2}, {"schema": {}}, {None: 1}, {"schema": "mealopt/case-1", "athlete": [[]]}])
def test_data_that_is_no_case(data: dict[Any, Any]) -> None:
    with pytest.raises(BadInput, match=r"^plan\.json"):
        case_from_dict(data, "plan.json")


def test_data_nested_without_end() -> None:
    deep: list[Any] = []
    for _ in range(100_000):
        deep = [deep]
    with pytest.raises(BadInput, match="read a key that does not exist"):
        case_from_dict({"schema": "mealopt/case-1", "x": deep}, "plan.json")


@given(st.text())
def test_any_text_is_read_or_refused(text: str) -> None:
    with pytest.raises(BadInput) as caught:
        case_from_text(text, "case.toml")
    assert str(caught.value).startswith("case.toml")


@given(st.data())
def test_a_spoilt_case_is_read_or_refused(base: str, data: st.DataObject) -> None:
    """One piece of the small case is cut out, and another text stands there instead."""
    start = data.draw(st.integers(0, len(base)))
    end = data.draw(st.integers(start, min(len(base), start + 30)))
    text = base[:start] + data.draw(st.text(max_size=10)) + base[end:]
    says = outcome(lambda: case_from_text(text, "case.toml"))
    assert says is None or says.startswith("case.toml")


json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=8,
)


@given(st.sampled_from(["athlete", "goal", "kitchen", "session"]), json_values, st.data())
def test_any_value_at_any_key_is_read_or_refused(table: str, value: Any, data: st.DataObject) -> None:
    athlete = {"name": "a", "sex": "male", "age": 40, "mass_kg": 80, "height_cm": 180}
    session = {"day": "mon", "start": "09:00", "minutes": 60, "kind": "run", "effort": "easy"}
    case: dict[str, Any] = {
        "schema": "mealopt/case-1", "athlete": athlete, "goal": {}, "kitchen": {}, "session": [session],
    }  # fmt: skip
    keys = {"session": list(session), "athlete": list(athlete), "goal": ["move", "band"], "kitchen": ["day", "fixed"]}
    key = data.draw(st.sampled_from(keys[table]))
    target = case["session"][0] if table == "session" else case[table]
    target[key] = value
    says = outcome(lambda: case_from_dict(case, "plan.json"))
    assert says is None or (says.startswith("plan.json") and key in says)
