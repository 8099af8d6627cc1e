"""The table of layouts: how each step is shown on screens of some sizes, as a browser measured it.

It is no record. `benchleaf layouts` writes it; a shop without one has steps that scroll.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from benchleaf.diagnose import Finding, Place, Severity

LAYOUTS_FILE = "layouts.json"
_AT_MOST = 50_000_000
"""In bytes: the table of 1,000 jobs is some 8 MB."""
_SIZE = re.compile(r"[1-9][0-9]{1,4}x[1-9][0-9]{1,4}")
_NUMBERS, _LISTS = ("fit", "columns", "picture", "beforeFit"), ("parts", "before")
_LARGEST = 20_000
"""No screen has as many pixels; what is no number at all is not below it either."""
_NEEDED = {"fit", "columns", "picture", "parts"}

Table = Mapping[str, Mapping[str, Any]]


class _BrokenError(Exception):
    def __init__(self, why: str, line: int = 0, column: int = 0) -> None:
        super().__init__(why)
        self.line, self.column = line, column


def read_layouts(content: Path) -> Table:
    """Job, step and fingerprint -> size of screen -> layout; nothing where it is lost or broken."""
    try:
        return _table(content)
    except _BrokenError:
        return {}


def layouts_amiss(content: Path) -> Iterator[Finding]:
    """A warning where there is a table that is not used."""
    try:
        _table(content)
    except _BrokenError as error:
        yield Finding(
            "R125",
            Severity.WARNING,
            Place(f"{content.name}/{LAYOUTS_FILE}", error.line, error.column),
            f"the table of layouts is not used: {error}",
            ("build the manual, run `benchleaf layouts`, and build again",
             "until then, steps that are too full for a screen scroll"),
        )  # fmt: skip


def _table(content: Path) -> Table:
    path = content / LAYOUTS_FILE
    if not path.exists() and not path.is_symlink():
        return {}
    told = _told(path, content)
    table = told.get("steps") if isinstance(told, dict) else None
    if not isinstance(table, dict):
        raise _BrokenError("it has no map `steps`")
    for step, sizes in table.items():
        if not isinstance(sizes, dict) or not all(map(_is_layout, sizes, sizes.values())):
            raise _BrokenError(f"what it holds of {step} is no layout")
    return table


def _told(path: Path, content: Path) -> object:
    try:
        if not path.is_file() or not path.resolve().is_relative_to(content.resolve()):
            raise _BrokenError("it is no plain file in the content folder")
        if path.stat().st_size > _AT_MOST:
            raise _BrokenError(f"it holds more than {_AT_MOST:,} bytes")
        return json.loads(path.read_text(encoding="utf-8"))
    except json.JSONDecodeError as error:
        raise _BrokenError(f"it is no JSON: {error.msg}", error.lineno, error.colno) from None
    except UnicodeDecodeError:
        raise _BrokenError("it is not UTF-8") from None
    except RecursionError:
        raise _BrokenError("it is nested too deep") from None
    except (OSError, RuntimeError) as error:  # a ring of links, before Python 3.13
        raise _BrokenError(getattr(error, "strerror", None) or "it cannot be read") from None


def _is_layout(size: str, layout: object) -> bool:
    return (
        _SIZE.fullmatch(size) is not None
        and isinstance(layout, dict)
        and layout.keys() >= _NEEDED
        and all(_is_number(layout.get(name, 0)) for name in _NUMBERS)
        and all(_is_texts(layout.get(name, [])) for name in _LISTS)
    )


def _is_number(value: object) -> bool:
    return type(value) in (int, float) and 0 <= value <= _LARGEST  # type: ignore[operator]


def _is_texts(value: object) -> bool:
    return isinstance(value, list) and all(isinstance(one, str) for one in value)
