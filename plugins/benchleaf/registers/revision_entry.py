"""One line of the register of revisions: what a job meant when its revision was registered."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field, StringConstraints

from benchleaf.meaning import METHOD
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
    method: Annotated[int, Field(ge=1, le=METHOD), Example("2")] = 1
    """How the fingerprint was made: 1 by whole records, 2 by what the learner is taught."""
    said: Annotated[str | None, Example("hazard:1a2b3c")] = None
    """What was said, by what it is about: short hashes, and the numbers of figures."""
    wording_only: Annotated[bool, Example("true")] = False
    """True for a later state of the same revision in which only the wording changed."""
    link: Annotated[ShortHash | None, Example("0123456789abcdef")] = None
    """Binds the entry to those before it, in a shop whose revisions `benchleaf release` gives."""
