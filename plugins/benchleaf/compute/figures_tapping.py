"""Figures of tapping: pitch, drill, percentage of thread, depth, turns, speed, feed, torque."""

from __future__ import annotations

from dataclasses import replace

from benchleaf.formulas import tap_chart, tap_drills, tapping
from benchleaf.formulas.domain import NotKnownError
from benchleaf.formulas.tap_drills import DOUBLE_DEPTH, SAME_MM, Basis
from benchleaf.formulas.threads import Thread, minor_limits_mm

from .amounts import amount, span
from .declaration import IN_INCHES, Declaration, Symbol
from .figures_cutting import N
from .figures_holes import BY_TABLE

_MAJOR, _PITCH, _HOLE = Symbol("major", "mm"), Symbol("P", "mm"), Symbol("hole", "mm")
_BY_TABLE = "a table of threads gives it: nothing is worked out"

PITCH = Declaration(
    "pitch", "Pitch", "mm", 2, 2, ("thread",), lambda thread: thread.pitch_mm, BY_TABLE, (),
    ("iso-261",), "ISO metric and Unified threads only", looked_up=_BY_TABLE,
)  # fmt: skip
PITCH_UNIFIED = replace(PITCH, shown=3, worked=3, sources=("asme-b1.1",))


def _minor(thread: Thread) -> tuple[float, float]:
    limits = minor_limits_mm(thread)
    if limits is None:
        raise NotKnownError(f"no limits of the minor diameter are known here for {thread.name}")
    return limits.low_mm, limits.high_mm


MINOR_LIMITS = Declaration(
    "minor_limits", "Limits of the minor diameter", "mm", 3, 3, ("thread",), _minor, BY_TABLE, (),
    ("iso-965-1", "asme-b1.1"), "class 6H or 2B", looked_up=_BY_TABLE, step=0.001,
)  # fmt: skip


def minor_doubt(thread: Thread, hole: float, what: str = "The hole") -> str:
    """What is wrong with a hole for a thread; empty where it is inside the limits, or none are."""
    limits = minor_limits_mm(thread)
    if limits is None or limits.low_mm - SAME_MM <= hole <= limits.high_mm + SAME_MM:
        return ""
    return (
        f"{what}, {amount(hole, 'mm')}, lies outside the limits of the minor diameter: "
        f"{span(limits.low_mm, limits.high_mm, 'mm', 3)}."
    )


DEPTH_WORD = {basis: basis.value.removesuffix(" P") for basis in Basis}
"""Double depth of the whole thread over the pitch, as printed: 1.299."""


def _depth(basis: Basis) -> Symbol:
    return Symbol(DEPTH_WORD[basis], "", len(DEPTH_WORD[basis].partition(".")[2]))


def hole_wanted(basis: Basis) -> Declaration:
    """The hole for a percentage of thread; 100 per cent as the basis says."""
    word = DEPTH_WORD[basis]
    return Declaration(
        "hole_wanted", "Hole for the percentage", "mm", 3, 3, ("thread", "percent"),
        lambda thread, percent: tap_drills.hole_for_percent_mm(thread, percent, basis),
        f"hole = major − {word} × P × percent ÷ 100",
        (_MAJOR, _depth(basis), _PITCH, Symbol("percent", "%")), ("tapmatic-formulas",),
        numbers=lambda thread, percent: {
            "major": thread.major_mm, word: DOUBLE_DEPTH[basis], "P": thread.pitch_mm,
            "percent": percent},
    )  # fmt: skip


def percent_got(basis: Basis) -> Declaration:
    """The percentage of thread that a hole leaves, on one basis."""
    word = DEPTH_WORD[basis]
    return Declaration(
        "percent", "Thread that the hole leaves", "%", 0, 0, ("thread", "hole"),
        lambda thread, hole: tap_drills.percent_of_thread(thread, hole, basis),
        f"percent = 100 × (major − hole) ÷ ({word} × P)",
        (_MAJOR, _HOLE, _depth(basis), _PITCH), ("tapmatic-formulas",),
        f"of full thread height, {basis.value}", name="percent_got", doubt=minor_doubt,
        numbers=lambda thread, hole: {
            "major": thread.major_mm, "hole": hole, word: DOUBLE_DEPTH[basis],
            "P": thread.pitch_mm},
    )  # fmt: skip


HOLE_WANTED = {basis: hole_wanted(basis) for basis in Basis}
PERCENT_GOT = {basis: percent_got(basis) for basis in Basis}


def tap_drill(thread: Thread, percent: float, basis: Basis) -> tap_drills.TapDrill:
    """The drill that exists, from the sets that a thread of its kind is drilled from."""
    return tap_drills.tap_drill(thread, percent, basis, tap_drills.own_kinds(thread))


def _drill_made(basis: Basis) -> Declaration:
    """The drill for a percentage of thread: what is wanted, then the nearest one made."""
    wanted = HOLE_WANTED[basis]
    return replace(
        wanted, key="tap_drill", label="Drill for the hole", shown=2, worked=2, name="hole",
        run=lambda thread, percent: tap_drill(thread, percent, basis).diameter_mm,
        gives=wanted.run,
        formula=f"{wanted.formula}, then a drill that exists",
        sources=(*wanted.sources, "drill-choice"), other=("length", "in", 4),
        limits="the nearest drill inside the minor limits",
        note="a drill cuts a little larger than itself",
        told=lambda thread, percent: _gives(tap_drill(thread, percent, basis), basis),
    )  # fmt: skip


def _gives(drill: tap_drills.TapDrill | tap_chart.ChartDrill, basis: Basis) -> str:
    above = ", outside the minor limits" if drill.inside_limits is False else ""
    return f"drill {drill.name}: {drill.percent:.0f} % of {basis.value}{above}"


def of_the_chart(thread: Thread, drill: tap_drills.TapDrill, basis: Basis) -> str:
    """The chart's drill beside the one chosen, where the chart has another; else nothing."""
    if thread.name not in tap_chart.CHART:
        return ""
    usual = tap_chart.chart_drill(thread, basis)
    if usual.name == drill.name:
        return ""
    above = ", outside the minor limits" if usual.inside_limits is False else ""
    return f"; the usual chart has {usual.name}, {usual.percent:.0f} %{above}"


TAP_DRILL = {basis: _drill_made(basis) for basis in Basis}


def _of_chart(basis: Basis) -> Declaration:
    """The drill that charts on walls have, whatever percentage was asked for."""
    return Declaration(
        "chart_drill", "Drill of the usual chart", "mm", 2, 2, ("thread",),
        lambda thread: tap_chart.chart_drill(thread, basis).diameter_mm, BY_TABLE, (),
        ("iso-2306", "tap-chart"), "the usual threads only", other=("length", "in", 4),
        looked_up=_BY_TABLE,
        told=lambda thread: _gives(tap_chart.chart_drill(thread, basis), basis),
    )  # fmt: skip


CHART_DRILL = {basis: _of_chart(basis) for basis in Basis}
DRILLED_BY_JOB = {
    basis: replace(one, label="Thread that the drill of this job leaves")
    for basis, one in PERCENT_GOT.items()
}
BACK_OFF = Declaration(
    "back_off", "Turn back after", "turn forward", 1, 1, ("low", "high"),
    lambda low, high: (low, high), "rule of the trade", (), ("hand-tapping",),
    "sooner when it pulls harder", looked_up="a rule of the trade",
)  # fmt: skip
DRILLED_DEPTH = Declaration(
    "drilled_depth", "Drilled depth, full diameter, at least", "mm", 1, 1,
    ("thread", "thread_length", "chamfer"),
    lambda thread, length, chamfer: tap_drills.blind_tap_depth_mm(
        thread, length, chamfer, tap_drills.LEAST_CLEARANCE_PITCHES),
    "depth = thread length + (chamfer + room) × pitch",
    (Symbol("thread length", "mm"), Symbol("chamfer"), Symbol("room"), Symbol("pitch", "mm")),
    ("eisc-depth", "osg-9535", "mh26-taps"), "chamfer and room in pitches",
    other=IN_INCHES, asked=2, toward="up",
    step=0.1, is_set=True,
    numbers=lambda thread, length, chamfer: {
        "thread length": length, "chamfer": chamfer, "room": tap_drills.LEAST_CLEARANCE_PITCHES,
        "pitch": thread.pitch_mm},
)  # fmt: skip
TURNS = Declaration(
    "turns", "Turns from the first bite", "turns", 1, 1, ("thread", "thread_length", "chamfer"),
    tapping.turns_to_depth, "turns = thread length ÷ pitch + chamfer",
    (Symbol("thread length", "mm"), Symbol("pitch", "mm"), Symbol("chamfer")), ("geometry",),
    numbers=lambda thread, length, chamfer: {
        "thread length": length, "pitch": thread.pitch_mm, "chamfer": chamfer},
    is_set=True,
)  # fmt: skip
TAP_SPEED = Declaration(
    "spindle_speed", "Spindle speed", "rpm", 0, 0, ("cutting_speed", "thread"),
    tapping.tapping_speed_rpm, "n = 1000 × cutting speed ÷ (π × major)",
    (Symbol("cutting speed", "m/min", 1), _MAJOR), ("groover5-ex-21.2",), name="speed",
    numbers=lambda speed, thread: {"cutting speed": speed, "major": thread.major_mm},
)  # fmt: skip
TAP_FEED = Declaration(
    "feed_rate", "Feed a minute, one pitch a turn", "mm/min", 0, 0, ("thread", "speed"),
    tapping.tapping_feed_rate_mm_min, "feed a minute = pitch × n", (Symbol("pitch", "mm"), N),
    ("geometry",), other=("feed rate", "in/min", 1),
    limits="the tap leads itself: follow it, never press or hold it back",
    numbers=lambda thread, n: {"pitch": thread.pitch_mm, "n": n},
)  # fmt: skip
TAP_TORQUE = Declaration(
    "torque", "Torque of the tap", "N m", -2, 1, ("thread", "hole", "kc", "tap_factor"),
    tapping.tapping_torque_nm, "M = tan(30°) × kc × K × (D − d)² × (D + 2 × d) ÷ 24000",
    (Symbol("kc", "N/mm2"), Symbol("K"), Symbol("D", "mm"), Symbol("d", "mm")), ("yamawa-640",),
    "a sharp tap; D is the major diameter, d the hole",
    "two published models differ widely: rough", ("torque", "lbf in", -2),
    numbers=lambda thread, hole, kc, factor: {
        "kc": kc, "K": factor, "D": thread.major_mm, "d": hole},
)  # fmt: skip
DULL_TORQUE = Declaration(
    "dull_torque", "Torque of the tap when it is dull or packed", "N m", -2, 1, ("torque",),
    tapping.dull_tap_torque_nm, "M = torque of a sharp tap × dull",
    (Symbol("torque of a sharp tap", "N m", 1), Symbol("dull")), ("tap-dull",),
    "the holding is compared with it; a tap that jams asks for more still, up to where it breaks",
    "our own judgement: makers name it, and none gives a number", ("torque", "lbf in", -2),
    numbers=lambda torque: {
        "torque of a sharp tap": torque, "dull": tapping.DULL_FACTOR},
)  # fmt: skip
TORQUE_LIMIT = Declaration(
    "torque_limit", "What the tap stands over that torque", "times", 1, 1,
    ("torque_limit", "dull_torque"), lambda limit, torque: limit / torque,
    "ratio = limit ÷ torque of a dull tap",
    (Symbol("limit", "N m", 1), Symbol("torque of a dull tap", "N m", 1)), (),
    "2 at least is wanted, and never below 1", least=1.0, name="limit_over_torque",
)  # fmt: skip
