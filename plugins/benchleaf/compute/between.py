"""Contradictions among inputs of `benchleaf reckon` that no figure relates to one another.

What a figure relates is held by agreement.py; these are the rest, each with its reason.
"""

from __future__ import annotations

from benchleaf.formulas import fits
from benchleaf.formulas.jaw_friction import MOST_FRICTION, table_friction

from .operation import Between


def _smaller(one: str, other: str, wrong: str, cure: str, *, or_same: bool = False) -> Between:
    """One size must be smaller than another."""

    def broken(size: float, limit: float) -> str:
        return "" if size < limit or (or_same and size == limit) else wrong

    return Between((one, other), broken, cure)


IN_DRILLING = (
    _smaller(
        "diameter", "work_diameter", "a drill as wide as the bar, or wider, leaves nothing of it",
        "a smaller drill, or a larger bar",
    ),
    _smaller(
        "depth", "work_diameter", "the hole is deeper than the bar is thick",
        "give one of them: the outside diameter is the depth of a through hole", or_same=True,
    ),
    _smaller(
        "pinion_radius", "lever_radius", "the lever is no longer than its pinion",
        "the lever's radius runs from the pinion's axis to the knob",
    ),
    _smaller(
        "feed", "feed_stop", "the feed stop lets less through than the feed set",
        "a feed stop at the feed or coarser", or_same=True,
    ),
    _smaller(
        "feed", "diameter", "a drill is not fed by its own diameter in one turn", "a finer feed",
    ),
)  # fmt: skip


def _reamer_too_large(tolerance: str, diameter: float) -> str:
    high = fits.limits(tolerance, diameter).high_mm
    if high >= diameter:
        return ""
    return (
        f"a reamer of {diameter:g} mm is larger than its hole: {tolerance} allows {high:.3f} mm at "
        "most"
    )


def _out_of_reach(tolerance: str, diameter: float) -> str:
    try:
        return _reamer_too_large(tolerance, diameter)
    except ValueError:
        return ""  # outside the tables: the figure of the limits says so


IN_REAMING = (
    Between(
        ("tolerance", "diameter"), _out_of_reach,
        "give the size that the reamer is ground to, or a class that holds it",
    ),
    _smaller("feed", "diameter", "a reamer is not fed by its own diameter in one turn",
             "a finer feed"),
)  # fmt: skip
IN_SINKING = (
    _smaller("hole", "mouth", "the hole is as wide as the mouth: no cone is left",
             "a smaller hole, or a wider mouth"),
    _smaller("hole", "head", "the screw's head falls through the hole",
             "a smaller hole, or another screw"),
    _smaller("feed", "mouth", "a countersink is not fed by its own diameter in one turn",
             "a finer feed"),
)  # fmt: skip


def _another_class(tolerance: str, other: str) -> str:
    """A class by itself, and one of two that fit: two questions on one line."""
    if tolerance == other or tolerance[:1].isupper() is not other[:1].isupper():
        return ""
    return "two classes for one part: nobody can know which is meant"


IN_FIT = (
    Between(("tolerance", "hole"), _another_class, "give one of them"),
    Between(("tolerance", "shaft"), _another_class, "give one of them"),
)


def _too_slippery(
    friction: float, work: str | None, jaws: str | None, metal: str | None, source: str | None
) -> str:
    """A friction that no table gives, and nobody tried."""
    surface, jaw, of = work or "unmachined", jaws or "smooth", metal or "steel"
    table = table_friction(surface, jaw, of)
    if friction > MOST_FRICTION[jaw]:
        return (
            f"{jaw} jaws give {MOST_FRICTION[jaw]:g} at the very most, whatever the source; the "
            f"table has {table:.2f} for {surface} {of}"
        )
    if friction <= table + 1e-9 or source:
        return ""
    return f"the table has {table:.2f} for {surface} {of} in {jaw} jaws"


IN_HOLDING = (
    Between(
        ("friction",), _too_slippery,
        "leave friction out and give work, jaws and metal, for the table's; or give "
        "friction_source, where it was tried",
        also=("work", "jaws", "metal", "friction_source"),
    ),
)  # fmt: skip
