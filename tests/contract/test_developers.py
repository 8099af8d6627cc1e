"""DEVELOPERS.md names rooms that are there."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "plugins" / "benchleaf"
TEXT = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
ENDINGS = "py|js|css|jinja|yml|toml|txt|md|html|csv"
PATH = re.compile(rf"[\w.*/-]+(?:\.(?:{ENDINGS})|/)")
NOT_OURS = {"seal.txt", "site-full/", ".vscode/settings.json"}


def named() -> list[str]:
    """Every file and folder in a code span, but for addresses of a site."""
    spans = re.findall(r"(?<!`)`([^`\n]+)`(?!`)", TEXT)
    return sorted({one for one in spans if PATH.fullmatch(one)} - NOT_OURS)


def is_there(name: str) -> bool:
    html = PACKAGE / "html"
    tops = (ROOT, ROOT / "content", PACKAGE, html, html / "templates", html / "assets")
    if any(any(top.glob(name.rstrip("/"))) for top in tops):
        return True
    return "/" not in name and any(any(top.rglob(name)) for top in (PACKAGE, ROOT / "tests"))


def test_every_file_and_folder_that_is_named_is_there() -> None:
    assert len(named()) > 50
    assert [one for one in named() if not is_there(one)] == []


def test_a_name_that_leads_nowhere_is_seen() -> None:
    assert [is_there(one) for one in ("pages/nowhere.py", "nowhere.css", "nowhere/")] == [False] * 3
