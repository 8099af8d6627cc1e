"""Threads by name, and the limits of the tapped hole."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.formulas.sources import SourceStatus
from benchleaf.formulas.thread_tables import METRIC, MINOR_TOLERANCE_6H, UNIFIED
from benchleaf.formulas.threads import THREADS, basic_minor_mm, minor_limits_mm, thread

Table = Callable[[str], list[dict[str, str]]]
names = st.sampled_from(sorted(THREADS))

MM_PER_IN = 25.4


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("M8", "M8x1.25"),
        ("M8x1.25", "M8x1.25"),
        ("M8 x 1", "M8x1"),
        (" m8 × 1.0 ", "M8x1"),
        ("M2.5", "M2.5x0.45"),
        ("1/4-20 UNC", "1/4-20 UNC"),
        ("1/4-20", "1/4-20 UNC"),
        ("#10-32 UNF", "#10-32 UNF"),
        ("#10-32", "#10-32 UNF"),
        ("1-8", "1-8 UNC"),
    ],
)
def test_a_thread_is_found_as_it_is_written(written: str, name: str) -> None:
    assert thread(written).name == name


def test_metric_coarse_is_meant_where_no_pitch_is_written() -> None:
    coarse = {row.major_mm: row.pitch_mm for row in METRIC if row.series == "coarse"}
    assert len(coarse) == 17
    for major_mm, pitch_mm in coarse.items():
        assert thread(f"M{major_mm:g}").pitch_mm == pitch_mm
    # A fine thread is a finer pitch on one of these diameters.
    for row in METRIC:
        assert row.series == "coarse" or row.pitch_mm < coarse[row.major_mm]


@given(names)
def test_a_designation_names_its_own_thread(name: str) -> None:
    assert thread(name) is THREADS[name]
    assert thread(name.lower().replace(" ", "")) is THREADS[name]


def test_an_inch_thread_is_its_inches() -> None:
    quarter = thread("1/4-20")
    assert quarter.major_mm == pytest.approx(6.35, abs=1e-12)
    assert quarter.pitch_mm == pytest.approx(1.27, abs=1e-12)
    assert (quarter.system, quarter.series, quarter.tpi) == ("unified", "coarse", 20)
    assert thread("M6").tpi is None


def test_number_sizes_follow_their_rule() -> None:
    numbers = [row for row in UNIFIED if row.size.startswith("#")]
    assert len(numbers) == 12
    for row in numbers:
        assert row.major_in == pytest.approx(0.060 + 0.013 * int(row.size[1:]), abs=1e-12)


@pytest.mark.parametrize(
    ("written", "nearest"),
    [
        ("M9", "M10x1.5, M8x1.25"),
        ("M10x1.3", "M10x1.25, M10x1.5"),
        ("M30", "M24x3"),
        ("1/4-20 UNF", "1/4-20 UNC, 1/4-28 UNF"),
        ("1/4", "1/4-20 UNC, 1/4-28 UNF"),
        ("#7-32", "#6-32 UNC"),
        ("1/4-21", "1/4-20 UNC"),
        ("M8,5", "M"),
        ("", "M"),
    ],
)
def test_a_thread_that_does_not_exist_names_the_nearest(written: str, nearest: str) -> None:
    with pytest.raises(ValueError, match=f"name is {written!r}; .* nearest are {nearest}"):
        thread(written)


def test_limits_of_metric_threads_are_the_printed_ones(table: Table) -> None:
    rows = table("metric_threads_6h.csv")
    assert len(rows) == 18
    for row in rows:
        limits = minor_limits_mm(thread(row["thread"]))
        assert limits is not None
        assert limits.tolerance_class == "6H"
        assert (limits.low_mm, limits.high_mm) == (float(row["low_mm"]), float(row["high_mm"]))


def test_lower_limits_are_the_makers_basic_minor_diameters(table: Table) -> None:
    rows = table("metric_basic_minor.csv")
    assert len(rows) == 22
    for row in rows:
        limits = minor_limits_mm(thread(row["thread"]))
        assert limits is not None
        assert limits.low_mm == float(row["minor_mm"]), row


def test_limits_of_unified_threads_are_the_printed_ones(table: Table) -> None:
    rows = table("unified_threads_2b.csv")
    misprints = [row["thread"] for row in rows if row["row"] == "misprint"]
    assert misprints == ["1/2-13"]
    read = [row for row in rows if row["row"] == "read"]
    assert len(read) == 22
    for row in read:
        limits = minor_limits_mm(thread(row["thread"]))
        assert limits is not None
        assert limits.low_mm / MM_PER_IN == pytest.approx(float(row["low_in"]), abs=1e-9), row
        assert limits.high_mm / MM_PER_IN == pytest.approx(float(row["high_in"]), abs=1e-9), row


def test_the_misprint_contradicts_itself(table: Table) -> None:
    row = next(row for row in table("unified_threads_2b.csv") if row["row"] == "misprint")
    assert float(row["low_in"]) > float(row["high_in"])


def test_unified_fine_agrees_with_a_catalogue_in_mm(table: Table) -> None:
    rows = table("unified_fine_minor_mm.csv")
    assert len(rows) == 15
    for row in rows:
        each = thread(row["thread"])
        limits = minor_limits_mm(each)
        assert limits is not None
        # The page works from a diameter and a pitch already rounded to 0.001 mm; the standard's
        # limits are rounded to 0.001 in from #6 up.
        assert basic_minor_mm(each) == pytest.approx(float(row["minor_mm"]), abs=0.0016), row
        assert limits.low_mm == pytest.approx(float(row["minor_mm"]), abs=0.0005 * MM_PER_IN), row


@given(names)
def test_minor_limits_lie_between_profile_and_major(name: str) -> None:
    each = thread(name)
    limits = minor_limits_mm(each)
    assert limits is not None
    # A limit rounded to 0.001 in may lie that much below the profile.
    assert basic_minor_mm(each) - 0.02 < limits.low_mm < limits.high_mm < each.major_mm


def test_a_wider_pitch_has_a_wider_tolerance() -> None:
    widths = [MINOR_TOLERANCE_6H[pitch].width_um for pitch in sorted(MINOR_TOLERANCE_6H)]
    assert widths == sorted(set(widths))


def test_what_was_recalled_is_said_to_be() -> None:
    recalled = {
        name
        for name, each in THREADS.items()
        if (limits := minor_limits_mm(each)) and limits.status is SourceStatus.MEMORY
    }
    fine = {f"{size}" for size in ("1/4-28", "5/16-24", "3/8-24", "7/16-20", "1/2-20")}
    fine |= {"9/16-18", "3/4-16", "7/8-14", "1-12"}
    assert recalled == {"M5x0.8"} | {f"{name} UNF" for name in fine}
    assert thread("M20x1").status is SourceStatus.MEMORY
    assert thread("M8").status is SourceStatus.SECOND_HAND


def test_the_profile_is_five_eighths_of_its_triangle() -> None:
    each = thread("M10")
    height = each.pitch_mm * math.sin(math.radians(60))
    assert each.major_mm - basic_minor_mm(each) == pytest.approx(2 * height * 5 / 8)
