"""Where each person's state is while the server runs: under a long random name that stands in the page's address.

A reload finds it again; nobody else can guess it. Nothing is written to disk but
foods of one's own that were opened, for as long: files are saved by hand.
"""

from __future__ import annotations

import secrets
import threading
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cache
from typing import TYPE_CHECKING, Any

import streamlit as st

if TYPE_CHECKING:
    from mealopt.ui.state import State
    from mealopt.ui.work import Work

#: People whose state one server keeps; the one who was away longest goes first.
MOST = 300
#: The name in the address.
PARAMETER = "kept"


@dataclass(slots=True)
class Kept:
    """One person's state, the work that is going on for it, and how its answer is taken in."""

    state: State
    work: Work | None = None
    apply: Callable[[State, Any], State] = lambda state, answer: state


@dataclass(slots=True)
class Shelf:
    """All that this server keeps."""

    most: int = MOST
    _kept: OrderedDict[str, Kept] = field(default_factory=OrderedDict)
    _lock: threading.Lock = field(default_factory=threading.Lock)

    def find(self, name: str) -> Kept | None:
        """What is kept under this name."""
        with self._lock:
            if name in self._kept:
                self._kept.move_to_end(name)
            return self._kept.get(name)

    def put(self, name: str, kept: Kept) -> None:
        """Keep it; the oldest goes where there are too many, and its work is stopped."""
        with self._lock:
            self._kept[name] = kept
            while len(self._kept) > self.most:
                _, gone = self._kept.popitem(last=False)
                if gone.work is not None:
                    gone.work.stop()


@cache
def shelf() -> Shelf:
    """The one shelf of this process."""
    return Shelf()


def kept(first: State) -> Kept:
    """What is kept for whoever looks at this page; a newcomer gets this first state and a name of their own."""
    name = st.session_state.get(PARAMETER) or st.query_params.get(PARAMETER, "")
    found = shelf().find(name) if name else None
    if found is None:
        name, found = secrets.token_urlsafe(18), Kept(first)
        shelf().put(name, found)
    st.session_state[PARAMETER] = name
    if st.query_params.get(PARAMETER) != name:
        st.query_params[PARAMETER] = name
    return found
