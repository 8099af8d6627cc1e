"""What stands above a free page: the engine takes it for settings, and shows none of it.

It takes a block between lines of dashes, and lines like `Warning: ...` at the very top: whoever
wrote such a line meant it to be read. Only title and description of a page are settings here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchleaf.diagnose import Finding, Place, Severity

KEYS = ("title", "description")
_LINE = re.compile(r" {0,3}([A-Za-z0-9_-]+):(?:\s+(.*)|$)")
_DASHES = re.compile(r"-{3}[ \t]*$")
_END = re.compile(r"(?:-{3}|\.{3})[ \t]*$")


def settings_in_page(text: str, name: str) -> Iterator[Finding]:
    """A finding for each line at the top that would be taken for a setting, and not be shown."""
    lines = text.split("\n")
    is_block = bool(_DASHES.match(lines[0]))
    if is_block and not any(_END.match(line) for line in lines[1:]):
        return
    for number, line in enumerate(lines[1:] if is_block else lines, 2 if is_block else 1):
        found = _LINE.match(line)
        if (is_block and _END.match(line)) or (not is_block and found is None):
            return
        why = _amiss(found, line, is_block=is_block)
        if why:
            yield Finding(
                "R123",
                Severity.ERROR,
                Place(name, number, 1),
                why,
                (
                    "write it below the heading, or take it out",
                    f"settings of a page: {', '.join(KEYS)}, between two lines of ---",
                ),
            )


def _amiss(found: re.Match[str] | None, line: str, *, is_block: bool) -> str:
    if not is_block:
        assert found is not None
        return f"'{found[1]}:' at the top is taken for a setting, and this line is not shown"
    if not line.strip() or line.startswith("#"):
        return ""
    if found is None or found[1] not in KEYS:
        key = found[1] if found else line.strip()[:40]
        return f"'{key}' is no setting of a page"
    value = found[2] or ""
    is_plain = value and not value.startswith(("[", "{", "!", "&", "*", "|", ">"))
    return "" if is_plain else f"'{found[1]}' of a page is a text on one line"
