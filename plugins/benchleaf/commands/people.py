"""`benchleaf timetable` and `benchleaf follow-up`: plans for people, from a crew folder."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from benchleaf import training
from benchleaf.diagnose import Finding, report

if TYPE_CHECKING:
    Commands = argparse._SubParsersAction[argparse.ArgumentParser]


def add(commands: Commands) -> None:
    """Add both commands to the parser."""
    timetable = commands.add_parser(
        "timetable",
        help="plan who learns what by when, and tell what cannot be met",
        description="Who can do what, gaps against the cover wanted, and each lesson's days.",
        epilog="It exits 0 where every day asked for is met, 1 where one is not or a file has"
        " errors, 2 for misuse.",
    )
    timetable.add_argument("--format", choices=("text", "json"), default="text")
    _common(timetable, _timetable)
    follow_up = commands.add_parser(
        "follow-up",
        help="tell what is new for a learner at a job, and when to look in",
        description="What the job brings that the learner has not met, their curve, and checks"
        " that taper off.",
    )
    follow_up.add_argument("person", metavar="PERSON", help="a staff code, such as op-07")
    follow_up.add_argument("job", metavar="JOB", help="a job, such as TR-0110")
    follow_up.add_argument(
        "--format", choices=("text", "json", "ics"), default="text", help="ics is for calendars"
    )
    _common(follow_up, _follow_up)


def _common(command: argparse.ArgumentParser, run: Callable[[argparse.Namespace], int]) -> None:
    command.add_argument("--content", type=Path, default=Path("content"), help="default: content")
    written = os.environ.get("BENCHLEAF_CREW_DIR")
    command.add_argument(
        "--crew",
        type=Path,
        default=Path(written) if written else None,
        help="the crew folder (default: BENCHLEAF_CREW_DIR)",
    )
    command.add_argument(
        "--on", type=date.fromisoformat, metavar="DATE", help="plan from (default: today)"
    )
    command.set_defaults(run=run)


def _timetable(options: argparse.Namespace) -> int:
    return _answer(options, lambda asked: training.timetable(asked, form=options.format))


def _follow_up(options: argparse.Namespace) -> int:
    return _answer(
        options,
        lambda asked: training.follow_up(asked, options.person, options.job, form=options.format),
    )


def _answer(
    options: argparse.Namespace,
    ask: Callable[[training.Asked], tuple[training.Answer, tuple[Finding, ...]]],
) -> int:
    if options.crew is None:
        print("benchleaf: no crew folder is named", file=sys.stderr)
        print("give --crew FOLDER, or set BENCHLEAF_CREW_DIR", file=sys.stderr)
        return 2
    answer, findings = ask(training.Asked(options.content, options.crew, options.on))
    if findings:
        print(report(findings), file=sys.stderr)
    if answer.problem:
        print("\n".join((f"benchleaf: {answer.problem}", *answer.help)), file=sys.stderr)
        return 2
    if answer.text.endswith("\r\n") and hasattr(sys.stdout, "buffer"):
        sys.stdout.buffer.write(answer.text.encode())  # a calendar's line ends are its own
    elif answer.text:
        print(answer.text)
    return 0 if answer.complete else 1
