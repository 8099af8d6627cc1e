"""The drill of the usual chart, beside the one that is computed."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from benchleaf.formulas.tap_chart import CHART, chart_drill
from benchleaf.formulas.tap_drills import Basis, Kind, tap_drill
from benchleaf.formulas.threads import thread

Table = Callable[[str], list[dict[str, str]]]
US = Basis.FULL_THREAD_HEIGHT


def test_every_drill_is_that_of_the_public_charts(table: Table) -> None:
    rows = table("tap_drill_chart.csv")
    assert {thread(row["thread"]).name for row in rows} == set(CHART)
    for row in rows:
        found = chart_drill(thread(row["thread"]), US)
        if row["kind"] == "metric":
            assert found.diameter_mm == pytest.approx(float(row["drill"])), row
        else:
            assert found.name == row["drill"], row
        assert found.percent == pytest.approx(float(row["percent"]), abs=0.051), row


@pytest.mark.parametrize(
    ("name", "chart", "percent", "computed", "its_percent"),
    [("M12", "10.2 mm", 79.2, "10.3 mm", 74.8), ("1/4-20", "#7", 75.4, "#7", 75.4)],
)
def test_the_two_stand_beside_one_another_each_with_its_true_percentage(
    name: str, chart: str, percent: float, computed: str, its_percent: float
) -> None:
    usual = chart_drill(thread(name), US)
    kinds: tuple[Kind, ...] = ("metric",) if name.startswith("M") else ("number",)
    ours = tap_drill(thread(name), 75.0, US, kinds)
    assert (usual.name, ours.name) == (chart, computed)
    assert usual.percent == pytest.approx(percent, abs=0.05)
    assert ours.percent == pytest.approx(its_percent, abs=0.05)


def test_two_drills_of_the_chart_are_told_to_lie_outside_the_limits(table: Table) -> None:
    outside = {name for name in CHART if chart_drill(thread(name), US).inside_limits is False}
    assert outside == {"9/16-18 UNF", "5/8-18 UNF"}


def test_a_thread_that_the_chart_does_not_have_is_refused() -> None:
    with pytest.raises(ValueError, match="no drill of the usual chart is known here for M20x1"):
        chart_drill(thread("M20x1"), US)
