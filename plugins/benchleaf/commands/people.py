"""What the commands about people share: what they ask of, and how they answer."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from benchleaf import pipeline
from benchleaf.diagnose import Finding, Severity, report
from benchleaf.model import Crew
from benchleaf.people.crews import load_crew
from benchleaf.pipeline import Loaded

from .answer import Answer, crew_folder, misuse

Answered = tuple[Answer, tuple[Finding, ...]]


@dataclass(frozen=True, slots=True)
class Asked:
    """What a question about people is asked of."""

    content: Path
    crew: Path
    on: date | None = None
    """The day from which to plan."""


def ask_of(command: argparse.ArgumentParser, run: Callable[[argparse.Namespace], int]) -> None:
    """Give a command the options that say what it is asked of."""
    command.add_argument("--content", type=Path, default=Path("content"), help="default: content")
    command.add_argument(
        "--crew",
        type=Path,
        default=crew_folder(),
        help="the crew folder (default: BENCHLEAF_CREW_DIR)",
    )
    command.add_argument(
        "--on", type=date.fromisoformat, metavar="DATE", help="plan from (default: today)"
    )
    command.set_defaults(run=run)


def answer(options: argparse.Namespace, ask: Callable[[Asked], Answered]) -> int:
    """Ask, and print what is answered."""
    if options.crew is None:
        cure = "give --crew FOLDER, or set BENCHLEAF_CREW_DIR"
        return misuse("no crew folder is named", (cure,))
    given, findings = ask(Asked(options.content, options.crew, options.on))
    if findings:
        print(report(findings), file=sys.stderr)
    if given.problem:
        return misuse(given.problem, given.help)
    if given.text.endswith("\r\n") and hasattr(sys.stdout, "buffer"):
        sys.stdout.buffer.write(given.text.encode())  # a calendar's line ends are its own
    elif given.text:
        print(given.text)
    return 0 if given.complete else 1


def read_both(asked: Asked) -> tuple[Loaded, Crew | None, tuple[Finding, ...]]:
    """Content and crew; nobody where either has errors. What must not be run is told, too."""
    loaded = pipeline.load(asked.content)
    errors = tuple(one for one in loaded.findings if one.blocks_publishing)
    if errors:
        return loaded, None, errors
    crew = load_crew(asked.crew, loaded.shop, asked.content)
    stops = tuple(one for one in loaded.findings if one.severity is Severity.STOP)
    return loaded, crew.crew, (*stops, *crew.findings)
