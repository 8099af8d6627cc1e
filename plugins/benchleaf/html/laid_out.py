"""How a step is laid out on screens: its key in the table of layouts, put into its job's page.

The key holds what is laid out. A step that was edited since is not in the table, and scrolls.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping
from typing import Any

from markupsafe import Markup

_LAID_OUT = re.compile(r'(?:data-(?:title|control)|width|height|viewBox)="[^"]*"|>[^<]+(?=<)')
"""All that takes room: words, names and controls of the hazard strip, sizes of pictures."""

Table = Mapping[str, Mapping[str, Any]]
"""Job, step and fingerprint, as `tr-0110/drill-hole/0a1b2c3d4e` -> size of screen -> layout."""


def fingerprint(*html: str) -> str:
    """A short one of what is laid out, whatever marks it up."""
    words = (" ".join(one.split()) for text in html for one in _LAID_OUT.findall(f">{text}<"))
    told = (one.removeprefix(">").strip() for one in words)
    return hashlib.sha256("\n".join(filter(None, told)).encode()).hexdigest()[:10]


def attributes(table: Table, job: str, step: str, *html: str) -> Markup:
    """What a step's element carries: its key, and its layouts where they are in the table."""
    key = f"{job}/{step}/{fingerprint(*html)}"
    layouts = table.get(key)
    told = Markup(' data-laid-out="{}"').format(key)
    if layouts:
        told += Markup(' data-layouts="{}"').format(json.dumps(layouts, separators=(",", ":")))
    return told
