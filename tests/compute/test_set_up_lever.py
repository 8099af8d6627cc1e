"""The pull at the feed lever against what one hand can give: 110 N standing, 22 kgf the most.

The thrust of the small shop is 2865 N (test_set_up_figures.py); the pinion's radius is 10 mm and
0.9 of the hand's work arrives. So the pull is 2865 x 10 / (radius x 0.9) = 31833 / radius.
22 kgf = 215.75 N (standard gravity, 9.80665).
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from benchleaf.compute import SetUpSheet
from worked_out import drilled, known

Edited = Callable[..., dict[str, str]]
Sheet = Callable[..., SetUpSheet]
MACHINE, JOB = "machines/bench-drill.yml", "jobs/vg-0010.yml"
LEVER = (
    "lever:\n  radius: 350 mm\n  pinion_radius: 10 mm\n  efficiency: 0.9\n"
    "  source: entered for the tests, not measured\n"
)


def with_radius(edited: Edited, radius: str) -> dict[str, str]:
    return edited(MACHINE, "radius: 350 mm\n  pinion", f"radius: {radius}\n  pinion")


@pytest.mark.parametrize(
    ("radius", "shown", "doubted", "stopped"),
    [
        ("350 mm", "91 N", False, False),  # 91.0
        ("290 mm", "110 N", False, False),  # 109.8
        ("289 mm", "110 N", True, False),  # 110.1
        ("148 mm", "220 N", True, False),  # 215.1, just within
        ("147 mm", "220 N", False, True),  # 216.6
        ("100 mm", "320 N", False, True),
    ],
)
def test_s510_the_pull_of_one_hand(
    sheet: Sheet, edited: Edited, radius: str, shown: str, doubted: bool, stopped: bool
) -> None:
    one = sheet(with_radius(edited, radius))
    row = one.row("lever_force")
    assert row is not None
    assert row.figure is not None
    assert row.figure.text == shown
    assert any(doubt.code == "hand-pull" for doubt in one.doubts) is doubted
    assert [stop.code for stop in one.stops] == (["S510"] if stopped else [])
    if stopped:
        assert one.stops[0].path == ("set_ups", 0, "feed")
        assert "216 N is the most" in one.stops[0].reason
        assert "longer lever" in one.stops[0].cure


def test_the_limits_are_printed_with_the_figure(sheet: Sheet) -> None:
    row = sheet().row("lever_force")
    assert row is not None
    # 91 N: (91 - 106) / 27.2 and (91 - 162) / 43.1 spreads from the mean, 0.71 and 0.95 reach it
    # 215.75 / 90.94 = 2.37; over 1.15 x 1.5 / 1.3 x 1.03 x 0.9^-0.6 = 1.456 it is 1.63
    assert row.limits == (
        "one hand, standing: a design should not pass 110 N; 216 N is the greatest force of one "
        "hand, and nobody runs above it: that is 2.3 times this, at worst 1.6 times; by arm "
        "alone, once, about 7 of 10 women press this hard straight down, and nearly all pull this "
        "hard towards themselves"
    )
    assert row.reach.most == pytest.approx(215.75, abs=0.01)
    assert row.reach.advised_most == 110


def test_a_pull_above_the_limit_says_who_reaches_it_and_what_to_do(
    sheet: Sheet, edited: Edited
) -> None:
    one = sheet(with_radius(edited, "284 mm"))  # 112 N
    (told,) = (doubt.text for doubt in one.doubts if doubt.code == "hand-pull")
    assert told.startswith("The pull at the lever is above 110 N")
    assert "about 4 of 10 women press" in told
    assert "about 9 of 10 pull" in told
    assert "a finer feed, a pilot hole" in told
    assert "At worst" not in told  # 112 × 1.456 = 163 N


def test_a_pull_that_is_too_much_at_worst_is_told_in_the_same_doubt(
    sheet: Sheet, edited: Edited
) -> None:
    one = sheet(with_radius(edited, "200 mm"))  # 159 N, at worst 232 N
    (told,) = (doubt.text for doubt in one.doubts if "pull" in doubt.code)
    assert told.endswith(
        "At worst it is above 216 N, the most of one hand: most of the doubt is a dull tool."
    )
    assert told.count("At worst") == 1


def test_half_the_efficiency_is_twice_the_pull(sheet: Sheet, edited: Edited) -> None:
    usual = known(drilled(sheet()).lever_force)
    half = known(drilled(sheet(edited(MACHINE, "efficiency: 0.9", "efficiency: 0.45"))).lever_force)
    assert half == pytest.approx(2 * usual)


def test_without_a_lever_the_pull_is_not_computed_and_the_rest_is(
    sheet: Sheet, edited: Edited
) -> None:
    one = sheet(edited(MACHINE, LEVER, ""))
    row = one.row("lever_force")
    assert row is not None
    assert (row.figure, row.missing) == (None, "lever in machines/bench-drill")
    assert one.row("travel_per_turn") is None
    assert one.row("thrust") is not None
    assert one.may_run


def test_without_the_thrust_the_travel_of_the_lever_still_stands(
    sheet: Sheet, edited: Edited
) -> None:
    one = sheet(edited("materials/mild-steel.yml", "  kd_thrust: 24000\n", ""))
    turn, pull = one.row("travel_per_turn"), one.row("lever_force")
    assert turn is not None
    assert turn.figure is not None
    assert turn.figure.text == "63 mm"
    assert pull is not None
    assert (pull.figure, pull.missing) == (None, "the thrust above")


@pytest.mark.parametrize(
    ("old", "new"),
    [("radius: 350 mm\n  pinion", "radius: 0 mm\n  pinion"),
     ("pinion_radius: 10 mm", "pinion_radius: 0 mm")],
)  # fmt: skip
def test_a_lever_without_a_radius_gives_no_figure_and_says_why(
    sheet: Sheet, edited: Edited, old: str, new: str
) -> None:
    row = sheet(edited(MACHINE, old, new)).row("lever_force")
    assert row is not None
    assert row.figure is None
    assert row.missing.startswith("a value that the formula covers")


@pytest.mark.parametrize("efficiency", ["0", "1.1", "90"])
def test_an_efficiency_that_cannot_be_is_an_error_in_the_record(
    found: Callable[..., tuple[object, ...]], edited: Edited, efficiency: str
) -> None:
    assert found(edited(MACHINE, "efficiency: 0.9", f"efficiency: {efficiency}")) != ()


def test_a_smaller_feed_is_a_lighter_pull(sheet: Sheet, edited: Edited) -> None:
    usual, small = sheet(), sheet(edited(JOB, "feed: 0.15 mm/rev", "feed: 0.11 mm/rev"))
    assert known(drilled(small).lever_force) < known(drilled(usual).lever_force)
