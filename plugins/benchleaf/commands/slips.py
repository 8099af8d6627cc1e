"""`benchleaf slips`: what readers at the screens say is wrong, by job and step."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from benchleaf import pipeline
from benchleaf.diagnose import Finding, report
from benchleaf.workbooks.slips import Slip, slips_listed, slips_of

from .answer import Answer, give, misuse


def add(commands: Any) -> None:
    """Add the command to the parser."""
    slips = commands.add_parser(
        "slips",
        help="list what readers say is wrong on a page",
        description="Reads files that a kiosk saved, or slips typed off its screen or off paper,"
        " and lists them by job and step.",
    )
    slips.add_argument("files", nargs="+", type=Path, metavar="FILE", help="a file of slips")
    slips.add_argument("--content", type=Path, default=Path("content"), metavar="FOLDER")
    slips.set_defaults(run=_slips)


def _slips(options: argparse.Namespace) -> int:
    if not options.content.is_dir():
        return misuse(f"there is no folder {options.content}/", ("name it: --content FOLDER",))
    found: list[Slip] = []
    amiss: list[Finding] = []
    for file in options.files:
        try:
            text = file.read_text(encoding="utf-8")
        except UnicodeDecodeError:
            return misuse(f"{file} is no file of slips", ("a kiosk saves slips.txt",))
        slips, findings = slips_of(text, str(file))
        found += slips
        amiss += findings
    if amiss:
        print(report(amiss))
    shop = pipeline.load(options.content).shop
    return give(Answer(slips_listed(found, shop.jobs, shop.drafts), complete=not amiss))
