"""One thing that a learner of a job is taught: what it is about, where it stands, what it says."""

from __future__ import annotations

from dataclasses import dataclass

from benchleaf.model.about import About

__all__ = ["About", "Fact", "Path", "RecordKey", "Statement", "Value"]

RecordKey = tuple[str, str]
"""Kind and id of a record; `manual` is a kind here too."""

Path = tuple[str | int, ...]
"""Where a value stands in a record: keys and list positions."""

Fact = tuple[RecordKey, Path]
"""A value of a record that a statement rests on."""

Value = str | tuple["Value", ...]
"""A value in one spelling: words folded, quantities as exact fractions."""


@dataclass(frozen=True, slots=True)
class Statement:
    """One thing that is taught."""

    about: About
    subject: str
    """Its address inside the job by ids, such as `steps/clamp/key_points/1/reason`."""
    value: Value
    words: str
    """As it is shown."""
    where: str
    """The place in words, such as `step 'Clamp', key point 1, reason`."""
    facts: tuple[Fact, ...] = ()
    """What it rests on; a reckoned figure rests on the reckoning, and names none."""
    key: str = ""
    """The subject without ids, so that a thing under another id is the same thing."""
    proof: Value | None = None
    """What stands for the value in a fingerprint, where that is not the value: no id."""
    numbers: tuple[float, float] | None = None
    """Low and high end, not rounded, where it is a number."""
    is_wording: bool = False
    """True for a text in which only the wording may change."""

    @property
    def group(self) -> str:
        """The subject without positions: entries of one list are compared with one another."""
        return "/".join("*" if part.isdigit() else part for part in self.subject.split("/"))
