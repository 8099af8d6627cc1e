"""A tray drawn from its numbers: to scale, a place for every piece, one of them empty."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree

import pytest
from planned import Planned, words

from benchleaf.drawings.drawing import WIDTH, text_width
from benchleaf.drawings.figure_tray import tray_figure
from benchleaf.model import Tray

Site = Callable[..., Planned]
Edited = Callable[..., dict[str, str]]
SLOTS = {"kind": "slotted tray", "length": "120 mm", "width": "6 mm"}
BOARD = {"kind": "drilled board", "diameter": "16 mm"}
PEGS = {"kind": "pegged board", "length": "60 mm", "width": "40 mm"}
TOTE = {"kind": "tote", "length": "180 mm", "width": "30 mm"}
TRAYS = {"slots": SLOTS, "board": BOARD, "pegs": PEGS, "tote": TOTE}
COUNTS = ((1, 1), (1, 20), (5, 8), (3, 5), (40, 40), (40, 1))


def drawn(
    sizes: dict[str, Any], rows: int, in_a_row: int, gap: str = "6 mm"
) -> ElementTree.Element:
    tray = Tray.model_validate(
        {**sizes, "rows": rows, "in_a_row": in_a_row, "gap": gap, "tells": "A gap shows it."}
    )
    return ElementTree.fromstring(str(tray_figure(tray, "vg-0010")))


def paths(svg: ElementTree.Element) -> list[ElementTree.Element]:
    return list(svg.findall("g[@class='bl-drawing__shapes']/path"))


def pieces(path: ElementTree.Element) -> list[list[tuple[float, float]]]:
    found = []
    for part in path.attrib["d"].split("M")[1:]:
        numbers = [float(one) for one in re.findall(r"-?\d+(?:\.\d+)?", part)]
        found.append(list(zip(numbers[::2], numbers[1::2], strict=True)))
    return found


def held(svg: ElementTree.Element) -> list[list[tuple[float, float]]]:
    """The pieces drawn as there: the largest group of areas that is not dashed."""
    groups = [pieces(one) for one in paths(svg)
              if one.attrib["d"].endswith("Z") and "stroke-dasharray" not in one.attrib
              and one.attrib.get("fill") not in ("none", "var(--bl-sheet, #fff)")]  # fmt: skip
    return max(groups, key=len, default=[])


def box(corners: list[tuple[float, float]]) -> tuple[float, float, float, float]:
    xs, ys = zip(*corners, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


@pytest.mark.parametrize("name", TRAYS)
@pytest.mark.parametrize(("rows", "in_a_row"), COUNTS)
def test_every_place_holds_a_piece_but_one_that_is_empty(
    name: str, rows: int, in_a_row: int
) -> None:
    svg = drawn(TRAYS[name], rows, in_a_row)
    dashed = [one for one in paths(svg) if "stroke-dasharray" in one.attrib]
    assert [len(pieces(one)) for one in dashed] == [1]
    there = held(svg)
    if rows * in_a_row > 1:
        assert len(there) == rows * in_a_row - 1
    empty = box(pieces(dashed[0])[0])
    assert all(
        box(one)[0] >= empty[2] or box(one)[2] <= empty[0] or box(one)[1] >= empty[3]
        or box(one)[3] <= empty[1] for one in there if rows * in_a_row > 1
    )  # fmt: skip


@pytest.mark.parametrize("name", TRAYS)
@pytest.mark.parametrize(("rows", "in_a_row"), COUNTS)
def test_pieces_and_words_lie_inside_the_frame(name: str, rows: int, in_a_row: int) -> None:
    svg = drawn(TRAYS[name], rows, in_a_row, gap="2.5 mm")
    height = float(svg.attrib["viewBox"].split()[3])
    for path in paths(svg):
        for one in pieces(path):
            left, top, right, bottom = box(one)
            assert left >= 0
            assert right <= WIDTH
            assert top >= 0
            assert bottom <= height
    for text in svg.iter("text"):
        wide = text_width(text.text or "", float(text.attrib["font-size"]))
        x = float(text.attrib["x"])
        left = x - {"start": 0.0, "middle": wide / 2}[text.attrib["text-anchor"]]
        assert left >= 0, text.text
        assert left + wide <= WIDTH, text.text
        assert float(text.attrib["y"]) <= height


@pytest.mark.parametrize("name", TRAYS)
def test_a_key_shows_what_filled_means_without_colour(name: str) -> None:
    """Its swatch is filled as the pieces are, and the empty place is not filled at all."""
    svg = drawn(TRAYS[name], 3, 5)
    *_, key = [one for one in paths(svg) if one.attrib["d"].endswith("Z")]
    (of_pieces,) = {one.attrib["fill"] for one in paths(svg) if pieces(one) == held(svg)}
    assert len(pieces(key)) == 1
    assert key.attrib["fill"] == of_pieces
    (dashed,) = [one for one in paths(svg) if "stroke-dasharray" in one.attrib]
    assert dashed.attrib["fill"] == "none"


def test_sizes_are_to_one_scale() -> None:
    svg = drawn(SLOTS, 1, 20)
    first, second = sorted(box(one) for one in held(svg))[:2]
    scale = (first[3] - first[1]) / 120
    assert first[2] - first[0] == pytest.approx(6 * scale, abs=0.2)
    assert second[0] - first[2] == pytest.approx(6 * scale, abs=0.2)
    assert 246 * scale == pytest.approx(WIDTH - 40, abs=1)


def test_plates_on_edge_stand_side_by_side_and_blocks_lie_along_the_row() -> None:
    thin, flat = (box(held(drawn(one, 1, 3))[0]) for one in (SLOTS, PEGS))
    assert thin[3] - thin[1] > thin[2] - thin[0]
    assert flat[2] - flat[0] > flat[3] - flat[1]


def test_a_peg_stands_in_each_piece_and_alone_where_one_is_missing() -> None:
    svg = drawn(PEGS, 3, 5)
    through = [one for one in paths(svg) if one.attrib.get("fill") == "var(--bl-sheet, #fff)"]
    assert [len(pieces(one)) for one in through] == [14]
    alone = [one for one in paths(svg) if one.attrib.get("fill") == "currentColor"]
    assert [len(pieces(one)) for one in alone] == [1]


@pytest.mark.parametrize(
    ("name", "rows", "in_a_row", "wanted"),
    [
        ("slots", 1, 20, ("20 places: 1 row of 20", "piece 120 × 6 mm from above",
                          "gap 6 mm, at the rim too", "inside 246 × 132 mm")),
        ("board", 5, 8, ("40 places: 5 rows of 8", "piece 16 mm across", "inside 182 × 116 mm")),
        ("tote", 1, 1, ("1 place: 1 row of 1",)),
    ],
)  # fmt: skip
def test_places_and_sizes_are_written_and_told_to_who_cannot_see(
    name: str, rows: int, in_a_row: int, wanted: tuple[str, ...]
) -> None:
    svg = drawn(TRAYS[name], rows, in_a_row)
    shown = [one.text for one in svg.iter("text")]
    assert svg.attrib["role"] == "img"
    said = f"{svg.findtext('title')} {svg.findtext('desc')}"
    for one in wanted:
        assert one in shown
        assert one in said
    assert "empty: a piece is missing" in shown
    assert "filled: a piece in its place" in shown
    assert "One place is drawn empty" in said


TRAY = (
    "tray:\n  kind: slotted tray\n  rows: 1\n  in_a_row: 20\n  length: 120 mm\n  width: 6 mm\n"
    "  gap: 6 mm\n  tells: An empty slot shows a missing plate.\nhand_on: "
)


def test_the_tray_stands_on_the_job_page_and_the_get_ready_list(site: Site, edited: Edited) -> None:
    full = site(edited("jobs/vg-0010.yml", "hand_on: ", TRAY), edition="full")
    for address in ("jobs/vg-0010.html", "trainer/vg-0010-get-ready.html"):
        html = full.html(address)
        end = html[html.index("Handing on</h2>") :]
        assert end.index("vg-0010-tray--drawing-title") < end.index(
            "An empty slot shows a missing plate."
        )
        assert html.count('id="vg-0010-tray--drawing-title"') == 1
        assert "20 places" in words(end)
    assert "-tray--drawing-title" not in full.html("jobs/vg-0020.html")
