"""The demo manual, built once, and a browser that opens it from disk."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Request, sync_playwright

import get_browser
from build_demo import FLAGS, KIOSK, MKDOCS_YML, ROOT, mkdocs_build


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo manual, built strictly from the repository's own mkdocs.yml."""
    site = tmp_path_factory.mktemp("demo") / "site"
    done = mkdocs_build(ROOT, "--strict", "--site-dir", str(site))
    assert done.returncode == 0, done.stdout + done.stderr
    return site


@pytest.fixture(scope="session")
def full_demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The full edition, built once; it lands beside the folder that was asked for."""
    site = tmp_path_factory.mktemp("full") / "site"
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("BENCHLEAF_EDITION", "full")
        done = mkdocs_build(ROOT, "--strict", "--site-dir", str(site))
    assert done.returncode == 0, done.stdout + done.stderr
    return site


@pytest.fixture
def project(shop: Callable[..., Path]) -> Path:
    """The small shop with an mkdocs.yml beside its content."""
    content = shop()
    (content / "pages").mkdir(exist_ok=True)
    (content.parent / "mkdocs.yml").write_text(MKDOCS_YML, encoding="utf-8")
    return content.parent


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """Headless Chromium; there is no skipping where none is found."""
    path = get_browser.browser()
    assert path, "no browser: run python tests/get_browser.py to see what was tried"
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(executable_path=path, args=list(FLAGS))
        yield opened
        opened.close()


@dataclass
class Visitor:
    """A reader at a screen; notes every request beyond the disk and every console message."""

    page: Page
    strays: list[str] = field(default_factory=list)

    def open(self, site: Path, name: str) -> Page:
        """Open a page of a site by its file path."""
        self.page.goto((site / name.partition("#")[0]).as_uri() + _anchor(name))
        return self.page


def _anchor(name: str) -> str:
    anchor = name.partition("#")[2]
    return f"#{anchor}" if anchor else ""


@pytest.fixture
def visit(browser: Browser) -> Iterator[Callable[..., Visitor]]:
    """`visit(KIOSK)` gives a visitor at that screen, with a fresh profile."""
    contexts: list[BrowserContext] = []

    def at(size: tuple[int, int] = KIOSK, *, scripts: bool = True) -> Visitor:
        context = browser.new_context(
            viewport={"width": size[0], "height": size[1]},
            has_touch=True,
            java_script_enabled=scripts,
            offline=True,
        )
        contexts.append(context)
        visitor = Visitor(context.new_page())
        _watch(visitor)
        return visitor

    yield at
    for context in contexts:
        context.close()


def _watch(visitor: Visitor) -> None:
    page, strays = visitor.page, visitor.strays

    def failed(one: Request) -> None:
        # Cut off by a tap on the next link, which is no missing file.
        if one.failure != "net::ERR_ABORTED":
            strays.append(f"failed: {one.url} {one.failure}")

    inside = ("file:", "data:", "blob:", "about:")
    page.on("request", lambda one: None if one.url.startswith(inside) else strays.append(one.url))
    page.on("requestfailed", failed)
    page.on("console", lambda one: strays.append(f"console {one.type}: {one.text}"))
    page.on("pageerror", lambda one: strays.append(f"error: {one}"))
