"""The drawings of a set-up: sound SVG, every letter in the frame, to scale, the rows' figures."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from planned import Planned, elements

from benchleaf import pipeline
from benchleaf.compute import SetUpSheet, set_up_sheets
from benchleaf.drawings.drawing import LETTER, WIDTH, Drawing, text_width
from benchleaf.drawings.figure_feel import WORDS, feel_figure
from benchleaf.drawings.figure_hole import hole_figure
from benchleaf.drawings.figure_speeds import speed_figure
from benchleaf.drawings.set_up_drawings import figures
from benchleaf.model import DrillingSetUp
from worked_out import drilled, known

Edited = Callable[..., dict[str, str]]
Drawn = Callable[[str], tuple[SetUpSheet, DrillingSetUp]]
JOB, MACHINE, TOOL = "jobs/vg-0010.yml", "machines/bench-drill.yml", "tools/drill-8.yml"
FLAT = "    thickness: 6 mm\n"
SIZES = "    hole: through\n    thickness: 6 mm\n    feed: 0.15 mm/rev\n"
STRONG = (
    "drill_capacity: 13 mm", "drill_capacity: 80 mm", "rated_thrust: 4 kN", "rated_thrust: 90 kN",
    "motor_power: 1.5 kW", "motor_power: 50 kW", "  - 400 rpm", "  - 60 rpm\n  - 400 rpm",
    "quill_travel: 60 mm", "quill_travel: 500 mm",
    "lever:\n  radius: 350 mm\n  pinion_radius: 10 mm\n  efficiency: 0.9\n"
    "  source: entered for the tests, not measured\n", "",
)  # fmt: skip
"""A machine that nothing is too large for, with the feed not by hand."""


def size(millimetres: str, feed: str, then: str) -> Callable[[Edited], dict[str, str]]:
    def files(edited: Edited) -> dict[str, str]:
        return (
            edited(TOOL, "size: 8 mm", f"size: {millimetres} mm")
            | edited(JOB, SIZES, f"    hole: through\n    feed: {feed} mm/rev\n{then}",
                     "force: 20 kN", "force: 200 kN", "arm: 40 mm", "arm: 1 m")
            | edited(MACHINE, *STRONG)
        )  # fmt: skip

    return files


def work(then: str) -> Callable[[Edited], dict[str, str]]:
    return lambda edited: edited(JOB, FLAT, then)


TUBE = "    work: round tube\n    work_diameter: 30 mm\n    wall: 3 mm\n    walls: {}\n"
CASES: dict[str, Callable[[Edited], dict[str, str]]] = {
    "flat through": lambda edited: {},
    "flat blind": lambda edited: edited(
        JOB, "hole: through\n    thickness: 6 mm",
        "hole: blind\n    depth: 10 mm\n    thickness: 20 mm", "    overtravel: 1 mm\n", "",
    ),
    "sheet thinner than the point": work("    thickness: 1 mm\n"),
    "bar": work("    work: round bar\n    work_diameter: 20 mm\n"),
    "bar blind": lambda edited: edited(
        JOB, SIZES, "    hole: blind\n    depth: 7 mm\n    work: round bar\n"
        "    work_diameter: 20 mm\n    feed: 0.15 mm/rev\n", "    overtravel: 1 mm\n", "",
    ),
    "tube, one wall": work(TUBE.format("one")),
    "tube, both walls": work(TUBE.format("both")),
    "tiny drill": size("1.6", "0.02", "    thickness: 3 mm\n"),
    "huge drill": size("70", "0.5", "    thickness: 40 mm\n"),
    "huge drill in a bar": size("50", "0.4", "    work: round bar\n    work_diameter: 300 mm\n"),
    "tiny drill in a tube": size(
        "2", "0.03", "    work: round tube\n    work_diameter: 100 mm\n    wall: 1 mm\n"
        "    walls: both\n",
    ),
}  # fmt: skip
ALL = pytest.mark.parametrize("case", CASES)


@pytest.fixture
def drawn(shop: Callable[..., Path], edited: Edited) -> Drawn:
    """`drawn("bar")` is the computed set-up of that case, which may run."""

    def reckon(case: str) -> tuple[SetUpSheet, DrillingSetUp]:
        loaded = pipeline.load(shop(CASES[case](edited)))
        job = loaded.shop.jobs["vg-0010"]
        (sheet,) = set_up_sheets(loaded.shop, job)
        (set_up,) = job.set_ups
        assert sheet.stops == (), sheet.stops
        assert isinstance(set_up, DrillingSetUp)
        return sheet, set_up

    return reckon


def svgs(sheet: SetUpSheet, set_up: DrillingSetUp) -> list[ElementTree.Element]:
    return [ElementTree.fromstring(str(one)) for one in figures(sheet, set_up)]


def frame(svg: ElementTree.Element) -> tuple[float, float]:
    left, top, width, height = (float(number) for number in svg.attrib["viewBox"].split())
    assert (left, top, width) == (0, 0, WIDTH)
    return width, height


def texts(svg: ElementTree.Element) -> list[str]:
    return [one.text or "" for one in svg.iter("text")]


@ALL
def test_every_drawing_that_the_results_allow_is_there(drawn: Drawn, case: str) -> None:
    sheet, set_up = drawn(case)
    names = [
        svg.attrib["aria-labelledby"].split("--drawing-title")[0] for svg in svgs(sheet, set_up)
    ]
    wanted = ["hole", "feel", "speeds"] if sheet.feel else ["hole", "speeds"]
    assert names == [f"guide-hole-{name}" for name in wanted]
    assert (sheet.feel is None) == ("blind" in case)


@ALL
def test_a_drawing_is_an_image_with_a_name_and_a_description(drawn: Drawn, case: str) -> None:
    for svg in svgs(*drawn(case)):
        assert svg.attrib["role"] == "img"
        title, desc = svg.find("title"), svg.find("desc")
        assert title is not None
        assert desc is not None
        assert svg.attrib["aria-labelledby"] == f"{title.attrib['id']} {desc.attrib['id']}"
        assert (title.text or "").strip()
        assert (desc.text or "").strip()


@ALL
def test_every_id_stands_once_and_every_pattern_used_is_there(drawn: Drawn, case: str) -> None:
    made = "".join(str(one) for one in figures(*drawn(case)))
    ids = re.findall(r'\bid="([^"]+)"', made)
    assert len(set(ids)) == len(ids)
    assert set(re.findall(r"url\(#([^)]+)\)", made)) <= set(ids)


@ALL
def test_every_word_lies_inside_the_frame(drawn: Drawn, case: str) -> None:
    for svg in svgs(*drawn(case)):
        width, height = frame(svg)
        for one in svg.iter("text"):
            letters, x, y = one.text or "", float(one.attrib["x"]), float(one.attrib["y"])
            tall = float(one.attrib["font-size"])
            wide = text_width(letters, tall)
            left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[one.attrib["text-anchor"]]
            assert left >= 0, letters
            assert left + wide <= width, letters
            assert tall * 0.8 <= y <= height - tall * 0.2, letters


@ALL
def test_no_line_leaves_the_frame_and_no_figure_is_no_number(drawn: Drawn, case: str) -> None:
    for svg in svgs(*drawn(case)):
        width, height = frame(svg)
        assert not re.search(
            r"nan|inf", ElementTree.tostring(svg, encoding="unicode"), re.IGNORECASE
        )
        for path in shapes(svg):
            numbers = [float(number) for number in re.findall(r"-?\d+(?:\.\d+)?", path.attrib["d"])]
            assert all(math.isfinite(number) for number in numbers)
            assert all(-1 <= x <= width + 1 for x in numbers[::2]), path.attrib["d"]
            assert all(-1 <= y <= height + 1 for y in numbers[1::2]), path.attrib["d"]


def shapes(svg: ElementTree.Element) -> list[ElementTree.Element]:
    """The lines and areas, without the pattern of the hatching."""
    return list(svg.findall("g[@class='bl-drawing__shapes']/path"))


def points(path: ElementTree.Element) -> list[tuple[float, float]]:
    numbers = [float(number) for number in re.findall(r"-?\d+(?:\.\d+)?", path.attrib["d"])]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


@ALL
def test_the_drill_and_its_stop_are_drawn_to_one_scale(drawn: Drawn, case: str) -> None:
    sheet, set_up = drawn(case)
    svg = ElementTree.fromstring(str(hole_figure(sheet, set_up)))
    (drill,) = [one for one in shapes(svg) if "--bl-tint" in one.attrib.get("fill", "")]
    (left, _), (_, corner), (middle, tip), (right, _), _ = points(drill)
    (arrow,) = [points(one) for one in shapes(svg) if {x for x, _ in points(one)} == {40.0}]
    touch = min(y for _, y in arrow)
    diameter, stop, point = (
        known(getattr(drilled(sheet), name)) for name in ("drill_mm", "stop", "point")
    )
    scale = (tip - touch) / stop
    assert right - left == pytest.approx(diameter * scale, abs=1)
    assert tip - corner == pytest.approx(point * scale, abs=1)
    assert middle == pytest.approx((left + right) / 2, abs=0.1)
    assert scale > 0


@pytest.mark.parametrize(("case", "thick"), [("flat through", 6.0), ("flat blind", 20.0)])
def test_flat_work_is_drawn_to_the_same_scale(drawn: Drawn, case: str, thick: float) -> None:
    sheet, set_up = drawn(case)
    svg = ElementTree.fromstring(str(hole_figure(sheet, set_up)))
    (drill,) = [one for one in shapes(svg) if "--bl-tint" in one.attrib.get("fill", "")]
    scale = (points(drill)[3][0] - points(drill)[0][0]) / 8
    blocks = [points(one) for one in shapes(svg) if "hatch" in one.attrib.get("fill", "")]
    beside = [block for block in blocks if len(block) == 4]
    assert len(beside) == 2
    for block in beside:
        assert max(y for _, y in block) - min(y for _, y in block) == pytest.approx(
            thick * scale, abs=1
        )
    assert len(blocks) == (3 if case == "flat blind" else 2)


def test_the_far_wall_that_must_stay_is_drawn(drawn: Drawn) -> None:
    one, both = (
        str(hole_figure(*drawn(f"tube, {walls}"))).count("#guide-hole-hole--drawing-hatch")
        for walls in ("one wall", "both walls")
    )
    assert (one, both) == (3, 2)


@ALL
def test_the_figures_in_the_section_are_those_of_the_rows(drawn: Drawn, case: str) -> None:
    sheet, set_up = drawn(case)
    svg = ElementTree.fromstring(str(hole_figure(sheet, set_up)))
    for key, words in (("depth_stop", "stop {} from first touch"), ("point_length", "point {}")):
        row = sheet.row(key)
        assert row is not None
        assert row.figure is not None
        assert words.format(row.figure.text) in texts(svg)
    desc = svg.find("desc")
    assert desc is not None
    assert f"{known(drilled(sheet).stop):.1f} mm" in (desc.text or "")


@ALL
def test_the_chosen_speed_is_that_of_the_row(drawn: Drawn, case: str) -> None:
    sheet, _ = drawn(case)
    row = sheet.row("spindle_speed")
    assert row is not None
    assert row.figure is not None
    svg = ElementTree.fromstring(str(speed_figure(sheet)))
    assert f"set {row.figure.text}" in texts(svg)
    solid = [one for one in shapes(svg) if one.attrib.get("fill") == "currentColor"]
    assert len(solid) == 1
    bars = [one for one in shapes(svg) if len(points(one)) == 4]
    assert len(bars) == len(sheet.speed_steps)


def test_a_faster_step_is_a_taller_bar(drawn: Drawn) -> None:
    sheet, _ = drawn("flat through")
    svg = ElementTree.fromstring(str(speed_figure(sheet)))
    tops = [min(y for _, y in points(one)) for one in shapes(svg) if len(points(one)) == 4]
    assert tops == sorted(tops, reverse=True)
    assert len(set(tops)) == len(tops)


def test_a_machine_of_one_speed_has_one_bar(shop: Callable[..., Path], edited: Edited) -> None:
    files = edited(MACHINE, "  - 400 rpm\n  - 650 rpm\n", "", "  - 1500 rpm\n", "")
    loaded = pipeline.load(shop(files))
    (sheet,) = set_up_sheets(loaded.shop, loaded.shop.jobs["vg-0010"])
    svg = ElementTree.fromstring(str(speed_figure(sheet)))
    assert "set 1000 rpm" in texts(svg)


@pytest.mark.parametrize("case", ["flat through", "bar"])
def test_the_curve_rises_to_the_pull_that_the_row_shows(drawn: Drawn, case: str) -> None:
    sheet, _ = drawn(case)
    assert sheet.feel is not None
    peak = max(pull for _, pull in sheet.feel.points)
    # statics: thrust x 10 mm / (350 mm x 0.9)
    assert peak == pytest.approx(known(drilled(sheet).thrust) * 10 / (350 * 0.9), rel=1e-6)
    assert peak == pytest.approx(known(drilled(sheet).lever_force), rel=1e-6)
    assert sheet.feel.upward == "pull at the lever, N"


def test_without_a_lever_the_curve_is_thrust_over_travel(
    shop: Callable[..., Path], edited: Edited
) -> None:
    loaded = pipeline.load(shop(edited(MACHINE, *STRONG)))
    (sheet,) = set_up_sheets(loaded.shop, loaded.shop.jobs["vg-0010"])
    assert sheet.feel is not None
    assert (sheet.feel.along, sheet.feel.upward) == ("mm of travel", "thrust, N")
    assert max(thrust for _, thrust in sheet.feel.points) == pytest.approx(
        known(drilled(sheet).thrust)
    )
    # the lips have left 6 mm of plate at 6 + 2.403 mm
    end = next(zone.end for zone in sheet.feel.zones if zone.key == "leaving")
    assert end == pytest.approx(8.403, abs=0.001)


@pytest.mark.parametrize("case", [case for case in CASES if "blind" not in case])
def test_the_drawn_curve_is_the_curve(drawn: Drawn, case: str) -> None:
    """Its highest point stands at the greatest pull on the scale that is printed beside it."""
    sheet, _ = drawn(case)
    assert sheet.feel is not None
    svg = ElementTree.fromstring(str(feel_figure(sheet)))
    curve = max((points(one) for one in shapes(svg)), key=len)
    assert len(curve) == len(sheet.feel.points)
    marks = {
        float(one.text or ""): float(one.attrib["y"]) - LETTER / 3
        for one in svg.iter("text")
        if one.attrib["text-anchor"] == "end" and re.fullmatch(r"[\d.e+]+", one.text or "")
    }
    assert 1 <= len(marks) <= 5
    value, height = max(marks.items())
    peak = max(pull for _, pull in sheet.feel.points)
    floor = max(y for _, y in curve)
    assert floor - min(y for _, y in curve) == pytest.approx(peak / value * (floor - height), abs=1)
    last = max(swing for swing, _ in sheet.feel.points)
    assert f"{last:.0f} {sheet.feel.along}" in texts(svg)


@pytest.mark.parametrize("case", [case for case in CASES if "blind" not in case])
def test_every_zone_is_numbered_and_said_in_words(drawn: Drawn, case: str) -> None:
    sheet, _ = drawn(case)
    assert sheet.feel is not None
    svg = ElementTree.fromstring(str(feel_figure(sheet)))
    zones = [one for one in sheet.feel.zones if one.end > one.start and one.key != "clear"]
    lines = [text for text in texts(svg) if re.match(r"\d+  ", text)]
    assert [line.split()[0] for line in lines] == [f"{n}" for n, _ in enumerate(zones, 1)]
    for line, zone in zip(lines, zones, strict=True):
        far = "far wall: " if zone.wall == 2 else ""
        words = WORDS[zone.key]
        if far:
            words = words.replace("coming through: ", "").replace("the lips come", "lips come")
        assert line.split("  ", 1)[1] == f"{far}{words}"


def test_ids_are_unique_on_a_page_with_two_set_ups(
    site: Callable[..., Planned], base_shop: dict[str, str], edited: Edited
) -> None:
    text = base_shop[JOB]
    first = text[text.index("  - operation: drilling") : text.index("steps:\n")]
    second = first.replace("id: guide-hole", "id: second-hole").replace("Guide hole", "Second hole")
    one = site(edited(JOB, first, first + second))
    html = one.html("jobs/vg-0010.html")
    assert html.count('class="bl-drawing"') == 6
    ids = [each.attributes["id"] for each in elements(html) if "id" in each.attributes]
    assert sorted(set(ids)) == sorted(ids)


@pytest.mark.parametrize(
    ("name", "old", "new", "left"),
    [
        (TOOL, "point_angle: 118 deg\n", "", ["speeds"]),
        # without it nobody knows what break-through asks of the holding
        ("materials/mild-steel.yml", "  kd_thrust: 24000\n", "", []),
        (TOOL, "tool_material: hss\n", "", ["hole", "feel"]),
        (MACHINE, "quill_travel: 60 mm", "quill_travel: 5 mm", []),
    ],
)
def test_what_is_not_known_is_not_drawn(
    shop: Callable[..., Path], edited: Edited, name: str, old: str, new: str, left: list[str]
) -> None:
    loaded = pipeline.load(shop(edited(name, old, new)))
    job = loaded.shop.jobs["vg-0010"]
    (sheet,) = set_up_sheets(loaded.shop, job)
    found = [
        re.findall(r'id="guide-hole-(\w+)--drawing-title"', str(one))
        for one in figures(sheet, job.set_ups[0])
    ]
    assert found == [[one] for one in left]


@given(
    st.text(min_size=1, max_size=40), st.floats(-100, 900), st.floats(-100, 900),
    st.sampled_from(["start", "middle", "end"]),
)  # fmt: skip
def test_words_are_moved_into_the_frame_and_never_taken_for_markup(
    words: str, x: float, y: float, anchor: str
) -> None:
    printable = "".join(sign for sign in words if sign.isprintable()) or "x"
    drawing = Drawing("n", "<title>", "a & b", 400)
    drawing.text(x, y, printable, anchor=anchor)
    svg = ElementTree.fromstring(str(drawing.svg()))
    (one,) = svg.iter("text")
    assert one.text == printable
    wide = text_width(printable)
    left = float(one.attrib["x"]) - {"start": 0.0, "middle": wide / 2, "end": wide}[anchor]
    assert left >= 3.9 - 0.1
    assert left + wide <= WIDTH - 4 + 0.1
    assert 0 < float(one.attrib["y"]) < 400
