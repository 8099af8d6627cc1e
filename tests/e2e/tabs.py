"""Tabs that one test after another uses: to open a fresh one costs as much as to open two pages.

A tab is handed on as a fresh one would be: nothing stored, nobody listening, nothing on the screen.
What cannot be taken back (a clock that stood still, a script that was put in, a permission, a
pointer that lies on the page) spoils a tab: it is closed, and the next test has a new one.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Locator, Page

from visitor import Visitor, watch

SPOILING: dict[type[Any], tuple[str, ...]] = {
    Page: ("add_init_script", "clock", "mouse", "on", "once", "route"),
    BrowserContext: ("add_init_script", "grant_permissions", "new_cdp_session", "new_page", "on",
                     "route", "set_offline"),
    Locator: ("click", "hover"),
}  # fmt: skip
"""What a test may use of a tab, so that the next one cannot have it."""
EMPTY = "<!doctype html><title>empty</title>"


@dataclass
class Tabs:
    """Tabs of one browser that are free, by whether scripts run in them."""

    browser: Browser
    empty: Path
    """A page that holds nothing, on which what a site has stored is taken away."""
    patience: int
    """Longest wait in ms."""
    free: dict[bool, list[Page]] = field(default_factory=lambda: {True: [], False: []})
    spoilt: set[BrowserContext] = field(default_factory=set)

    def take(self, size: tuple[int, int], *, scripts: bool) -> tuple[Visitor, Callable[[], None]]:
        """A visitor at a screen of that size; what is called when the visit is over."""
        screen = {"width": size[0], "height": size[1]}
        if self.free[scripts]:
            page = self.free[scripts].pop()
            page.set_viewport_size(screen)  # type: ignore[arg-type]
        else:
            context = self.browser.new_context(
                viewport=screen,  # type: ignore[arg-type]
                has_touch=True, java_script_enabled=scripts, offline=True,
            )  # fmt: skip
            context.set_default_timeout(self.patience)
            page = context.new_page()
        visitor = Visitor(page)
        unwatch = watch(visitor)
        self.spoilt.discard(page.context)  # by what was done here

        def over() -> None:
            unwatch()
            self._give_back(page, scripts=scripts)

        return visitor, over

    def _give_back(self, page: Page, *, scripts: bool) -> None:
        if page.context in self.spoilt or page.is_closed() or len(page.context.pages) > 1:
            self.spoilt.discard(page.context)
            page.context.close()
            return
        page.emulate_media(
            media="null", color_scheme="null", reduced_motion="null", forced_colors="null"
        )
        page.goto(self.empty.as_uri())
        if scripts:
            page.evaluate("localStorage.clear(); sessionStorage.clear()")
        self.free[scripts].append(page)

    def note_what_spoils(self, patch: Any) -> None:
        """From now on, what a test uses of a tab is noted (`patch` is pytest's MonkeyPatch)."""
        for owner, names in SPOILING.items():
            for name in names:
                patch.setattr(owner, name, self._noting(getattr(owner, name)))

    def _noting(self, real: Any) -> Any:
        def note(of: Any) -> None:
            page = of.page if isinstance(of, Locator) else of
            self.spoilt.add(page.context if isinstance(page, Page) else page)

        def reading(of: Any) -> Any:
            note(of)
            return real.__get__(of)

        def noting(of: Any, *given: Any, **named: Any) -> Any:
            note(of)
            return real(of, *given, **named)

        return property(reading) if isinstance(real, property) else noting
