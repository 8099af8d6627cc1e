"""One line of the register of revisions: what a job meant when its revision was registered."""

from __future__ import annotations

from typing import Annotated

from pydantic import StringConstraints

from benchleaf.model.ids import Id
from benchleaf.model.record import Record, Revision

Hash = Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{64}$")]
ShortHash = Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{16}$")]


class RegisteredRevision(Record):
    """A job, its revision, and the fingerprint of its meaning."""

    job: Id
    """The job's id."""
    revision: Revision
    """The revision of the job."""
    fingerprint: Hash
    """64 hexadecimal digits."""
    core: ShortHash
    """The same without what a change of wording may alter, 16 digits; it checks such a change."""
    wording_only: bool = False
    """True for a later state of the same revision in which only the wording changed, or in which
    another version of Benchleaf reckons."""
