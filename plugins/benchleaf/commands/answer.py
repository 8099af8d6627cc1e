"""What a command answers with: text, or a problem with its cure; and what commands share."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from benchleaf.diagnose import suggestion


@dataclass(frozen=True, slots=True)
class Answer:
    """What a question at the command line gives: text or JSON, or a problem with its cure."""

    text: str = ""
    problem: str = ""
    help: tuple[str, ...] = ()
    complete: bool = True
    """False where nothing could be computed, or a job must not be run."""


def give(answer: Answer) -> int:
    """Print an answer: 0 where it is complete, 1 where it is not, 2 for misuse."""
    if answer.problem:
        return misuse(answer.problem, answer.help)
    print(answer.text)
    return 0 if answer.complete else 1


def misuse(problem: str, help_lines: Iterable[str] = ()) -> int:
    """Say what was asked amiss, and how to ask."""
    print("\n".join((f"benchleaf: {problem}", *help_lines)), file=sys.stderr)
    return 2


def unknown(what: str, written: str, allowed: Iterable[str]) -> int:
    """Say that there is no such thing, and what is nearest."""
    return misuse(f"there is no {what} '{written}'", suggestion(written, allowed))


def reads_content(command: argparse.ArgumentParser) -> None:
    """Give a command the content folder as its one place on the line."""
    command.add_argument(
        "content",
        nargs="?",
        type=Path,
        default=Path("content"),
        help="the content folder (default: content)",
    )


def crew_folder() -> Path | None:
    """The crew folder that the environment names."""
    written = os.environ.get("BENCHLEAF_CREW_DIR")
    return Path(written) if written else None
