"""Registers as the commands write them, for tests."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any

from benchleaf import pipeline, registers
from benchleaf.cli import main
from benchleaf.commands.register import add_revisions
from benchleaf.diagnose import Finding
from benchleaf.model import Shop
from benchleaf.write import write_together


def register_revisions(
    content: Path, wording_only: Iterable[str] = ()
) -> tuple[tuple[Finding, ...], int]:
    """The findings that are left, such as a revision that must advance, and how many were added."""
    loaded = pipeline.load(content)
    if loaded.prevents_registering:
        return loaded.prevents_registering, 0
    return add_revisions(loaded, wording_only)


def take_over(content: Path) -> None:
    """Take a shop over as it is: from now on a release gives its revisions."""
    assert main(["release", str(content), "--take-over"]) == 0


def cut_off(file: Path) -> None:
    """Take the last line of a file away."""
    lines = file.read_text(encoding="utf-8").splitlines(keepends=True)
    file.write_text("".join(lines[:-1]), encoding="utf-8")


def append_changed(
    content: Path, was: Shop, now: Shop, *more: Any, **named: Any
) -> dict[Path, str]:
    """What changed, written as a release does; the files that were written."""
    texts = registers.changed_texts(content, was, now, *more, **named)
    write_together(content, texts)
    return texts
