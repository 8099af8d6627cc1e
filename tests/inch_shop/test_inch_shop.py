"""A drill press shop that reads inches: each page and chart has them first, and no limit moves."""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.commands.first_files import First, first_files
from benchleaf.commands.reckon import reckon_job, reckon_operation
from benchleaf.commands.shop_units import in_units, units_here
from benchleaf.commands.sides import side_of
from benchleaf.commands.skeleton import skeleton
from benchleaf.compute import set_up_sheets
from benchleaf.diff import compare
from benchleaf.meaning import statements
from benchleaf.model import KINDS, Units, class_of, units_at
from benchleaf.pipeline import Loaded, SitePlan
from running import some

HERE = Path(__file__).parent / "content"
METRIC = r"(?:mm(?:/rev|/min)?|µm|m/min|N(?: m)?|kN|kW|kgf?)"
SECOND = re.compile(rf"\d {METRIC}(?![\w/])")
INCHES = re.compile(r"\d (?:in(?:/rev|/min)?|ft/min|lbf(?: in)?|hp|lb)(?![\w/])")
Edit = Callable[..., Path]


@pytest.fixture
def content(tmp_path: Path) -> Edit:
    """`content({"manual.yml": ("units: inch", "units: metric")})` is that shop, so changed."""

    def copy(edits: dict[str, tuple[str, str]], name: str = "shop") -> Path:
        folder = tmp_path / name / "content"
        shutil.copytree(HERE, folder)
        for file, (old, new) in edits.items():
            text = (folder / file).read_text(encoding="utf-8")
            assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {file}"
            (folder / file).write_text(text.replace(old, new), encoding="utf-8")
        return folder

    return copy


TO_METRIC = {"manual.yml": ("units: inch", "units: metric")}


@cache
def inch() -> Loaded:
    return pipeline.load(HERE)


@cache
def pages() -> SitePlan:
    return pipeline.plan_site(inch(), edition="full")


def html(address: str, plan: SitePlan | None = None) -> str:
    found = (plan or pages()).pages
    return next(one for one in found if one.address == address).render().html


def lines(page: str) -> Iterator[str]:
    """What a reader sees, a line an element; without the working, which says its own units."""
    page = re.sub(r"<div><dt>(?:Formula|With numbers)</dt>.*?</div>", "", page, flags=re.S)
    ends = r"</?(?:p|li|div|tr|t[dh]|d[dt]|h\d|text|title|desc|summary|section)\b"
    for part in re.split(ends, page):
        words = " ".join(re.sub(r"<[^>]*>|^[^<>]*>", " ", part).split())
        if words:
            yield words


def test_the_shop_is_sound() -> None:
    assert [one for one in inch().findings if one.code not in ("A602",)] == []


# No limit, no meaning and no verdict hangs on the order of units


def test_the_order_of_units_moves_no_meaning(content: Edit) -> None:
    metric = pipeline.load(content(TO_METRIC))
    assert metric.fingerprints == inch().fingerprints
    for job_id, job in inch().shop.jobs.items():
        both = [
            [(one.subject, one.value, one.numbers) for one in statements(shop, shop.jobs[job.id],
             set_up_sheets(shop, shop.jobs[job.id]))]
            for shop in (inch().shop, metric.shop)
        ]  # fmt: skip
        assert both[0] == both[1], job_id


def test_the_order_of_units_changes_no_finding(content: Edit) -> None:
    """A shop with something wrong: the same codes at the same places, told in other units."""
    wrong = {
        "machines/bench-drill.yml": ("rated_thrust: 900 lbf", "rated_thrust: 400 lbf"),
        "jobs/sc-0010.yml": ("    depth: 0.66 in", "    depth: 0.56 in"),
    }
    found = [
        pipeline.load(content({**wrong, **units}, name)).findings
        for name, units in (("inch", {}), ("metric", TO_METRIC))
    ]
    placed = [[(one.code, one.severity, one.place) for one in each] for each in found]
    assert placed[0] == placed[1]
    assert {"S503", "V542"} & {one.code for one in found[0]} == {"S503", "V542"}
    for one in some(one for one in found[0] if one.code in ("S503", "V542")):
        assert INCHES.search(one.text), one.text
        assert not SECOND.search(one.text), one.text
    assert any(SECOND.search(one.text) for one in found[1])


def test_a_comparison_of_the_two_orders_finds_nothing_to_teach(content: Edit) -> None:
    was, now = (side_of(one) for one in (pipeline.load(content(TO_METRIC)), inch()))
    compared = compare(was, now)
    assert not compared.lessons
    assert {one.consequence.name for one in compared.jobs} <= {"NOTHING"}


def test_a_comparison_tells_what_moved_in_inches(content: Edit) -> None:
    """The sentence that shows the depth stop, and the row itself."""
    changed = {"jobs/sc-0010.yml": ("overtravel: 0.04 in", "overtravel: 0.08 in")}
    compared = compare(side_of(inch()), side_of(pipeline.load(content(changed))))
    told = " ".join(f"{one.was} -> {one.now}" for one in compared.lessons["sc-0010"])
    assert "0.492 in -> 0.532 in" in told
    assert "Set the stop to 0.532 in" in told
    assert not SECOND.search(told), told
    texts = [f"{one.before} -> {one.after}" for one in compared.changes if one.before]
    assert any("stop to 0.492 in, and" in one and "stop to 0.532 in, and" in one for one in texts)
    assert not [one for one in texts if SECOND.search(one)]
    effects = [one for change in compared.changes for one in change.effects]
    assert "0.492 in -> 0.532 in" in [f"{one.before} -> {one.after}" for one in effects]


# What is read


@pytest.mark.parametrize("job_id", ["sc-0010", "sc-0020"])
def test_every_row_has_inches_first_and_metric_second(job_id: str) -> None:
    shop = inch().shop
    rows = [
        (canonical, read)
        for sheet in set_up_sheets(shop, shop.jobs[job_id])
        for canonical, read in zip(sheet.rows, sheet.as_read.rows, strict=True)
        if read.figure is not None
    ]
    for canonical, read in some(rows):
        assert canonical.figure is not None
        assert read.figure is not None
        if INCHES.search(read.figure.text):
            assert read.other is not None
            told = SECOND.search(read.other.text) or "lever" in read.other.text
            assert told or "threads an inch" in read.other.text, read
        else:
            assert read.figure == canonical.figure
        assert not SECOND.search(read.figure.text), read
        assert read.value == canonical.value


@pytest.mark.parametrize(
    "address",
    ["jobs/sc-0010.html", "jobs/sc-0020.html", "trainer/sc-0010-set-up.html",
     "trainer/sc-0010-card.html", "trainer/sc-0010-get-ready.html", "trainer/sc-0020-set-up.html",
     "engineer.html"],
)  # fmt: skip
def test_no_line_of_a_page_has_millimetres_or_newtons_first(address: str) -> None:
    """The second unit stands beneath, in brackets, or in a cell of its own."""
    before = ""
    for line in some(lines(html(address))):
        bare = re.sub(r"\([^()]*\)", "", line)
        second, own = SECOND.search(bare), INCHES.search(bare)
        if second and not (own and own.start() < second.start()):
            assert INCHES.search(before), f"{before!r}, then {line!r}"
        before = line if INCHES.search(line) else before if second else line


def test_no_mark_is_left_on_any_page() -> None:
    for page in some(pages().pages):
        assert not re.search("[\ue000-\ue002]", page.render().html), page.address


def test_a_job_page_is_dimensioned_in_inches() -> None:
    page = html("jobs/sc-0010.html")
    drawn = re.findall(r"<text[^>]*>([^<]*)</text>", page)
    for words in ("stop 0.492 in from first touch", "drill 0.257 in", "pull at the lever, lbf"):
        assert words in drawn
    assert not [one for one in drawn if SECOND.search(one)]
    assert "0.257 +0.004/-0 in" in page
    assert "good from 0.257 to 0.261 in" in page
    assert "Set the stop to 0.492 in" in page
    assert page.count("Inches come first on this page.") == 1
    assert "It resists 850 lbf in. Wanted are 85 lbf in" in page


def test_the_self_check_asks_in_inches() -> None:
    page = html("jobs/sc-0010.html")
    for depth in ("0.415 in", "0.492 in", "0.569 in"):
        assert f">{depth}</p>" in page
    assert "= 12.5 mm, which is 0.492 in" in page
    assert re.search(r"Too fast: \d+ ft/min at the edge, and \d+ ft/min is the most", page)


def test_gauges_are_told_to_the_inside_in_both_units() -> None:
    page = html("trainer/sc-0010-set-up.html")
    assert "0.257 to 0.261 in<br>6.528 to 6.629 mm" in page
    assert "GO 0.257 in (6.528 mm)" in page
    assert "NO-GO 0.261 in (6.629 mm)" in page


def test_charts_hang_in_inches() -> None:
    speeds, taps = html("charts/speeds-bench-drill.html"), html("charts/tap-drills.html")
    assert '<th scope="row">#7</th>' in speeds
    assert "F, 0.2570" in taps
    assert taps.index("1/4-20 UNC") < taps.index("M8x1.25")
    assert "#7, 0.2010 (75" in taps
    assert "0.1960 to 0.2070" in taps
    assert "6.8 mm, 0.2677" in taps  # a metric drill keeps its unit
    fits = html("charts/fits.html")
    assert '<th scope="row">1/2</th><td>0.5000 to 0.5007</td>' in fits


def test_sizes_entered_in_metric_stand_second_on_every_page(content: Edit) -> None:
    folder = content(
        {
            "machines/bench-drill.yml": ("quill_travel: 2-1/2 in", "quill_travel: 63.5 mm"),
            "parts/hinge-block.yml": ("mass: 0.6 lb", "mass: 0.3 kg"),
            "tools/drill-f.yml": ("feed: 0.004 to 0.007 in/rev", "feed: 0.1 to 0.18 mm/rev"),
            "materials/mild-steel.yml": ("speed: 80 to 110 ft/min", "speed: 25 to 33 m/min"),
        }
    )
    plan = pipeline.plan_site(pipeline.load(folder))
    for address, words in (
        ("machines/bench-drill.html", "2.500 in (63.5 mm)"),
        ("parts/hinge-block.html", "0.66 lb (0.3 kg)"),
        ("jobs/sc-0010.html", "the machine has 2.500 in (63.5 mm)"),
        ("jobs/sc-0010.html", "as printed: 83 to 108 ft/min (25 to 33 m/min)"),
        ("tools/drill-f.html", "<dd>0.004 to 0.007 in/rev"),
        ("materials/mild-steel.html", "<dd>83 to 108 ft/min"),
    ):
        assert words in html(address, plan), words


def test_a_letter_is_a_shank_as_it_is_a_size() -> None:
    drill = inch().shop.tools["drill-f"]
    assert drill.shank == drill.size
    assert "<dd>F</dd>" in html("tools/drill-f.html")
    assert "0.257 in, 6.53 mm" in html("tools/drill-f.html")


def test_a_machine_may_have_other_dials_than_the_shop(content: Edit) -> None:
    folder = content(
        {
            **TO_METRIC,
            "machines/bench-drill.yml": ("limits_source:", "units: inch\nlimits_source:"),
        }
    )
    loaded = pipeline.load(folder)
    job = loaded.shop.jobs["sc-0010"]
    assert loaded.shop.manual.units is Units.METRIC
    assert units_at(loaded.shop, job) is Units.INCH
    assert loaded.fingerprints == inch().fingerprints
    plan = pipeline.plan_site(loaded, edition="full")
    page = html("jobs/sc-0010.html", plan)
    assert "Inches come first on this page, as on the dials of the machine." in page
    assert "stop 0.492 in from first touch" in page
    assert '<th scope="row">#7</th>' in html("charts/speeds-bench-drill.html", plan)
    assert "6.53 mm, 0.2570 in" in html("tools/drill-f.html", plan)


# Without a page


def test_reckon_takes_the_shops_units_or_those_asked_for() -> None:
    own, asked = reckon_job(HERE, "SC-0010"), reckon_job(HERE, "SC-0010", units=Units.METRIC)
    assert "Depth stop, from first touch: 0.492 in (12.5 mm)" in own.text
    assert "Depth stop, from first touch: 12.5 mm (0.492 in)" in asked.text
    given = {"diameter": "F", "feed": "0.005 in/rev", "speed": "1500 rpm"}
    inches = reckon_operation("drilling", given, units=Units.INCH).text
    assert "Cutting speed at that setting: 101 ft/min (30.8 m/min)" in inches
    assert "Feed a minute: 7.50 in/min (190.5 mm/min)" in inches
    metric = reckon_operation("drilling", given).text
    assert "Cutting speed at that setting: 30.8 m/min (101 ft/min)" in metric


@pytest.mark.parametrize("kind", [*KINDS, "manual"])
def test_a_new_record_shows_examples_in_inches(kind: str) -> None:
    text = skeleton(class_of(kind), "x-1")
    in_metric = SECOND.search(re.sub(r"needs? one of.*", "", in_units(text, "metric")))
    told = in_units(text, "inch")
    assert not SECOND.search(told), told
    assert bool(in_metric) == bool(INCHES.search(told))
    keys = [re.findall(r"^[# ]*(\w+):", one, re.M) for one in (text, told)]
    assert keys[0] == keys[1]


def test_a_new_manual_says_its_units(content: Edit) -> None:
    first = First("Our shop", "inch", "letter", "Bench drill", "J-0010", "Drill a hole")
    assert "\nunits: inch\n" in first_files(first, "0.1.0")["content/manual.yml"]
    assert units_here(HERE) is Units.INCH
    assert units_here(content(TO_METRIC)) is Units.METRIC
    assert units_here(HERE / "jobs") is Units.METRIC  # no shop: nothing is asked


def test_figures_for_other_programs_are_the_same_in_either_order() -> None:
    both = [json.loads(reckon_job(HERE, "SC-0010", as_json=True, units=one).text) for one in Units]
    assert both[0] == both[1]
