"""Symbols of records: each outline is there and sound; each record finds its own."""

from __future__ import annotations

import re
from pathlib import Path
from xml.etree import ElementTree

import pytest

from benchleaf import pipeline
from benchleaf.drawings.outlines import OUTLINES
from benchleaf.drawings.record_symbols import drawn, looks_of, symbol_as
from benchleaf.model import Looks, Shop

WANTED = {
    "machines": {"pillar-drill": Looks.PILLAR_DRILL, "bench-grinder": Looks.BENCH_GRINDER},
    "tools": {
        "drill-8-5": Looks.TWIST_DRILL,
        "drill-vice": Looks.VICE,
        "bench-vice": Looks.BENCH_VICE,
        "parallels": Looks.PARALLELS,
        "gap-gauge": Looks.STEP_GAUGE,
        "thread-gauge-m8": Looks.THREAD_GAUGE,
        "plug-gauge-8-5": Looks.PLUG_GAUGE,
        "tap-guide": Looks.TAP_GUIDE,
        "floating-holder": Looks.TOOL_HOLDER,
        "pin-holder": Looks.WORK_HOLDER,
        "countersink-16": Looks.COUNTERSINK,
        "wheel-dresser": Looks.WHEEL_DRESSER,
    },
    "materials": {"mild-steel": Looks.STEEL, "grey-cast-iron": Looks.CAST_IRON},
    "parts": {
        "trw-204": Looks.PLATE,
        "trw-310": Looks.ROUND_BAR,
        "trw-430": Looks.PLATE,
        "trw-440": Looks.CASTING,
        "trw-520": Looks.BLOCK,
    },
}


@pytest.fixture(scope="module")
def demo() -> Shop:
    return pipeline.load(Path(__file__).parents[2] / "content").shop


def test_every_outline_is_drawn_and_no_two_are_alike() -> None:
    assert set(OUTLINES) == set(Looks)
    assert len(set(OUTLINES.values())) == len(Looks)


@pytest.mark.parametrize("looks", Looks, ids=str)
def test_an_outline_is_sound_wordless_small_and_without_a_colour_of_its_own(looks: Looks) -> None:
    svg = symbol_as(looks)
    tree = ElementTree.fromstring(svg)
    assert not [one for one in tree.iter() if one.tag == "text"]
    assert len(svg) < 900
    assert not re.search(r"#[0-9a-f]{3}|rgb", svg)
    for data in re.findall(r' d="([^"]+)"', svg):
        for x, y in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", data):
            assert 2 <= min(float(x), float(y)) <= max(float(x), float(y)) <= 94


def test_records_of_the_demo_find_their_own(demo: Shop) -> None:
    for kind, wanted in WANTED.items():
        records = getattr(demo, kind)
        assert {one: looks_of(records[one]) for one in wanted} == wanted
        assert Looks.OTHER_TOOL not in {looks_of(one) for one in records.values()}


def test_what_a_record_says_itself_comes_first(demo: Shop) -> None:
    tool = next(iter(demo.tools.values())).model_copy(update={"drawn_as": Looks.LATHE})
    assert looks_of(tool) is Looks.LATHE


def test_it_is_read_aloud_only_where_no_name_stands_beside_it(demo: Shop) -> None:
    drill = demo.machines["pillar-drill"]
    assert 'aria-hidden="true"' in drawn(drill)
    assert 'role="img" aria-label="pillar drill: Pillar drill"' in drawn(drill, True)
