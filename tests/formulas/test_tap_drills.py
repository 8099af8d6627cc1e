"""Percentage of thread, tap drills that exist, and the depth of a blind hole."""

import math
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from benchleaf.formulas.drill_sizes import SIZES
from benchleaf.formulas.tap_drills import (
    METRIC_DRILLS,
    TAP_CHAMFER,
    Basis,
    blind_tap_depth_mm,
    hole_for_percent_mm,
    percent_of_thread,
    tap_drill,
)
from benchleaf.formulas.threads import THREADS, minor_limits_mm, thread

Table = Callable[[str], list[dict[str, str]]]
threads = st.sampled_from(sorted(THREADS)).map(thread)
percents = st.floats(20, 100)
bases = st.sampled_from(list(Basis))
US = Basis.FULL_THREAD_HEIGHT

MM_PER_IN = 25.4
ROUNDED_CONSTANT = 1e-6
"""What 0.01299 in place of 0.0129904 moves a hole in inches, where a half hangs on it."""


def test_holes_are_those_of_two_catalogues(table: Table) -> None:
    rows = table("percent_of_thread.csv")
    assert len(rows) == 14
    for row in rows:
        for percent in (80, 75, 70, 65, 60):
            hole = hole_for_percent_mm(thread(row["thread"]), percent, US)
            ours = hole if row["unit"] == "mm" else hole / MM_PER_IN
            digit = 0.01 if row["unit"] == "mm" else 0.0001
            over = ours - float(row[f"hole_{percent}"])
            # Half the last digit printed; two cells are cut, so up to a whole digit low.
            cut = row["row"] == "uneven" and percent in (80, 60)
            low, high = (0, digit) if cut else (-digit / 2, digit / 2)
            assert low - ROUNDED_CONSTANT <= over <= high + ROUNDED_CONSTANT, row


@pytest.mark.parametrize(("hole_mm", "printed"), [(8.376, 100.0), (8.5, 92.4), (8.676, 81.5)])
def test_iso_percentages_are_those_of_a_tap_makers_flow_chart(
    hole_mm: float, printed: float
) -> None:
    percent = percent_of_thread(thread("M10"), hole_mm, Basis.ISO)
    assert percent == pytest.approx(printed, abs=0.05)


def test_the_two_bases_are_told_apart() -> None:
    # The hole D - P, on either basis.
    m10 = thread("M10")
    assert percent_of_thread(m10, 8.5, US) == pytest.approx(76.98, abs=0.01)
    assert percent_of_thread(m10, 8.5, Basis.ISO) == pytest.approx(92.38, abs=0.01)


@pytest.mark.parametrize(
    "wrong_in",
    [
        0.25 - 1.299 * 0.75 / (2 * 20),  # half the double depth
        0.25 - 0.75 / 20,  # the pitch taken for the depth
    ],
)
def test_wrong_formulas_of_public_pages_give_another_hole(wrong_in: float) -> None:
    right_in = hole_for_percent_mm(thread("1/4-20"), 75, US) / MM_PER_IN
    assert right_in == pytest.approx(0.2013, abs=0.00005)
    assert wrong_in > right_in + 0.01


@given(threads, percents, bases)
def test_percentage_and_hole_undo_each_other(each: Any, percent: float, basis: Basis) -> None:
    hole = hole_for_percent_mm(each, percent, basis)
    assert percent_of_thread(each, hole, basis) == pytest.approx(percent)


@given(threads, percents, bases, st.floats(0.01, 10))
def test_percentage_falls_as_the_hole_grows(
    each: Any, percent: float, basis: Basis, less: float
) -> None:
    assert hole_for_percent_mm(each, percent - less, basis) > hole_for_percent_mm(
        each, percent, basis
    )


def chart_name(row: dict[str, str]) -> str:
    return f"{float(row['drill']):.{2 if row['drill'] == '2.05' else 1}f} mm"


OUTSIDE_2B = {"9/16-18", "5/8-18"}
"""Chart drills above the 2B limit by the tables: 33/64 against 0.515 in, 37/64 against 0.578."""


def test_the_charts_drill_is_chosen_at_its_own_percentage(table: Table) -> None:
    rows = table("tap_drill_chart.csv")
    assert len(rows) == 71
    for row in rows:
        if row["thread"] in OUTSIDE_2B:
            continue
        kinds: Any = (row["kind"],)
        ours = tap_drill(thread(row["thread"]), float(row["percent"]), US, kinds)
        assert ours.name == (chart_name(row) if row["kind"] == "metric" else row["drill"]), row
        assert ours.percent == pytest.approx(float(row["percent"]), abs=0.051), row
        assert ours.inside_limits is True


def test_two_drills_of_the_chart_lie_above_the_limits(table: Table) -> None:
    outside = set()
    for row in table("tap_drill_chart.csv"):
        metric = row["kind"] == "metric"
        drill = float(row["drill"]) if metric else SIZES[row["drill"]].diameter_mm
        limits = minor_limits_mm(thread(row["thread"]))
        assert limits is not None
        assert drill >= limits.low_mm, row
        if drill > limits.high_mm:
            outside.add(row["thread"])
            assert drill - limits.high_mm < 0.02, row
    assert outside == OUTSIDE_2B


@pytest.mark.parametrize(("name", "wrong_mm"), [("M22", 18.5), ("1-12", 15 / 16 * MM_PER_IN)])
def test_a_public_lists_wrong_drills_are_outside_the_limits(name: str, wrong_mm: float) -> None:
    limits = minor_limits_mm(thread(name))
    assert limits is not None
    assert not limits.low_mm <= wrong_mm <= limits.high_mm


@given(threads, percents, bases)
def test_a_tap_drill_lies_between_minor_and_major(each: Any, percent: float, basis: Basis) -> None:
    drill = tap_drill(each, percent, basis)
    limits = minor_limits_mm(each)
    assert limits is not None
    assert drill.inside_limits is True
    assert limits.low_mm - 1e-6 <= drill.diameter_mm <= limits.high_mm + 1e-6 < each.major_mm
    assert drill.percent == percent_of_thread(each, drill.diameter_mm, basis)


@given(threads, percents)
def test_no_drill_inside_the_limits_is_nearer(each: Any, percent: float) -> None:
    drill = tap_drill(each, percent, US, ("metric",))
    assume(drill.inside_limits)
    wanted = hole_for_percent_mm(each, percent, US)
    limits = minor_limits_mm(each)
    assert limits is not None
    for _, other in METRIC_DRILLS:
        if limits.low_mm <= other <= limits.high_mm:
            assert abs(other - wanted) >= abs(drill.diameter_mm - wanted) - 1e-6


def test_a_drill_outside_the_limits_is_said_to_be() -> None:
    # No whole 1/64 in lies inside the limits of M3.
    drill = tap_drill(thread("M3"), 75, US, ("fraction",))
    assert (drill.name, drill.inside_limits) == ("3/32", False)


def test_of_two_equally_near_the_larger_is_taken() -> None:
    # M8 at 76.98 %: 6.75 mm, half way between 6.7 and 6.8.
    percent = percent_of_thread(thread("M8"), 6.75, US)
    assert tap_drill(thread("M8"), percent, US, ("metric",)).name == "6.8 mm"


def test_metric_drills_are_those_of_the_standard() -> None:
    sizes = dict(METRIC_DRILLS)
    assert len(METRIC_DRILLS) == len(sizes) == 40 + 110 + 45
    assert sizes["2.05 mm"] == 2.05
    assert {"1.0 mm", "2.95 mm", "3.0 mm", "13.9 mm", "14.0 mm", "14.25 mm", "25.0 mm"} <= set(
        sizes
    )
    assert not {"3.05 mm", "14.1 mm", "25.25 mm"} & set(sizes)
    assert list(sizes.values()) == sorted(sizes.values())


@pytest.mark.parametrize("kinds", [(), ("wire",), ("metric", "inch")])
def test_only_kinds_there_are(kinds: Any) -> None:
    with pytest.raises(ValueError, match=r"kinds is .* must name some of metric, fraction"):
        tap_drill(thread("M8"), 75, US, kinds)


@pytest.mark.parametrize("hole_mm", [8.0, 8.5, 6.0, 0.0, -6.8, math.nan, math.inf])
def test_a_hole_that_is_no_hole_for_the_thread_is_refused(hole_mm: float) -> None:
    with pytest.raises(ValueError, match="hole_mm is"):
        percent_of_thread(thread("M8"), hole_mm, US)


@pytest.mark.parametrize("percent", [0.0, -5.0, 100.1, math.nan, math.inf])
def test_a_percentage_that_is_none_is_refused(percent: float) -> None:
    with pytest.raises(ValueError, match="percent is"):
        hole_for_percent_mm(thread("M8"), percent, US)


def test_the_blind_depth_is_that_of_a_machining_tip() -> None:
    # 1/4-20, 0.375 in of thread, two threads of chamfer and one pitch: 0.525 in printed.
    depth_mm = blind_tap_depth_mm(thread("1/4-20"), 0.375 * MM_PER_IN, 2.0, 1.0)
    assert depth_mm / MM_PER_IN == pytest.approx(0.525, abs=0.0005)


@pytest.mark.parametrize(
    ("name", "share"),
    [("M4", 0.25), ("M5", 0.25), ("M6", 0.20), ("M8", 0.20), ("M12", 0.20), ("M16", 0.15)],
)
def test_the_extra_depth_is_of_the_order_of_a_british_rule(name: str, share: float) -> None:
    # BS 1936 as a public page has it: a quarter of the thread's depth below M6, a fifth to M12,
    # 0.15 above. For two diameters of thread and a bottoming tap of 1.5 pitches.
    each = thread(name)
    length_mm = 2 * each.major_mm
    extra_mm = blind_tap_depth_mm(each, length_mm, 1.5, 1.0) - length_mm
    assert extra_mm == pytest.approx(share * length_mm, rel=0.25)


@given(threads, st.floats(0.5, 60), st.floats(0, 10), st.floats(1, 5), st.floats(0.1, 3))
def test_a_blind_hole_is_deeper_than_its_thread(
    each: Any, length: float, chamfer: float, clearance: float, more: float
) -> None:
    depth = blind_tap_depth_mm(each, length, chamfer, clearance)
    assert depth >= length + each.pitch_mm * 0.999
    assert blind_tap_depth_mm(each, length, chamfer + more, clearance) > depth


def test_a_longer_chamfer_needs_a_deeper_hole() -> None:
    highs = [TAP_CHAMFER[kind].high_pitches for kind in ("bottoming", "plug", "taper")]
    lows = [TAP_CHAMFER[kind].low_pitches for kind in ("bottoming", "plug", "taper")]
    assert highs == sorted(set(highs))
    assert all(low < high for low, high in zip(lows, highs, strict=True))


@pytest.mark.parametrize(
    ("length", "chamfer", "clearance", "named"),
    [
        (0.0, 2.0, 1.0, "thread_length_mm"),
        (10.0, -1.0, 1.0, "chamfer_pitches"),
        (10.0, 2.0, 0.5, "clearance_pitches"),
        (10.0, 2.0, math.nan, "clearance_pitches"),
        (10.0, 2.0, math.inf, "clearance_pitches"),
        (math.inf, 2.0, 1.0, "thread_length_mm"),
    ],
)
def test_a_wrong_blind_hole_is_refused(
    length: float, chamfer: float, clearance: float, named: str
) -> None:
    with pytest.raises(ValueError, match=f"{named} is"):
        blind_tap_depth_mm(thread("M8"), length, chamfer, clearance)


def test_chamfers_hold_what_the_sources_print() -> None:
    # A handbook as quoted; a tap maker's 9, 5 and 1.5 threads; 1 to 2 of other lists.
    printed = {"taper": (8, 10, 9), "plug": (3, 5, 5), "bottoming": (1, 2, 1.5)}
    for kind, (low, high, maker) in printed.items():
        ours = TAP_CHAMFER[kind]
        assert (ours.low_pitches, ours.high_pitches) == (low, high)
        assert ours.low_pitches <= maker <= ours.high_pitches
