"""`benchleaf timetable`: who learns what by when, from a crew folder."""

from __future__ import annotations

import argparse
from typing import Any

from benchleaf.people.crews import plan_people
from benchleaf.people.people_text import timetable_json, timetable_text
from benchleaf.people.promised_file import write_promised

from .answer import Answer
from .people import Answered, Asked, answer, ask_of, read_both


def add(commands: Any) -> None:
    """Add the command to the parser."""
    timetable = commands.add_parser(
        "timetable",
        help="plan who learns what by when, and tell what cannot be met",
        description="Who can do what, gaps against the cover wanted, and each lesson's days.",
        epilog="It exits 0 where every day asked for is met, 1 where one is not or a file has"
        " errors, 2 for misuse.",
    )
    timetable.add_argument("--format", choices=("text", "json"), default="text")
    timetable.add_argument(
        "--promise",
        action="store_true",
        help="people are told of this plan: write promised.yml, so that the next one keeps to it",
    )
    timetable.add_argument(
        "--no-solver",
        action="store_true",
        help="plan at once by the built-in rule, though a solver is installed",
    )
    ask_of(timetable, _timetable)


def _timetable(options: argparse.Namespace) -> int:
    return answer(
        options,
        lambda asked: timetable(
            asked,
            form=options.format,
            promise=options.promise,
            use_solver=not options.no_solver,
        ),
    )


def timetable(
    asked: Asked, *, form: str = "text", promise: bool = False, use_solver: bool = True
) -> Answered:
    """The plan of a crew as `text` or `json`, or the findings that prevent it."""
    loaded, crew, findings = read_both(asked)
    found = plan_people(crew, loaded, asked.on, use_solver=use_solver)
    if found is None:
        return Answer(complete=False), findings
    if promise:
        try:
            write_promised(asked.crew, found)
        except OSError as error:
            return Answer(problem=f"{asked.crew}/promised.yml: {error.strerror}"), findings
    text = timetable_json(found) if form == "json" else timetable_text(found)
    met = not (found.schedule.late or found.schedule.unplanned)
    return Answer(text, complete=met), findings
