"""Takes out of a built site what is no use from disk.

Source maps, the scripts of the theme, the sitemap and the 404 page.
"""

from __future__ import annotations

import re
from pathlib import Path

from benchleaf.write import clear_folder, remove, write_bytes

_USELESS = ("404.html", "sitemap.xml", "sitemap.xml.gz")
_THEME_SCRIPTS = "assets/javascripts"
"""No page of ours loads them; one that did would be found by the crawl."""
_MAP_COMMENT = re.compile(
    rb"\n?(?://[#@] sourceMappingURL=[^\n]*|/\*[#@] sourceMappingURL=.*?\*/)\s*$"
)


def tidy(site: Path) -> None:
    """Remove the files, and the comments in scripts and style sheets that point to the maps."""
    for name in _USELESS:
        remove(site / name)
    clear_folder(site / _THEME_SCRIPTS)
    for path in site.rglob("*.map"):
        remove(path)
    for pattern in ("*.js", "*.css"):
        for path in site.rglob(pattern):
            data = path.read_bytes()
            without = _MAP_COMMENT.sub(b"", data)
            if without != data:
                write_bytes(path, without, sync=False)
