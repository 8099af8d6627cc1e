"""A finding as a value: what is wrong, how grave, where, and how to mend it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum


class Severity(StrEnum):
    """How grave a finding is. Errors and stops make `benchleaf check` exit 1."""

    ERROR = "error"
    """The content cannot be trusted: nothing is published."""
    STOP = "stop"
    """A limit of machine, tool, holding or person is broken: published as *do not run*."""
    WARNING = "warning"
    """Published, but somebody should look."""
    NOTE = "note"
    """For information."""


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """A position in a file; line and column count from 1, 0 means the whole file."""

    file: str
    line: int = 0
    column: int = 0

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}" if self.line else self.file


@dataclass(frozen=True, slots=True)
class Related:
    """A second place that the reader of a finding needs to see."""

    place: Place
    text: str


@dataclass(frozen=True, slots=True)
class Finding:
    """One problem. `text` stands alone in one line; `help` says what is allowed and the cure."""

    code: str
    severity: Severity
    place: Place
    text: str
    help: tuple[str, ...] = ()
    related: tuple[Related, ...] = ()

    def __post_init__(self) -> None:
        """Texts quote what was written, which may hold line breaks or go on for pages."""
        object.__setattr__(self, "text", _one_line(self.text))
        object.__setattr__(self, "help", tuple(_one_line(line) for line in self.help))

    @property
    def blocks_publishing(self) -> bool:
        """True when nothing may be published while this stands."""
        return self.severity is Severity.ERROR

    @property
    def fails_check(self) -> bool:
        """True when `benchleaf check` must exit 1."""
        return self.severity in (Severity.ERROR, Severity.STOP)


LONGEST_LINE = 300
"""Characters of a headline or a line of help; more is cut."""


def _one_line(text: str) -> str:
    folded = " ".join(text.split())
    return folded if len(folded) <= LONGEST_LINE else f"{folded[:LONGEST_LINE]}…"


def in_order(findings: list[Finding] | tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Findings by file, then position, then code, each once."""
    unique = dict.fromkeys(findings)
    return tuple(sorted(unique, key=lambda one: (one.place, one.code, one.text)))


def seen_from(folder: str, findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """The same findings, their files named from further up: below `folder` (`` for here)."""

    def moved(place: Place) -> Place:
        return replace(place, file=f"{folder}/{place.file}") if folder else place

    return tuple(
        replace(
            one,
            place=moved(one.place),
            related=tuple(replace(each, place=moved(each.place)) for each in one.related),
        )
        for one in findings
    )
