"""`benchleaf book`: take in records that were made at the bench."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import Any

from benchleaf import pipeline
from benchleaf.diagnose import report
from benchleaf.model import BenchRecord
from benchleaf.people.booking import Booking, look_at, write_records

from .answer import Answer, crew_folder, give, misuse

_EPILOG = """\
Each file is taken in whole or refused whole, with every reason. Nothing is filled in, and no file
that is there is changed. The same record twice is one record. Two trainers' records come together
by copying both folders records/ into one.

It exits 0 where all is taken in or was there, 1 where a file is refused, 2 for misuse."""


def add(commands: Any) -> None:
    """Add the command to the parser."""
    book = commands.add_parser(
        "book",
        help="take in records that were made at the bench",
        description="Takes files that a record page saved into records/ of the crew folder, and"
        " refuses what cannot be so.",
        formatter_class=argparse.RawDescriptionHelpFormatter,
        epilog=_EPILOG,
    )
    book.add_argument("files", nargs="+", type=Path, metavar="FILE", help="a file of a record page")
    book.add_argument("--content", type=Path, default=Path("content"), help="default: content")
    book.add_argument(
        "--crew",
        type=Path,
        default=crew_folder(),
        help="the crew folder (default: BENCHLEAF_CREW_DIR)",
    )
    book.set_defaults(run=_book)


def _book(options: argparse.Namespace) -> int:
    if options.crew is None:
        cure = "give --crew FOLDER, or set BENCHLEAF_CREW_DIR"
        return misuse("no crew folder is named", (cure,))
    return give(book(options.files, options.crew, options.content))


def book(files: list[Path], crew: Path, content: Path) -> Answer:
    """Take in files; what is amiss is told on standard error."""
    loaded = pipeline.load(content)
    errors = tuple(one for one in loaded.findings if one.blocks_publishing)
    if errors:
        print(report(errors), file=sys.stderr)
        return Answer("nothing is taken in: the content has errors", complete=False)
    booking = look_at(files, crew, loaded)
    if booking.folder_amiss:
        print(report(booking.folder_amiss), file=sys.stderr)
        return Answer("nothing is taken in: the crew folder has errors", complete=False)
    lines = []
    for one, path in write_records(booking, crew):
        assert one.record is not None
        what = "was there already" if one.was_there else "taken in"
        lines.append(f"{what}: {path.name}  ({_told(one.record)})")
    lines += _refused(booking)
    return Answer("\n".join(lines), complete=not any(one.is_refused for one in booking.given))


def _refused(booking: Booking) -> list[str]:
    refused = [one for one in booking.given if one.is_refused]
    for one in refused:
        print(report(one.findings), file=sys.stderr)
    return [f"refused: {one.file}" for one in refused]


def _told(record: BenchRecord) -> str:
    of = f" of {record.job.upper()}" if record.job else ""
    return f"{record.person}, {record.kind}{of}"
