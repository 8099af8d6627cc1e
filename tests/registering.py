"""What `benchleaf register` does to the register of revisions, without its printing."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from benchleaf import pipeline
from benchleaf.commands.register import add_revisions
from benchleaf.diagnose import Finding


def register_revisions(
    content: Path, wording_only: Iterable[str] = ()
) -> tuple[tuple[Finding, ...], int]:
    """The findings that are left, such as a revision that must advance, and how many were added."""
    loaded = pipeline.load(content)
    if loaded.prevents_registering:
        return loaded.prevents_registering, 0
    return add_revisions(loaded, wording_only)
