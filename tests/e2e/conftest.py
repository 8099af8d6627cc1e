"""The demo manual, built once, and a browser that opens it from disk."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect, sync_playwright
from tabs import EMPTY, Tabs

import get_browser
from build_demo import FLAGS, KIOSK, MKDOCS_YML, ROOT, SAID, forked_build, mkdocs_build, write_files
from running import once
from visitor import Visitor

PATIENCE = 120_000
"""Longest wait in ms for what must come: a busy machine must not fail a test."""
expect.set_options(timeout=PATIENCE)


def _build_demo(folder: Path, edition: str) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("BENCHLEAF_EDITION", edition)
        done = mkdocs_build(ROOT, "--strict", "--site-dir", str(folder / "site"))
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo manual, built strictly from the repository's own mkdocs.yml, once a run."""
    made = once(tmp_path_factory, "demo", lambda folder: _build_demo(folder, "kiosk"))
    return made / "site"


@pytest.fixture(scope="session")
def full_demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The full edition, built once; it lands beside the folder that was asked for."""
    made = once(tmp_path_factory, "full", lambda folder: _build_demo(folder, "full"))
    return made / "site"


@pytest.fixture
def project(shop: Callable[..., Path]) -> Path:
    """The small shop with an mkdocs.yml beside its content."""
    return _with_settings(shop())


def _with_settings(content: Path) -> Path:
    (content / "pages").mkdir(exist_ok=True)
    (content.parent / "mkdocs.yml").write_text(MKDOCS_YML, encoding="utf-8")
    return content.parent


@pytest.fixture(scope="session")
def first_build(tmp_path_factory: pytest.TempPathFactory, base_shop: dict[str, str]) -> Path:
    """The small shop with its site, built once a run; what the build said is beside it."""

    def make(folder: Path) -> None:
        write_files(folder / "content", base_shop)
        made = _with_settings(folder / "content")
        done = forked_build(made)
        assert done.returncode == 0, done.stderr
        (folder / SAID).write_text(done.stderr, encoding="utf-8")

    return once(tmp_path_factory, "small-shop", make)


@pytest.fixture
def built(first_build: Path, tmp_path: Path) -> Path:
    """A copy of the small shop with its site, to be edited and built again."""
    return Path(shutil.copytree(first_build, tmp_path / "built"))


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Headless Chromium; there is no skipping where none is found."""
    path = get_browser.browser()
    assert path, "no browser: run python tests/get_browser.py to see what was tried"
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=path, args=list(FLAGS))
        yield opened
        opened.close()


@pytest.fixture(scope="session")
def tabs(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Tabs]:
    """The tabs of this process that one test after another uses."""
    empty = tmp_path_factory.mktemp("empty") / "empty.html"
    empty.write_text(EMPTY, encoding="utf-8")
    opened = Tabs(browser, empty, PATIENCE)
    with pytest.MonkeyPatch.context() as patch:
        opened.note_what_spoils(patch)
        yield opened


@pytest.fixture
def visit(tabs: Tabs) -> Iterator[Callable[..., Visitor]]:
    """`visit(KIOSK)` gives a visitor at that screen, in a tab that is as a fresh one."""
    ends: list[Callable[[], None]] = []

    def at(size: tuple[int, int] = KIOSK, *, scripts: bool = True) -> Visitor:
        visitor, over = tabs.take(size, scripts=scripts)
        ends.append(over)
        return visitor

    yield at
    for over in ends:
        over()
