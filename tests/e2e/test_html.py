"""The Nu HTML checker on every page of both editions, and on our own style sheets."""

from __future__ import annotations

import json
import subprocess
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

import get_checker
from benchleaf.html import ASSETS
from running import sample

SAMPLE = 20
POLICY = "Resource violates Content Security Policy"
"""Said of every file that a page loads: the checker does not count a file's own folder as self.
That the browser loads them all is held by the tests that listen for messages of the console."""


def messages(*paths: Path) -> list[dict[str, Any]]:
    """What the checker says of these files and folders."""
    path = get_checker.checker()
    assert path, "no Nu HTML checker: run python tests/get_checker.py to see what was tried"
    options = ("--format", "json", "--stdout", "--exit-zero-always", "--also-check-css")
    done = subprocess.run(
        (*get_checker.command(path), *options, *map(str, paths)),
        capture_output=True,
        text=True,
        check=True,
        timeout=300,
    )
    found: list[dict[str, Any]] = json.loads(done.stdout)["messages"]
    return found


def told(one: dict[str, Any]) -> str:
    return f"{one.get('url')}:{one.get('lastLine')}: {one['message']}"


def test_the_checker_finds_a_fault(tmp_path: Path) -> None:
    """Else the next test could not fail."""
    page = tmp_path / "bad.html"
    page.write_text("<!doctype html><title>x</title><p><div></p><img src=a>", encoding="utf-8")
    assert [one for one in messages(page) if one["type"] == "error"]


def test_no_page_of_either_edition_has_an_error(demo: Path, full_demo: Path) -> None:
    """Of the pages that both have, every one as the kiosk has it, and a sample of the other."""
    full = full_demo.with_name("site-full")
    kiosk, other = (sorted(one.relative_to(site) for one in site.rglob("*.html"))
                    for site in (demo, full))  # fmt: skip
    both = [one for one in other if one in set(kiosk)]
    chosen = sample(both, SAMPLE, seed=5)
    pages = [demo / one for one in kiosk]
    pages += [full / one for one in other if one in chosen or one not in both]
    assert len(pages) > 200
    found = messages(*pages)
    assert [told(one) for one in found if one["type"] == "error"] == []
    others = Counter(one["message"] for one in found if not one["message"].startswith(POLICY))
    assert others == {}


def test_our_style_sheets_have_no_error() -> None:
    sheets = sorted(ASSETS.glob("*.css"))
    assert len(sheets) >= 3
    found = [one for one in messages(*sheets) if one["type"] == "error"]
    assert [told(one) for one in found] == []


@pytest.mark.parametrize("way", ["from_npm", "from_pip"])
def test_without_a_checker_there_is_no_passing(monkeypatch: pytest.MonkeyPatch, way: str) -> None:
    """A machine on which nothing can be had says so."""
    none: tuple[str, Any] = (way, lambda: None)
    monkeypatch.setattr(get_checker, "WAYS", (none,))
    with pytest.raises(AssertionError, match="no Nu HTML checker"):
        messages(Path("x.html"))
