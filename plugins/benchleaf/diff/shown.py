"""Places and values in words, for people who read a comparison."""

from __future__ import annotations

from typing import Any

from benchleaf.model import Each, Hazard, Record, Shop, fields_along, kind_named, mark, name_of

from .change import Path

_NAMING = ("id", "point", "sign", "what", "name")
"""Keys of an entry that name it, the first that is there."""

_LONG = 90
"""Characters of an entry in a list of entries; more is cut."""


def place_of(values: Any, path: Path) -> str:
    """The path with ids where entries have them, else positions from 1.

    >>> place_of({"steps": [{"id": "clamp"}]}, ("steps", 0, "title"))
    'steps/clamp/title'
    """
    parts = []
    for step in path:
        values = _below(values, step)
        parts.append(_entry_id(values, step) if isinstance(step, int) else step)
    return "/".join(parts)


def _below(values: Any, step: str | int) -> Any:
    try:
        return values[step]
    except (KeyError, IndexError, TypeError):
        return None


def _entry_id(entry: Any, position: int) -> str:
    found = entry.get("id") if isinstance(entry, dict) else None
    return found if isinstance(found, str) else str(position + 1)


def where_of(cls: type[Record], values: Any, path: Path) -> str:
    """The same in words, such as `step 'Clamp the plate', key point 2, reason`."""
    words: list[str] = []
    each = ""
    fields = fields_along(cls, path)
    for step in path:
        values = _below(values, step)
        if isinstance(step, str):
            words.append(step.replace("_", " "))
            own = mark(*next(fields), Each)
            each = own.name if own else words[-1]
        else:
            words[-1] = _entry(each, values, step)
    return ", ".join(words)


def _entry(name: str, entry: Any, position: int) -> str:
    """An entry of a list: what each is called, with its title or its number."""
    title = entry.get("title") if isinstance(entry, dict) else None
    return f"{name} '{title}'" if title else f"{name} {position + 1}"


def value_in_words(value: Any, cls: type[Record], path: Path, shop: Shop) -> str | None:
    """A value for people: a record it names by name, a hazard with the signal word it now gives."""
    if value is None:
        return None
    if isinstance(value, float):
        return f"{value:g}"
    if isinstance(value, str):
        kind = kind_named(cls, path)
        return _named(shop, kind, value) if kind else value
    if isinstance(value, list):
        return " · ".join(short(one, cls, (*path, n), shop) for n, one in enumerate(value))
    return _entries_in_words(value, cls, path, shop) if isinstance(value, dict) else str(value)


def short(value: Any, cls: type[Record], path: Path, shop: Shop) -> str:
    """A value in a few words: the id or title of an entry, the start of a long text."""
    if isinstance(value, dict):
        name = next((value[key] for key in _NAMING if key in value), "")
        return str(name) if len(str(name)) <= _LONG else f"{str(name)[:_LONG]}…"
    words = value_in_words(value, cls, path, shop) or ""
    return words if len(words) <= _LONG else f"{words[:_LONG]}…"


def _named(shop: Shop, kind: str, record_id: str) -> str:
    record = shop.of_kind(kind).get(record_id)
    shown = record_id.upper() if kind == "jobs" else record_id
    if record is None:
        return shown
    word = f"{record.signal_word}: " if isinstance(record, Hazard) else ""
    return f"{shown} ({word}{name_of(record)})"


def _entries_in_words(values: dict[str, Any], cls: type[Record], path: Path, shop: Shop) -> str:
    if "point" in values:
        return f"{values['point']} ({values['kind']}) Reason: {values['reason']}"
    parts = []
    for key, one in values.items():
        inner = value_in_words(one, cls, (*path, key), shop) or ""
        parts.append(f"{key.replace('_', ' ')}: {inner}")
    return "; ".join(parts)


def record_name(shop: Shop, kind: str, record_id: str) -> str:
    """How a record is called in a comparison, such as `TR-0110, Drill two holes`."""
    if kind == "manual":
        return "the manual"
    if kind in ("pages", "files"):
        return f"{kind.removesuffix('s')} {record_id}"
    record = shop.of_kind(kind).get(record_id)
    shown = record_id.upper() if kind == "jobs" else f"{kind.removesuffix('s')} {record_id}"
    return f"{shown}, {name_of(record)}" if record is not None else shown
