"""Which picture a change is about, before and after, and how a file is told in words."""

from __future__ import annotations

from typing import Any

from benchleaf.model import Shop

from .change import Change, Side

FOLDER = "pictures"


def pictures_of(change: Change) -> tuple[str | None, str | None]:
    """Names below pictures/ of the picture that a change replaces, brings or takes away."""
    kind, name = change.record
    if kind == "files":
        inside = name.removeprefix(f"{FOLDER}/")
        return (inside, inside) if inside != name else (None, None)
    difference = change.difference
    before, after = (_named(one, difference.path) for one in (difference.before, difference.after))
    return before, after


def _named(value: Any, path: tuple[str | int, ...]) -> str | None:
    if path[-2:] == ("picture", "file") and isinstance(value, str):
        return value
    if path[-1:] == ("picture",) and isinstance(value, dict):
        found = value.get("file")
        return found if isinstance(found, str) else None
    return None


def file_words(name: str, side: Side) -> str:
    """A file with its size and the first digits of its hash.

    The hash tells two files of one size apart.
    """
    folder, _, inside = name.partition("/")
    size = picture_words(inside, side.shop) if folder == FOLDER else ""
    count = side.shop.sheets.get(inside, 0)
    words = size or f"{inside}, {count:,} bytes"
    return f"{words} ({side.files[name][:8]})"


def picture_words(name: str, shop: Shop) -> str:
    """A picture with its size on the screen and on disk; empty where it is not there."""
    found = shop.pictures.get(name)
    if found is None:
        return ""
    size = f"{found.width} x {found.height} pixels, " if found.width else ""
    return f"{name}, {size}{found.bytes:,} bytes"
