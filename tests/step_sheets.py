"""A sheet of every step at every size, for those who review how they look.

Usage: python tests/step_sheets.py FOLDER [--site SITE] [--job TR-0110 ...] [--size 390x844 ...]
Writes a picture of each part of each step, open and with its hazards before it, and `index.html`,
which shows them a row a step. Without a site the demo is built first.
"""

from __future__ import annotations

import argparse
import html
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from playwright.sync_api import sync_playwright

TESTS = Path(__file__).parent
sys.path[:0] = [str(TESTS), str(TESTS / "e2e")]

import get_browser  # noqa: E402
from benchleaf.commands.layouts import SIZES  # noqa: E402
from build_demo import FLAGS, ROOT, mkdocs_build  # noqa: E402

SHOWN_HIGH = 420
"""Height in px at which a picture stands in the sheet; a touch on it shows it whole."""
GO = """([index, part, isOpen]) => { const follow = window.benchleafFollow, state = follow.state;
  const screen = follow.steps[index];
  Object.assign(state, {told: {}, read: {}, round: 0, at: follow.screens.indexOf(screen), part,
    partOf: screen.name + (isOpen ? '' : ' before')});
  if (isOpen) follow.markRead(screen);
  follow.show();
  return {name: screen.name, parts: Math.max(1, follow.parts.marks().length),
    isShut: Boolean(document.querySelector('.bl-now.bl-shut'))}; }"""


def main() -> int:
    """Take the pictures, and write the sheet."""
    parser = argparse.ArgumentParser()
    parser.add_argument("folder", type=Path)
    parser.add_argument("--site", type=Path)
    parser.add_argument("--job", nargs="*", default=[], type=str.lower)
    parser.add_argument("--size", nargs="*", default=list(SIZES))
    options = parser.parse_args()
    options.folder.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as made, sync_playwright() as playwright:
        site = options.site or Path(made, "site")
        if options.site is None:
            done = mkdocs_build(ROOT, "--site-dir", str(site))
            if done.returncode:
                sys.exit(done.stdout + done.stderr)
        browser = playwright.chromium.launch(
            executable_path=get_browser.browser(), args=list(FLAGS)
        )
        rows: dict[str, list[str]] = {}
        for size in options.size:
            width, height = (int(one) for one in size.split("x"))
            page = browser.new_page(viewport={"width": width, "height": height})
            for path in sorted((site / "jobs").glob("*.html")):
                is_stepped = 'id="follow"' in path.read_text(encoding="utf-8")
                if is_stepped and (not options.job or path.stem in options.job):
                    for step, name in _pictures(page, path, size, options.folder):
                        rows.setdefault(f"{path.stem} {step}", []).append(name)
            page.close()
        browser.close()
    (options.folder / "index.html").write_text(_sheet(rows), encoding="utf-8")
    print(options.folder / "index.html")
    return 0


def _pictures(page: Any, path: Path, size: str, folder: Path) -> Iterator[tuple[str, str]]:
    """The name of each step, and of the picture that was taken of a part of it."""
    page.goto("about:blank")
    page.goto(path.as_uri() + "#follow")
    page.locator(".bl-bottom").wait_for()
    for index in range(page.evaluate("window.benchleafFollow.steps.length")):
        for is_open in (False, True):
            part, parts = 0, 1
            while part < parts:
                found = page.evaluate(GO, [index, part, is_open])
                if not is_open and not found["isShut"]:
                    break
                parts = found["parts"]
                name = f"{path.stem}-{index + 1:02}-{'open' if is_open else 'first'}-{part}-{size}"
                page.screenshot(path=folder / f"{name}.png")
                yield found["name"], f"{name}.png"
                part += 1


def _sheet(rows: dict[str, list[str]]) -> str:
    lines = ["<!doctype html><meta charset=utf-8><title>Every step</title>"]
    for title, names in rows.items():
        lines.append(f"<h2>{html.escape(title)}</h2><p>")
        lines += [f'<a href="{one}"><img src="{one}" height="{SHOWN_HIGH}" alt="{one}"></a>'
                  for one in names]  # fmt: skip
    return "\n".join(lines)


if __name__ == "__main__":
    sys.exit(main())
