"""Pictures of one page of every part in every state, and how much a page may differ from its own.

Usage: python tests/look.py
Builds both editions of the demo and takes every picture anew into tests/look/. Look at what changed
before you keep it: `git diff --stat tests/look`.

Pictures are taken at a quarter of the size and in 32 greys and colours, so that they are small, and
so that how a letter is smoothed is no difference. Chromium must be the one they were taken with:
its number lies beside them.
"""

from __future__ import annotations

import io
import os
import sys
import tempfile
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from PIL import Image, ImageChops

TESTS = Path(__file__).parent
PICTURES = TESTS / "look"
VERSION = PICTURES / "chromium.txt"
SCALE = 4
"""Screen pixels to one of a picture."""
NEAR = 48
"""Levels of 255 by which a pixel may differ."""
TOLERANCE = 0.01
"""Share of pixels that may be further off: a line of text on a kiosk's screen is some 0.6 %."""
COLOURS = 32
"""Taken off before two pictures are compared, too: else the palette alone would be a difference."""

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

KIOSK, WIDE, LOW, PHONE = (1080, 1920), (1920, 1080), (1280, 800), (390, 844)


class Shot(NamedTuple):
    """One picture: of which page, at which screen, in which state."""

    name: str
    page: str
    size: tuple[int, int] = KIOSK
    edition: str = "kiosk"
    state: str = ""
    """`dark`, `large`, `print`, `forced`, `step`; empty for the page as it opens."""


SHOTS = (
    Shot("home", "index.html"),
    Shot("job", "jobs/tr-0120.html"),
    Shot("job-dark", "jobs/tr-0120.html", WIDE, state="dark"),
    Shot("job-paper", "jobs/tr-0120.html", (794, 1123), state="print"),
    Shot("job-forced", "jobs/tr-0120.html", LOW, state="forced"),
    Shot("step", "jobs/tr-0120.html", KIOSK, state="step"),
    Shot("step-phone", "jobs/tr-0120.html", PHONE, state="step"),
    Shot("machine", "machines/pillar-drill.html"),
    Shot("hazard", "hazards/entanglement.html", LOW),
    Shot("part-large", "parts/trw-204.html", state="large"),
    Shot("words", "terms.html", PHONE),
    Shot("free-page", "safety.html"),
    Shot("set-up-paper", "trainer/tr-0120-set-up.html", (794, 1123), "full", "print"),
    Shot("breakdown-paper", "trainer/tr-0120-breakdown.html", (794, 1123), "full", "print"),
    Shot("timetable", "timetable.html", KIOSK, "full"),
    Shot("timetable-phone", "timetable.html", PHONE, "full"),
)


def kept_version() -> str:
    """The Chromium that the pictures were taken with."""
    return VERSION.read_text(encoding="utf-8").strip() if VERSION.is_file() else "none"


def difference(kept: Image.Image, taken: Image.Image) -> float:
    """The share of pixels that are further off than `NEAR`, of the larger picture."""
    if kept.size != taken.size:
        return 1.0
    off = ImageChops.difference(kept.convert("RGB"), taken.convert("RGB"))
    worst = ImageChops.lighter(ImageChops.lighter(*off.split()[:2]), off.split()[2])
    levels: list[int] = worst.histogram()
    return sum(levels[NEAR + 1 :]) / sum(levels)


def taken(
    browser: Browser, sites: Mapping[str, Path], shots: tuple[Shot, ...] = SHOTS
) -> Iterator[tuple[str, Image.Image]]:
    """Each picture as the site looks now, with its name; one page load each."""
    for shot in shots:
        context = browser.new_context(
            viewport={"width": shot.size[0], "height": shot.size[1]},
            forced_colors="active" if shot.state == "forced" else "none",
        )
        page = context.new_page()
        chosen = {"dark": ("light", "slate"), "large": ("text", "3")}.get(shot.state)
        if chosen:
            page.add_init_script(f"localStorage.setItem('benchleaf.{chosen[0]}', '{chosen[1]}')")
        if shot.state == "print":
            page.emulate_media(media="print")
        page.goto((sites[shot.edition] / shot.page).as_uri())
        page.evaluate("document.fonts.ready")
        if shot.state == "step":
            _to_a_step(page)
        # the day of the build is no part of the look
        page.evaluate("document.querySelector('.bl-footer')?.remove()")
        with Image.open(io.BytesIO(page.screenshot(animations="disabled"))) as whole:
            small = whole.convert("RGB").resize(
                (whole.width // SCALE, whole.height // SCALE), Image.Resampling.BOX
            )
        context.close()
        yield shot.name, small.quantize(COLOURS, dither=Image.Dither.NONE)


def _to_a_step(page: Page) -> None:
    """Into the step view, and on to what it shows at its third screen."""
    page.locator(".bl-learn__start").click()
    for _ in range(2):
        page.keyboard.press("ArrowRight")


def main() -> None:
    """Take every picture anew, and say how far each was off."""
    sys.path.insert(0, str(TESTS / "e2e"))
    from playwright.sync_api import sync_playwright

    import get_browser
    from build_demo import FLAGS, ROOT, mkdocs_build

    PICTURES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        sites = {}
        for edition, name in (("kiosk", "site"), ("full", "site-full")):
            os.environ["BENCHLEAF_EDITION"] = edition
            done = mkdocs_build(ROOT, "--site-dir", f"{folder}/site")
            if done.returncode:
                sys.exit(done.stdout + done.stderr)
            sites[edition] = Path(folder, name)
        path = get_browser.browser()
        browser = playwright.chromium.launch(executable_path=path, args=list(FLAGS))
        names = set()
        for name, small in taken(browser, sites):
            names.add(f"{name}.png")
            file = PICTURES / f"{name}.png"
            if file.is_file():
                with Image.open(file) as one:
                    print(f"{difference(one.convert('RGB'), small):7.2%} off  {name}")
            small.save(file, optimize=True)
        for file in PICTURES.glob("*.png"):
            if file.name not in names:
                file.unlink()
        VERSION.write_text(f"{browser.version}\n", encoding="utf-8")
        browser.close()


if __name__ == "__main__":
    main()
