"""Writes anew what the README and DEVELOPERS.md take from the program: tables, and the output of each shown command.

    python -m tests.docs.write              # from the project's folder; read the difference

Run it when a key, a rule, a weight or a printed page changes on purpose.
"""

from __future__ import annotations

import re
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.docs.pages import GENERATED, README, prepare, replaced, run, shown


def main() -> None:
    """Write both documents anew."""
    for page, parts in GENERATED.items():
        text = page.read_text(encoding="utf-8")
        for name, make in parts.items():
            text = replaced(text, name, make())
        page.write_text(text, encoding="utf-8")
    with TemporaryDirectory() as name:
        folder = Path(name)
        prepare(folder)

        def again(block: re.Match[str]) -> str:
            entries = (f"$ {entry.command}\n{run(entry.command, folder)}" for entry in shown(block[1]))
            return "```console\n" + "\n".join(entry.rstrip("\n") for entry in entries) + "\n```"

        text = README.read_text(encoding="utf-8")
        README.write_text(re.sub(r"^```console\n(.*?)^```$", again, text, flags=re.S | re.M), encoding="utf-8")


if __name__ == "__main__":
    main()
