"""Clocks, the machine, and the load that the figures were taken under."""

from __future__ import annotations

import os
import platform
import re
import resource
import subprocess
import sys
import time
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from importlib import metadata
from pathlib import Path

#: Above this load average others were at work too, and wall times say little.
LOAD_MOST = 1.5

ROOT = Path(__file__).resolve().parents[1]


@dataclass(slots=True)
class Took:
    """What a piece of work took, in seconds: by the clock, and by the processor (this process and its children)."""

    wall: float = 0.0
    cpu: float = 0.0

    def __add__(self, other: Took) -> Took:
        return Took(self.wall + other.wall, self.cpu + other.cpu)

    def __sub__(self, other: Took) -> Took:
        return Took(self.wall - other.wall, self.cpu - other.cpu)


def _cpu() -> float:
    children = resource.getrusage(resource.RUSAGE_CHILDREN)
    return time.process_time() + children.ru_utime + children.ru_stime


@contextmanager
def stopwatch() -> Iterator[Took]:
    """Times what stands inside; the Took is filled in at its end, also where it ends in an error."""
    took = Took()
    wall, cpu = time.perf_counter(), _cpu()
    try:
        yield took
    finally:
        took.wall, took.cpu = time.perf_counter() - wall, _cpu() - cpu


def load() -> float:
    """The load average of the last minute; -1 where the system does not tell."""
    try:
        return os.getloadavg()[0]
    except OSError:
        return -1.0


def _processor() -> str:
    try:
        lines = Path("/proc/cpuinfo").read_text(encoding="utf-8").splitlines()
    except OSError:
        lines = []
    named = [line.split(":", 1)[1].strip() for line in lines if line.startswith("model name")]
    return named[0] if named else platform.processor() or platform.machine() or "unknown"


def _commit() -> str:
    def git(*words: str) -> str:
        return subprocess.run(["git", *words], cwd=ROOT, capture_output=True, text=True, check=True).stdout.strip()

    try:
        changed = git("status", "--porcelain", "--untracked-files=no", "--", "mealopt", "foods", "bench")
        return git("rev-parse", "--short", "HEAD") + (" with changes not committed" if changed else "")
    except (OSError, subprocess.CalledProcessError):
        return "unknown"


def _cbc_version() -> str:
    """The version that CBC greets with; unknown where it does not run."""
    import pulp

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", DeprecationWarning)
            path = pulp.PULP_CBC_CMD(msg=False).path
        said = subprocess.run([path, "-quit"], capture_output=True, text=True, timeout=20).stdout
    except (OSError, subprocess.SubprocessError, AttributeError):
        return "unknown"
    found = re.search(r"Version:\s*(\S+)", said)
    return found[1] if found else "unknown"


def machine(digest: str) -> list[str]:
    """Lines that say what gave the figures. digest: of the cases."""
    packages = ("highspy", "pulp", "pandas", "pydantic")
    versions = ", ".join(f"{name} {metadata.version(name)}" for name in packages)
    return [
        f"- {os.cpu_count()} cores, {_processor()}, {platform.system()}",
        f"- Python {platform.python_version()} ({sys.implementation.name}), {versions}, CBC {_cbc_version()}",
        f"- program at {_commit()}; cases {digest}",
    ]


def load_lines(start: float, end: float) -> list[str]:
    """What is said of the load: before the first figure, and after the last (this run itself adds up to 1)."""
    lines = [f"- load average {start:.2f} at the start, {end:.2f} at the end"]
    if start > LOAD_MOST or end > LOAD_MOST + 1.0:
        lines.append(
            f"- **Others were at work: a load over {LOAD_MOST:g}. Trust the ratios and the processor times, not the "
            "seconds by the clock.**"
        )
    return lines
