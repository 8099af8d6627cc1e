"""What mkdocs.yml beside a content folder must say before the site engine asks any plugin.

The engine reads its file itself, and stops at the first of these with words of its own, or builds
something else. So the check says them, each with the line to write.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from benchleaf.diagnose import Finding, Place, Severity

SETTINGS = "mkdocs.yml"


def check_settings(content: Path) -> tuple[Finding, ...]:
    """Lines that are missing from the settings beside a content folder, if there are settings."""
    path = content.parent / SETTINGS
    if not content.is_dir() or not path.is_file():
        return ()
    text = path.read_text(encoding="utf-8", errors="replace")
    return tuple(_missing(content, path.parent, text))


def _missing(content: Path, folder: Path, text: str) -> Iterator[Finding]:
    if _says(text, "INHERIT"):  # the rest may stand in another file
        return
    pages = f"{content.name}/pages"
    if not _says(text, "site_name"):
        yield _finding("no site_name, and the engine builds nothing", "site_name: Our manual")
    if not _says(text, "docs_dir") and not (folder / "docs").is_dir():
        yield _finding(
            "no folder of free pages, and the engine looks for docs/", f"docs_dir: {pages}"
        )
    if not re.search(r"^\s*(?:plugins:\s*\[.*|- *)['\"]?benchleaf\b", text, re.MULTILINE):
        cure = "plugins: [benchleaf]"
        yield _finding("no plugin 'benchleaf', so a build makes no manual", cure)


def _says(text: str, key: str) -> bool:
    return bool(re.search(rf"^{key}\s*:\s*\S", text, re.MULTILINE))


def _finding(lacks: str, line: str) -> Finding:
    text, cure = f"{SETTINGS} names {lacks}", f"write the line: {line}"
    return Finding("P707", Severity.ERROR, Place(SETTINGS), text, (cure,))
