"""The table of layouts: how each step is shown on screens of some sizes, as a browser measured it.

It is no record. `benchleaf layouts` writes it; a shop without one has steps that scroll.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

LAYOUTS_FILE = "layouts.json"


def read_layouts(content: Path) -> Mapping[str, Mapping[str, Any]]:
    """Job, step and fingerprint -> size of screen -> layout; nothing where it is lost or broken."""
    try:
        table = json.loads((content / LAYOUTS_FILE).read_text(encoding="utf-8"))["steps"]
    except (OSError, ValueError, KeyError, TypeError):
        return {}
    return table if isinstance(table, dict) else {}
