"""A change notice: the small file in which the author of a change says what it is, and for whom."""

from __future__ import annotations

from datetime import date
from typing import Annotated

from pydantic import BeforeValidator, Field, WithJsonSchema
from pydantic_core import PydanticCustomError

from .ids import JobRef, Text
from .marks import Area, Example, Order
from .record import Record

THOSE_AFFECTED = "those affected"
"""Written in place of ids: every job whose meaning the change moved."""


def _jobs(written: object) -> object:
    """A list of ids; none for *those affected*, so that the author need not name them."""
    if isinstance(written, str) and " ".join(written.lower().split()) == THOSE_AFFECTED:
        return ()
    if isinstance(written, str) or (isinstance(written, (list, tuple)) and not written):
        raise PydanticCustomError("notice_jobs", "no list of jobs", {"written": str(written)})
    return written


class ChangeNotice(Record):
    """What one change to the manual is, for the jobs whose meaning it moves."""

    about = Area.REVISION

    jobs: Annotated[
        tuple[JobRef, ...],
        Order.FREE,
        BeforeValidator(_jobs),
        WithJsonSchema(
            {
                "anyOf": [
                    {"type": "array", "minItems": 1, "items": {"type": "string"}},
                    {"const": THOSE_AFFECTED},
                ],
                "examples": ["[TR-0110]"],
            }
        ),
        Example("[TR-0110, TR-0120]"),
    ]
    """The jobs by id, in a list; or `those affected`."""
    note: Annotated[Text, Example("The check now names the plug gauge.")]
    """What changed, in a sentence for the reader of the job."""
    approved_by: Annotated[str, Example("production engineer")]
    """A role, not a name."""
    wording_only: Annotated[bool, Example("true")] = Field(default=False)
    """True where only the wording changed: no new revision, nobody is taught again."""
    effective: Annotated[date | None, Example("2026-12-15")] = None
    """The day from which it is in force; the day of the release unless given."""

    @property
    def covers_all(self) -> bool:
        """True for a notice of *those affected*."""
        return not self.jobs
