"""`benchleaf register`: new addresses and revisions, each added to its register."""

from __future__ import annotations

import argparse
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from benchleaf import pipeline, registers
from benchleaf.diagnose import Finding, report
from benchleaf.registers import REGISTER, REVISIONS
from benchleaf.write import write_together

from .answer import misuse, reads_content, unknown


def add(commands: Any) -> None:
    """Add the command to the parser."""
    register = commands.add_parser("register", help="add new page addresses and revisions")
    register.set_defaults(run=_register)
    reads_content(register)
    register.add_argument(
        "--first",
        action="store_true",
        help="begin a register that this shop never had; refused where git remembers one",
    )
    register.add_argument(
        "--wording-only",
        action="append",
        default=[],
        metavar="JOB",
        help="declare that only the wording of this job changed (all: of every job); checked",
    )


def _register(options: argparse.Namespace) -> int:
    loaded = pipeline.load(options.content)
    if loaded.ledger is not None:
        return misuse(
            "in this shop the registers are written by `benchleaf release`, on the main branch",
            ("on a branch add a change notice: benchleaf new notice WORD",),
        )
    hindrances = loaded.prevents_registering
    if options.first:
        hindrances = tuple(one for one in hindrances if not _begins(one, options.content))
    if hindrances:
        print(report(hindrances))
        print("nothing was written: mend these first")
        return 1
    jobs = [job_id.lower() for job_id in options.wording_only]
    known = loaded.shop.jobs
    jobs = list(known) if jobs == ["all"] else jobs
    wrong = next((one for one in jobs if one not in known), None)
    if wrong is not None:
        return unknown("job", wrong, known)
    left, entered = add_revisions(loaded, jobs)
    # Second, since this one says that the other stands beside it.
    added = pipeline.register_addresses(loaded)
    print(f"{added} added to {options.content / REGISTER}")
    print(f"{entered} added to {options.content / REVISIONS}")
    if left:
        print(report(left))
    return 1 if left else 0


def _begins(one: Finding, content: Path) -> bool:
    """True for a register that is missing because there never was one."""
    return one.code == "A613" and not registers.is_remembered(content, Path(one.place.file).stem)


def add_revisions(
    loaded: pipeline.Loaded, wording_only: Iterable[str]
) -> tuple[tuple[Finding, ...], int]:
    """Add new revisions to their register, and changes of wording that are declared for jobs.

    Gives the findings that are left, such as a job whose revision must advance, and how many
    entries were added. Nothing is read again.
    """
    shop, prints, registry = loaded.shop, loaded.fingerprints, loaded.revisions
    new = list(registers.new_entries(shop, prints, registry, frozenset(wording_only)))
    text = registers.revisions_text(registry, new)
    write_together(loaded.content, {loaded.content / REVISIONS: text})
    name = f"{loaded.content.name}/{REVISIONS}"
    found = registers.check_revisions(shop, prints, registry.with_(new), loaded.places.of, name)
    return tuple(one for one in found if one.code == "A604"), len(new)
