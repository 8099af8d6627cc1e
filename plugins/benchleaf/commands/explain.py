"""`benchleaf explain`: what a code means and what to do."""

from __future__ import annotations

import argparse
from typing import Any

from benchleaf.diagnose import CODES

from .answer import unknown


def add(commands: Any) -> None:
    """Add the command to the parser."""
    command = commands.add_parser("explain", help="say what a code means and what to do")
    command.add_argument("code", metavar="CODE", nargs="?")
    command.set_defaults(run=_explain)


def _explain(options: argparse.Namespace) -> int:
    if options.code is None:
        print("\n".join(f"{code.id}  {code.title}" for code in CODES.values()))
        return 0
    code = CODES.get(options.code.upper())
    if code is None:
        return unknown("code", options.code, CODES)
    print(f"{code.id}  {code.title}\nWhy it matters: {code.why}\nInstead: {code.instead}")
    return 0
