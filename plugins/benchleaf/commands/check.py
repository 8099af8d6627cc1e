"""`benchleaf check`: every problem in one run, in the form that a person or a program reads."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

from benchleaf import pages, pipeline, read, registers
from benchleaf.diagnose import FORMS, seen_from
from benchleaf.validate import readability_lines

from .answer import misuse, reads_content


def add(commands: Any) -> None:
    """Add the command to the parser."""
    check = commands.add_parser("check", help="read every breakdown and report every problem")
    reads_content(check)
    check.add_argument(
        "--format",
        choices=tuple(FORMS),
        default="text",
        help="for people (text), programs (json), or a forge: annotations (workflow commands), "
        "sarif (SARIF 2.1.0), code-quality (a list of issues)",
    )
    check.add_argument(
        "--readability",
        action="store_true",
        help="report how hard each job reads and how much it teaches, and nothing else",
    )
    check.add_argument(
        "--today",
        type=_day,
        default=None,
        metavar="YYYY-MM-DD",
        help="the day on which reviews are looked at (default: today)",
    )
    check.add_argument(
        "--against",
        metavar="REF",
        help="hold the registers to what they were where this branch left REF, such as origin/main",
    )
    check.set_defaults(run=_check)


def _day(text: str) -> date:
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise argparse.ArgumentTypeError(f"'{text}' is no date like 2026-03-09") from None


def _check(options: argparse.Namespace) -> int:
    if options.readability:
        loaded = pipeline.load(options.content)
        print("\n".join((*readability_lines(loaded.shop), "", *_hazard_lines(loaded))))
        return 0
    found = pipeline.check(options.content, today=options.today)
    try:
        lost = registers.against(options.content, options.against) if options.against else ()
    except read.RevisionError as error:
        return misuse(error.problem, error.help)
    findings = (*found, *lost, *read.check_settings(options.content))
    fails = any(finding.fails_check for finding in findings)
    if options.format != "text":
        findings = seen_from(_above(options.content), findings)
    printed = FORMS[options.format](findings)
    if printed:
        print(printed)
    return 1 if fails else 0


def _hazard_lines(loaded: pipeline.Loaded) -> Iterator[str]:
    """One line a job, the one with most warning first. A report, never a finding."""
    if not loaded.may_publish:
        yield "Hazards are not counted while there are errors."
        return
    found = pages.hazard_shares(loaded.shop, loaded.terms, loaded.sheets)
    yield "job        words of hazard  of work  share  touches in each round"
    for job, one in sorted(found.items(), key=lambda pair: -pair[1].share):
        touches = " ".join(f"{count:3d}" for count in one.touches)
        yield f"{job.upper():<10} {one.warned:15d} {one.work:8d} {one.share:6.2f}  {touches}"
    yield "Four rounds in one sitting: what hazards say on the screen, against steps, key points"
    yield "and reasons; and touches that answer a hazard. A report, no rule: leave no hazard and no"
    yield "control out to make a number smaller."


def _above(content: Path) -> str:
    """The folder that holds the content folder, as seen from here; empty for here itself."""
    above = content.parent
    here = Path.cwd()
    if above.is_absolute() and above.is_relative_to(here):
        above = above.relative_to(here)
    return "" if above == Path() else above.as_posix()
