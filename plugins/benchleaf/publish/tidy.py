"""Takes out of a built site what is no use from disk: source maps, the sitemap, the 404 page."""

from __future__ import annotations

import re
from pathlib import Path

_USELESS = ("404.html", "sitemap.xml", "sitemap.xml.gz")
_MAP_COMMENT = re.compile(
    rb"\n?(?://[#@] sourceMappingURL=[^\n]*|/\*[#@] sourceMappingURL=.*?\*/)\s*$"
)


def tidy(site: Path) -> None:
    """Remove the files, and the comments in scripts and style sheets that point to the maps."""
    for name in _USELESS:
        (site / name).unlink(missing_ok=True)
    for path in site.rglob("*.map"):
        path.unlink()
    for pattern in ("*.js", "*.css"):
        for path in site.rglob(pattern):
            data = path.read_bytes()
            without = _MAP_COMMENT.sub(b"", data)
            if without != data:
                path.write_bytes(without)
