"""How long somebody needs from `benchleaf init` to the first page: run it by hand.

It answers the questions at a terminal as a slow reader would: so many seconds to read a question,
and so many letters a second. The aim is two minutes.
"""

from __future__ import annotations

import os
import pty
import select
import subprocess
import sys
import tempfile
import time
from pathlib import Path

READ_S, LETTERS_A_SECOND = 5.0, 2.5
ANSWERS = ("Lower Fen Vent Gear", "metric", "a4", "Bench drill", "LF-0010", "Drill the pivot hole")
AIM_S = 120


def main() -> int:
    """Measure once, and say what was measured."""
    with tempfile.TemporaryDirectory() as folder:
        began = time.monotonic()
        code = _begin(Path(folder))
        took = time.monotonic() - began
        is_there = (Path(folder) / "site/index.html").is_file()
    person = sum(READ_S + len(one) / LETTERS_A_SECOND for one in ANSWERS)
    print(f"{took:.0f} s to the first page, {person:.0f} s of them the person's (aim {AIM_S} s)")
    print(f"exit {code}, page there: {is_there}")
    return 0 if is_there and took <= AIM_S else 1


def _begin(folder: Path) -> int:
    person, terminal = pty.openpty()
    process = subprocess.Popen(
        (sys.executable, "-m", "benchleaf.cli", "init"),
        cwd=folder, stdin=terminal, stdout=terminal, stderr=terminal,
    )  # fmt: skip
    os.close(terminal)
    for answer in ANSWERS:
        _until(person, "]: ")
        time.sleep(READ_S + len(answer) / LETTERS_A_SECOND)
        os.write(person, f"{answer}\n".encode())
    while process.poll() is None:
        if select.select([person], [], [], 0.2)[0]:
            _read(person)
    return process.returncode


def _until(person: int, words: str) -> None:
    seen = ""
    while words not in seen.rpartition("\n")[2]:
        seen += _read(person)


def _read(person: int) -> str:
    try:
        return os.read(person, 1024).decode(errors="replace")
    except OSError:  # the other end is shut
        return ""


if __name__ == "__main__":
    raise SystemExit(main())
