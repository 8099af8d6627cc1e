"""What a code of a finding is: its words, and samples that raise it or do not."""

from __future__ import annotations

import re
from dataclasses import dataclass
from textwrap import dedent


@dataclass(frozen=True, slots=True)
class Sample:
    """An edit of the small shop that the tests keep, and what `benchleaf check` prints for it.

    Edits are a list in YAML, as `tests/diagnose/test_cases.py` tells. What is printed may go on in
    a line that is indented eight spaces or more, and means the same as one long line.
    """

    edits: str
    prints: str = ""

    @property
    def printed(self) -> str:
        """What is printed, each line whole."""
        return re.sub(r"\n {8,}", " ", dedent(self.prints).strip())


@dataclass(frozen=True, slots=True)
class Code:
    """One code: a title that stands alone, why it matters on the floor, and the cure."""

    id: str
    title: str
    why: str
    instead: str
    bad: tuple[Sample, ...] = ()
    """Each raises the code."""
    good: str = ""
    """Edits after which nothing is found."""
