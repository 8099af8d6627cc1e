"""Tapping: the hole before it, how deep, how many turns or how fast, and the torque."""

from __future__ import annotations

from dataclasses import replace

from benchleaf.diagnose import Code, Sample
from benchleaf.formulas import tap_drills, tapping, threads
from benchleaf.formulas.tap_drills import Basis
from benchleaf.model import HoleKind, TappedBy, TappingSetUp, ThreadBasis, TorqueLimitKind

from . import figures_tapping as tap
from .amounts import amount, entered, span
from .figures_worst import TAP
from .forces import KD_TOO_LOW, metal_told
from .found import Tapped
from .grip import metal_of
from .holding import work_holding
from .hole_finishing import held_without_torque
from .results import Side, figure, side_of
from .sheet import Sheet, known
from .worst import Way, compare, cut_offs, no_less


def _with_tap(says: str, torque: str) -> str:
    """Edits of the small shop: a tap of that torque, and a set-up that turns it by wrench."""
    return f"""
# {says}
- file: tools/tap-m8.yml
  text: |
    id: tap-m8
    name: M8 tap
    kind: tap
    what: A tap with three flutes.
    size: 8 mm
    tool_material: hss
    torque_limit:
      torque: {torque}
      kind: breaking
      source: entered for the tests
- file: materials/mild-steel.yml
  find: |
    drilling:
  put: |
    tapping:
      kc: 3700
      tap_factor: 1.35
      source: entered for the tests
    drilling:
- file: jobs/vg-0010.yml
  find: |2
      - drill-8
  put: |2
      - drill-8
      - tap-m8
- file: jobs/vg-0010.yml
  find: |
    set_ups:
  put: |
    set_ups:
      - operation: tapping
        id: thread
        title: Tap M8
        tool: tap-m8
        thread: M8
        hole: through
        thread_length: 6 mm
        turned_by: tap wrench
- file: addresses.yml
  find: "  - tools/drill-8.html\\n"
  put: "  - tools/drill-8.html\\n  - tools/tap-m8.html\\n"
- file: addresses.yml
  find: "  - jobs/vg-0010.html#guide-hole\\n"
  put: "  - jobs/vg-0010.html#guide-hole\\n  - jobs/vg-0010.html#thread\\n"
"""


TOO_MUCH_FOR_TAP = Code(
    "S513",
    "The tap gets more torque than it stands",
    why="A tap that breaks throws pieces, and stays in the hole. A slipping clutch cuts no thread.",
    instead="Use a larger drill inside the thread's limits, or another tap.",
    bad=(
        Sample(
            _with_tap("A tap that breaks when it is dull.", "6 N m"),
            """
            content/jobs/vg-0010.yml:47:11: stop S513 do not run VG-0010 (thread): a dull or
                    packed tap asks 7.5 N m, and at 6 N m it breaks
                use a larger drill inside the thread's limits, or a tap with other flutes
            """,
        ),
    ),
    good=_with_tap("A tap that stands a dull edge.", "20 N m"),
)

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


def _found(sheet: Sheet) -> Tapped:
    if not isinstance(sheet.found, Tapped):
        raise TypeError(f"{sheet.case.operation.operation} is no tapping")
    return sheet.found


def thread_sizes(sheet: Sheet) -> None:
    """Diameter and pitch of the thread, and the caution that belongs."""
    thread = _of(sheet).thread
    sheet.found = Tapped(major_mm=thread.major_mm)
    sheet.cautions.append(_BREAKS)
    one = tap.PITCH_UNIFIED if thread.system == "unified" else tap.PITCH
    sheet.tell(
        one,
        thread.pitch_mm,
        f"major diameter {amount(thread.major_mm, 'mm')}",
        other=figure(thread.tpi, "threads an inch", 0) if thread.tpi else None,
        label=f"{one.label} of {thread.name}",
    )


def hole_before(sheet: Sheet) -> None:
    """The drill for the percentage wanted, from drills that exist, and its limits."""
    operation = _of(sheet)
    thread, basis = operation.thread, _BASES[operation.basis]
    drill = tap.tap_drill(thread, operation.percent, basis)
    sheet.found = replace(_found(sheet), hole_mm=drill.diameter_mm)
    after = f": {drill.name} gives {drill.percent:.0f} % of {operation.basis}"
    after += tap.of_the_chart(thread, drill, basis)
    limits = _limits_text(thread)
    sheet.work(tap.TAP_DRILL[basis], thread, operation.percent, after=after, limits=limits)


def _limits_text(thread: threads.Thread) -> str:
    limits = threads.minor_limits_mm(thread)
    if limits is None:
        return "no limits of the minor diameter are known here for this thread"
    return (
        f"minor diameter {span(limits.low_mm, limits.high_mm, 'mm', 3)}, class "
        f"{limits.tolerance_class}"
    )


def entered_drill(sheet: Sheet) -> None:
    """The drill that the job names, against the thread."""
    operation, size = _of(sheet), sheet.hole_drill_mm
    if size is None:
        return
    basis = _BASES[operation.basis]
    sheet.found = replace(_found(sheet), hole_mm=size)
    told = tap.minor_doubt(operation.thread, size, "The drill of this job")
    limits = threads.minor_limits_mm(operation.thread)
    if told and limits is not None:
        sheet.doubt("hole-for-thread", side_of(size, limits.low_mm), told)
    one, thread = tap.DRILLED_BY_JOB[basis], operation.thread
    told = _limits_text(thread)
    sheet.work(one, thread, size, after=f" of {operation.basis}", limits=told)


def drilled_depth(sheet: Sheet) -> None:
    """How deep to drill for a blind thread: full thread, chamfer of the tap, and room."""
    operation = _of(sheet)
    if operation.hole is HoleKind.THROUGH:
        return
    taper = tap_drills.TAP_CHAMFER[operation.tap.value]
    chamfer = taper.high_pitches
    threads = f"{taper.low_pitches:g} to {chamfer:g} tapered threads"
    limits = f"for a tap with {threads}; the drill's point comes on top"
    length = operation.thread_length.value
    sheet.work(tap.DRILLED_DEPTH, operation.thread, length, chamfer, limits=limits)


def turns(sheet: Sheet) -> None:
    """Turns to depth, and by hand when to turn back."""
    operation = _of(sheet)
    chamfer = tap_drills.TAP_CHAMFER[operation.tap.value].high_pitches
    limits = "count them: a blind hole's bottom breaks the tap"
    sheet.work(tap.TURNS, operation.thread, operation.thread_length.value, chamfer, limits=limits)
    if operation.turned_by is TappedBy.HAND_WRENCH:
        _back_off(sheet)


def _back_off(sheet: Sheet) -> None:
    hand = tapping.HAND_TAPPING
    sheet.tell(
        tap.BACK_OFF,
        (hand.forward_low_turns, hand.forward_high_turns),
        f"then back {hand.back_low_turns:g} to {hand.back_high_turns:g} of a turn, to "
        "break the chip",
    )


def machine_only(sheet: Sheet) -> bool:
    """True where the machine turns the tap."""
    return _of(sheet).turned_by is TappedBy.MACHINE


def tap_holding(sheet: Sheet) -> None:
    """The holding against the tap's torque; a wrench asks for it too, where the torque is known."""
    material = sheet.case.material
    has_factors = material is not None and material.tapping is not None
    if machine_only(sheet) or has_factors:  # what is known and out of range is never let pass
        work_holding(sheet)
    else:
        held_without_torque(sheet)


def feed_of_tap(sheet: Sheet) -> None:
    """The tap's own feed: one pitch a turn."""
    operation = _of(sheet)
    n = sheet.found.n
    if n is None:
        sheet.lacks(tap.TAP_FEED, "the spindle speed above")
        return
    rate = sheet.work(tap.TAP_FEED, operation.thread, n)
    sheet.found = replace(sheet.found, feed_rate=rate)


def torque_of_tap(sheet: Sheet) -> None:
    """Torque of a sharp tap by the model that knows the hole."""
    material = sheet.case.material
    if material is None or material.tapping is None:
        where = f"materials/{material.id}" if material else f"jobs/{sheet.case.job.id}"
        sheet.lacks(tap.TAP_TORQUE, f"tapping (kc, tap_factor) in {where}")
        return
    metal = metal_of(material)
    if tapping.is_far_below(material.tapping.kc, metal):
        sheet.doubt(
            KD_TOO_LOW,
            Side.BELOW,
            f"kc {material.tapping.kc:g} of {material.name}: the table's lowest for "
            f"{metal_told(material)} is "
            f"{tapping.LOWEST_KC[metal]:g} N/mm2. Too low a kc makes the torque look small.",
        )
    factors, hole = material.tapping, known(_found(sheet).hole_mm)
    turning = sheet.work(
        tap.TAP_TORQUE,
        _of(sheet).thread,
        hole,
        factors.kc,
        factors.tap_factor,
        limits="a sharp tap with fluid",
        also=f"factors: {factors.source}",
    )
    dull = sheet.work(tap.DULL_TORQUE, turning)
    sheet.found = replace(sheet.found, torque=turning, worst=dull)
    _against_the_limit(sheet, dull)


def _against_the_limit(sheet: Sheet, dull: float) -> None:
    """What the tap or its clutch stands, where the maker says so."""
    tool, given = sheet.case.tool, sheet.case.tool.torque_limit
    if given is None:
        where = f"the maker's torque for this tap or its clutch, torque_limit in tools/{tool.id}"
        sheet.lacks(tap.TORQUE_LIMIT, where, optional=True)
        return
    limit, does = given.torque.value, _DOES[given.kind]
    found = compare(TAP, [Way(limit)], dull, cut_offs(sheet, "tapping", is_worn=False))
    stands = entered(given.torque, "down")
    limits = f"the tap, or its clutch, is good for {stands}: {does}; {found.words}"
    times = sheet.work(
        tap.TORQUE_LIMIT, limit, dull, beside=found.sums, limits=limits, also=given.source
    )
    told = f"a dull or packed tap asks {no_less(dull, 'N m')}, and at {stands} {does}"
    if times < 1:
        cure = "use a larger drill inside the thread's limits, or a tap with other flutes"
        sheet.stop(TOO_MUCH_FOR_TAP, told, cure, sheet.case.path("tool"))
    elif times < 1 / tapping.LIMIT_SHARE:
        text = f"{told[0].upper()}{told[1:]}: that is more than half of it."
        sheet.doubt("tap-torque", Side.ABOVE, text)


_DOES = {TorqueLimitKind.BREAKING: "it breaks", TorqueLimitKind.CLUTCH: "its clutch slips"}
