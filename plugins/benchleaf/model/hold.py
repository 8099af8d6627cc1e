"""A hold: a job is stopped at once, until a named role lifts it. No meaning of it moves."""

from __future__ import annotations

from datetime import date
from typing import Annotated

from pydantic import Field

from .day_words import long_date
from .ids import JobRef
from .marks import Area, Example
from .record import Record

Role = Annotated[str, Example("shift lead")]
"""A role, not a name."""
Words = Annotated[str, Field(max_length=200), Example("The work stop has come loose.")]
"""Plain words: no links and no signs of their own, since cards and plans print them too."""


class Lifted(Record):
    """Who lifted a hold, and when."""

    about = Area.REVISION

    by: Role
    """The role that lifted it: the one that the hold names."""
    day: Annotated[date, Example("2026-12-02")]
    """The day on which it was lifted."""
    why: Words | None = None
    """Why the job may run again."""


class Hold(Record):
    """A job that nobody may run, whatever its figures say, until it is lifted."""

    about = Area.REVISION

    job: JobRef
    """The job; for one of several like machines, all of them by the number in their file."""
    why: Words
    """Why nobody may run it, in a sentence for the operator."""
    day: Annotated[date, Example("2026-12-01")]
    """The day on which it was held."""
    held_by: Role | None = None
    """The role that held it; left out where nobody said."""
    lift_by: Annotated[str, Example("production engineer")]
    """The one role that may lift it."""
    lifted: Lifted | None = None
    """Left out as long as the hold stands."""

    @property
    def since(self) -> str:
        """That it is on hold and since when, where the reason stands beside it."""
        return f"on hold since {long_date(self.day)}"

    @property
    def reason(self) -> str:
        """Why nobody may run the job, and who may lift it; a sentence without its full stop."""
        by = f" by the {_bare(self.held_by)}" if self.held_by else ", by whom is not known"
        return (
            f"{self.since}{by}: {self.why.rstrip('. ')}. Only the {_bare(self.lift_by)} may lift it"
        )


def lift_command(name: str, role: str) -> str:
    """What is typed to lift a hold of a job by its number.

    >>> lift_command("TR-0120", "production engineer")
    'benchleaf hold TR-0120 --lift --by "production engineer"'
    """
    return f'benchleaf hold {name} --lift --by "{role}"'


def _bare(role: str) -> str:
    """A role without the article that a sentence gives it."""
    return role.removeprefix("the ").removeprefix("The ")


def same_role(one: str, other: str) -> bool:
    """True for one role, however it is spaced and whatever its capitals.

    >>> same_role("Shift  lead", "shift lead")
    True
    """
    return folded_role(one) == folded_role(other)


def folded_role(role: str) -> str:
    """A role as it is compared; an article before it does not count."""
    return " ".join(role.casefold().split()).removeprefix("the ")
