"""What a code of a finding is."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Code:
    """One code: a title that stands alone, why it matters on the floor, and the cure."""

    id: str
    title: str
    why: str
    instead: str
