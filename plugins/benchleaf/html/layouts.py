"""How steps are laid out on screens: a table measured in a browser, read here, put into job pages.

The table (`layouts.json` in the content folder, made by `benchleaf layouts`) holds for each step, and
for each size of screen, the parts in which it is shown, the width of its picture and the columns of its
key points. It is keyed by what is laid out: a step that was edited since is not in it, and scrolls.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from markupsafe import Markup

LAYOUTS_FILE = "layouts.json"
_LAID_OUT = re.compile(r'(?:data-(?:title|control)|width|height|viewBox)="[^"]*"|>[^<]+(?=<)')
"""All that takes room: words, names and controls of the hazard strip, sizes of pictures."""

Table = Mapping[str, Mapping[str, Any]]
"""Job/step/fingerprint -> size of screen -> layout."""


def fingerprint(*html: str) -> str:
    """A short one of what is laid out, whatever marks it up."""
    words = (" ".join(one.split()) for text in html for one in _LAID_OUT.findall(f">{text}<"))
    return hashlib.sha256("\n".join(filter(None, words)).encode()).hexdigest()[:10]


def read_layouts(content: Path) -> Table:
    """The table of a content folder. A shop without one, or with a broken one, has steps that scroll."""
    try:
        table = json.loads((content / LAYOUTS_FILE).read_text(encoding="utf-8"))["steps"]
    except (OSError, ValueError, KeyError, TypeError):
        return {}
    return table if isinstance(table, dict) else {}


def attributes(table: Table, job: str, step: str, *html: str) -> Markup:
    """What a step's element carries: its key in the table, and its layouts where it is in there."""
    key = f"{job}/{step}/{fingerprint(*html)}"
    layouts = table.get(key)
    told = Markup(' data-laid-out="{}"').format(key)
    if layouts:
        told += Markup(' data-layouts="{}"').format(json.dumps(layouts, separators=(",", ":")))
    return told
