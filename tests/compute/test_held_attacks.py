"""Attacks: input that looks true, and would make a cut look held that is not. Each row is one.

What is right was judged by statics and the trade before it was run. Stops of the comparison itself
stand in test_worst.py; here are what is counted at all, and what is told of it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.commands.people import Asked, read_both
from benchleaf.compute import SetUpSheet, set_up_sheets
from benchleaf.compute.reckon import OPERATIONS, InputError, reckon
from oracles import set_ups

Edited = Callable[..., dict[str, str]]
Sheet = Callable[..., SetUpSheet]
JOB, STEEL = "jobs/vg-0010.yml", "materials/mild-steel.yml"
FORCE, GIVEN = "    force: 20 kN\n", "    friction: 0.15\n"
CLAMPING = (
    f"  clamping:\n{FORCE}{GIVEN}    arm: 40 mm\n    faces: 1\n"
    "    source: jaw force entered for the tests, not measured\n"
)
STOP = (
    "  positive_stop:\n    rated_force: 5 kN\n    arm: 80 mm\n    source: entered for the tests\n"
)
BITES = "    work_surface: unmachined\n    jaw_surface: serrated\n"
THROUGH = "    hole: through\n    thickness: 6 mm\n"
FEED_STOP = (
    "    start_clearance: 3 mm\n",
    "    start_clearance: 3 mm\n    feed_stop:\n      how: {}\n      feed: 0.15 mm/rev\n"
    "      source: entered for the tests\n",
)


HELD: Mapping[str, str] = {
    "method": "vice", "how": "The plate lies on parallels in the vice.",
    "bolted_down": "Two bolts hold the vice to the table.",
}  # fmt: skip


def made(
    kind: str,
    clamp: Mapping[str, str] | None = None,
    stop: Mapping[str, str] | None = None,
    fields: Mapping[str, str | None] | None = None,
) -> SetUpSheet:
    """A set-up of a kind, clamped well unless it is held by a stop."""
    own, tool = set_ups.KINDS[kind]
    source = {"source": "entered for the tests"}
    held: dict[str, object] = dict(HELD)
    if stop is None:
        good = {"force": "20 kN", "friction": "0.15", "arm": "40 mm"}
        held["clamping"] = {**good, **source, **(clamp or {})}
    else:
        held["positive_stop"] = {**stop, **source}
    shop, job = set_ups.made({**own, **(fields or {}), "holding": held}, dict(tool))
    (one,) = set_up_sheets(shop, job)
    return one


def test_a_timetable_tells_what_must_not_be_run(
    shop: Callable[..., Path], edited: Edited, tmp_path: Path
) -> None:
    for force, codes in (("2 kN", {"S505"}), ("20 kN", set())):
        content = shop(edited(JOB, "force: 20 kN", f"force: {force}"))
        _, _, findings = read_both(Asked(content, tmp_path / "none", None))
        assert {one.code for one in findings} - {"R101"} == codes


@pytest.mark.parametrize(
    "how",
    [
        "Your hand holds the lever back.", "The depth stop.", "The return spring of the quill.",
        "You ease the lever.", "The operator is careful.", "The quill lock is nipped up.",
    ],
)  # fmt: skip
def test_a_feed_stop_that_gives_way_is_not_counted(sheet: Sheet, edited: Edited, how: str) -> None:
    told = (FEED_STOP[0], FEED_STOP[1].format(how))
    one = sheet(edited(JOB, "force: 20 kN", "force: 6 kN", *told))
    assert [stop.code for stop in one.stops] == ["S512"]


@pytest.mark.parametrize(
    ("edits", "newton_metres"),
    [
        # Straps of 5 kN: 0.45 bites on top, 0.15 slides on the table; wet, of the mean 0.30: 0.25.
        ((JOB, "method: vice", "method: clamps", "force: 20 kN", "force: 5 kN", GIVEN,
          BITES, "faces: 1", "faces: 2"), 100),
        # Both jaws of a vice are alike: 0.45, wet 0.375.
        ((JOB, "force: 20 kN", "force: 5 kN", GIVEN,
          BITES, "faces: 1", "faces: 2"), 150),
        # A trial that says nothing of fluid was a dry one: 0.25 / 1.182 = 0.211.
        ((JOB, GIVEN, "    friction: 0.25\n    friction_source: ten pulls\n"), 168.8),
        ((JOB, GIVEN, "    friction: 0.25\n    friction_source: ten pulls, wet work\n"), 200.0),
        # Nobody says which metal it is: cast iron rubs least, 0.12 of 0.15; wet 0.101.
        ((STEEL, "name: Mild steel", "name: Castings"), 80.8),
    ],
)  # fmt: skip
def test_what_is_counted(
    sheet: Sheet, edited: Edited, edits: tuple[str, ...], newton_metres: float
) -> None:
    assert sheet(edited(*edits)).found.capacity == pytest.approx(newton_metres)


@pytest.mark.parametrize(
    ("edits", "told"),
    [
        (("force: 20 kN", "force: 2 MN"), "MN"),
        (("force: 20 kN", "force: 900 kN"), "from 0 to 200000"),
        (("arm: 40 mm", "arm: 4 m"), "from 0 to 2000"),
        (("arm: 40 mm", "arm: 0 mm"), "above 0"),
    ],
)
def test_a_force_or_arm_in_another_unit_is_no_holding(
    shop: Callable[..., Path], edited: Edited, edits: tuple[str, str], told: str
) -> None:
    findings = pipeline.check(shop(edited(JOB, *edits)))
    assert any(told in one.text and one.fails_check for one in findings)


@pytest.mark.parametrize(
    ("kd", "is_doubted"), [("7000", True), ("4000", True), ("12000", False), ("10900", False)]
)
def test_a_kd_of_another_metal_is_doubted(
    sheet: Sheet, edited: Edited, kd: str, is_doubted: bool
) -> None:
    doubts = [
        one.code for one in sheet(edited(STEEL, "kd_torque: 24000", f"kd_torque: {kd}")).doubts
    ]
    assert ("kd-too-low" in doubts) is is_doubted


def test_a_kc_of_another_metal_is_doubted() -> None:
    own, tool = set_ups.KINDS["tap"]
    shop, job = set_ups.made({**own}, dict(tool))
    material = shop.material_of(job)
    assert material is not None
    assert material.tapping is not None
    for kc, is_doubted in ((500.0, True), (3600.0, False)):
        factors = material.tapping.model_copy(update={"kc": kc})
        steel = material.model_copy(update={"tapping": factors, "name": "Mild steel"})
        changed = replace(shop, materials={**shop.materials, material.id: steel})
        (one,) = set_up_sheets(changed, job)
        assert ("kd-too-low" in {doubt.code for doubt in one.doubts}) is is_doubted


def test_a_blind_hole_that_leaves_a_bar_at_its_sides_comes_through(
    sheet: Sheet, edited: Edited
) -> None:
    # 9 mm in a bar of 10: the saddle is 2.82 mm, the point 2.70; the rim leaves at 7.18 mm.
    tool = edited("tools/drill-8.yml", "size: 8 mm", "size: 9 mm")
    over = ("    overtravel: 1 mm\n", "")
    for depth, comes in (("7.1 mm", False), ("7.2 mm", True)):
        bar = (
            f"    hole: blind\n    work: round bar\n    work_diameter: 10 mm\n    depth: {depth}\n"
        )
        one = sheet(tool | edited(JOB, THROUGH, bar, *over))
        assert (one.row("exit_torque") is not None) is comes


def test_what_only_a_stop_holds_is_told_where_nothing_comes_through(
    sheet: Sheet, edited: Edited
) -> None:
    blind = "    hole: blind\n    thickness: 16 mm\n    depth: 6 mm\n"
    edits = (THROUGH, blind, "    overtravel: 1 mm\n", "")
    one = sheet(edited(JOB, CLAMPING, STOP, *edits))
    assert one.may_run
    assert any("Only a stop holds the work" in line for line in one.cautions)
    assert not any("Only a stop" in line for line in sheet(edited(JOB, *edits)).cautions)


def test_a_reamers_way_is_reckoned_where_it_is_entered() -> None:
    # 12 mm and 3 beyond it, 2 mm of air: 17 mm; the quill has 100 mm.
    rows = {one.key: one.value for one in made("ream its way", {}).rows}
    assert rows["depth_stop"] == (15.0, 15.0)
    assert rows["quill_travel"] == (17.0, 17.0)
    assert "depth_stop" not in {one.key for one in made("ream", {}).rows}
    alone = made("ream its way", {}, fields={"start_clearance": None}).row("quill_travel")
    assert alone is not None
    assert "start_clearance" in alone.missing
    far = made("ream its way", {}, fields={"overtravel": "190 mm"})
    assert "S504" in {stop.code for stop in far.stops}


@pytest.mark.parametrize(
    ("kind", "fields", "stops"),
    [
        ("tap", {}, ["S521"]),  # the machine turns it back, and a stop holds one way
        ("tap", {"turned_by": "tap wrench"}, []),
        ("ream", {}, []),
    ],
)
def test_a_tap_turns_back_and_a_stop_holds_one_way(
    kind: str, fields: Mapping[str, str], stops: list[str]
) -> None:
    one = made(kind, stop={"rated_force": "5 kN", "arm": "80 mm"}, fields=fields)
    assert [stop.code for stop in one.stops if stop.code.startswith("S52")] == stops
    assert any("Only a stop" in line for line in one.cautions) is (kind == "ream")


@pytest.mark.parametrize(
    ("written", "falls"),
    [
        ("", 1 / 0.65),
        ("    force_spread: 10\n    force_spread_source: twenty pulls on the cell\n", 1 / 0.9),
        ("    force_spread: 50\n    force_spread_source: twenty pulls on the cell\n", 2.0),
        ("    force_spread: 10\n", 1 / 0.65),  # nobody says where it is from
        ("    force_spread: 50\n", 2.0),
    ],
)
def test_a_spread_of_the_shops_own_counts_with_its_source(
    sheet: Sheet, edited: Edited, written: str, falls: float
) -> None:
    row = sheet(edited(JOB, FORCE, FORCE + written)).row("holding")
    assert row is not None
    worst = next(one.value for one in row.sums if one.formula.startswith("at worst"))
    # 100.8 / 7.834 = 12.87 times; metal 1.15, edge 1.5 / 1.3, jaws 15 / 14.
    assert worst == pytest.approx(12.8677 / (1.15 * 1.5 / 1.3 * 15 / 14 * falls), rel=1e-4)
    assert ("twenty pulls" in row.source) is ("source" in written)


@pytest.mark.parametrize(
    ("how", "fluid", "grip"),
    [
        ("ten wet pulls", True, 1.25), ("ten pulls", True, 1.25), ("ten wet pulls", False, 1.25),
        ("ten pulls", False, 1.25 * 1.3 / 1.1),  # tried dry: an oily film is enough
    ],
)  # fmt: skip
def test_a_spread_of_the_friction_counts_with_its_source(
    sheet: Sheet, edited: Edited, how: str, fluid: bool, grip: float
) -> None:
    told = f"    friction_spread: 20\n    friction_spread_source: {how}\n"
    dry = () if fluid else ("fluid: soluble-oil\n", "")
    row = sheet(edited(JOB, GIVEN, GIVEN + told, *dry)).row("holding")
    assert row is not None
    worst = next(one.value for one in row.sums if one.formula.startswith("at worst"))
    times = 12.8677 if fluid else 120 / 7.83356
    assert worst == pytest.approx(times / (1.15 * 1.5 / 1.3 * grip / 0.65), rel=1e-4)


def test_edge_clamps_hold_down_by_friction_alone(sheet: Sheet, edited: Edited) -> None:
    how = "how: The plate lies on parallels in the drill vice, long edges in the jaws."
    clamps = ("method: vice", "method: clamps", how, "how: Two edge clamps press on parallels.")
    row = sheet(edited(JOB, *clamps)).row("held_down")
    assert row is not None
    assert row.value == (5040.0, 5040.0)  # 2 x 20000 x 0.126


def test_break_through_names_the_factors_that_come_from_memory(
    sheet: Sheet, edited: Edited
) -> None:
    one = sheet(edited(JOB, FEED_STOP[0], FEED_STOP[1].format("By power.")))
    for key in ("exit_torque", "exit_at_feed", "feed_stop_torque"):
        row = one.row(key)
        assert row is not None
        assert "Table 6, steel of 200 BHN (from memory)" in row.source


TRIED = {"friction": "0.25", "fluid": "wet"}
RECKONED = {"clamp_force": "6 kN", "arm": "40 mm", "torque": "6 N m", "wear": "1.5"}


@pytest.mark.parametrize(
    ("more", "key", "value"),
    [
        # 6000 x 0.1 x 40 = 24 N m; wet 0.084: 20.16.
        ({"friction": "0.1", "work": "machined"}, "capacity", 24.0),
        ({"friction": "0.1", "work": "machined", "fluid": "wet"}, "capacity", 20.16),
        # Wet in serrated jaws: 0.35 / 1.2 = 0.291.
        ({"friction": "0.35", "work": "machined", "jaws": "serrated", "fluid": "wet"},
         "capacity", 69.84),
        # A trial with wet work has it in it, one with dry work has not: 0.25 / 1.182 = 0.211.
        ({**TRIED, "friction_source": "ten pulls, wet"}, "capacity", 60.0),
        ({**TRIED, "friction_source": "ten pulls"}, "capacity", 50.64),
        # 12 x 1.15 x 2 / (0.084 x 0.04), up to the next 100 N.
        ({"friction": "0.1", "work": "machined", "fluid": "wet"}, "clamp_needed", 4200.0),
        # Nobody says that the work is rolled: bright work has 0.10 of the 0.15, and a film.
        ({"friction": "0.15"}, "hold", 1.5 * (1.3 / 1.1) / 0.65),
        ({"friction": "0.15", "work": "unmachined"}, "hold", 0.15 / 0.14 * (1.3 / 1.1) / 0.65),
        # The dull tap has its wear in it, and another model has 1.36 times as much.
        ({"cut": "tapping"}, "worst", 1.15 * 1.36),
        ({"cut": "enlarging"}, "worst", 1.15 * 1.25),
        ({"cut": "enlarging", "wear": "1.0"}, "worst", 1.15 * 1.25 * 1.5),
        ({"cut": "drilling"}, "worst", 1.15),
    ],
)  # fmt: skip
def test_what_reckon_counts(more: Mapping[str, str], key: str, value: float) -> None:
    results = reckon(OPERATIONS["holding"], RECKONED | dict(more)).results
    (one,) = (one for one in results if one.key == key)
    assert one.low == pytest.approx(value)


def test_a_stop_that_is_just_enough_is_not_enough_for_enlarging_at_worst() -> None:
    # 20 N m over 9.9 is 2.02; a sharp tool at worst takes 1.15 x 1.5 x 1.25 = 2.16 times.
    given = {"stop_force": "200 N", "stop_arm": "100 mm", "torque": "9.9 N m", "wear": "1"}
    assert reckon(OPERATIONS["holding"], given).within_limits
    assert not reckon(OPERATIONS["holding"], given | {"cut": "enlarging"}).within_limits


@pytest.mark.parametrize(
    "more",
    [
        {"arm": "4 m"}, {"clamp_force": "1000 kN"}, {"friction": "0.4"},
        {"friction": "1.0", "jaws": "serrated", "friction_source": "rubber pads, ten pulls"},
        {"friction": "0.15", "work": "ground"}, {"fluid": "oily"}, {"cut": "milling"},
    ],
)  # fmt: skip
def test_what_reckon_refuses(more: Mapping[str, str]) -> None:
    with pytest.raises(InputError):
        reckon(OPERATIONS["holding"], {"friction": "0.1", **RECKONED} | dict(more))


def test_what_resists_is_told_rounded_down() -> None:
    # 6000 x 0.1 x 32.9 = 19.74 N m is no 20 N m.
    texts = RECKONED | {"friction": "0.1", "arm": "32.9 mm"}
    (one,) = (one for one in reckon(OPERATIONS["holding"], texts).results if one.key == "capacity")
    assert one.figure.text == "19 N m"
