"""Clearance holes."""

from collections.abc import Callable
from typing import Any

import pytest

from benchleaf.formulas.clearance_holes import HOLE_SERIES, clearance_hole_mm
from benchleaf.formulas.sources import SourceStatus
from benchleaf.formulas.thread_tables import METRIC
from benchleaf.formulas.threads import thread

Table = Callable[[str], list[dict[str, str]]]
IN_DISPUTE = {"M12", "M14", "M16"}


def test_two_lists_row_by_row(table: Table) -> None:
    rows = table("clearance_holes.csv")
    assert len(rows) == 17
    flagged = set()
    for row in rows:
        for series in HOLE_SERIES:
            hole = clearance_hole_mm(thread(row["thread"]), series)
            a, b = float(row[f"a_{series}_mm"]), float(row[f"b_{series}_mm"])
            assert hole.diameter_mm == a, row  # a is the page on ISO 273
            assert hole.other_mm == (None if a == b else b), row
            if hole.other_mm is not None:
                flagged.add(row["thread"])
    assert flagged == IN_DISPUTE


def test_every_metric_thread_has_its_holes_and_they_grow() -> None:
    for row in METRIC:
        each = thread(f"M{row.major_mm:g}x{row.pitch_mm:g}")
        fine, medium, coarse = (clearance_hole_mm(each, series) for series in HOLE_SERIES)
        assert each.major_mm < fine.diameter_mm < medium.diameter_mm < coarse.diameter_mm
        assert [hole.tolerance_class for hole in (fine, medium, coarse)] == ["H12", "H13", "H14"]
        assert fine.status is SourceStatus.SECOND_HAND


def test_the_pitch_does_not_matter() -> None:
    assert clearance_hole_mm(thread("M8x1"), "medium") == clearance_hole_mm(thread("M8"), "medium")


@pytest.mark.parametrize(
    ("name", "fine", "medium", "coarse"),
    [("M12", 13.0, 13.5, 14.5), ("M14", 15.0, 15.5, 16.5), ("M16", 17.0, 17.5, 18.5)],
)
def test_what_carries_the_name_of_the_standard_is_the_standards(
    name: str, fine: float, medium: float, coarse: float
) -> None:
    """ISO 273:1979, rows M12 to M16, by a public reference page on it."""
    found = [clearance_hole_mm(thread(name), series).diameter_mm for series in HOLE_SERIES]
    assert found == [fine, medium, coarse]


def test_a_disputed_hole_takes_the_screw_either_way() -> None:
    for name in IN_DISPUTE:
        for series in ("medium", "coarse"):
            kind: Any = series
            hole = clearance_hole_mm(thread(name), kind)
            assert hole.other_mm is not None
            assert thread(name).major_mm < hole.diameter_mm == hole.other_mm - 0.5


def test_what_is_not_in_the_table_is_refused() -> None:
    wrong: Any = "close"
    with pytest.raises(ValueError, match="series is 'close'; it must be one of fine, medium"):
        clearance_hole_mm(thread("M8"), wrong)
    with pytest.raises(ValueError, match="thread is 1/4-20 UNC; it must be a metric thread"):
        clearance_hole_mm(thread("1/4-20"), "medium")
