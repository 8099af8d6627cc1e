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
            assert hole.diameter_mm == b, row
            assert hole.other_mm == (None if a == b else a), row
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


def test_a_disputed_hole_takes_the_screw_either_way() -> None:
    for name in IN_DISPUTE:
        for series in ("medium", "coarse"):
            kind: Any = series
            hole = clearance_hole_mm(thread(name), kind)
            assert hole.other_mm is not None
            assert thread(name).major_mm < hole.other_mm == hole.diameter_mm - 0.5


def test_what_is_not_in_the_table_is_refused() -> None:
    wrong: Any = "close"
    with pytest.raises(ValueError, match="series is 'close'; it must be one of fine, medium"):
        clearance_hole_mm(thread("M8"), wrong)
    with pytest.raises(ValueError, match="thread is 1/4-20 UNC; it must be a metric thread"):
        clearance_hole_mm(thread("1/4-20"), "medium")
