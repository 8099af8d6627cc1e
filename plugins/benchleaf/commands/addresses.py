"""`benchleaf addresses`: every permanent address, to paste into a list in any other program."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Collection
from pathlib import Path
from typing import Any

from benchleaf import link, pipeline
from benchleaf.diagnose import Finding, report
from benchleaf.link import FORMS, LISTED_KINDS
from benchleaf.registers import forwarding

from .answer import reads_content, unknown


def add(commands: Any) -> None:
    """Add the command to the parser's subcommands."""
    command = commands.add_parser(
        "addresses",
        help="list every permanent address, to link from other programs",
        description="List every permanent address with kind, title and revision. Addresses count "
        "from the manual's folder; --base puts a server or a disk before each.",
    )
    reads_content(command)
    command.add_argument("--format", choices=FORMS, default="csv", help="default: csv")
    command.add_argument(
        "--kind",
        action="append",
        default=[],
        metavar="KIND",
        help=f"only this kind; may be given again: {', '.join(LISTED_KINDS)}",
    )
    command.add_argument("--base", default=None, help="what stands before each address")
    command.set_defaults(run=_addresses)


def _addresses(options: argparse.Namespace) -> int:
    kinds = [kind.lower() for kind in options.kind]
    wrong = next((kind for kind in kinds if kind not in LISTED_KINDS), None)
    if wrong is not None:
        return unknown("kind", wrong, LISTED_KINDS)
    blocking, text = addresses(options.content, options.format, kinds=kinds, base=options.base)
    if blocking:
        print(report(blocking), file=sys.stderr)
        print("nothing was listed: mend these first", file=sys.stderr)
        return 1
    print(text)
    return 0


def addresses(
    content: Path, form: str, *, kinds: Collection[str] = (), base: str | None = None
) -> tuple[tuple[Finding, ...], str]:
    """The findings that prevent it, or every address of those kinds in one of the forms.

    `base` stands before each address; left out, it is the manual's server where it has one.
    """
    loaded = pipeline.load(content)
    blocking = tuple(finding for finding in loaded.findings if finding.blocks_publishing)
    if blocking:
        return blocking, ""
    plan = pipeline.plan_site(loaded, edition="full")
    titles = {page.address: page.title for page in plan.pages}
    titles |= {one.address: one.words for one in plan.free_pages}
    rows = link.listed(loaded.shop, titles, forwarding.promised(loaded.shop))
    wanted = [row for row in rows if not kinds or row.kind in kinds]
    before = (loaded.shop.manual.server or "") if base is None else base
    return (), link.printed(wanted, form, before)
