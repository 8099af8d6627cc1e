"""Deep holes, pilot holes and drill life: figures by the published rows, and the ends of each.

Published cut in speed and feed (tests/worked/deep_hole_reduction.csv): 10 and 10 % at 3
diameters, 20 and 10 % at 4, 30 and 20 % at 5, 40 and 20 % at 6; deeper is not printed.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from benchleaf.compute import SetUpSheet
from worked_out import drilled, known

Edited = Callable[..., dict[str, str]]
Sheet = Callable[..., SetUpSheet]
JOB, MACHINE, TOOL = "jobs/vg-0010.yml", "machines/bench-drill.yml", "tools/drill-8.yml"


def shown(sheet: SetUpSheet, key: str) -> str | None:
    row = sheet.row(key)
    return row.figure.text if row is not None and row.figure is not None else None


def deep(edited: Edited, thickness: str, *more: str) -> dict[str, str]:
    return edited(JOB, "thickness: 6 mm", f"thickness: {thickness}", *more)


@pytest.mark.parametrize(
    ("thickness", "kept", "pecks", "range_shown"),
    [
        # 8 mm: 80 to 110 ft/min is 24.384 to 33.528 m/min
        ("23.9 mm", None, None, "971 to 1334 rpm"),
        ("24 mm", "90 %", None, "874 to 1200 rpm"),  # 3 diameters; 0.9 of 970.2 and 1334.0
        # 3.2: by the next row, 4; out at 16; at 24 the point of 2.4 mm would be through
        ("25.6 mm", "80 %", "2 pecks", "777 to 1067 rpm"),
        ("32 mm", "80 %", "4 pecks", "777 to 1067 rpm"),  # 16, 24, 28, 32
        ("48 mm", "60 %", "8 pecks", "583 to 800 rpm"),  # 16, 24, 28, 32, 36, 40, 44, 48
    ],
)
def test_speed_and_pecks_by_depth(
    sheet: Sheet, edited: Edited, thickness: str, kept: str | None, pecks: str | None,
    range_shown: str,
) -> None:  # fmt: skip
    one = sheet(deep(edited, thickness))
    assert shown(one, "deep_hole") == kept
    assert shown(one, "pecks") == pecks
    assert shown(one, "spindle_speed_range") == range_shown


def test_the_depths_to_come_out_at_are_read_on_the_scale(sheet: Sheet, edited: Edited) -> None:
    row = sheet(deep(edited, "32 mm")).row("pecks")
    assert row is not None
    # 16, 24 and 28 mm of full diameter, with the point of 2.4 mm before it
    assert "out at 18.4, 26.4, 30.4 mm on the scale" in row.working


def test_beyond_six_diameters_nothing_is_invented(sheet: Sheet, edited: Edited) -> None:
    one = sheet(deep(edited, "48.8 mm"))  # 6.1 diameters
    assert (shown(one, "deep_hole"), shown(one, "pecks")) == (None, None)
    assert any("6.1 diameters deep" in doubt.text and "ask" in doubt.text for doubt in one.doubts)


@pytest.mark.parametrize(
    ("size", "depth", "diameters"),
    [("1.9", "5.7", 3), ("1.6", "4.8", 3), ("2.3", "6.9", 3), ("2.2", "6.6", 3),
     ("1.9", "11.4", 6), ("1.6", "9.6", 6), ("2.3", "13.8", 6), ("2.8", "16.8", 6)],
)  # fmt: skip
def test_exactly_three_and_six_diameters_are_that_in_any_size(
    sheet: Sheet, edited: Edited, size: str, depth: str, diameters: int
) -> None:
    """5.7 / 1.9 is 3.0000000000000004 to the machine, and 4.8 / 1.6 is 2.9999999999999996."""
    one = sheet(
        edited(TOOL, "size: 8 mm", f"size: {size} mm")
        | deep(edited, f"{depth} mm", "feed: 0.15 mm/rev", "feed: 0.03 mm/rev")
    )
    assert shown(one, "deep_hole") == {3: "90 %", 6: "60 %"}[diameters]
    assert shown(one, "pecks") == {3: None, 6: "8 pecks"}[diameters]
    assert not any("diameters deep" in doubt.text for doubt in one.doubts)


def test_a_blind_hole_counts_its_depth_and_not_the_work(sheet: Sheet, edited: Edited) -> None:
    one = sheet(
        edited(JOB, "hole: through\n    thickness: 6 mm",
               "hole: blind\n    depth: 25.6 mm\n    thickness: 80 mm",
               "    overtravel: 1 mm\n", "")
    )  # fmt: skip
    assert (shown(one, "deep_hole"), shown(one, "pecks")) == ("80 %", "3 pecks")


def test_a_tube_is_as_deep_as_one_wall(sheet: Sheet, edited: Edited) -> None:
    tube = "    work: round tube\n    work_diameter: 40 mm\n    wall: 3 mm\n    walls: both\n"
    one = sheet(edited(JOB, "    thickness: 6 mm\n", tube))
    assert (shown(one, "deep_hole"), shown(one, "pecks")) == (None, None)


@pytest.mark.parametrize(("feed", "doubted"), [("0.14", False), ("0.15", True)])
def test_in_a_deep_hole_the_feed_comes_down_too(
    sheet: Sheet, edited: Edited, feed: str, doubted: bool
) -> None:
    # 0.8 of 0.1778 is 0.1422 mm/rev, half a hundredth allowed
    files = deep(edited, "40 mm", "feed: 0.15 mm/rev", f"feed: {feed} mm/rev")
    assert any("feed should be 0.14" in doubt.text for doubt in sheet(files).doubts) is doubted


LARGE = (
    "drill_capacity: 13 mm", "drill_capacity: 32 mm", "rated_thrust: 4 kN", "rated_thrust: 40 kN",
    "motor_power: 1.5 kW", "motor_power: 20 kW",
    "radius: 350 mm\n  pinion", "radius: 2 m\n  pinion",
)  # fmt: skip


def large(edited: Edited, size: str, *more: str) -> dict[str, str]:
    return (
        edited(TOOL, "size: 8 mm", f"size: {size} mm")
        | edited(MACHINE, *LARGE)
        | edited(JOB, "force: 20 kN", "force: 60 kN", "thickness: 6 mm", "thickness: 20 mm", *more)
    )


@pytest.mark.parametrize(("size", "advised"), [("8", False), ("12.7", False), ("12.8", True)])
def test_a_pilot_is_advised_above_half_an_inch(
    sheet: Sheet, edited: Edited, size: str, advised: bool
) -> None:
    one = sheet(large(edited, size))
    assert (one.row("pilot") is not None) is advised
    assert any("pilot hole" in line for line in one.cautions) is advised


def test_the_pilot_clears_the_chisel_edge(sheet: Sheet, edited: Edited) -> None:
    # 0.18 x 20 = 3.6 mm, up to the next half millimetre; the web is 0.155 x 20 = 3.1 mm
    one = sheet(large(edited, "20"))
    assert shown(one, "pilot") == "4.0 mm"
    row = one.row("pilot")
    assert row is not None
    assert row.working == "0.18 × 20 = 3.6 mm, up to the next 0.5 mm; the web is 3.1 mm thick"


def test_behind_a_pilot_hole_the_thrust_falls_and_nothing_is_left_to_ease_to(
    sheet: Sheet, edited: Edited
) -> None:
    pilot = ("feed: 0.15 mm/rev", "feed: 0.15 mm/rev\n    pilot: 4 mm")
    solid, piloted = sheet(large(edited, "20")), sheet(large(edited, "20", *pilot))
    whole = known(drilled(solid).thrust)
    # The part without B is the chisel edge's: 0.007 x 24000 x 20^2 x 0.030 x 1.3 = 2620.8 N; of
    # the rest it takes 0.413. The lips keep (20 - 4) of (20 - 3.6) mm.
    left = (whole - 2620.8) * (1 - 0.413) * 16 / 16.4
    assert known(drilled(piloted).thrust) == pytest.approx(left, rel=0.001)
    ratio = known(drilled(piloted).thrust) / whole
    assert ratio < 0.5
    assert known(drilled(piloted).lever_force) == pytest.approx(
        known(drilled(solid).lever_force) * ratio
    )
    # the ring that is left, on its arm: 1 - (4 / 20)^2
    assert known(piloted.found.torque) == pytest.approx(0.96 * known(solid.found.torque))
    assert piloted.row("exit_torque").figure is not None  # type: ignore[union-attr]
    # nothing holds the lips back, yet what is left of them turns harder: 2 / (1 + 4 / 20)
    limit = known(drilled(piloted).exit_limit)
    assert limit == pytest.approx(known(piloted.found.torque) * 2 / 1.2)
    assert shown(piloted, "pilot") == "4.0 mm"
    assert not any("wants a pilot hole" in line for line in piloted.cautions)
    assert piloted.row("ease_off") is not None
    assert piloted.row("ease_to") is None
    assert piloted.row("kept_feed") is None
    assert shown(solid, "ease_to") not in (None, "100 % of the pull")


@pytest.mark.parametrize("pilot", ["3.5", "10.1"])
def test_a_pilot_that_the_model_does_not_cover_gives_no_thrust(
    sheet: Sheet, edited: Edited, pilot: str
) -> None:
    """Narrower than the chisel edge of 3.6 mm, or wider than half the drill."""
    one = sheet(
        large(edited, "20", "feed: 0.15 mm/rev", f"feed: 0.15 mm/rev\n    pilot: {pilot} mm")
    )
    row = one.row("thrust")
    assert row is not None
    assert row.figure is None
    assert row.missing.startswith("a value that the formula covers (pilot_mm is")
    assert one.row("lever_force") is not None


@pytest.mark.parametrize("share", [0.39, 0.40, 0.41, 0.45, 0.50])
def test_a_pilot_up_to_half_the_drill_is_taken_by_every_row_alike(
    sheet: Sheet, edited: Edited, share: float
) -> None:
    pilot = f"feed: 0.15 mm/rev\n    pilot: {20 * share:g} mm"
    one = sheet(large(edited, "20", "feed: 0.15 mm/rev", pilot))
    assert [row.key for row in one.rows if row.figure is None and not row.is_optional] == []
    assert {"thrust", "torque", "ease_off", "exit_torque"} <= {row.key for row in one.rows}
    assert one.feel is not None


def taylor(c: str, exponent: str = "0.25") -> tuple[str, str]:
    lines = f"taylor:\n  exponent: {exponent}\n  c: {c}\n  source: entered for the tests\nregrind:"
    return "regrind:", lines


def test_without_constants_there_is_no_drill_life(sheet: Sheet) -> None:
    assert sheet().row("life") is None


def test_drill_life_and_holes_between_grinds(sheet: Sheet, edited: Edited) -> None:
    # pi x 8 x 1000 / 1000 = 25.133 m/min; C twice of it and n = 0.25: 2^4 = 16 min.
    # One hole takes 60 x 12.403 / 150 = 4.961 s: 960 / 4.961 = 193.5, rounded down.
    one = sheet(edited(TOOL, *taylor("50.2655 m/min")))
    assert shown(one, "life") == "16 min"
    assert shown(one, "holes_between_grinds") == "193 holes"


def test_without_a_time_there_is_a_life_and_no_number_of_holes(
    sheet: Sheet, edited: Edited
) -> None:
    one = sheet(edited(TOOL, *taylor("50.2655 m/min")) | edited(JOB, "    overtravel: 1 mm\n", ""))
    assert shown(one, "life") == "16 min"
    assert one.row("holes_between_grinds") is None


@pytest.mark.parametrize(("c", "exponent"), [("400 m/min", "0.25"), ("50 m/min", "0.01")])
def test_a_life_that_the_law_does_not_cover_is_said_and_not_silent(
    sheet: Sheet, edited: Edited, c: str, exponent: str
) -> None:
    """(400 / 25.1)^4 is 64000 min, above the 10000 believed; n is believed from 0.05."""
    row = sheet(edited(TOOL, *taylor(c, exponent))).row("life")
    assert row is not None
    assert row.figure is None
    assert row.missing.startswith("a value that the formula covers")


def test_a_drill_is_never_brought_out_once_its_point_is_through(
    sheet: Sheet, edited: Edited
) -> None:
    """It would go back into a half-broken hole, and grab."""
    through = sheet(deep(edited, "48 mm")).row("pecks")
    assert through is not None
    out_at = through.working.removeprefix("out at ").split(" mm on")[0].split(", ")
    assert [float(one) for one in out_at][-1] < 48
    assert len(out_at) == 7


def test_the_time_of_a_pecked_hole_counts_each_time_the_drill_comes_out(
    sheet: Sheet, edited: Edited
) -> None:
    """32 mm at 4 diameters: four pecks, out three times of 4 s each; the edge wears in the cut.

    Travel is 3 + 32 + 2.403 + 1 = 38.403 mm. The machine's speed inside 777 to 1067 rpm is 1000:
    38.403 mm at 150 mm/min is 15.361 s, and with 12 s of withdrawals 27.361 s.
    """
    one = sheet(edited(TOOL, *taylor("50.2655 m/min")) | deep(edited, "32 mm"))
    row = one.row("time")
    assert row is not None
    assert shown(one, "spindle_speed") == "1000 rpm"
    assert row.figure is not None
    assert row.figure.text == "27 s"
    assert row.working.endswith("(4 − 1) × 4 = 27.4 s")
    assert row.label == "Time, each hole, with bringing the drill out"
    # 16 min are 960 s: 62 holes of 15.361 s, where 27.361 s would make it 35.
    assert shown(one, "holes_between_grinds") == "62 holes"


def test_the_time_of_a_hole_in_one_go_counts_the_cut_alone(sheet: Sheet) -> None:
    row = sheet().row("time")
    assert row is not None
    assert row.label == "Time under feed, each hole"
    assert "withdrawal" not in row.working + row.limits
