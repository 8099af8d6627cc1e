"""Tabs that one test after another uses: to open a fresh one costs as much as to open two pages.

A tab is handed on as a fresh one would be: nothing stored, nobody listening, nothing on the screen.
What can be taken back is: a pointer that lies on the page leaves it, a listener is taken off, a
debugger's session ends. What cannot (a clock that stood still, a script that was put in, a
permission) spoils a tab: it is closed, and the next test has a new one.
"""

from __future__ import annotations

import functools
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, Locator, Page

from visitor import Visitor, watch

SPOILING: dict[type[Any], tuple[str, ...]] = {
    Page: ("add_init_script", "clock", "once", "route"),
    BrowserContext: ("add_init_script", "grant_permissions", "new_page", "on", "route",
                     "set_offline"),
}  # fmt: skip
"""What a test may use of a tab, so that the next one cannot have it."""
POINTING: dict[type[Any], tuple[str, ...]] = {
    Page: ("mouse",),
    Locator: ("click", "dblclick", "drag_to", "hover"),
}
"""What leaves a pointer on the page."""
OUTSIDE = -100
"""Where a pointer lies on no page, in px."""
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
    pointed: set[Page] = field(default_factory=set)
    to_undo: dict[BrowserContext, list[Callable[[], None]]] = field(default_factory=dict)
    """What takes back what was done in a tab."""

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
        self.to_undo.pop(page.context, None)

        def over() -> None:
            unwatch()
            self._give_back(page, scripts=scripts)

        return visitor, over

    def _give_back(self, page: Page, *, scripts: bool) -> None:
        if page.context in self.spoilt or page.is_closed() or len(page.context.pages) > 1:
            self.spoilt.discard(page.context)
            self.pointed.discard(page)
            self.to_undo.pop(page.context, None)
            page.context.close()
            return
        for undo in self.to_undo.pop(page.context, ()):
            undo()
        if page in self.pointed:
            page.mouse.move(OUTSIDE, OUTSIDE)
            self.pointed.discard(page)
        page.emulate_media(
            media="null", color_scheme="null", reduced_motion="null", forced_colors="null"
        )
        page.goto(self.empty.as_uri())
        if scripts:
            page.evaluate("localStorage.clear(); sessionStorage.clear()")
        self.free[scripts].append(page)

    def note_what_spoils(self, patch: Any) -> None:
        """From now on, what a test uses of a tab is noted (`patch` is pytest's MonkeyPatch)."""
        noted = ((SPOILING, self._spoil), (POINTING, self._point))
        for of_each, note in noted:
            for owner, names in of_each.items():
                for name in names:
                    patch.setattr(owner, name, _noting(getattr(owner, name), note))
        patch.setattr(Page, "on", self._listening(Page.on))
        patch.setattr(
            BrowserContext, "new_cdp_session", self._in_session(BrowserContext.new_cdp_session)
        )

    def _spoil(self, of: Any) -> None:
        page = of.page if isinstance(of, Locator) else of
        self.spoilt.add(page.context if isinstance(page, Page) else page)

    def _point(self, of: Any) -> None:
        self.pointed.add(of.page if isinstance(of, Locator) else of)

    def _listening(self, real: Any) -> Any:
        def on(page: Page, event: Any, note: Any) -> None:
            real(page, event, note)
            undo = functools.partial(page.remove_listener, event, note)
            self.to_undo.setdefault(page.context, []).append(undo)

        return on

    def _in_session(self, real: Any) -> Any:
        def new_cdp_session(context: BrowserContext, page: Any) -> Any:
            session = real(context, page)
            self.to_undo.setdefault(context, []).append(session.detach)
            return session

        return new_cdp_session


def _noting(real: Any, note: Callable[[Any], None]) -> Any:
    def reading(of: Any) -> Any:
        note(of)
        return real.__get__(of)

    def noting(of: Any, *given: Any, **named: Any) -> Any:
        note(of)
        return real(of, *given, **named)

    return property(reading) if isinstance(real, property) else noting
