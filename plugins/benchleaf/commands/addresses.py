"""`benchleaf addresses`: every permanent address, to paste into a list in any other program."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path
from typing import Any

from benchleaf import bench
from benchleaf.diagnose import report, suggestion


def add(commands: Any) -> None:
    """Add the command to the parser's subcommands."""
    command = commands.add_parser(
        "addresses",
        help="list every permanent address, to link from other programs",
        description="List every permanent address with kind, title and revision. Addresses count "
        "from the manual's folder; --base puts a server or a disk before each.",
    )
    command.add_argument("content", nargs="?", type=Path, default=Path("content"))
    command.add_argument("--format", choices=bench.FORMS, default="csv", help="default: csv")
    command.add_argument(
        "--kind",
        action="append",
        default=[],
        metavar="KIND",
        help=f"only this kind; may be given again: {', '.join(bench.LISTED_KINDS)}",
    )
    command.add_argument("--base", default=None, help="what stands before each address")
    command.set_defaults(run=_addresses)


def _addresses(options: argparse.Namespace) -> int:
    kinds = [kind.lower() for kind in options.kind]
    unknown = next((kind for kind in kinds if kind not in bench.LISTED_KINDS), None)
    if unknown is not None:
        lines = suggestion(unknown, bench.LISTED_KINDS)
        problem = f"benchleaf: there is no kind '{unknown}'"
        print("\n".join((problem, *lines)), file=sys.stderr)
        return 2
    blocking, text = bench.addresses(
        options.content, options.format, kinds=kinds, base=options.base
    )
    if blocking:
        print(report(blocking), file=sys.stderr)
        print("nothing was listed: mend these first", file=sys.stderr)
        return 1
    print(text)
    return 0
