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
from benchleaf.write import make_folder, write_text

from . import other_version, sides
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
        "--pictures-at",
        metavar="ADDRESS",
        help="where your forge shows a file, with {revision} and {file} in it: in Markdown replaced"
        " pictures are then shown, else named with their size",
    )
    command.add_argument(
        "--tool",
        type=Path,
        metavar="PYTHON",
        help="compare what another version of this tool reckons of the same content: its Python, or"
        " the folder of its environment",
    )
    command.add_argument(
        "--write-meaning",
        type=Path,
        metavar="FILE",
        help="write down as JSON what every job says by this version, and compare nothing; OLD and"
        " NEW may be two such files",
    )
    command.add_argument(
        "--lessons",
        type=Path,
        metavar="FOLDER",
        help="write a short lesson of each job that changed there, with lines to sign",
    )
    command.set_defaults(run=_compare)


def _compare(options: argparse.Namespace) -> int:
    from benchleaf import __version__

    if options.write_meaning is not None:
        written = other_version.write_meaning(options.content, __version__, options.write_meaning)
        return _answered(written, options)
    files = [
        one for one in (options.old, options.new) if one and one.endswith(other_version.SUFFIX)
    ]
    if options.tool is None and not files:
        return _answered(_of_content(options), options)
    if (options.tool is not None) == bool(files) or (files and options.old not in files):
        return misuse(
            "these do not go together",
            ("--tool PYTHON compares two versions on the content as it is now",
             "OLD.json, or OLD.json NEW.json, compares what was written down"),
        )  # fmt: skip
    old, new = (Path(one) if one else None for one in (options.old, options.new))
    asked = other_version.Versions(
        options.content, __version__, options.tool, old, new, options.crew, options.on
    )
    return _answered(other_version.compare_versions(asked), options)


def _of_content(options: argparse.Namespace) -> sides.Reviewed:
    asked = sides.Asked(
        options.content,
        options.old,
        options.new,
        options.crew,
        options.main,
        options.pictures_at,
        options.on,
    )
    return sides.compare(asked)


def _answered(reviewed: sides.Reviewed, options: argparse.Namespace) -> int:
    if reviewed.problem:
        return misuse(reviewed.problem, reviewed.help)
    if reviewed.report is None:
        if reviewed.findings:
            print(report(reviewed.findings), file=sys.stderr)
            print(f"{summary(reviewed.findings)}: nothing was compared", file=sys.stderr)
        return 1 if reviewed.findings else 0
    print(sides.FORMATS[options.format](reviewed.report).rstrip("\n"))
    if options.lessons is not None:
        for path in write_lessons(reviewed.report, options.lessons):
            print(f"{path} is written", file=sys.stderr)
    return 0


def write_lessons(found: Report, folder: Path) -> tuple[Path, ...]:
    """Write the short lesson of each job that changed; the files that were written."""
    make_folder(folder)
    paths = []
    for job_id, html in pages.lessons_apart(found).items():
        path = folder / f"{job_id}.html"
        write_text(path, html)
        paths.append(path)
    return tuple(paths)
