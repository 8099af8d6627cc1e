"""Holes across bars and tubes: saddles, stops, and the far wall that must stay whole.

By hand, for the 8 mm drill of the small shop, whose point is 0.3004 x 8 = 2.403 mm:

- bar of 20 mm: saddle 10 - sqrt(100 - 16) = 0.835
- tube of 25 mm with 2 mm of wall: bore 21; outside 12.5 - sqrt(156.25 - 16) = 0.657; bore
  10.5 - sqrt(110.25 - 16) = 0.792
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from benchleaf.compute import SetUpSheet

Edited = Callable[..., dict[str, str]]
Sheet = Callable[..., SetUpSheet]
JOB, TOOL = "jobs/vg-0010.yml", "tools/drill-8.yml"
FLAT = "    thickness: 6 mm\n"
BAR = "    work: round bar\n    work_diameter: 20 mm\n"
TUBE = "    work: round tube\n    work_diameter: 25 mm\n    wall: 2 mm\n    walls: {}\n"
BLIND = (
    "    hole: through\n    thickness: 6 mm\n", "    overtravel: 1 mm\n",
)  # fmt: skip


def text(sheet: SetUpSheet, key: str) -> str:
    row = sheet.row(key)
    assert row is not None, [each.key for each in sheet.rows]
    assert row.figure is not None, row.missing
    return row.figure.text


def work(edited: Edited, shape: str, *more: str) -> dict[str, str]:
    return edited(JOB, FLAT, shape, *more)


def test_a_bar_is_drilled_by_its_diameter(sheet: Sheet, edited: Edited) -> None:
    one = sheet(work(edited, BAR))
    assert text(one, "saddle") == "0.8 mm"
    assert text(one, "exit_saddle") == "0.8 mm"
    assert text(one, "depth_stop") == "23.4 mm"  # 20 + 2.403 + 1
    assert text(one, "quill_travel") == "26.4 mm"  # 3 mm above
    row = one.row("saddle")
    assert row is not None
    assert "= 0.83 mm" in row.working  # 0.8348
    assert one.may_run


def test_one_wall_of_a_tube(sheet: Sheet, edited: Edited) -> None:
    one = sheet(work(edited, TUBE.format("one")))
    assert text(one, "saddle") == "0.7 mm"  # 0.657
    assert text(one, "exit_saddle") == "0.8 mm"  # of the bore: 0.792
    assert text(one, "depth_stop") == "6.2 mm"  # 2 + 0.792 + 2.403 + 1 = 6.195
    assert one.may_run


def test_both_walls_of_a_tube_are_drilled_by_its_outside(sheet: Sheet, edited: Edited) -> None:
    one = sheet(work(edited, TUBE.format("both")))
    assert text(one, "depth_stop") == "28.4 mm"  # 25 + 2.403 + 1
    assert text(one, "exit_saddle") == "0.7 mm"
    assert one.may_run


def test_a_blind_hole_in_a_bar_has_one_saddle(sheet: Sheet, edited: Edited) -> None:
    one = sheet(edited(JOB, BLIND[0], f"    hole: blind\n    depth: 10 mm\n{BAR}", BLIND[1], ""))
    assert text(one, "depth_stop") == "12.4 mm"
    assert one.row("exit_saddle") is None
    assert one.doubts == ()


@pytest.mark.parametrize(("depth", "through"), [("17.5 mm", False), ("17.6 mm", True)])
def test_the_point_of_a_blind_hole_may_come_through_a_bar(
    sheet: Sheet, edited: Edited, depth: str, through: bool
) -> None:
    # 20 - 2.403 = 17.597
    one = sheet(edited(JOB, BLIND[0], f"    hole: blind\n    depth: {depth}\n{BAR}", BLIND[1], ""))
    assert any("comes through the far side" in doubt.text for doubt in one.doubts) is through


@pytest.mark.parametrize(("overtravel", "stopped"), [("17.8 mm", False), ("17.9 mm", True)])
def test_s511_the_drill_runs_into_the_far_wall(
    sheet: Sheet, edited: Edited, overtravel: str, stopped: bool
) -> None:
    # The tip may go 25 - 2 = 23 mm below the crown; 2 + 0.792 + 2.403 = 5.195 are gone already,
    # so 17.805 mm are left to go past.
    one = sheet(work(edited, TUBE.format("one"), "overtravel: 1 mm", f"overtravel: {overtravel}"))
    assert [stop.code for stop in one.stops] == (["S511"] if stopped else [])
    if stopped:
        assert one.stops[0].reason == "at the depth stop the point is 0.1 mm into the far wall"
        assert one.stops[0].path == ("set_ups", 0, "overtravel")


def test_through_both_walls_no_far_wall_is_in_the_way(sheet: Sheet, edited: Edited) -> None:
    one = sheet(work(edited, TUBE.format("both"), "overtravel: 1 mm", "overtravel: 17.9 mm"))
    assert one.may_run


@pytest.mark.parametrize(
    ("shape", "stopped"),
    [
        ("    work: round bar\n    work_diameter: 8.1 mm\n", False),
        ("    work: round bar\n    work_diameter: 8 mm\n", True),
        ("    work: round bar\n    work_diameter: 7 mm\n", True),
        (TUBE.format("both").replace("25 mm", "12.1 mm"), False),
        (TUBE.format("both").replace("25 mm", "12 mm"), True),  # a bore of 8 mm
        (TUBE.format("one").replace("25 mm", "12 mm"), True),
        (TUBE.format("both").replace("25 mm", "4 mm"), True),  # no bore at all
        (TUBE.format("one").replace("25 mm", "3 mm"), True),
    ],
)
def test_s511_the_drill_is_as_wide_as_the_work(
    sheet: Sheet, edited: Edited, shape: str, stopped: bool
) -> None:
    one = sheet(work(edited, shape))
    assert ("S511" in [stop.code for stop in one.stops]) is stopped
    assert one.may_run is not stopped
    if stopped:
        assert any(stop.path == ("set_ups", 0, "tool") for stop in one.stops)


def test_what_belongs_to_each_shape_is_said(sheet: Sheet, edited: Edited) -> None:
    flat, bar = sheet(), sheet(work(edited, BAR))
    tube = sheet(work(edited, TUBE.format("one")))
    assert not any("V-block" in line or "wall" in line for line in flat.cautions)
    assert any("V-block" in line for line in bar.cautions)
    assert not any("wall" in line for line in bar.cautions)
    assert {line for line in bar.cautions if "lift" not in line} < set(tube.cautions)
    assert any("each wall" in line for line in tube.cautions)


@pytest.mark.parametrize(("thickness", "thin"), [("2.4 mm", True), ("2.41 mm", False)])
def test_sheet_thinner_than_the_point_climbs_the_drill(
    sheet: Sheet, edited: Edited, thickness: str, thin: bool
) -> None:
    # The point is 2.403 mm long.
    one = sheet(work(edited, f"    thickness: {thickness}\n"))
    assert any("climbs the drill" in line for line in one.cautions) is thin


def test_words_of_the_material_stand_with_every_set_up_that_drills_it(
    sheet: Sheet, edited: Edited
) -> None:
    words = "when_drilled:\n  - Its dust burns.\ncutting_speeds:"
    assert (
        "Its dust burns."
        in sheet(edited("materials/mild-steel.yml", "cutting_speeds:", words)).cautions
    )


def test_without_the_drills_size_the_saddle_is_not_computed(sheet: Sheet, edited: Edited) -> None:
    one = sheet(work(edited, BAR) | edited(TOOL, "size: 8 mm\n", ""))
    row = one.row("saddle")
    assert row is not None
    assert (row.figure, row.missing) == (None, "size in tools/drill-8")


@pytest.mark.parametrize("shape", [BAR, TUBE.format("one"), TUBE.format("both")])
def test_every_row_of_round_work_shows_its_working(
    sheet: Sheet, edited: Edited, shape: str
) -> None:
    for row in sheet(work(edited, shape)).rows:
        assert row.figure is not None, row.key
        for part in (row.label, row.formula, row.working, row.source, row.limits):
            assert part.strip(), row.key
