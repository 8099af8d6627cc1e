"""What a page looks like is ours: the same under every theme, light, drawn as kept pictures.

The pictures are taken anew by `python tests/look.py`, after a change that is meant.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import Browser

import look
from bench.weight import FONT_BUDGET, SCRIPT_BUDGET, STYLE_BUDGET, weight
from build_demo import MKDOCS_YML, forked_build
from running import sample, some

THEMES = {
    "material": "theme: {name: material, font: false}",
    "mkdocs": "theme: mkdocs",
    "readthedocs": "theme: readthedocs",
    "none": "theme: {name: null, custom_dir: own}",
}

STAMP = re.compile(rb"data-seal=\"[^\"]*\"|html\{--s-[^}]*\}|function benchleaf_\w+\(\)")
"""What the seal adds: it is of the site as a whole, style of free pages and all."""


def test_a_page_of_records_is_the_same_under_every_theme(project: Path) -> None:
    """Only free pages may differ: with one theme they have its style besides ours."""
    (project / "own").mkdir()
    free = {path.with_suffix(".html").name for path in (project / "content/pages").glob("*.md")}
    assert free
    read: dict[str, dict[str, bytes]] = {}
    for name, lines in THEMES.items():
        text = re.sub(r"theme:\n(?:  .*\n)+", f"{lines}\n", MKDOCS_YML)
        (project / "mkdocs.yml").write_text(text, encoding="utf-8")
        done = forked_build(project)
        assert done.returncode == 0, done.stderr
        read[name] = {
            path.relative_to(project / "site").as_posix(): STAMP.sub(b"", path.read_bytes())
            for path in (project / "site").rglob("*")
            if path.is_file() and path.name != "seal.txt"
        }
    for name in ("mkdocs", "readthedocs", "none"):
        ours = {
            one for one in read["material"] if "stylesheets/" not in one and "theme.css" not in one
        }
        assert set(read[name]) == ours, name
        differ = {one for one in ours if read[name][one] != read["material"][one]}
        assert differ == free, name
    record = read["material"]["jobs/vg-0010.html"].decode()
    assert "stylesheets/" not in record
    assert 'dir="ltr"' in record


def test_pages_are_light(demo: Path) -> None:
    """Of the pages of jobs each is weighed; they hold the most."""
    for page in some(sorted((demo / "jobs").glob("tr-*.html"))):
        found = weight(page)
        assert found.style <= STYLE_BUDGET, (page.name, found)
        assert found.script <= SCRIPT_BUDGET, (page.name, found)
        assert 0 < found.font <= FONT_BUDGET, (page.name, found)


def test_pages_look_as_their_pictures(demo: Path, full_demo: Path, browser: Browser) -> None:
    """Pages of every part in every state, by day half: see `look.py` for what a difference is."""
    kept = look.kept_version()
    if kept != browser.version:
        pytest.skip(f"the pictures are of Chromium {kept}, and this is {browser.version}")
    sites = {"kiosk": demo, "full": full_demo.with_name("site-full")}
    wrong = []
    shots = tuple(sample(look.SHOTS, len(look.SHOTS) // 2, seed=1))
    for name, taken in look.taken(browser, sites, shots):
        with Image.open(look.PICTURES / f"{name}.png") as one:
            share = look.difference(one.convert("RGB"), taken)
        if share > look.TOLERANCE:
            wrong.append(f"{name}: {share:.1%} of the picture is otherwise")
    assert wrong == [], "look at them, and if all is meant: python tests/look.py"


def test_a_difference_is_seen() -> None:
    """A box moved by its own height counts; a letter drawn otherwise does not."""
    plain = Image.new("RGB", (270, 480), "white")
    moved = plain.copy()
    moved.paste((0, 0, 0), (20, 100, 250, 130))
    assert look.difference(plain, moved) > look.TOLERANCE
    speck = plain.copy()
    speck.paste((0, 0, 0), (20, 100, 24, 104))
    assert 0 < look.difference(plain, speck) < look.TOLERANCE
    assert look.difference(plain, plain) == 0
