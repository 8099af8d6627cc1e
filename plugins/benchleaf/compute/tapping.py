"""Tapping: the hole before it, how deep, how many turns or how fast, and the torque."""

from __future__ import annotations

from benchleaf.formulas import tap_drills, tapping, threads
from benchleaf.formulas.quantities import in_unit, inches
from benchleaf.formulas.tap_drills import Basis
from benchleaf.model import HoleKind, TappedBy, TappingSetUp, ThreadBasis

from .holding import work_holding
from .hole_finishing import held_as_for_drilling
from .results import Figure, figure, rough, told_in
from .sheet import Sheet, cited

_BASES = {ThreadBasis.FULL: Basis.FULL_THREAD_HEIGHT, ThreadBasis.ISO: Basis.ISO}
_BREAKS = (
    "A tap breaks when its hole is too small, when it leans, or when chips pack under it. Stop at "
    "the first extra pull and turn it back."
)


def _of(sheet: Sheet) -> TappingSetUp:
    operation = sheet.case.operation
    if not isinstance(operation, TappingSetUp):
        raise TypeError(f"{operation.operation} is no tapping")
    return operation


def thread_sizes(sheet: Sheet) -> None:
    """Diameter and pitch of the thread, and the caution that belongs."""
    thread = _of(sheet).thread
    sheet.values |= {"diameter": thread.major_mm, "pitch": thread.pitch_mm}
    sheet.cautions.append(_BREAKS)
    shown = figure(thread.pitch_mm, "mm", 3 if thread.system == "unified" else 2)
    sheet.write(
        "pitch",
        f"Pitch of {thread.name}",
        shown,
        other=figure(thread.tpi, "threads an inch", 0) if thread.tpi else None,
        formula="by table",
        working=f"major diameter {thread.major_mm:g} mm",
        source=cited("asme-b1.1" if thread.system == "unified" else "iso-261"),
        limits="ISO metric and Unified threads only",
    )


def hole_before(sheet: Sheet) -> None:
    """The drill for the percentage wanted, from drills that exist, and its limits."""
    operation = _of(sheet)
    thread, basis = operation.thread, _BASES[operation.basis]
    wanted = tap_drills.hole_for_percent_mm(thread, operation.percent, basis)
    kinds = tap_drills.own_kinds(thread)
    drill = tap_drills.tap_drill(thread, operation.percent, basis, kinds)
    sheet.values["hole"] = drill.diameter_mm
    shown = figure(drill.diameter_mm, "mm", 2)
    sheet.write(
        "tap_drill",
        "Drill for the hole",
        shown,
        other=told_in(shown, "length", "in", 4),
        formula=f"hole = major − {basis.value} × percent ÷ 100, then a drill that exists",
        working=f"{operation.percent:g} % wants {wanted:.2f} mm; {drill.name} gives "
        f"{drill.percent:.0f} % of {operation.basis}",
        source=cited("tapmatic-formulas", "drill-choice"),
        limits=_limits_text(thread),
        note="a drill cuts a little larger than itself",
    )


def _limits_text(thread: threads.Thread) -> str:
    limits = threads.minor_limits_mm(thread)
    if limits is None:
        return "no limits of the minor diameter are known here for this thread"
    return (
        f"minor diameter {limits.low_mm:.3f} to {limits.high_mm:.3f} mm, class "
        f"{limits.tolerance_class}"
    )


def entered_drill(sheet: Sheet) -> None:
    """The drill that the job names, against the thread."""
    operation, size = _of(sheet), sheet.hole_drill_mm
    if size is None:
        return
    basis = _BASES[operation.basis]
    sheet.values["hole"] = size
    limits = threads.minor_limits_mm(operation.thread)
    if limits is not None and not limits.low_mm <= size <= limits.high_mm:
        sheet.doubts.append(
            f"The drill of this job, {size:g} mm, lies outside the limits of the minor diameter: "
            f"{limits.low_mm:.3f} to {limits.high_mm:.3f} mm."
        )
    percent = tap_drills.percent_of_thread(operation.thread, size, basis)
    sheet.write(
        "percent",
        "Thread that the drill of this job leaves",
        figure(percent, "%", 0),
        formula=f"percent = 100 × (major − hole) ÷ ({basis.value})",
        working=f"100 × ({operation.thread.major_mm:g} − {size:g}) ÷ ({basis.value}) = "
        f"{percent:.0f} % of {operation.basis}",
        source=cited("tapmatic-formulas"),
        limits=_limits_text(operation.thread),
    )


def drilled_depth(sheet: Sheet) -> None:
    """How deep to drill for a blind thread: full thread, chamfer of the tap, and room."""
    operation = _of(sheet)
    if operation.hole is HoleKind.THROUGH:
        return
    chamfer = tap_drills.TAP_CHAMFER[operation.tap.value].high_pitches
    room = tap_drills.LEAST_CLEARANCE_PITCHES
    length, pitch = operation.thread_length.value, operation.thread.pitch_mm
    depth = tap_drills.blind_tap_depth_mm(operation.thread, length, chamfer, room)
    shown = figure(depth, "mm", 1)
    sheet.write(
        "drilled_depth",
        "Drilled depth, full diameter, at least",
        shown,
        other=told_in(shown, "length", "in", 3),
        formula="depth = thread length + (chamfer + room) × pitch",
        working=f"{length:g} + ({chamfer:g} + {room:g}) × {pitch:g} = {depth:.1f} mm",
        source=cited("eisc-depth", "osg-9535", "mh26-taps"),
        limits=f"for a {operation.tap.value} tap; the drill's point comes on top",
    )


def turns(sheet: Sheet) -> None:
    """Turns to depth, and by hand when to turn back."""
    operation = _of(sheet)
    chamfer = tap_drills.TAP_CHAMFER[operation.tap.value].high_pitches
    length, pitch = operation.thread_length.value, operation.thread.pitch_mm
    count = tapping.turns_to_depth(operation.thread, length, chamfer)
    sheet.write(
        "turns",
        "Turns from the first bite",
        figure(count, "turns", 1),
        formula="turns = thread length ÷ pitch + chamfer",
        working=f"{length:g} ÷ {pitch:g} + {chamfer:g} = {count:.1f}",
        source=cited("geometry"),
        limits="count them: a blind hole's bottom breaks the tap",
    )
    if operation.turned_by is TappedBy.HAND_WRENCH:
        _back_off(sheet)


def _back_off(sheet: Sheet) -> None:
    hand = tapping.HAND_TAPPING
    shown = Figure(hand.forward_low_turns, hand.forward_high_turns, "turn forward", 1)
    sheet.write(
        "back_off",
        "Turn back after",
        shown,
        formula="rule of the trade",
        working=f"then back {hand.back_low_turns:g} to {hand.back_high_turns:g} of a turn, to "
        "break the chip",
        source=cited("hand-tapping"),
        limits="sooner when it pulls harder",
    )


def machine_only(sheet: Sheet) -> bool:
    """True where the machine turns the tap."""
    return _of(sheet).turned_by is TappedBy.MACHINE


def tap_holding(sheet: Sheet) -> None:
    """The holding against the tap's torque; a wrench asks for it too, where the torque is known."""
    if machine_only(sheet) or sheet.has("torque"):
        work_holding(sheet)
    else:
        held_as_for_drilling(sheet)


def feed_of_tap(sheet: Sheet) -> None:
    """The tap's own feed: one pitch a turn."""
    operation = _of(sheet)
    if not sheet.has("n"):
        sheet.lacks("feed_rate", "Feed a minute, one pitch a turn", "the spindle speed above")
        return
    rate = tapping.tapping_feed_rate_mm_min(operation.thread, sheet.values["n"])
    sheet.values["feed_rate"] = rate
    sheet.write(
        "feed_rate",
        "Feed a minute, one pitch a turn",
        figure(rate, "mm/min", 0),
        other=figure(inches(rate), "in/min", 1),
        formula="feed a minute = pitch × n",
        working=f"{operation.thread.pitch_mm:g} × {sheet.values['n']:.0f} = {rate:.0f} mm/min",
        source=cited("geometry"),
        limits="the tap leads itself: follow it, never press or hold it back",
    )


def torque_of_tap(sheet: Sheet) -> None:
    """Torque of a sharp tap by the model that knows the hole."""
    label, material = "Torque of the tap", sheet.case.material
    if material is None or material.tapping is None:
        where = f"materials/{material.id}" if material else f"jobs/{sheet.case.job.id}"
        sheet.lacks("torque", label, f"tapping (kc, tap_factor) in {where}")
        return
    factors, thread = material.tapping, _of(sheet).thread
    turning = tapping.tapping_torque_nm(
        thread, sheet.values["hole"], factors.kc, factors.tap_factor
    )
    sheet.values["torque"] = turning
    sheet.write(
        "torque",
        label,
        rough(turning, "N m"),
        other=rough(in_unit(turning, "torque", "lbf in"), "lbf in"),
        formula="M = tan 30° × kc × K × (D − d)² × (D + 2 d) ÷ 24000",
        working=f"0.577 × {factors.kc:g} × {factors.tap_factor:g} × "
        f"({thread.major_mm:g} − {sheet.values['hole']:g})² × "
        f"({thread.major_mm:g} + 2 × {sheet.values['hole']:g}) ÷ 24000 = {turning:.1f} N m",
        source=f"{cited('yamawa-640')}; factors: {factors.source}",
        limits="a sharp tap with fluid; a dull or packed one takes twice and more",
        note="two published models differ widely: rough",
    )
