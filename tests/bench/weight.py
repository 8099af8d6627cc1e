"""Bytes of script and style that a job page loads by itself, and what comes later at need.

Usage: python tests/bench/weight.py SITE [PAGE]
Reads the tags of a built page; no browser is needed.
"""

from __future__ import annotations

import re
import sys
from pathlib import Path

LATER = ("search-panel.js", "search-find.js", "search-keys.js", "self-check.js")


def weights(site: Path, page: str) -> dict[str, int]:
    """Bytes of the files that a page names, by their names."""
    html = (site / page).read_text(encoding="utf-8")
    named = re.findall(r'<(?:script|link)[^>]*\b(?:src|href)="([^"]+\.(?:js|css))"', html)
    paths = [((site / page).parent / one).resolve() for one in dict.fromkeys(named)]
    return {path.name: path.stat().st_size for path in paths}


def main() -> None:
    """Print each file, and the sums."""
    site, page = Path(sys.argv[1]), (sys.argv[2:] or ["jobs/tr-0110.html"])[0]
    found = weights(site, page)
    for name, size in found.items():
        print(f"{size:7} {name}")
    for ending in (".js", ".css"):
        sizes = (size for name, size in found.items() if name.endswith(ending))
        print(f"{sum(sizes):7} in all {ending}")
    for name in LATER:
        print(f"{(site / 'assets/benchleaf' / name).stat().st_size:7} {name}, at need")


if __name__ == "__main__":
    main()
