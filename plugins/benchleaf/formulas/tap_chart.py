"""The drill that a chart on most walls has for a thread, to stand beside the one that is computed.

Metric drills are those of ISO 2306, coarse in public charts, fine in a training course's list; the
Unified ones are of a handbook's chart, compared with four public copies. A chart has one drill a
thread, and does not say which percentage it leaves: it is worked out here.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from .drill_sizes import SIZES
from .tap_drills import METRIC_DRILLS, Basis, is_inside_limits, percent_of_thread
from .threads import Thread

# fmt: off
CHART: Mapping[str, str] = MappingProxyType(
    {
        # Source iso-2306, second-hand.
        "M2x0.4": "1.6 mm", "M2.5x0.45": "2.05 mm", "M3x0.5": "2.5 mm", "M3.5x0.6": "2.9 mm",
        "M4x0.7": "3.3 mm", "M5x0.8": "4.2 mm", "M6x1": "5.0 mm", "M7x1": "6.0 mm",
        "M8x1.25": "6.8 mm", "M10x1.5": "8.5 mm", "M12x1.75": "10.2 mm", "M14x2": "12.0 mm",
        "M16x2": "14.0 mm", "M18x2.5": "15.5 mm", "M20x2.5": "17.5 mm", "M22x2.5": "19.5 mm",
        "M24x3": "21.0 mm", "M6x0.75": "5.2 mm", "M8x1": "7.0 mm", "M8x0.75": "7.2 mm",
        "M10x1.25": "8.8 mm", "M10x1": "9.0 mm", "M10x0.75": "9.2 mm", "M12x1.5": "10.5 mm",
        "M12x1.25": "10.8 mm", "M12x1": "11.0 mm", "M14x1.5": "12.5 mm", "M14x1.25": "12.8 mm",
        "M16x1.5": "14.5 mm", "M18x2": "16.0 mm", "M18x1.5": "16.5 mm", "M20x2": "18.0 mm",
        "M20x1.5": "18.5 mm", "M22x2": "20.0 mm", "M22x1.5": "20.5 mm", "M24x2": "22.0 mm",
        "M14x1": "13.0 mm", "M24x1.5": "22.5 mm", "M24x1": "23.0 mm",
        # Source tap-chart, second-hand.
        "#4-40 UNC": "#43", "#5-40 UNC": "#38", "#6-32 UNC": "#36", "#8-32 UNC": "#29",
        "#10-24 UNC": "#25", "#12-24 UNC": "#16", "1/4-20 UNC": "#7", "5/16-18 UNC": "F",
        "3/8-16 UNC": "5/16", "7/16-14 UNC": "U", "1/2-13 UNC": "27/64", "9/16-12 UNC": "31/64",
        "5/8-11 UNC": "17/32", "3/4-10 UNC": "21/32", "7/8-9 UNC": "49/64", "1-8 UNC": "7/8",
        "#4-48 UNF": "#42", "#5-44 UNF": "#37", "#6-40 UNF": "#33", "#8-36 UNF": "#29",
        "#10-32 UNF": "#21", "#12-28 UNF": "#14", "1/4-28 UNF": "#3", "5/16-24 UNF": "I",
        "3/8-24 UNF": "Q", "7/16-20 UNF": "25/64", "1/2-20 UNF": "29/64", "9/16-18 UNF": "33/64",
        "5/8-18 UNF": "37/64", "3/4-16 UNF": "11/16", "7/8-14 UNF": "13/16", "1-12 UNF": "59/64",
    }
)
# fmt: on
"""Thread and the name of its drill."""

_DIAMETER_MM = {**dict(METRIC_DRILLS), **{name: one.diameter_mm for name, one in SIZES.items()}}


@dataclass(frozen=True)
class ChartDrill:
    """The chart's drill for a thread."""

    name: str
    """As written on the drill: 10.2 mm, #7, F, 5/16."""
    diameter_mm: float
    percent: float
    """Percentage of thread that it leaves, on the basis asked for."""
    inside_limits: bool | None
    """False where it lies outside the thread's minor limits; None where none are known."""


def chart_drill(thread: Thread, basis: Basis) -> ChartDrill:
    """Find the drill that the usual chart has for a thread.

    Equation: none, a look-up; percent = 100 (D - d) / (k P)

    Args:
        thread: [any] the thread
        basis: [any] what 100 per cent of thread means

    Returns:
        name: [text] as written on the drill
        diameter_mm: [mm] its diameter
        percent: [%] percentage of thread that it leaves
        inside_limits: [-] True inside the minor limits, None where the thread has no limits

    Valid: M2 to M24 coarse, the usual fine threads, UNC and UNF from #4 to 1 in

    >>> from .threads import thread
    >>> chart_drill(thread("M12"), Basis.FULL_THREAD_HEIGHT).name
    '10.2 mm'
    >>> chart_drill(thread("M12"), Basis.FULL_THREAD_HEIGHT).percent
    79.2

    Source: ISO 2306 in public charts [iso-2306, second-hand]; Unified by a handbook's chart
        [tap-chart, second-hand]
    """
    name = CHART.get(thread.name)
    if name is None:
        raise ValueError(f"no drill of the usual chart is known here for {thread.name}")
    diameter_mm = _DIAMETER_MM[name]
    percent = percent_of_thread(thread, diameter_mm, basis)
    return ChartDrill(name, diameter_mm, percent, is_inside_limits(thread, diameter_mm))
