"""A reader at a screen, who notes what a page asks for and says."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from playwright.sync_api import Page, Request


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


def watch(visitor: Visitor) -> None:
    """Note every request beyond the disk, what did not load, and every message."""
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
