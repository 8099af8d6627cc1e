"""What a page loads: bytes of style, of scripts and of the typeface, and how many files.

Usage: python tests/bench/weight.py [SITE]
For one page of each folder of a built demo (built here, if no site is named), as published; what is
loaded at need only (search, meanings) is not counted. `tests/e2e/test_weight.py` holds the budget.
"""

from __future__ import annotations

import re
import sys
import tempfile
from pathlib import Path
from typing import NamedTuple

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "e2e")]

from build_demo import ROOT, mkdocs_build  # noqa: E402

STYLE_BUDGET = 60_000
SCRIPT_BUDGET = 70_000
FONT_BUDGET = 60_000
"""Bytes; what a page of a job may load, the typeface apart."""
_STYLE = re.compile(r'<link rel="stylesheet" href="([^"]+)"')
_SCRIPT = re.compile(r'<script (?:defer )?src="([^"]+)"')
_FONT = re.compile(r'url\("([^"]+\.woff2)"\)')


class Weight(NamedTuple):
    """Bytes and files of one page."""

    style: int
    sheets: int
    script: int
    scripts: int
    font: int
    page: int


def weight(page: Path) -> Weight:
    """What one published page loads by itself."""
    html = page.read_text(encoding="utf-8")
    sheets = [page.parent / one for one in _STYLE.findall(html)]
    scripts = [page.parent / one for one in _SCRIPT.findall(html)]
    fonts = {
        sheet.parent / one for sheet in sheets for one in _FONT.findall(sheet.read_text("utf-8"))
    }
    return Weight(
        sum(one.stat().st_size for one in sheets),
        len(sheets),
        sum(one.stat().st_size for one in scripts),
        len(scripts),
        sum(one.stat().st_size for one in fonts),
        len(html.encode()),
    )


def main() -> None:
    """Print a line a page, and the heaviest sheets and scripts of a job's page."""
    with tempfile.TemporaryDirectory() as folder:
        site = Path(sys.argv[1] if len(sys.argv) > 1 else f"{folder}/site")
        if len(sys.argv) < 2:
            done = mkdocs_build(ROOT, "--site-dir", str(site))
            if done.returncode:
                sys.exit(done.stdout + done.stderr)
        seen = set()
        for page in sorted(site.rglob("*.html")):
            where = page.parent.relative_to(site)
            if where in seen or (page.name == "index.html" and where != Path()):
                continue
            seen.add(where)
            found = weight(page)
            print(
                f"{found.style:7} style in {found.sheets} | {found.script:7} script in "
                f"{found.scripts:2} | {found.font} font | {found.page:7} {page.relative_to(site)}"
            )
        job = min((site / "jobs").glob("tr-*.html"))
        html = job.read_text(encoding="utf-8")
        for one in (*_STYLE.findall(html), *_SCRIPT.findall(html)):
            print(f"{(job.parent / one).stat().st_size:7} {one}")


if __name__ == "__main__":
    main()
