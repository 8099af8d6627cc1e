"""The drawings of a computed set-up; none where the set-up must not be run."""

from __future__ import annotations

from markupsafe import Markup

from benchleaf.compute import SetUpSheet
from benchleaf.model import (
    CounterboringSetUp,
    CountersinkingSetUp,
    DrillingSetUp,
    ReamingSetUp,
    SetUp,
    TappingSetUp,
)

from .figure_feel import feel_figure
from .figure_finish import counterbore_figure, countersink_figure, fit_figure, tapped_figure
from .figure_hole import hole_figure
from .figure_speeds import speed_figure


def figures(sheet: SetUpSheet, set_up: SetUp) -> tuple[Markup, ...]:
    """Every drawing that the results allow, in the order in which they are needed."""
    if not sheet.may_run:
        return ()
    found = (_section(sheet, set_up), feel_figure(sheet), speed_figure(sheet))
    return tuple(one for one in found if one is not None)


def _section(sheet: SetUpSheet, set_up: SetUp) -> Markup | None:
    """The drawing that belongs to the operation."""
    if isinstance(set_up, DrillingSetUp):
        return hole_figure(sheet, set_up)
    if isinstance(set_up, TappingSetUp):
        return tapped_figure(sheet, set_up)
    if isinstance(set_up, ReamingSetUp):
        return fit_figure(sheet, set_up)
    if isinstance(set_up, CountersinkingSetUp):
        return countersink_figure(sheet)
    if isinstance(set_up, CounterboringSetUp):
        return counterbore_figure(sheet)
    return None
