"""The nearest likely meaning of a mistyped name."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches

LIST_AT_MOST = 12
"""Longer lists of allowed names are cut: nobody reads past a dozen."""


def nearest(written: str, allowed: Iterable[str]) -> str | None:
    """The allowed name most like the one written, or None when none is near."""
    names = {name.lower(): name for name in allowed}
    words = set(written.lower().split())
    holding_all = [name for name in names if words and words <= set(name.split())]
    if len(holding_all) == 1:
        return names[holding_all[0]]
    matches = get_close_matches(written.lower(), names, n=1, cutoff=0.6)
    return names[matches[0]] if matches else None


def suggestion(written: str, allowed: Iterable[str], *, what: str = "allowed") -> tuple[str, ...]:
    """Help lines: the nearest name first, then what is allowed."""
    names = sorted(allowed)
    near = nearest(written, names)
    lines = (f"did you mean '{near}'?",) if near else ()
    if not names:
        return (*lines, f"{what}: nothing yet")
    cut = f" and {len(names) - LIST_AT_MOST} more" if len(names) > LIST_AT_MOST else ""
    return (*lines, f"{what}: {', '.join(names[:LIST_AT_MOST])}{cut}")
