"""One line of the register of revisions: what a job meant when its revision was registered."""

from __future__ import annotations

from typing import Annotated

from pydantic import StringConstraints

from benchleaf.model.ids import Id
from benchleaf.model.marks import Example
from benchleaf.model.record import Record, Revision

Hash = Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{64}$")]
ShortHash = Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{16}$")]


class RegisteredRevision(Record):
    """A job, its revision, and the fingerprint of its meaning."""

    job: Id
    """The job's id."""
    revision: Revision
    """The revision of the job."""
    fingerprint: Annotated[Hash, Example("0123456789abcdef" * 4)]
    """64 hexadecimal digits."""
    core: Annotated[ShortHash, Example("0123456789abcdef")]
    """The same without what a change of wording may alter, 16 digits; it checks such a change."""
    wording_only: Annotated[bool, Example("true")] = False
    """True for a later state of the same revision in which only the wording changed, or in which
    another version of Benchleaf reckons."""
