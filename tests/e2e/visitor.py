"""A reader at a screen, who notes what a page asks for and says."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import Locator, Page, Request


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


def to_touch(page: Page) -> Locator:
    """What a shut screen waits for: the right answer of its question, or that it was read."""
    answers = page.locator(".bl-now.bl-asks .bl-answer")
    right = page.locator(".bl-now [data-control]").evaluate_all(
        "all => all.map(one => one.dataset.control)"
    )
    found = (one for one in answers.all() if one.inner_text() in right)
    return next(found, page.locator(".bl-now.bl-asks .bl-ack"))


def watch(visitor: Visitor) -> Callable[[], None]:
    """Note every request beyond the disk, what did not load, and every message; what ends it."""
    page, strays = visitor.page, visitor.strays

    def failed(one: Request) -> None:
        # Cut off by a tap on the next link, which is no missing file.
        if one.failure != "net::ERR_ABORTED":
            strays.append(f"failed: {one.url} {one.failure}")

    inside = ("file:", "data:", "blob:", "about:")
    noted: dict[str, Callable[[Any], None]] = {
        "request": lambda one: None if one.url.startswith(inside) else strays.append(one.url),
        "requestfailed": failed,
        "console": lambda one: strays.append(f"console {one.type}: {one.text}"),
        "pageerror": lambda one: strays.append(f"error: {one}"),
    }
    for event, note in noted.items():
        page.on(event, note)  # type: ignore[call-overload]

    def unwatch() -> None:
        for event, note in noted.items():
            page.remove_listener(event, note)

    return unwatch
