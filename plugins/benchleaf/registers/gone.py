"""A register that is gone: a shop that had one cannot fall back to having none.

Of a shop whose job files say their revisions. Where `benchleaf release` gives them, `tally.yml`
counts its registers, and their entries bear links.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from benchleaf.diagnose import Finding, Place, Severity
from benchleaf.read import Contents, Document, RevisionError, repository_of

from .address_register import BESIDE
from .once_there import once_there

_LINK = re.compile(r"^  - (?:\{.*\blink: \"[0-9a-f]{16}\"|\S+ [0-9a-f]{16}$)", re.MULTILINE)
_REGISTERS = ("addresses", "revisions")
_WHY_NO_GIT = "; where there never was one: benchleaf register --first"


def had_ledger(contents: Contents, content: Path) -> bool:
    """True for a shop that lost both `tally.yml` and `history.yml`, or had them once."""
    texts = [one.text for one in contents.documents if one.kind in _REGISTERS]
    if any(_LINK.search(text) for text in texts):
        return True
    # Without a ledger each job says its revision: git is asked only where one does not.
    jobs = (one.value for one in contents.documents if one.kind == "jobs")
    if all("revision" in job for job in jobs if isinstance(job, dict)):
        return False
    return any(True for _ in once_there(content).numbers())


def gone(contents: Contents, content: Path) -> Iterator[Finding]:
    """A613 for a register that was there once."""
    if not content.is_dir():  # which is told
        return
    there = {one.kind: one for one in contents.documents if one.kind in _REGISTERS}
    unread = {kind for kind, _ in contents.unread}
    for name in _REGISTERS:
        if name in there or name in unread:
            continue
        is_known = is_remembered(content, name)
        if is_known or _is_asked_for(name, there):
            yield _gone(name, content.name, is_known=is_known)


def is_remembered(content: Path, name: str) -> bool:
    """True where a commit that led to the present one held the register."""
    try:
        file = str((content / f"{name}.yml").resolve())
        return bool(repository_of(content).ask("log", "-1", "--format=%H", "HEAD", "--", file))
    except RevisionError:
        return False


def _is_asked_for(name: str, there: dict[str, Document]) -> bool:
    """True where the other register says that this one stood beside it."""
    if name == "revisions":
        return "addresses" in there and BESIDE in there["addresses"].text
    return "revisions" in there and "\n  - {" in there["revisions"].text


def _gone(name: str, content: str, *, is_known: bool) -> Finding:
    file = f"{content}/{name}.yml"
    restore = f"restore it as it was last committed: git checkout HEAD -- {file}"
    return Finding(
        "A613",
        Severity.ERROR,
        Place(file),
        f"the register of {name} is gone, and without it nothing is kept from changing unseen",
        (restore if is_known else f"put it back from a copy{_WHY_NO_GIT}",),
    )
