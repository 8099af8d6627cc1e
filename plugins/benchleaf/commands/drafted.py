"""What stands in a new file until somebody writes it: each text asks for what it holds.

A record whose texts are open is a draft, and the rest of the manual can be read and built. A key
that takes an id, a number or one of a few words has no such text; it stands empty.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from pathlib import Path

from benchleaf.model import (
    OPEN_MARK,
    UNDRIVEN,
    Controls,
    Hazard,
    Job,
    KeyPath,
    Machine,
    Record,
    Trait,
    has,
)
from benchleaf.model.schema import described, is_free_text

from .first_texts import JOB_OPEN, PLACE_OPEN, STATION_OPEN
from .skeleton import Fill

DRAFTED = ("job", "part", "machine", "material", "tool", "fluid", "hazard")
"""Kinds of which one that is not written yet makes drafts of the jobs that use it."""
HEAD = f"""\
# Write each text in place of {OPEN_MARK}; what it holds is written above it.
# Fill in every key that stands empty: it takes an id, a number or one of the words named.
# Keys after a # are examples: take the # and one space away to use them.
"""
Texts = Mapping[KeyPath, str | tuple[str, ...]]
_PLAIN = re.compile(r"[A-Za-z(][\w .,()/+-]*", re.ASCII)


def texts_of(cls: type[Record], station: str, content: Path) -> Texts:
    """What a new record of a shop that is there begins with."""
    if cls is Machine:
        is_open = PLACE_OPEN if station in UNDRIVEN else STATION_OPEN
        return {("spindles", "id"): "spindle-1", ("still_open",): is_open}
    if cls is Hazard:  # which of the controls there is, the shop knows
        return {("controls", "design_out"): f"{OPEN_MARK} {described(Controls, 'design_out')}"}
    if cls is not Job:
        return {}
    stations = sorted(path.stem for path in (content / "machines").glob("*.yml"))
    only: Texts = {("machine",): stations[0]} if len(stations) == 1 else {}
    return {
        **only,
        ("steps", "id"): "step-1",
        ("steps", "key_points", "kind"): "can injure",
        ("still_open",): JOB_OPEN,
    }


def filling(texts: Texts) -> Fill:
    """The texts given; any other needed text asks for what it holds."""

    def fill(cls: type[Record], path: KeyPath) -> tuple[str, ...]:
        given = texts.get(path)
        if given is not None:
            return tuple(quoted(one) for one in ((given,) if isinstance(given, str) else given))
        key = str(path[-1])
        is_text = is_free_text(cls, key) and not has(cls, key, Trait.ISSUED)
        is_open = is_text and cls.model_fields[key].is_required()
        return (quoted(f"{OPEN_MARK} {described(cls, key)}"),) if is_open else ()

    return fill


def quoted(text: str) -> str:
    """A text as YAML reads it back, whatever its signs."""
    folded = " ".join(text.split())
    is_plain = _PLAIN.fullmatch(folded) or re.fullmatch(r"[0-9-]+", folded)
    return folded if is_plain else json.dumps(folded, ensure_ascii=False)
