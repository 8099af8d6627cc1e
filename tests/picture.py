"""Takes the picture of the README anew: home, a set-up, one step, at a kiosk of 1080 by 1920.

    .venv/bin/mkdocs build && python tests/picture.py

Run it after a release that changes what these three screens show.
"""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

from PIL import Image
from playwright.sync_api import Page, ViewportSize, sync_playwright

import get_browser

ROOT = Path(__file__).parents[1]
PICTURE = ROOT / ".pictures" / "demo.png"
KIOSK: ViewportSize = {"width": 1080, "height": 1920}
HEIGHT, GAP = 864, 20
"""Of the picture in pixels, and between two screens."""
GROUND = (186, 186, 172)


def _home(page: Page, site: Path) -> None:
    page.goto((site / "index.html").as_uri())


def _set_up(page: Page, site: Path) -> None:
    page.goto(f"{(site / 'jobs/tr-0510.html').as_uri()}#set-up")
    page.locator("#set-up").wait_for()
    page.locator("#set-up").evaluate("one => window.scrollTo(0, one.offsetTop - 100)")


def _step(page: Page, site: Path) -> None:
    """The step as a learner sees it who has read what comes before."""
    page.goto(f"{(site / 'jobs/tr-0110.html').as_uri()}#follow")
    page.locator(".bl-bottom").wait_for()
    page.evaluate(
        """() => { const follow = window.benchleafFollow, state = follow.state;
             state.at = follow.screens.indexOf(follow.steps[2]);
             follow.screens.slice(0, state.at + 1).forEach(follow.markRead);
             follow.show(); }"""
    )


def main() -> None:
    """Take the three screens from `site/`, and put them side by side."""
    site, shots = ROOT / "site", []
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path=get_browser.browser(),
            args=["--headless", "--no-sandbox", "--disable-gpu"],
        )
        for go in (_home, _set_up, _step):
            page = browser.new_page(viewport=KIOSK)
            go(page, site)
            page.wait_for_timeout(500)
            shots.append(Image.open(BytesIO(page.screenshot())))
        browser.close()
    small = [one.resize((one.width * HEIGHT // one.height, HEIGHT)) for one in shots]
    width = sum(one.width for one in small) + GAP * (len(small) - 1)
    whole = Image.new("RGB", (width, HEIGHT), GROUND)
    left = 0
    for one in small:
        whole.paste(one, (left, 0))
        left += one.width + GAP
    whole.convert("P", palette=Image.Palette.ADAPTIVE).save(PICTURE, optimize=True)


if __name__ == "__main__":
    main()
