"""The paper that a shop prints on: its setting, and margins that suit both."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

import pytest

from benchleaf.html import ASSETS
from benchleaf.pipeline import site_facts

Site = Callable[..., Any]
Edited = Callable[..., dict[str, str]]
SIZES_MM = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
UNPRINTED_MM = 3
"""Along each edge, where few printers print."""
PAGE_RULE = re.compile(r"@page ?(\w*) \{[^{}]*?margin: ([\dm. ]+);")


def margins() -> dict[str, tuple[float, float]]:
    """Name of each kind of page -> its margins together, across and down."""
    found = {}
    for name in ("benchleaf.css", "sheets.css"):
        for kind, text in PAGE_RULE.findall((ASSETS / name).read_text(encoding="utf-8")):
            given = [float(one.removesuffix("mm")) for one in text.split()]
            top, right = given[0], given[1]
            bottom = given[2] if len(given) > 2 else top
            found[kind] = 2 * right, top + bottom
    return found


@pytest.mark.parametrize("paper", SIZES_MM)
def test_what_is_laid_out_for_one_paper_fits_on_the_other(paper: str) -> None:
    (other,) = set(SIZES_MM) - {paper}
    kinds = margins()
    assert set(kinds) == {"", "sheet", "card"}
    for kind, (across, down) in kinds.items():
        turn = -1 if kind == "card" else 1
        (wide, high), (most_wide, most_high) = (SIZES_MM[one][::turn] for one in (paper, other))
        assert wide - across <= most_wide - 2 * UNPRINTED_MM, kind
        assert high - down <= most_high - 2 * UNPRINTED_MM, kind


@pytest.mark.parametrize("paper", SIZES_MM)
def test_each_paper_has_its_style_sheet(paper: str) -> None:
    text = (ASSETS / f"paper-{paper}.css").read_text(encoding="utf-8").lower()
    assert re.findall(r"@page *(\w*) *\{ *size: ([\w ]+);", text) == [
        ("", paper),
        ("card", f"{paper} landscape"),
    ]


def test_a_shop_chooses_its_paper(site: Site, edited: Edited) -> None:
    assert site_facts(site().loaded, edition="kiosk").paper == "a4"
    files = edited("manual.yml", "shop: ", "paper: letter\nshop: ")
    assert site_facts(site(files).loaded, edition="kiosk").paper == "letter"
