"""`benchleaf verify`: is a copy of the manual what was built?"""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import Any

from benchleaf.diagnose import report, summary
from benchleaf.publish import Verified, verify

from .answer import misuse


def add(commands: Any) -> None:
    """Add the command to the parser."""
    command = commands.add_parser(
        "verify",
        help="say whether a copy of the manual is as it was built",
        description="Holds every file of a copy to the sums that the build wrote, and prints the"
        " number of the copy. Exit 1 where a file is altered, missing or extra.",
    )
    command.add_argument("site", type=Path, metavar="SITE", help="the folder of the copy")
    command.set_defaults(run=_verify)


def _verify(options: argparse.Namespace) -> int:
    if not options.site.is_dir():
        return misuse(f"there is no folder {options.site}", ("name the folder of the copy",))
    found = verify(options.site)
    if found is None:
        cure = "name the folder that holds index.html and seal.txt, such as site"
        return misuse(f"{options.site} is no manual that was built here", (cure,))
    print("\n".join(_told(found)))
    return 1 if found.findings else 0


def _told(found: Verified) -> list[str]:
    lines = [report(found.findings), summary(found.findings)] if found.findings else []
    if found.findings:
        lines.append("Do not work from this copy. Copy the whole folder again into an empty one.")
    else:
        lines.append(f"{found.files:,} files, each as it was built")
    if found.passed_over:
        lines.append(f"not looked at, of the system: {', '.join(found.passed_over)}")
    if found.number:
        lines.append(f"number of its list: {found.number}")
        if not found.findings:
            lines.append(
                "Compare it with the number that the build said, kept outside of the copy."
            )
    return lines
