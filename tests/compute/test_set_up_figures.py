"""Every figure of the small shop's set-up, worked out by hand, and the published examples.

By hand, for an 8 mm drill at 0.15 mm/rev through 6 mm of steel:

- factors as printed in Machinery's Handbook, 31st ed., p. 1152 and 1153: Table 8, 0.15 mm/rev,
  Ff 0.219; Table 9, 8.00 mm, FT 5.28 and FM 42.22; Table 7, ratio 0.18, A 1.085, B 1.355, J 0.030
- Kd 24000 (Table 6, from memory), W 1.3 (Table 3, from memory)
- point: 0.3004 times the diameter at 118 degrees (Groover, 5th ed., equation 21.10)
"""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest

from benchleaf.compute import SetUpSheet
from benchleaf.compute.results import Figure, figure, rough, told_in

Edited = Callable[..., dict[str, str]]
Sheet = Callable[..., SetUpSheet]

BY_HAND = {
    # key: text shown, and the same in the other system
    "cutting_speed_range": ("24.4 to 33.5 m/min", "80 to 110 ft/min"),
    # 1000 x 24.384 (33.528) / (pi x 8), rounded inwards
    "spindle_speed_range": ("971 to 1334 rpm", None),
    "spindle_speed": ("1000 rpm", None),  # of 400, 650, 1000, 1500: the one inside
    "cutting_speed": ("25.1 m/min", "82 ft/min"),  # pi x 8 x 1000 / 1000
    "feed": ("0.15 mm/rev", "0.0059 in/rev"),
    "feed_rate": ("150 mm/min", "5.9 in/min"),  # 0.15 x 1000
    "seconds_for_10_mm": ("4.0 s", None),  # 60 x 10 / 150
    "point_length": ("2.4 mm", "0.094 in"),  # 0.3004 x 8 = 2.403
    "depth_stop": ("9.4 mm", "0.370 in"),  # 6 + 2.4 + 1
    "quill_travel": ("12.4 mm", "0.488 in"),  # 3 + 9.4
    "time": ("5 s", None),  # 60 x 12.4 / 150 = 4.96
    # 0.05 x 24000 x 0.219 x 5.28 x 1.355 x 1.3 + 0.007 x 24000 x 64 x 0.030 x 1.3 = 2444 + 419
    "thrust": ("2900 N", "640 lbf"),
    "travel_per_turn": ("63 mm", "2.48 in"),  # 2 x pi x 10 = 62.8
    "travel_per_quarter": ("16 mm", "0.63 in"),  # 62.8 / 4 = 15.7
    "lever_force": ("91 N", "9.3 kgf"),  # 2865 x 10 / (350 x 0.9) = 90.9
    # 24000 x 0.219 x 42.22 x 1.085 x 1.3 / 40000 = 7.825
    "torque": ("7.8 N m", "69 lbf in"),
    "cutter_power": ("0.82 kW", "1.1 hp"),  # 7.825 x 1000 / 9550 = 0.819
    "motor_power": ("1.0 kW", "1.4 hp"),  # 0.82 / 0.8
    # friction 0.15 / 1.1818 for wet work, down to 0.126: 20000 x 0.126 x 40 x 1 / 1000 = 100.8
    "holding": ("100 N m", "890 lbf in"),
    # through 6 mm with a point of 2.403 mm: the last 2.403 mm are 360 x 2.403 / 62.83 degrees
    # the stop is at 9.4 mm: 3.4 mm, by the travel of a turn
    "ease_off": ("6.0 mm", "20 ° of lever before the stop"),
    # the lips alone: 2444 x (1 - 0.413) = 1435 of 2863 N
    "ease_to": ("50 % of the pull", None),
    "kept_feed": ("0.36 mm/rev", "0.0142 in/rev"),  # 0.15 x (2863 / 1435) ^ 1.25
    # 7.825 x (2863 / 1435) x 2 / 1.18 = 26.46
    "exit_torque": ("26 N m", "230 lbf in"),
    # the lips left at 1.27 mm/rev: 1.995 x (0.15 / 1.27)^0.8 = 0.361
    # 26.46 x (2 - 0.361 x 0.82) / 2 = 22.5
    "exit_at_feed": ("23 N m", "200 lbf in"),
    "held_down": ("5000 N", "1100 lbf"),  # 2 x 20000 x 0.126 = 5040
}


def texts(figure: Figure | None) -> str | None:
    return figure.text if figure is not None else None


@pytest.mark.parametrize("key", BY_HAND)
def test_a_row_shows_the_figure_worked_out_by_hand(sheet: Sheet, key: str) -> None:
    row = sheet().row(key)
    assert row is not None
    assert (texts(row.figure), texts(row.other)) == BY_HAND[key]


def test_no_row_is_left_out_of_this_test(sheet: Sheet) -> None:
    assert [row.key for row in sheet().rows] == list(BY_HAND)


def test_every_computed_row_shows_its_working(sheet: Sheet) -> None:
    for row in sheet().rows:
        for part in (row.label, row.formula, row.working, row.source, row.limits):
            assert part.strip(), row.key
        assert row.missing == ""


def test_a_sheet_within_all_limits_may_run(sheet: Sheet) -> None:
    one = sheet()
    assert one.may_run
    assert (one.stops, one.doubts) == ((), ())
    # 2000 x 26.49 x tan(30) / 8 = 3824 N against 2 x 20000 x 0.126
    assert one.cautions == ()
    assert (one.id, one.operation, one.tool) == ("guide-hole", "drilling", "drill-8")
    assert one.row("no-such-row") is None


def test_every_speed_of_the_machine_is_marked_against_the_range(sheet: Sheet) -> None:
    steps = [(step.rpm, step.inside, step.chosen) for step in sheet().speed_steps]
    assert steps == [
        (400, False, False), (650, False, False), (1000, True, True), (1500, False, False),
    ]  # fmt: skip


def test_the_fastest_of_several_speeds_inside_is_chosen(sheet: Sheet, edited: Edited) -> None:
    speeds = edited("machines/bench-drill.yml", "  - 1000 rpm", "  - 1300 rpm\n  - 1000 rpm")
    one = sheet(speeds)
    assert [step.rpm for step in one.speed_steps if step.inside] == [1000, 1300]
    assert [step.rpm for step in one.speed_steps if step.chosen] == [1300]


def test_with_no_speed_inside_the_next_slower_one_is_chosen_and_told(
    sheet: Sheet, edited: Edited
) -> None:
    one = sheet(edited("machines/bench-drill.yml", "  - 1000 rpm\n", ""))
    assert [step.rpm for step in one.speed_steps if step.chosen] == [650]
    assert len(one.doubts) == 1
    assert one.may_run


def test_a_published_example_of_a_through_hole(sheet: Sheet, edited: Edited) -> None:
    """Groover, 5th ed., Example 21.2: 20 mm, 0.5 m/s, 0.22 mm/rev, 15 mm thick, 118 degrees.

    Printed there: 7.96 rev/s, 1.75 mm/s, point 6.01 mm, 12.0 s.
    """
    one = sheet(
        edited("tools/drill-8.yml", "size: 8 mm", "size: 20 mm")
        | edited("materials/mild-steel.yml", "80 to 110 ft/min", "0.5 m/s")
        | edited("machines/bench-drill.yml", "  - 400 rpm", "  - 7.96 rev/s")
        | edited(
            "jobs/vg-0010.yml", "thickness: 6 mm", "thickness: 15 mm",
            "feed: 0.15 mm/rev", "feed: 0.22 mm/rev", "start_clearance: 3 mm",
            "start_clearance: 0 mm", "overtravel: 1 mm", "overtravel: 0 mm",
        )
    )  # fmt: skip
    # 7.96 is the book's rounding of 7.9577 rev/s, so the machine's own speed is a little faster.
    wanted = one.row("spindle_speed_range")
    assert wanted is not None
    assert wanted.figure == Figure(477, 477, "rpm", 0)
    point, stop = one.row("point_length"), one.row("depth_stop")
    assert point is not None
    assert stop is not None
    assert "= 6.01 mm" in point.working
    assert "= 21.0 mm" in stop.working


def test_a_blind_hole_counts_depth_and_point_only(sheet: Sheet, edited: Edited) -> None:
    one = sheet(
        edited("jobs/vg-0010.yml", "hole: through\n    thickness: 6 mm",
               "hole: blind\n    depth: 10 mm\n    thickness: 20 mm", "    overtravel: 1 mm\n", "")
    )  # fmt: skip
    stop, travel = one.row("depth_stop"), one.row("quill_travel")
    assert stop is not None
    assert travel is not None
    assert texts(stop.figure) == "12.4 mm"  # 10 + 2.403
    assert texts(travel.figure) == "15.4 mm"
    assert one.doubts == ()


@pytest.mark.parametrize(("depth", "comes_through"), [("3.5 mm", False), ("3.6 mm", True)])
def test_the_point_of_a_blind_hole_may_come_through(
    sheet: Sheet, edited: Edited, depth: str, comes_through: bool
) -> None:
    # The point is 2.403 mm long, so 3.597 mm is the deepest that stays inside 6 mm.
    one = sheet(
        edited("jobs/vg-0010.yml", "hole: through", f"hole: blind\n    depth: {depth}",
               "    overtravel: 1 mm\n", "")
    )  # fmt: skip
    assert bool(one.doubts) is comes_through


@pytest.mark.parametrize(
    ("feed", "outside"),
    [("0.10 mm/rev", False), ("0.18 mm/rev", False), ("0.09 mm/rev", True), ("0.19 mm/rev", True),
     ("0.2 mm/rev", True)],
)  # fmt: skip
def test_a_feed_outside_the_tools_range_is_told(
    sheet: Sheet, edited: Edited, feed: str, outside: bool
) -> None:
    # The range is 0.004 to 0.007 in/rev: 0.1016 to 0.1778 mm/rev, half a hundredth allowed.
    hard = ("force: 20 kN", "force: 20 kN")
    one = sheet(edited("jobs/vg-0010.yml", "feed: 0.15 mm/rev", f"feed: {feed}", *hard))
    assert any("outside the range" in doubt.text for doubt in one.doubts) is outside
    assert one.may_run


def test_the_set_ups_own_holding_goes_before_the_jobs(sheet: Sheet, edited: Edited) -> None:
    own = (
        "    overtravel: 1 mm\n    holding:\n      method: clamps\n      how: Strap clamps.\n"
        "      bolted_down: To the table.\n      positive_stop:\n        rated_force: 500 N\n"
        "        arm: 120 mm\n        source: entered for the tests\n"
    )
    one = sheet(edited("jobs/vg-0010.yml", "    overtravel: 1 mm\n", own))
    row = one.row("holding")
    assert row is not None
    assert texts(row.figure) == "60 N m"  # 500 x 120 / 1000


def test_the_stronger_of_clamping_and_stop_is_counted_and_not_the_sum(
    sheet: Sheet, edited: Edited
) -> None:
    stop = (
        "  positive_stop:\n    rated_force: 1 kN\n    arm: 120 mm\n    source: entered\nmust_know:"
    )
    row = sheet(edited("jobs/vg-0010.yml", "must_know:", stop)).row("holding")
    assert row is not None
    assert texts(row.figure) == "120 N m"  # 1000 x 120 / 1000, against 100.8 by friction
    assert "100.8 N m; " in row.working


def test_the_same_in_inches_gives_the_same_figures(sheet: Sheet, edited: Edited) -> None:
    inches = sheet(
        edited("tools/drill-8.yml", "size: 8 mm", "size: 0.3149606299 in")
        | edited(
            "jobs/vg-0010.yml", "thickness: 6 mm", "thickness: 0.2362204724 in",
            "feed: 0.15 mm/rev", "feed: 0.005905511811 in/rev",
            "start_clearance: 3 mm", "start_clearance: 0.1181102362 in",
            "overtravel: 1 mm", "overtravel: 0.0393700787 in",
            "force: 20 kN", "force: 4496.17883 lbf", "arm: 40 mm", "arm: 1.5748031496 in",
        )
    )  # fmt: skip
    shown = {row.key: (texts(row.figure), texts(row.other)) for row in inches.rows}
    assert shown == BY_HAND


@pytest.mark.parametrize(
    ("value", "digits", "text"),
    [(2863.0, 2, "2900 N"), (7.825, 2, "7.8 N"), (0.0523, 2, "0.05 N"), (99.6, 2, "100 N"),
     (9.96, 2, "10 N"), (12.4, 3, "12.4 N"), (0.996, 2, "1.0 N"), (0.95, 2, "0.95 N")],
)  # fmt: skip
def test_a_rough_figure_shows_only_the_digits_it_is_good_for(
    value: float, digits: int, text: str
) -> None:
    assert rough(value, "N", digits).text == text


def test_a_figure_may_be_a_range() -> None:
    assert figure(24.384, "m/min", 0, 33.528).text == "24 to 34 m/min"
    assert figure(24.1, "m/min", 0, 24.2).text == "24 m/min"


def test_another_unit_is_told_from_the_figure_shown() -> None:
    assert told_in(figure(25.44, "mm", 1), "length", "in", 3).text == "1.000 in"
    with pytest.raises(ValueError, match="base unit"):
        told_in(figure(1.0, "in", 0), "length", "in", 3)


def test_no_figure_is_ever_not_a_number(sheet: Sheet) -> None:
    for row in sheet().rows:
        assert row.figure is not None
        assert math.isfinite(row.figure.low)
        assert row.figure.low <= row.figure.high


@pytest.mark.parametrize(
    ("feed", "shown"),
    [("0.1", "0.10 mm/rev"), ("0.12", "0.12 mm/rev"), ("0.125", "0.125 mm/rev")],
)
def test_a_feed_is_shown_to_the_hundredth_or_as_fine_as_it_was_entered(
    sheet: Sheet, edited: Edited, feed: str, shown: str
) -> None:
    one = sheet(edited("jobs/vg-0010.yml", "feed: 0.15 mm/rev", f"feed: {feed} mm/rev"))
    row = one.row("feed")
    assert row is not None
    assert texts(row.figure) == shown
