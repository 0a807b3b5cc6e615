"""Inputs for the values of a case: each labelled, each with its complaint beside it, none of them computes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import streamlit as st

from mealopt.ui.desk import change, state
from mealopt.ui.state import Path, typed, value_at

#: Complaints that stand beside an input of the page that is drawn now; the rest is told at its head.
_SHOWN = "complaint shown"


def follow(key: str, value: Any) -> None:
    """Let the widget with this key show a value that may have changed elsewhere.

    Only where it differs: a value that is set in each run would undo a click that comes while the run goes on.
    """
    if key not in st.session_state or st.session_state[key] != value:
        st.session_state[key] = value


def spot(path: Path) -> str:
    """How a complaint names this place: "[athlete] mass_kg", "[[session]] 3 start"."""
    if len(path) == 1:
        return str(path[0])
    *table, key = path
    numbers = [part for part in table if isinstance(part, int)]
    names = ".".join(str(part) for part in table if not isinstance(part, int))
    return f"[[{names}]] {numbers[-1] + 1} {key}" if numbers else f"[{names}] {key}"


def concerns(complaint: str, path: Path) -> bool:
    """Whether a complaint is about this place."""
    here, missing = spot(path), f"{spot(path).rpartition(' ')[0]}: read no {path[-1]};"
    return complaint.startswith((f"{here}:", f"{here},", missing))


def complain(*paths: Path) -> None:
    """The complaint about one of these places, if there is one; at most once a page."""
    complaint = state().complaint
    if complaint and not shown() and any(concerns(complaint, path) for path in paths):
        st.error(complaint)
        st.session_state[_SHOWN] = True


def shown() -> bool:
    """Whether the complaint stands on the page already."""
    return bool(st.session_state.get(_SHOWN))


def fresh() -> None:
    """Nothing of this page is drawn yet."""
    st.session_state[_SHOWN] = False


def key_of(path: Path) -> str:
    """The key of the input for this place."""
    return ".".join(str(part) for part in path) + f"#{state().opened}"


def _changed(path: Path, convert: Callable[[Any], Any] | None) -> None:
    value = st.session_state[key_of(path)]
    change(lambda now: typed(now, path, convert(value) if convert else value))


def _tied(path: Path, convert: Callable[[Any], Any] | None = None) -> dict[str, Any]:
    return {"key": key_of(path), "on_change": _changed, "args": (path, convert)}


def _short(value: float | None) -> float | None:
    """9 for 9.0, so that a complaint reads what was typed."""
    return int(value) if isinstance(value, float) and value.is_integer() else value


def number(path: Path, label: str, *, whole: bool = False, default: float | None = None, step: float = 1.0,
           help: str | None = None, width: Any = "stretch") -> None:  # fmt: skip
    """A number; empty where the case leaves it out. default: what then holds, shown in its place."""
    kind: Callable[[Any], Any] = int if whole else float
    value = value_at(state().draft, path)
    value = kind(value) if isinstance(value, int | float) else None
    placeholder = "left out" if default is None else f"{default:g}, as nothing is given"
    st.number_input(label, value=value, step=kind(step), placeholder=placeholder, help=help, width=width,
                    format="%d" if whole else "%g", **_tied(path, _short))  # fmt: skip
    complain(path)


def words(path: Path, label: str, *, default: str | None = None, help: str | None = None, most: int | None = None,
          width: Any = "stretch") -> None:  # fmt: skip
    """A text or a time; empty where the case leaves it out."""
    value = value_at(state().draft, path)
    placeholder = "left out" if default is None else f"{default}, as nothing is given"
    st.text_input(label, value="" if value is None else str(value), placeholder=placeholder, help=help, width=width,
                  max_chars=most, **_tied(path, lambda text: text.strip() or None))  # fmt: skip
    complain(path)


def choice(path: Path, label: str, options: Sequence[str], *, default: str = "",
           say: Callable[[str], str] = str, help: str | None = None, width: Any = "stretch") -> None:  # fmt: skip
    """One of a few words."""
    value = str(value_at(state().draft, path) or default)
    listed = [*options] if value in options else [*options, value]
    st.selectbox(label, listed, index=listed.index(value), format_func=say, help=help, width=width,
                 **_tied(path))  # fmt: skip
    complain(path)


def several(path: Path, label: str, options: Sequence[str], *, say: Callable[[str], str] | None = None,
            help: str | None = None, keep_empty: bool = False) -> None:  # fmt: skip
    """Any number of words of a list. keep_empty: none of them is written as an empty list, which says "asked, none"."""
    value = value_at(state().draft, path) or []
    listed = [*options, *(one for one in value if one not in options)]
    st.multiselect(label, listed, default=value, format_func=say or str, help=help, placeholder="none",
                   **_tied(path, lambda chosen: list(chosen) if chosen or keep_empty else None))  # fmt: skip
    complain(path)


def switch(path: Path, label: str, *, help: str | None = None) -> None:
    """Yes or no."""
    st.toggle(label, value=bool(value_at(state().draft, path)), help=help, **_tied(path, lambda on: on or None))
    complain(path)
