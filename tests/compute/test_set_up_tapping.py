"""Tapping: the hole, depth, turns, speed and torque; by wrench and by machine, blind and through.

By hand, for M8 (major 8 mm, pitch 1.25 mm):

- 75 % of 1.299 P: 8 - 1.299 x 1.25 x 0.75 = 6.782, so 6.8 mm; that leaves 1.2 / 1.62375 = 74 %
- minor diameter 6H: 6.647 to 6.912 mm (ISO 965)
- torque: tan 30 x 3900 x 1.35 x (8 - 6.8)^2 x (8 + 13.6) / 24000
  = 0.57735 x 5265 x 1.44 x 21.6 / 24000 = 3.94 N m
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.compute import SetUpSheet, set_up_sheets
from benchleaf.diagnose import Finding
from worked_out import known

Edited = Callable[..., dict[str, str]]
Reckon = Callable[..., SetUpSheet]
STEEL, JOB = "materials/mild-steel.yml", "jobs/vg-0010.yml"
TAP = (
    "id: tap-m8\nname: M8 tap\nkind: tap\nwhat: A plug tap.\nsize: 8 mm\nshank: 8 mm\n"
    "tool_material: hss\n"
)
FACTORS = "tapping:\n  kc: 3900\n  tap_factor: 1.35\n  source: entered for the tests\ndrilling:"
SPEED = (
    "  - operation: tapping\n    tool_material: hss\n    speed: 10 to 15 m/min\n"
    "    source: entered for the tests\n"
)
DRILL = "id: {0}\nname: A drill\nkind: drill\nwhat: A drill.\nsize: {1}\n"
BLIND, THROUGH = "blind", "through"


def set_up(hole: str, by: str, more: str = "") -> str:
    return (
        "set_ups:\n  - operation: tapping\n    id: guide-hole\n    title: Thread M8\n"
        f"    tool: tap-m8\n    thread: M8\n    hole: {hole}\n    thread_length: 10 mm\n"
        f"    turned_by: {by}\n{more}"
    )


@pytest.fixture
def tap(base_shop: dict[str, str], edited: Edited) -> Callable[..., dict[str, str]]:
    """Files of the small shop whose one set-up taps M8."""

    def files(
        hole: str = THROUGH, by: str = "tap wrench", more: str = "", *, factors: bool = True,
        drill: str = "",
    ) -> dict[str, str]:  # fmt: skip
        text = base_shop[JOB]
        old = text[text.index("set_ups:\n") : text.index("steps:\n")]
        if drill:
            more += "    hole_drill: before\n"
        made = {"tools/tap-m8.yml": TAP} | edited(JOB, old, set_up(hole, by, more))
        if factors:
            made |= edited(STEEL, "drilling:\n  kd", f"{SPEED}{FACTORS}\n  kd")
        return made | ({"tools/before.yml": DRILL.format("before", drill)} if drill else {})

    return files


@pytest.fixture
def reckon(shop: Callable[..., Path], tap: Callable[..., dict[str, str]]) -> Reckon:
    def one(*arguments: str, without: str = "", **more: object) -> SetUpSheet:
        files = tap(*arguments, **more)
        if without:
            assert without in files[JOB]
            files[JOB] = files[JOB].replace(without, "")
        loaded = pipeline.load(shop(files))
        (sheet,) = set_up_sheets(loaded.shop, loaded.shop.jobs["vg-0010"])
        return sheet

    return one


CLAMPING = (
    "  clamping:\n    force: 20 kN\n    friction: 0.15\n    arm: 40 mm\n    faces: 1\n"
    "    source: jaw force entered for the tests, not measured\n"
)


def shown(sheet: SetUpSheet, key: str) -> str:
    row = sheet.row(key)
    assert row is not None, [each.key for each in sheet.rows]
    assert row.figure is not None, row.missing
    return row.figure.text


def keys(sheet: SetUpSheet) -> list[str]:
    return [row.key for row in sheet.rows]


@pytest.mark.parametrize("hole", [THROUGH, BLIND])
def test_by_wrench(reckon: Reckon, hole: str) -> None:
    one = reckon(hole)
    blind = ["drilled_depth"] if hole == BLIND else []
    assert keys(one) == ["pitch", "tap_drill", *blind, "turns", "back_off", "torque",
                         "dull_torque", "torque_limit", "holding"]  # fmt: skip
    assert shown(one, "pitch") == "1.25 mm"
    assert shown(one, "tap_drill") == "6.80 mm"
    assert shown(one, "turns") == "13 turns"  # 10 / 1.25 + 5 of a plug tap
    assert shown(one, "back_off") == "0.5 to 1.0 turn forward"
    assert shown(one, "torque") == "3.9 N m"
    assert shown(one, "dull_torque") == "7.9 N m"  # twice of it
    if blind:
        assert shown(one, "drilled_depth") == "17.5 mm"  # 10 + (5 + 1) x 1.25
    assert one.may_run
    assert one.doubts == ()
    assert any("A tap breaks" in line for line in one.cautions)


@pytest.mark.parametrize("hole", [THROUGH, BLIND])
def test_by_machine(reckon: Reckon, hole: str) -> None:
    one = reckon(hole, "machine")
    assert "back_off" not in keys(one)
    # 1000 x 10 (15) / (pi x 8), rounded inwards; of 400, 650, 1000, 1500 the one inside
    assert shown(one, "spindle_speed_range") == "398 to 596 rpm"
    assert shown(one, "spindle_speed") == "400 rpm"
    assert shown(one, "feed_rate") == "500 mm/min"  # 1.25 x 400
    assert shown(one, "holding") == "100 N m"  # 0.126 counted of 0.15, wet
    assert one.found.wanted == pytest.approx(2 * 2 * known(one.found.torque))
    assert one.may_run


@pytest.mark.parametrize(
    ("tap_kind", "depth", "turns"),
    # chamfer 10, 5 and 2 pitches, then one pitch of room
    [("taper", "23.8 mm", "18 turns"), ("plug", "17.5 mm", "13 turns"),
     ("bottoming", "13.8 mm", "10 turns")],
)  # fmt: skip
def test_the_chamfer_of_the_tap_asks_for_depth_and_turns(
    reckon: Reckon, tap_kind: str, depth: str, turns: str
) -> None:
    one = reckon(BLIND, more=f"    tap: {tap_kind}\n")
    assert (shown(one, "drilled_depth"), shown(one, "turns")) == (depth, turns)


@pytest.mark.parametrize(
    ("drill", "doubted", "percent"),
    [
        ("6.65 mm", False, "83 %"),  # 1.35 / 1.62375
        ("6.8 mm", False, "74 %"),
        ("6.9 mm", False, "68 %"),
        ("6.6 mm", True, "86 %"),
        ("7 mm", True, "62 %"),
        ("6.5 mm", True, "92 %"),
    ],
)
def test_the_drill_of_the_job_against_the_limits_of_the_minor_diameter(
    reckon: Reckon, drill: str, doubted: bool, percent: str
) -> None:
    one = reckon(drill=drill)
    assert shown(one, "percent") == percent
    assert any("6.647 to 6.912 mm" in doubt.text for doubt in one.doubts) is doubted


@pytest.mark.parametrize("drill", ["6 mm", "6.3 mm", "8 mm", "8.5 mm"])
def test_a_drill_that_leaves_no_thread_or_no_room_for_one_is_doubted_most_of_all(
    reckon: Reckon, drill: str
) -> None:
    """Below 8 - 1.299 x 1.25 = 6.376 mm the tap cannot enter; from 8 mm on there is no thread."""
    one = reckon(drill=drill)
    assert any("6.647 to 6.912 mm" in doubt.text for doubt in one.doubts)
    assert [stop.code for stop in one.stops] == ["S506"]  # no torque is reckoned, so none is held
    row = one.row("percent")
    assert row is not None
    assert row.figure is None
    assert row.missing.startswith("a value that the formula covers")


def test_the_torque_is_that_of_the_drill_that_made_the_hole(reckon: Reckon) -> None:
    # (8 - 6.7)^2 x (8 + 13.4) over (8 - 6.8)^2 x (8 + 13.6) = 36.166 / 31.104 = 1.163
    ratio = known(reckon(drill="6.7 mm").found.torque) / known(reckon().found.torque)
    assert ratio == pytest.approx(1.163, abs=0.001)


def test_without_a_published_speed_for_tapping_no_speed_is_guessed(reckon: Reckon) -> None:
    one = reckon(by="machine", factors=False)
    for key in ("spindle_speed_range", "spindle_speed", "cutting_speed", "feed_rate"):
        row = one.row(key)
        assert row is not None
        assert row.figure is None


def test_s506_without_figures_of_the_material_the_torque_is_not_computed(reckon: Reckon) -> None:
    one = reckon(by="machine", factors=False)
    row = one.row("torque")
    assert row is not None
    assert (row.figure, row.missing) == (
        None, "tapping (kc, tap_factor) in materials/mild-steel",
    )  # fmt: skip
    assert [stop.code for stop in one.stops] == ["S506"]
    assert "tapping (kc, tap_factor)" in one.stops[0].reason


@pytest.mark.parametrize("kind", ["breaking", "clutch"])
@pytest.mark.parametrize(
    ("limit", "stops", "doubts"),
    # a dull tap asks 2 x 3.94 = 7.88 N m; twice of that is 15.76
    [("7.8 N m", ["S513"], 0), ("7.9 N m", [], 1), ("15.7 N m", [], 1), ("15.8 N m", [], 0)],
)
def test_s513_what_the_tap_or_its_clutch_stands(
    shop: Callable[..., Path], tap: Callable[..., dict[str, str]], kind: str, limit: str,
    stops: list[str], doubts: int,
) -> None:  # fmt: skip
    files = tap()
    files["tools/tap-m8.yml"] += (
        f"torque_limit:\n  torque: {limit}\n  kind: {kind}\n  source: entered\n"
    )
    loaded = pipeline.load(shop(files))
    (one,) = set_up_sheets(loaded.shop, loaded.shop.jobs["vg-0010"])
    assert [stop.code for stop in one.stops] == stops
    assert len(one.doubts) == doubts
    assert all("half of it" in doubt.text for doubt in one.doubts)
    assert shown(one, "torque_limit").endswith(" times")


def test_without_the_makers_figure_what_the_tap_stands_is_not_computed(
    reckon: Reckon, found: Callable[..., tuple[Finding, ...]], tap: Callable[..., dict[str, str]]
) -> None:
    row = reckon().row("torque_limit")
    assert row is not None
    assert row.figure is None
    assert "torque_limit in tools/tap-m8" in row.missing
    # few makers print it: no check asks for it
    assert not [one for one in found(tap()) if "torque_limit" in one.text]


def test_a_hand_may_tap_without_a_reckoned_torque_but_not_without_a_holding(
    reckon: Reckon,
) -> None:
    assert reckon(factors=False).may_run
    one = reckon(without=CLAMPING)
    assert [stop.code for stop in one.stops] == ["S506"]


def test_s506_a_machine_never_taps_work_that_is_not_shown_to_be_held(reckon: Reckon) -> None:
    assert [stop.code for stop in reckon(by="machine", without=CLAMPING).stops] == ["S506"]


def test_s505_the_holding_is_too_weak_for_the_tap(reckon: Reckon) -> None:
    weak = (
        "    holding:\n      method: vice\n      how: In the vice.\n      bolted_down: Two bolts.\n"
        "      clamping:\n        force: 3.1 kN\n        friction: 0.15\n        arm: 40 mm\n"
        "        source: entered\n"
    )
    # 3100 x 0.126 x 40 = 15.62 N m against 2 x 2 x 3.94 of a dull tap
    (stop,) = reckon(by="machine", more=weak).stops
    assert stop.code == "S505"
    assert "2 times is wanted" in stop.reason
    # At worst: 2 x 3.94 x 1.15 x 1.36 = 12.32 N m, by 0.65 of the clamp and 14 / 15 of the friction
    # 20.31 N m: 4.03 kN.
    for force, held in (("3.15 kN", False), ("4.02 kN", False), ("4.04 kN", True)):
        one = reckon(by="machine", more=weak.replace("3.1 kN", force))
        assert one.may_run is held
        assert held or "at worst 0." in one.stops[0].reason


@pytest.mark.parametrize(
    ("thread", "drill"),
    [("M8x1", "7.00 mm"), ("1/4-20 UNC", "5.11 mm"), ("M10", "8.50 mm")],
)
def test_other_threads_have_their_own_drill(
    shop: Callable[..., Path], tap: Callable[..., dict[str, str]], thread: str, drill: str
) -> None:
    """M10 8.5 mm and 1/4-20 UNC number 7 (0.201 in) are the sizes of every chart."""
    files = tap()
    files[JOB] = files[JOB].replace("thread: M8", f"thread: {thread}")
    loaded = pipeline.load(shop(files))
    (sheet,) = set_up_sheets(loaded.shop, loaded.shop.jobs["vg-0010"])
    assert shown(sheet, "tap_drill") == drill


@pytest.mark.parametrize("thread", ["M9", "M8x9", "1/4-21 UNC", "G1/4", "8"])
def test_a_thread_that_does_not_exist_is_an_error_of_the_breakdown(
    found: Callable[..., tuple[Finding, ...]], tap: Callable[..., dict[str, str]], thread: str
) -> None:
    files = tap()
    files[JOB] = files[JOB].replace("thread: M8", f"thread: {thread}")
    assert "F205" in {finding.code for finding in found(files)}


def test_the_basis_of_the_percentage_is_told(reckon: Reckon) -> None:
    # 75 % of 1.0825 P: 8 - 1.0825 x 1.25 x 0.75 = 6.985 wanted; the largest drill inside is 6.9
    one = reckon(more="    basis: ISO thread height\n")
    row = one.row("tap_drill")
    assert row is not None
    assert row.figure is not None
    assert row.figure.text == "6.90 mm"
    assert "× 75 ÷ 100 = 6.99 mm" in row.working
    assert "ISO thread height" in row.working


def test_every_row_of_tapping_shows_its_working(reckon: Reckon) -> None:
    for one in (reckon(BLIND, drill="6.8 mm"), reckon(BLIND, "machine", drill="6.8 mm")):
        assert [row.key for row in one.rows if row.is_optional] == ["torque_limit"]
        for row in (row for row in one.rows if not row.is_optional):
            for part in (row.label, row.formula, row.working, row.source, row.limits):
                assert part.strip(), row.key
