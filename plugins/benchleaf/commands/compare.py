"""`benchleaf compare`: what changed in meaning between two states of the content."""

from __future__ import annotations

import argparse
import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from benchleaf import pages
from benchleaf.diagnose import report, summary
from benchleaf.diff import Report

from . import sides
from .answer import crew_folder, misuse

if TYPE_CHECKING:
    Commands = argparse._SubParsersAction[argparse.ArgumentParser]

_ABOUT = """\
Tells what changed in meaning, what the computed set-ups became, and who must be taught again.
OLD and NEW are content folders or git revisions, or REVISION:FOLDER where the content stood
elsewhere. Without them the content as it is now is compared with the revision at which it went
apart from the main branch."""


def add(commands: Commands) -> None:
    """Add the command to the parser."""
    command = commands.add_parser(
        "compare",
        help="tell what changed in meaning, and who must be taught again",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description=_ABOUT,
        epilog="It exits 0 where both sides could be compared, 1 where one cannot be read, 2 for"
        " misuse.",
    )
    command.add_argument("old", nargs="?", metavar="OLD", help="a folder or revision")
    command.add_argument("new", nargs="?", metavar="NEW", help="default: the content as it is now")
    command.add_argument(
        "--format", choices=tuple(sides.FORMATS), default="text", help="default: text"
    )
    command.add_argument("--content", type=Path, default=Path("content"), help="default: content")
    command.add_argument(
        "--crew",
        type=Path,
        default=crew_folder(),
        help="the crew folder, to name people (default: BENCHLEAF_CREW_DIR)",
    )
    command.add_argument("--main", metavar="BRANCH", help="the main branch (default: main)")
    command.add_argument(
        "--on", type=date.fromisoformat, metavar="DATE", help="count days from (default: today)"
    )
    command.add_argument(
        "--lessons",
        type=Path,
        metavar="FOLDER",
        help="write a short lesson of each job that changed there, with lines to sign",
    )
    command.set_defaults(run=_compare)


def _compare(options: argparse.Namespace) -> int:
    asked = sides.Asked(
        options.content, options.old, options.new, options.crew, options.main, options.on
    )
    reviewed = sides.compare(asked)
    if reviewed.problem:
        return misuse(reviewed.problem, reviewed.help)
    if reviewed.report is None:
        print(report(reviewed.findings), file=sys.stderr)
        print(f"{summary(reviewed.findings)}: nothing was compared", file=sys.stderr)
        return 1
    print(sides.FORMATS[options.format](reviewed.report).rstrip("\n"))
    if options.lessons is not None:
        for path in write_lessons(reviewed.report, options.lessons):
            print(f"{path} is written", file=sys.stderr)
    return 0


def write_lessons(found: Report, folder: Path) -> tuple[Path, ...]:
    """Write the short lesson of each job that changed; the files that were written."""
    folder.mkdir(parents=True, exist_ok=True)
    paths = []
    for job_id, html in pages.lessons_apart(found).items():
        path = folder / f"{job_id}.html"
        path.write_text(html, encoding="utf-8", newline="\n")
        paths.append(path)
    return tuple(paths)
