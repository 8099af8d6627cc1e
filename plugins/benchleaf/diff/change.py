"""What a comparison is made of: changes as causes, their effects, and what follows for a job."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any

from benchleaf.compute import SetUpSheet
from benchleaf.meaning import Changed, Consequence, Path, RecordKey, gravest
from benchleaf.model import Shop

__all__ = [
    "Change",
    "ChangeKind",
    "Comparison",
    "Consequence",
    "Difference",
    "Effect",
    "EffectKind",
    "JobState",
    "Path",
    "RecordKey",
    "Seen",
    "Side",
    "gravest",
]


@dataclass(frozen=True, slots=True)
class Seen:
    """A picture on one side of a comparison."""

    name: str
    """Below the content folder, such as `pictures/clamp-plate.svg`."""
    words: str
    """Its name and size."""
    data: bytes = b""
    """The file itself; empty where it is too large to be shown."""
    link: str = ""
    """Where the forge shows it; empty where that is not known."""


class ChangeKind(StrEnum):
    """What happened to a thing."""

    ADDED = "added"
    REMOVED = "removed"
    MOVED = "moved"
    """The same entries of a list in another order."""
    RENAMED = "renamed"
    """The same thing under another id."""
    REWORDED = "reworded"
    """A running text or title in other words."""
    CHANGED = "changed"
    """Another value, quantity, choice or reference."""


class EffectKind(StrEnum):
    """What moved although nobody wrote it."""

    FIGURE = "figure"
    LIMIT_BROKEN = "limit newly broken"
    LIMIT_CLEARED = "limit cleared"
    DOUBT = "outside a recommended range"
    DOUBT_CLEARED = "back in a recommended range"
    SIGNAL_WORD = "signal word"
    ROUTE = "route"
    NAMED_BY = "named by the new id"


@dataclass(frozen=True, slots=True)
class Effect:
    """Something that follows from a change, in the same record or in another."""

    kind: EffectKind
    record: RecordKey
    place: str
    """In words, such as `set-up fixing-holes, Spindle speed to set`."""
    before: str | None
    after: str | None
    percent: float | None = None
    """How far a figure moved, of the value before; None where it is no number on both sides."""
    together: bool = False
    """True where other changes move the same figure."""
    code: str = ""
    """The key of the figure, or the code of the limit or doubt with its side."""
    subject: str = ""
    """The statement of the job that moved, where it is one."""

    @property
    def touches_a_limit(self) -> bool:
        """True for a limit or a recommended range, and for a figure that comes or goes."""
        is_figure = self.kind is EffectKind.FIGURE
        return self.percent is None if is_figure else self.kind in _LIMITS


_LIMITS = (
    EffectKind.LIMIT_BROKEN,
    EffectKind.LIMIT_CLEARED,
    EffectKind.DOUBT,
    EffectKind.DOUBT_CLEARED,
)


@dataclass(frozen=True, slots=True)
class Difference:
    """One difference between two records, as plain values with the path on either side."""

    kind: ChangeKind
    old_path: Path
    new_path: Path
    before: Any
    after: Any

    @property
    def path(self) -> Path:
        """The path in the new record, or in the old one for what was removed."""
        return self.old_path if self.kind is ChangeKind.REMOVED else self.new_path


@dataclass(frozen=True, slots=True)
class Change:
    """One edit as the cause, with everything that follows from it."""

    record: RecordKey
    difference: Difference
    area: str
    """What it is about, one of the values of `Area`."""
    place: str
    """The path with ids, such as `steps/clamp-plate/key_points/2/reason`."""
    where: str
    """The same in words."""
    before: str | None
    after: str | None
    effects: tuple[Effect, ...] = ()
    consequence: Consequence = Consequence.TEACH
    why: str = ""
    """Why that consequence."""
    jobs: Mapping[str, Consequence] = field(default_factory=dict)
    """What follows for each job that the change touches."""
    name: str = ""
    """The record in words, such as `TR-0110, Drill two holes`."""
    file: str = ""
    """File and line where it stands, in the new content or else in the old."""
    seen: tuple[Seen | None, Seen | None] = (None, None)
    """The picture that it is about, before and after."""

    @property
    def kind(self) -> ChangeKind:
        """What happened."""
        return self.difference.kind


@dataclass(frozen=True, slots=True)
class Side:
    """One side of a comparison: a shop with all that was read and computed of it."""

    shop: Shop
    sheets: Mapping[str, tuple[SetUpSheet, ...]]
    """The computed set-ups of each job."""
    term_uses: Mapping[str, frozenset[str]] = field(default_factory=dict)
    """Term id -> the jobs whose texts use it."""
    pages: Mapping[str, str] = field(default_factory=dict)
    """Free pages: name and text."""
    files: Mapping[str, str] = field(default_factory=dict)
    """Pictures and safety data sheets: name with folder, and a hash of the bytes."""
    declared: frozenset[tuple[str, str]] = frozenset()
    """Job id and fingerprint of each state that the register declares as wording only."""
    fingerprints: Mapping[str, str] = field(default_factory=dict)
    """The fingerprint of each job; reckoned where it is left out."""
    alike: Mapping[str, frozenset[str]] = field(default_factory=dict)
    """Fingerprints of each job that the register takes for one meaning with the present one."""


@dataclass(frozen=True, slots=True)
class JobState:
    """A job on both sides: revision and fingerprint, and what follows for it."""

    id: str
    title: str
    old_revision: str | None
    """None for a new job."""
    new_revision: str | None
    """None for a job that is gone."""
    old_fingerprint: str | None
    new_fingerprint: str | None
    consequence: Consequence
    effective: str = ""
    """The day the new revision comes into force, as ISO 8601 writes it."""
    must_advance: bool = False
    """True where the meaning changed, the revision did not, and wording only is not declared."""
    old_id: str = ""
    """The id on the old side, where it was another."""
    old_alike: frozenset[str] = frozenset()
    """Fingerprints that mean the old state, its own among them."""
    new_alike: frozenset[str] = frozenset()
    why: str = ""
    """Why that consequence, in a line that names the statement."""


@dataclass(frozen=True, slots=True)
class Comparison:
    """Everything that differs between two shops."""

    changes: tuple[Change, ...]
    jobs: tuple[JobState, ...]
    """Every job that a change touches."""
    lessons: Mapping[str, tuple[Changed, ...]] = field(default_factory=dict)
    """What is taught otherwise in each job that both sides have, in the order of the job."""
