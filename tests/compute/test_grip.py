"""What friction is counted for a clamping: entered, the table's, or less where it is wet."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.compute import SetUpSheet

Edited = Callable[..., dict[str, str]]
Sheet = Callable[..., SetUpSheet]
JOB = "jobs/vg-0010.yml"
CLAMPING = (
    "  clamping:\n    force: 20 kN\n    friction: 0.15\n    arm: 40 mm\n    faces: 1\n"
    "    source: jaw force entered for the tests, not measured\n"
)
GIVEN = "    friction: 0.15\n"


def held(one: SetUpSheet) -> tuple[float | None, str]:
    row = one.row("holding")
    assert row is not None
    return one.found.capacity, row.note


@pytest.mark.parametrize(
    ("written", "newton_metres", "said"),
    [
        # 20000 N at 40 mm: 800 times the friction. Wet in smooth jaws: 1.1818.
        ("    friction: 0.15\n", 100.8, "taken for unmachined work"),
        ("    friction: 0.1\n    work_surface: machined\n", 67.2, "0.084 is counted"),
        ("    work_surface: machined\n", 67.2, "0.10 is the table's for machined steel"),
        ("    friction: 0.2\n    work_surface: machined\n", 67.2, "unmeasured"),
        ("    work_surface: ground\n", 47.2, "0.07 is the table's"),  # 0.0592, down to 0.059
        ("    friction: 0.2\n    friction_source: pull trial, wet\n", 160.0, "the margin is for"),
        ("    friction: 0.2\n    friction_source: pull trial\n", 135.2, "0.169 is counted"),
        ("    work_surface: machined\n    jaw_surface: serrated\n", 232.8, "20 % more"),  # 0.291
        ("    friction: 0.05\n    work_surface: machined\n", 33.6, "0.042 is counted"),
    ],
)
def test_what_is_counted(
    sheet: Sheet, edited: Edited, written: str, newton_metres: float, said: str
) -> None:
    capacity, note = held(sheet(edited(JOB, GIVEN, written)))
    assert capacity == pytest.approx(newton_metres)
    assert said in note


def test_dry_work_keeps_its_friction(sheet: Sheet, edited: Edited) -> None:
    capacity, note = held(sheet(edited(JOB, "fluid: soluble-oil\n", "")))
    assert capacity == pytest.approx(120.0)
    assert "wet" not in note


def test_a_trial_is_said_to_be_nothing_else(sheet: Sheet, edited: Edited) -> None:
    written = "    friction: 0.2\n    friction_source: pull trial, wet\n"
    _, note = held(sheet(edited(JOB, GIVEN, written)))
    assert "unmeasured" not in note
    assert "counted" not in note


def test_cast_iron_grips_a_fifth_less(sheet: Sheet, edited: Edited) -> None:
    iron = edited("materials/mild-steel.yml", "drilling:\n", "metal: grey cast iron\ndrilling:\n")
    one = sheet(iron | edited(JOB, GIVEN, "    work_surface: unmachined\n"))
    capacity, note = held(one)
    assert capacity == pytest.approx(800 * 0.101)  # 0.12 / 1.1818 = 0.1015
    assert "0.12 is the table's for unmachined grey cast iron" in note


@pytest.mark.parametrize(
    ("written", "problem"),
    [
        ("    friction: 0.31\n", "friction 0.31 is refused"),
        ("    friction: 0.9\n    friction_source: a trial\n", "friction 0.9 is refused"),
        ("", "neither friction nor work_surface"),
        ("    friction: 1.2\n    jaw_surface: serrated\n", "too large"),
        ("    work_surface: rough\n", "rough"),
    ],
)
def test_what_smooth_jaws_cannot_give_is_refused(
    shop: Callable[..., Path], edited: Edited, written: str, problem: str
) -> None:
    findings = pipeline.check(shop(edited(JOB, GIVEN, written)))
    assert any(problem in one.text and one.help and one.fails_check for one in findings)


def test_the_refusal_names_the_tables_value(shop: Callable[..., Path], edited: Edited) -> None:
    written = "    friction: 0.4\n    work_surface: machined\n"
    (found,) = pipeline.check(shop(edited(JOB, GIVEN, written)))
    assert "0.10 for machined work" in found.help[0]


@pytest.mark.parametrize(
    ("clamping", "newtons"),
    [
        ("    presses: sideways\n", 5040.0),  # 2 x 20000 x 0.126
        ("", 5040.0),
    ],
)
def test_what_holds_the_work_down(
    sheet: Sheet, edited: Edited, clamping: str, newtons: float
) -> None:
    row = sheet(edited(JOB, GIVEN, GIVEN + clamping)).row("held_down")
    assert row is not None
    assert row.sums[0].value == pytest.approx(newtons)


def test_clamps_hold_down_with_all_their_force(sheet: Sheet, edited: Edited) -> None:
    row = sheet(edited(JOB, "method: vice", "method: clamps")).row("held_down")
    assert row is not None
    assert row.sums[0].value == pytest.approx(20000.0)


def test_a_light_clamp_is_doubted_where_the_drill_may_lift(sheet: Sheet, edited: Edited) -> None:
    # 2 x 4400 x 0.126 = 1109 N; 2000 x 7.83 x tan(30) / 8 = 1130 N
    # on a longer arm, so that the work is held against turning
    arm = ("arm: 40 mm", "arm: 160 mm")
    light = sheet(edited(JOB, "force: 20 kN", "force: 4.4 kN", *arm))
    assert [doubt for doubt in light.doubts if "lift" in doubt.text]
    assert not lifts(light)
    assert light.may_run
    assert not sheet(edited(JOB, "force: 20 kN", "force: 4.6 kN", *arm)).doubts


def lifts(sheet: SetUpSheet) -> list[str]:
    return [line for line in sheet.cautions if "lift the work" in line]


@pytest.mark.parametrize(("force", "told"), [("15.1 kN", True), ("15.2 kN", False)])
def test_what_a_kept_pull_can_lift_is_told_to_the_hand(
    sheet: Sheet, edited: Edited, force: str, told: bool
) -> None:
    # 2000 x 26.49 x tan(30) / 8 = 3824 N; 2 x 15100 x 0.126 = 3805 N, 15200 N hold 3830
    one = sheet(edited(JOB, "force: 20 kN", f"force: {force}"))
    assert bool(lifts(one)) is told
    assert one.doubts == ()
    # a feed by power keeps the torque of the cut: 1131 N; 2520 N hold 2.23 times that, and at worst
    # 2.23 / 1.327 / 1.648 = 1.02 times; 9.5 kN hold 0.97 times
    stop = "    feed_stop:\n      how: By power.\n      feed: 0.15 mm/rev\n      source: entered\n"
    line = "    start_clearance: 3 mm\n"
    assert not lifts(sheet(edited(JOB, "force: 20 kN", "force: 10 kN", line, line + stop)))
    (caution,) = lifts(sheet(edited(JOB, "force: 20 kN", "force: 9.5 kN", line, line + stop)))
    assert caution.startswith("At worst")


def test_a_blind_hole_whose_point_comes_out_is_held_down_too(sheet: Sheet, edited: Edited) -> None:
    stop = "  positive_stop:\n    rated_force: 2 kN\n    arm: 40 mm\n    source: entered\n"
    for depth, comes in (("3.5 mm", False), ("3.6 mm", True)):
        blind = (f"hole: blind\n    depth: {depth}\n    thickness: 6 mm",
                 "    overtravel: 1 mm\n", "", CLAMPING, stop)  # fmt: skip
        one = sheet(edited(JOB, "hole: through\n    thickness: 6 mm", *blind))
        assert ([stop.code for stop in one.stops] == ["S521"]) is comes
