"""What each revision of a job changed for its learner: `changed/JOB.yml`, which only grows."""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated

from pydantic import Field

from .about import About
from .ids import JobRef
from .marks import Example
from .record import Record, Revision

Ends = Annotated[tuple[float, ...], Field(min_length=1, max_length=2)]
"""A number, or both ends of a range, in the SI unit or degrees, not rounded."""


class ChangedStatement(Record):
    """One thing that is taught otherwise since a revision."""

    what: About
    """What it is about."""
    was_what: About | None = None
    """What it was about before, where that was something else."""
    place: Annotated[str, Example("steps/clamp-plate/key_points/2/point")]
    """Its place in the job by ids, now, or before where it is gone."""
    was_place: Annotated[str | None, Example("steps/clamp-plate/key_points/1/point")] = None
    """Its place before, where that was another."""
    where: Annotated[str, Example("step 'Clamp the plate', key point 2, point")]
    """The place in words."""
    was: Annotated[str | None, Example("Push the plate against the stop.")] = None
    """What it said; left out where it is new."""
    now: Annotated[str | None, Example("Push the plate against both stops.")] = None
    """What it says now; left out where it is gone."""
    why: Annotated[str | None, Example("The stops set where the hole comes.")] = None
    """The reason that goes with it now, where it has one."""
    moved: Annotated[bool, Example("true")] = False
    """True where the same stands in another order."""
    wording: Annotated[bool, Example("true")] = False
    """True for a text in which a mere change of wording may be declared."""
    wording_only: Annotated[bool, Example("true")] = False
    """True where the author declared it as a change of wording only."""
    was_value: Annotated[str | None, Example('["length", "127/8", "127/8"]')] = None
    """What it was by value, where that is not as it was shown."""
    now_value: Annotated[str | None, Example('["length", "127/8", "127/8"]')] = None
    """What it is by value, where that is not as it is shown."""
    was_numbers: Annotated[Ends | None, Example("0.15")] = None
    """The number before, or both ends of its range, not rounded."""
    now_numbers: Annotated[Ends | None, Example("0.15")] = None
    """The number now, or both ends of its range, not rounded."""


class ChangedRevision(Record):
    """Everything that one revision changed."""

    revision: Revision
    """The revision that brought the change."""
    former: Revision
    """The revision before it."""
    statements: tuple[ChangedStatement, ...] = ()
    """What is taught otherwise, in the order of the job."""


class JobChanges(Record):
    """The changes of one job, revision by revision."""

    job: JobRef
    """The job, by id; the file is called after it."""
    changes: tuple[ChangedRevision, ...] = ()
    """One entry a revision, the newest last; entries are only ever added."""

    def since(self, revision: str) -> tuple[ChangedRevision, ...] | None:
        """The entries after a revision, without a gap; None where it is not known here."""
        found = list(self.changes)
        for at, one in enumerate(found):
            if one.former == revision:
                chain = found[at:]
                is_whole = all(a.revision == b.former for a, b in pairwise(chain))
                return tuple(chain) if is_whole else None
        return () if found and found[-1].revision == revision else None

    @property
    def newest(self) -> str | None:
        """The newest revision that is entered."""
        return self.changes[-1].revision if self.changes else None
