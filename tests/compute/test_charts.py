"""Charts for the wall: complete, from the machine's own steps, and never faster than published."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.compute.charts import Chart, charts
from benchleaf.formulas.drill_sizes import SIZES
from benchleaf.formulas.threads import THREADS

Edited = Callable[..., dict[str, str]]
Hung = Callable[..., dict[str, Chart]]
MACHINE, STEEL, TOOL = (
    "machines/bench-drill.yml", "materials/mild-steel.yml", "tools/drill-8.yml",
)  # fmt: skip


@pytest.fixture
def hung(shop: Callable[..., Path]) -> Hung:
    """`hung({...})` is every chart of the small shop by its id, with these files instead."""

    def make(files: dict[str, str] | None = None) -> dict[str, Chart]:
        return {one.id: one for one in charts(pipeline.load(shop(files)).shop)}

    return make


@pytest.fixture
def bigger(base_shop: dict[str, str]) -> dict[str, str]:
    """Drills of 3, 8 and 12 mm, one of carbide; steel, a fast alloy, and one without a speed."""
    alloy = base_shop[STEEL].replace("id: mild-steel", "id: alloy").replace("Mild steel", "Alloy")
    silent = (
        base_shop[STEEL].replace("id: mild-steel", "id: silent").replace("Mild steel", "Silent")
    )
    made = {
        "materials/alloy.yml": alloy.replace("80 to 110 ft/min", "60 to 100 m/min"),
        "materials/silent.yml": silent.replace("operation: drilling", "operation: tapping"),
    }
    for size, material in (("3", "hss"), ("12", "hss"), ("5", "carbide")):
        made[f"tools/drill-{size}.yml"] = (
            base_shop[TOOL]
            .replace("drill-8", f"drill-{size}")
            .replace("size: 8 mm", f"size: {size} mm")
            .replace("tool_material: hss", f"tool_material: {material}")
        )
    return made


def test_every_chart_names_its_source_its_limits_and_how_to_read_it(hung: Hung) -> None:
    found = hung()
    assert list(found) == [
        "speeds-bench-drill",
        "tap-drills",
        "drill-sizes",
        "clearance-holes",
        "fits",
    ]
    for chart in found.values():
        for part in (chart.title, chart.how_to_read, chart.source, chart.limits):
            assert part.strip(), chart.id


def test_every_row_is_as_wide_as_the_heading_and_every_cell_is_filled(
    hung: Hung, bigger: dict[str, str]
) -> None:
    for chart in hung(bigger).values():
        assert chart.rows, chart.id
        for row in chart.rows:
            assert len(row) == len(chart.header), (chart.id, row)
            assert all(cell.strip() for cell in row), (chart.id, row)
            assert not any(re.search(r"\bnan|\binf|None", cell) for cell in row), (chart.id, row)
        first = [row[0] for row in chart.rows]
        assert len(set(first)) == len(first), chart.id


def test_speeds_by_hand(hung: Hung, bigger: dict[str, str]) -> None:
    chart = hung(bigger)["speeds-bench-drill"]
    assert chart.header == ("Drill", "Alloy", "Mild steel")
    # 1000 v / (pi d), of 400, 650, 1000, 1500: steel 24.384 to 33.528 m/min, alloy 60 to 100
    assert chart.rows == (
        ("3 mm", "1500", "1500"),  # alloy from 6366, steel from 2587: the fastest there is
        ("8 mm", "1500", "1000"),  # alloy from 2387; steel 970 to 1334
        ("12 mm", "1500", "650"),  # alloy from 1592; steel 647 to 889
    )


def test_a_speed_is_a_step_of_the_machine_and_never_above_the_range(
    hung: Hung, bigger: dict[str, str]
) -> None:
    chart = hung(bigger)["speeds-bench-drill"]
    fastest = {"Alloy": 100.0, "Mild steel": 33.528}
    for drill, *cells in chart.rows:
        diameter = float(drill.split()[0])
        for material, cell in zip(chart.header[1:], cells, strict=True):
            assert cell in ("400", "650", "1000", "1500")
            assert math.pi * diameter * float(cell) / 1000 <= fastest[material]


def test_where_the_slowest_step_is_too_fast_the_chart_says_do_not(
    hung: Hung, edited: Edited
) -> None:
    # 8 mm in steel may turn at 1334 rpm at most
    only = "  - 400 rpm\n  - 650 rpm\n  - 1000 rpm\n"
    assert hung(edited(MACHINE, only, ""))["speeds-bench-drill"].rows == (("8 mm", "do not"),)


def test_a_drill_that_the_machine_is_not_rated_for_is_given_no_speed(
    hung: Hung, edited: Edited
) -> None:
    """The set-up of that drill says S508, do not run; the chart beside the machine must agree."""
    chart = hung(edited(MACHINE, "drill_capacity: 13 mm", "drill_capacity: 6 mm")).get(
        "speeds-bench-drill"
    )
    assert chart is None or all(row[1] == "do not" for row in chart.rows if row[0] == "8 mm")


@pytest.mark.parametrize(
    ("name", "old"),
    [
        (MACHINE, "chuck: 1 to 13 mm\n"),
        (MACHINE, "spindle_speeds:\n  - 400 rpm\n  - 650 rpm\n  - 1000 rpm\n  - 1500 rpm\n"),
        (TOOL, "tool_material: hss\n"),
        (TOOL, "size: 8 mm\n"),
    ],
)
def test_a_chart_that_would_be_empty_is_not_hung(
    hung: Hung, edited: Edited, name: str, old: str
) -> None:
    assert "speeds-bench-drill" not in hung(edited(name, old, ""))


def test_the_shops_own_source_stands_under_its_speeds(hung: Hung) -> None:
    assert "US Navy NAVEDTRA 14345, p. 93" in hung()["speeds-bench-drill"].source


def test_tap_drills_hold_every_thread(hung: Hung) -> None:
    plain = (
        tuple(cell.replace("\u00a0", " ") for cell in row) for row in hung()["tap-drills"].rows
    )
    rows = {row[0]: row[1:] for row in plain}
    assert list(rows) == [one.name for one in THREADS.values()]
    # M8 with 6.8 mm: 100 x 1.2 / (1.299 x 1.25) = 74 %; minor diameter 6H by ISO 965
    assert rows["M8x1.25"] == ("6.8 (74 %)", "6.8 (74 %)", "6.647 to 6.912")
    # M12 with 10.3 and 10.2 mm: 100 x 1.7 and 1.8 / (1.299 x 1.75) = 75 and 79 %
    assert rows["M12x1.75"][:2] == ("10.3 (75 %)", "10.2 (79 %)")
    assert rows["M20x1"][1] == "–"
    # 37/64 in is 0.5781 in, above the 0.578 in of class 2B
    assert rows["5/8-18 UNF"][1] == "37/64, 14.68 (65 %) ↑"
    assert rows["M10x1.5"][0] == "8.5 (77 %)"
    # 1/4-20 UNC: number 7, 0.2010 in = 5.11 mm
    assert rows["1/4-20 UNC"][:2] == ("#7, 5.11 (75 %)", "#7, 5.11 (75 %)")


def test_drill_sizes_hold_every_size_from_the_smallest(hung: Hung) -> None:
    rows = hung()["drill-sizes"].rows
    assert {row[0] for row in rows} == set(SIZES)
    sizes = [float(row[1]) for row in rows]
    assert sizes == sorted(sizes)
    by_name = {row[0]: row[1:] for row in rows}
    assert by_name["#7"] == ("5.105", "0.2010")
    assert by_name["1/2"] == ("12.700", "0.5000")


def test_clearance_holes_hold_every_coarse_metric_screw(hung: Hung) -> None:
    rows = {row[0]: row[1:] for row in hung()["clearance-holes"].rows}
    coarse = [one for one in THREADS.values() if (one.system, one.series) == ("metric", "coarse")]
    assert len(rows) == len(coarse)
    assert rows["M6"] == ("6.4", "6.6", "7")  # ISO 273
    assert rows["M12"] == ("13", "13.5", "14.5")
    assert rows["M16"] == ("17", "17.5", "18.5")


def test_fits_by_hand(hung: Hung) -> None:
    chart = hung()["fits"]
    rows = {row[0]: dict(zip(chart.header[1:], row[1:], strict=True)) for row in chart.rows}
    assert rows["10"]["H7"] == "10.000 to 10.015"
    assert rows["20"]["g6"] == "19.980 to 19.993"  # -7 and -20 um
    assert rows["25"]["H7"] == "25.000 to 25.021"  # tests/worked/fits_worked.csv
