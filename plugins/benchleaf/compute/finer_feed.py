"""How fine a feed must be where the cut asks too much of the machine: said beside the stop."""

from __future__ import annotations

import math

from benchleaf.formulas import drill_factors, drilling, most_feed

from .amounts import amount
from .sheet import Sheet, known
from .worst import Compared


def finer_for_thrust(sheet: Sheet, rated_n: float, found: Compared) -> str:
    """What to do where the thrust is too much, with the feed that the rating bears at worst."""
    tool, material = sheet.case.tool, sheet.case.material
    kd = getattr(getattr(material, "drilling", None), "kd_thrust", None)
    parts = drilling.thrust_split_n(
        known(getattr(tool.size, "value", None)),
        1.0,
        kd=known(kd),
        chisel_ratio=known(tool.chisel_ratio),
        wear=known(tool.wear_factor),
    )
    try:
        feed = most_feed.feed_for_thrust_mm_rev(
            rated_n, found.times / found.worst, parts.lips_n, parts.chisel_n
        )
    except ValueError:  # the chisel edge alone presses too hard, or no feed is fine enough
        feed = None
    return _ways_out(sheet, feed)


def finer_for_power(sheet: Sheet, share: float) -> str:
    """What to do where the motor gives too little; `share` is what it bears of the load."""
    feed = known(sheet.found.feed)
    try:
        finer = most_feed.feed_for_torque_mm_rev(share, 1 / drill_factors.feed_factor(feed))
    except ValueError:  # finer than the handbook covers
        finer = None
    return _ways_out(sheet, finer)


def _ways_out(sheet: Sheet, feed: float | None) -> str:
    """A feed is rounded down; after a pilot hole the load falls otherwise, and none is named."""
    if sheet.case.drilling.pilot is not None:
        return "use a smaller feed or another machine"
    rounded = math.floor(1000 * feed) / 1000 if feed is not None else 0.0
    if not rounded:
        return "no feed is fine enough: use a pilot hole or another machine"
    told = amount(rounded, "mm/rev", 3, "down")
    return f"use a feed of {told} or finer, a pilot hole or another machine"
