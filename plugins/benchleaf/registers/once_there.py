"""Entries that the registers held in some commit before: the repository remembers what a file lost.

Only entries with a link count: before a shop was taken over, one that was not published yet could
be taken out.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

from benchleaf.diagnose import Finding, Place
from benchleaf.read import Repository, RevisionError, repository_of

from .chain import damaged

_NUMBERED = re.compile(r"^  - \{job: ([\w-]+), revision: ([\w]+),")
_LINK = re.compile(r"\blink: \"([0-9a-f]{16})\"|^  - \S+ ([0-9a-f]{16})$")
_FILES = (("A603", "addresses"), ("A606", "revisions"), ("A606", "history"))


@dataclass(frozen=True, slots=True)
class Once:
    """What stood in the registers in any commit that led to the present one."""

    lines: dict[str, dict[str, str]] = field(default_factory=dict)
    """By register: link to the line it stood in."""

    def numbers(self) -> Iterator[tuple[str, str]]:
        """Job and revision of every entry there ever was."""
        for register in ("revisions", "history"):
            for line in self.lines.get(register, {}).values():
                if found := _NUMBERED.match(line):
                    yield found[1].lower(), found[2]


def once_there(content: Path) -> Once:
    """What the repository remembers of the registers; nothing where there is none."""
    try:
        repository = repository_of(content)
        return Once({name: _lines(repository, content / f"{name}.yml") for _, name in _FILES})
    except RevisionError:
        return Once()


def _lines(repository: Repository, file: Path) -> dict[str, str]:
    found: dict[str, str] = {}
    for line in repository.lines_ever(file):
        if link := _LINK.search(line):
            found.setdefault(link[1] or link[2], line)
    return found


def lost(once: Once, texts: Iterable[tuple[str, str]], content: str) -> Iterator[Finding]:
    """Registers that lack what they held before; `texts` are the present ones by name."""
    present = dict(texts)
    for code, name in _FILES:
        gone = [
            line
            for link, line in once.lines.get(name, {}).items()
            if link not in present.get(name, "")
        ]
        if gone:
            more = f", and {len(gone) - 1} more" if len(gone) > 1 else ""
            why = f"the repository remembers {_name(gone[-1])}{more}; gone now"
            yield damaged(code, name, Place(f"{content}/{name}.yml"), why)


def _name(line: str) -> str:
    """What a line of a register is about."""
    if found := _NUMBERED.match(line):
        return f"revision {found[2]} of {found[1].upper()}"
    return f"'{line.removeprefix('  - ').partition(' ')[0]}'"
