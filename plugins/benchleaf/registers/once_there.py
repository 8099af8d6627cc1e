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
from benchleaf.read import RevisionError, repository_of

from .chain import damaged

_NUMBERED = re.compile(r"^  - \{job: ([\w-]+), revision: ([\w]+),")
_LINK = re.compile(r"\blink: \"([0-9a-f]{16})\"|^  - \S+ ([0-9a-f]{16})$")
_FILES = (("A603", "addresses"), ("A606", "revisions"), ("A606", "history"))


@dataclass(frozen=True, slots=True)
class Once:
    """What stood in the registers in any commit that led to the present one."""

    lines: dict[str, tuple[str, ...]] = field(default_factory=dict)
    """Every line, by register, the newest first."""

    def numbers(self) -> Iterator[tuple[str, str]]:
        """Job and revision of every entry ever released, of those taken out too."""
        for line in (*self.lines.get("revisions", ()), *self.lines.get("history", ())):
            if (found := numbered(line)) and _LINK.search(line):
                yield found


def numbered(line: str) -> tuple[str, str] | None:
    """Job and revision of a line of a register; None where it tells of none."""
    found = _NUMBERED.match(line)
    return (found[1].lower(), found[2].upper()) if found else None


def once_there(content: Path) -> Once:
    """What the repository remembers of the registers; nothing where there is none."""
    try:
        ever = repository_of(content).lines_ever
        return Once({name: ever(content / f"{name}.yml") for _, name in _FILES})
    except RevisionError:
        return Once()


def lost(once: Once, texts: Iterable[tuple[str, str]], content: str) -> Iterator[Finding]:
    """Registers that lack what they held before; `texts` are the present ones by name."""
    present = dict(texts)
    for code, name in _FILES:
        gone = gone_lines(once, name, present.get(name, ""))
        if gone:
            more = f", and {len(gone) - 1} more" if len(gone) > 1 else ""
            why = f"the repository remembers {_name(gone[-1])}{more}; gone now"
            yield damaged(code, name, Place(f"{content}/{name}.yml"), why)


def gone_lines(once: Once, register: str, text: str) -> list[str]:
    """The lines with a link that a register held once, and does not hold now."""
    present = _links(text.splitlines())
    before = _links(once.lines.get(register, ()))
    return [line for link, line in before.items() if link not in present]


def _links(lines: Iterable[str]) -> dict[str, str]:
    """The lines that have a link, by it."""
    found = ((_LINK.search(line), line) for line in lines)
    return {link[1] or link[2]: line for link, line in found if link}


def _name(line: str) -> str:
    """What a line of a register is about."""
    if found := _NUMBERED.match(line):
        return f"revision {found[2]} of {found[1].upper()}"
    return f"'{line.removeprefix('  - ').partition(' ')[0]}'"
