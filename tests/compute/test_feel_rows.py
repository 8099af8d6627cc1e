"""What the hand will feel: rows and curve, by walls of the work and with what is not known."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise

import pytest

from benchleaf.compute import SetUpSheet

Edited = Callable[..., dict[str, str]]
Sheet = Callable[..., SetUpSheet]
JOB, MACHINE, TOOL = "jobs/vg-0010.yml", "machines/bench-drill.yml", "tools/drill-8.yml"
FLAT = "    thickness: 6 mm\n"
TUBE = "    work: round tube\n    work_diameter: 30 mm\n    wall: 3 mm\n    walls: {}\n"
KEYS = ("ease_off", "ease_to", "kept_feed")


def shown(sheet: SetUpSheet, key: str) -> str:
    row = sheet.row(key)
    assert row is not None
    assert row.figure is not None
    return row.figure.text


def test_a_plate_has_one_wall_to_come_through(sheet: Sheet) -> None:
    one = sheet()
    assert [row.key for row in one.rows if row.key.startswith(KEYS)] == list(KEYS)
    assert shown(one, "ease_off") == "6.0 mm"  # the point reaches the far face of 6 mm


def test_a_blind_hole_has_nothing_to_come_through(sheet: Sheet, edited: Edited) -> None:
    one = sheet(
        edited(JOB, "hole: through\n    thickness: 6 mm",
               "hole: blind\n    depth: 10 mm\n    thickness: 20 mm", "    overtravel: 1 mm\n", "")
    )  # fmt: skip
    assert one.feel is None
    assert [row.key for row in one.rows if row.key.startswith(KEYS)] == []


def test_both_walls_of_a_tube_are_eased_one_by_one(sheet: Sheet, edited: Edited) -> None:
    one, both = (sheet(edited(JOB, FLAT, TUBE.format(walls))) for walls in ("one", "both"))
    assert one.row("ease_off_far_wall") is None
    far = both.row("ease_off_far_wall")
    assert far is not None
    assert far.label == "Ease off from, far wall"
    near_from, far_from = (
        float(shown(both, key).split()[0]) for key in ("ease_off", "ease_off_far_wall")
    )
    # near: the tip reaches the bore at 3 mm; far: the tip leaves the outside at 30 mm
    assert near_from == pytest.approx(3.0, abs=0.2)
    assert far_from == pytest.approx(30.0, abs=0.2)
    assert both.feel is not None
    assert {zone.wall for zone in both.feel.zones} >= {1, 2}


def test_the_curve_ends_at_nothing_and_its_zones_follow_one_another(sheet: Sheet) -> None:
    curve = sheet().feel
    assert curve is not None
    assert curve.points[0][1] == pytest.approx(0, abs=1e-6)
    assert curve.points[-1][1] == pytest.approx(0, abs=1e-6)
    assert all(pull >= 0 for _, pull in curve.points)
    swings = [swing for swing, _ in curve.points]
    assert swings == sorted(swings)
    assert all(one.end <= other.start + 1e-9 for one, other in pairwise(curve.zones))


@pytest.mark.parametrize(
    ("name", "line"),
    [("materials/mild-steel.yml", "  kd_thrust: 24000\n"),
     ("materials/mild-steel.yml", "  kd_torque: 24000\n"), (TOOL, "point_angle: 118 deg\n")],
)  # fmt: skip
def test_without_thrust_torque_or_point_no_row_is_guessed(
    sheet: Sheet, edited: Edited, name: str, line: str
) -> None:
    one = sheet(edited(name, line, ""))
    assert one.feel is None
    for key in KEYS:
        row = one.row(key)
        assert row is not None
        assert (row.figure, row.missing) == (None, "thrust, torque and the point above")


def test_without_a_lever_the_swing_is_not_told(sheet: Sheet, edited: Edited) -> None:
    lever = (
        "lever:\n  radius: 350 mm\n  pinion_radius: 10 mm\n  efficiency: 0.9\n"
        "  source: entered for the tests, not measured\n"
    )
    row = sheet(edited(MACHINE, lever, "")).row("ease_off")
    assert row is not None
    assert row.figure is not None
    assert row.other is None


def test_a_dull_drill_is_felt_as_a_heavier_pull(sheet: Sheet, edited: Edited) -> None:
    usual, dull = sheet().feel, sheet(edited(TOOL, "wear_factor: 1.3", "wear_factor: 1.5")).feel
    assert usual is not None
    assert dull is not None
    ratio = max(pull for _, pull in dull.points) / max(pull for _, pull in usual.points)
    assert ratio == pytest.approx(1.5 / 1.3)
