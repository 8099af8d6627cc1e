"""The drawings of a computed set-up; none where the set-up must not be run."""

from __future__ import annotations

from markupsafe import Markup

from benchleaf.compute import SetUpSheet
from benchleaf.model import DrillingSetUp, SetUp

from .figure_feel import feel_figure
from .figure_hole import hole_figure
from .figure_speeds import speed_figure


def figures(sheet: SetUpSheet, set_up: SetUp) -> tuple[Markup, ...]:
    """Every drawing that the results allow, in the order in which they are needed."""
    if not sheet.may_run:
        return ()
    section = hole_figure(sheet, set_up) if isinstance(set_up, DrillingSetUp) else None
    found = (section, feel_figure(sheet), speed_figure(sheet))
    return tuple(one for one in found if one is not None)
