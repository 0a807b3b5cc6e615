"""The file of foods of one's own that a case names: a browser gives a case without the folder beside it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path, PurePosixPath
from tempfile import TemporaryDirectory

import streamlit as st

from mealopt import api
from mealopt.errors import BadInput, Refused
from mealopt.ui import desk
from mealopt.ui.state import State

_TROUBLE = "trouble with own foods"


def missing(state: State) -> str:
    """The name of the file that the case names and that is not there; "" where none is."""
    named = state.case.kitchen.own_foods
    if named is None or PurePosixPath(named).is_absolute() or ".." in PurePosixPath(named).parts:
        return ""
    folder = state.case.folder
    return "" if folder is not None and (folder / named).is_file() else named


def with_own_foods(state: State, text: str) -> State:
    """With this text as the file that the case names, for as long as the server runs. Raises BadInput, Refused."""
    named = missing(state)
    folder = TemporaryDirectory(prefix="mealopt-")
    path = Path(folder.name) / named
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    try:
        api.find_foods("milk", path)
    except (BadInput, Refused) as error:
        raise type(error)(str(error).replace(str(path), named)) from None
    # The folder goes when the state does.
    return replace(state, case=state.case.beside(Path(folder.name)), own_foods=folder)


def ask_for_own_foods() -> None:
    """The field for that file, where it is missing."""
    state = desk.state()
    named = missing(state)
    if not named:
        return
    key = f"own foods#{state.opened}"

    def opened() -> None:
        from mealopt.ui.files import text_of

        file = st.session_state[key]
        if file is None:
            return
        try:
            text = text_of(file.getvalue(), file.name)
            desk.change(lambda now: with_own_foods(now, text))
        except (BadInput, Refused) as error:
            st.session_state[_TROUBLE] = str(error)
        else:
            st.session_state[_TROUBLE] = ""

    st.file_uploader(f"The case names foods of your own: {named}", type=["toml"], key=key, on_change=opened)
    if st.session_state.get(_TROUBLE):
        st.error(st.session_state[_TROUBLE])
