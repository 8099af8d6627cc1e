"""What stands on the screens of the step view: drawings shown, steps that scroll, what moves.

Usage: python tests/bench/screens.py [SITE]
For every step of every job of a built demo (built here, if no site is named) at four sizes: how
many of the drawings and pictures that steps offer are shown, how many steps scroll (open, with
their hazards before them, and in the rounds), how many are divided and into how many parts, how
many lines of text the cue "More below" cuts through, the smallest letter and button, how many
pictures have words below the least size and the smallest of those words, and by how many pixels
buttons move when a card is turned.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path

from playwright.sync_api import sync_playwright

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "e2e")]


import get_browser  # noqa: E402
from access import SIZES, least_height, letters_of  # noqa: E402
from build_demo import FLAGS, ROOT, mkdocs_build  # noqa: E402


def main() -> int:
    """Look at every step, and print a line a size."""
    script = Path(__file__).with_suffix(".js").read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        site = Path(sys.argv[1] if len(sys.argv) > 1 else f"{folder}/site")
        if len(sys.argv) < 2:
            done = mkdocs_build(ROOT, "--site-dir", str(site))
            if done.returncode:
                sys.exit(done.stdout + done.stderr)
        browser = playwright.chromium.launch(
            executable_path=get_browser.browser(), args=list(FLAGS)
        )
        for name, (width, height) in SIZES.items():
            page = browser.new_page(viewport={"width": width, "height": height})
            total: dict[str, int] = {}
            widths: list[int] = []
            words: list[float] = []
            least = {"letter": 99.0, "button": 999.0}
            for path in sorted((site / "jobs").glob("*.html")):
                if 'id="follow"' not in path.read_text(encoding="utf-8"):
                    continue
                page.goto(path.as_uri() + "#follow")
                page.locator(".bl-bottom").wait_for()
                page.evaluate("document.fonts.ready.then(() => 0)")
                page.evaluate(script + "; 0")
                found = page.evaluate("look()")
                widths += found.pop("small")
                words += [one for shown in found.pop("worded") for one in letters_of(*shown)]
                for one in least:
                    least[one] = min(least[one], found.pop(one, least[one]))
                moved = max(total.get("moved", 0), found.pop("moved"))
                total = {key: total.get(key, 0) + value for key, value in found.items()}
                total["moved"] = round(moved)
            page.close()
            said = ", ".join(f"{key} {value}" for key, value in total.items())
            said += f", least letter {least['letter']:g}, button {least['button']:g}"
            said += f", width of a drawing {min(widths, default=0)}"
            small = [one for one in words if one < least_height(name)]
            print(f"{name:10} {said}, words too small in {len(small)} of {len(words)} pictures,"
                  f" least {min(words, default=0):.1f}")  # fmt: skip
        browser.close()
    return 0


if __name__ == "__main__":
    sys.exit(main())
