"""What the drawn scene of a step shows: one act, in a word or two of the trade."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import Annotated

from .fields import Length
from .marks import Area, Example
from .record import Record


class Act(StrEnum):
    """The act that a scene shows."""

    CHECK_SET_UP = "check set-up"
    """The tool above the work, the depth stop set; nothing moves."""
    FIT_TOOL = "fit tool"
    """The tool goes up into the open chuck; a hand turns the chuck key."""
    CLAMP = "clamp"
    """The work comes down into vice, V-block or fixture, and is tightened."""
    FIRST_TOUCH = "first touch"
    """The still tool touches the work; the depth stop is set from there."""
    START = "start"
    """Hands out, guard down, start pressed; at a grinder from beside the wheel's line."""
    CUT = "cut"
    """What the step's set-up does: drill, ream, countersink, counterbore."""
    CLEAR_CHIPS = "clear chips"
    """The tool stands still, up and clear; a brush goes in."""
    CLEAR_BY_VACUUM = "clear by vacuum"
    """The same with the nozzle of a vacuum cleaner: cast iron is neither brushed nor blown."""
    TURN_WORK = "turn work"
    """The work is turned end for end."""
    GAUGE = "gauge"
    """A plug gauge: its GO end goes in, its NO-GO end stays out."""
    MEASURE = "measure"
    """A caliper across the work."""
    DEBURR = "deburr"
    """A countersink turned by hand, the work in a bench vice."""
    FILE = "file"
    """A file drawn over an edge, the work in a bench vice."""
    CLEAN_HOLE = "clean hole"
    """A bottle brush through the hole, the work in a bench vice."""
    PROVE_SEAT = "prove seat"
    """The screw itself lies in its countersunk seat."""
    SET_GUIDE = "set guide"
    """The tap guide stands over the tap in its hole."""
    START_TAP = "start tap"
    """The tap takes its first turns under the guide."""
    CUT_THREAD = "cut thread"
    """The tap goes down, forward and back."""
    WIND_OUT = "wind out"
    """The tap is turned back out."""

    STOP = "stop"
    """Stop is pressed, and what turns coasts to rest."""
    LET_REST = "let rest"
    """A wheel whose power is cut off coasts to rest; nobody touches it."""
    SWITCH_OFF = "switch off"
    """The isolator is turned to O."""
    LOCK = "lock"
    """An own lock and tag go on the isolator at O."""
    UNLOCK = "unlock"
    """The own lock comes off; the handle stays at O."""
    TRY_START = "try start"
    """Start is pressed with the power off: nothing turns."""
    TELL_PEOPLE = "tell people"
    """Everybody at the machine is told."""
    CLEAR_PEOPLE = "clear people"
    """Everybody is seen clear."""
    READ_CARD = "read card"
    """A finger goes along the lines of a card."""
    SIGN_CARD = "sign card"
    """A card is ticked and signed."""
    EASE_BELTS = "ease belts"
    """The tension lever comes round slowly."""
    MOVE_BELTS = "move belts"
    """A palm moves the belt to its new step."""

    EMPTY_MACHINE = "empty machine"
    """Work and tool come out of the still machine."""
    BRUSH_DOWN = "brush down"
    """Chips are brushed off from the top down."""
    VACUUM = "vacuum"
    """Chips are taken up by the vacuum cleaner."""
    WIPE = "wipe"
    """A wipe goes over bare metal."""
    MOP = "mop"
    """The floor is cleaned."""

    CHECK_REST_GAP = "check rest gap"
    """The gap gauge at the work rest, the wheel dead and the plug out."""
    CHECK_TONGUE_GAP = "check tongue gap"
    """The same at the tongue guard."""
    LOOK_OVER = "look over"
    """Bolts, screws and cable are tried by hand."""
    TURN_WHEEL_BY_HAND = "turn wheel by hand"
    """A flat hand turns the dead wheel, upwards."""
    REST_WORK = "rest work"
    """The work lies on the work rest, clear of the wheel."""
    GRIND = "grind"
    """The work touches the rim, and is drawn straight back."""
    ROLL = "roll"
    """A round part in its holder is rolled against the rim."""
    DRAW_BACK = "draw back"
    """The work comes back from the wheel before the grip changes."""
    SET_GAPS = "set gaps"
    """Work rest and tongue guard are set, the guard shut."""
    OPEN_REST = "open rest"
    """The work rest is moved back."""
    DRESS = "dress"
    """The dresser is hooked over the rest and drawn across the rim."""
    WHEEL_OFF = "wheel off"
    """The old wheel comes off the locked spindle."""
    WHEEL_ON = "wheel on"
    """The new wheel goes on the locked spindle."""
    READ_LABEL = "read label"
    """A finger on the label of a wheel."""
    LOOK_AT_WHEEL = "look at wheel"
    """A wheel under the lamp."""
    HANG_WHEEL = "hang wheel"
    """A wheel on the rod."""
    TAP_WHEEL = "tap wheel"
    """The ring test."""
    TAG_WHEEL = "tag wheel"
    """A tag goes on the wheel."""


class SoNotSo(StrEnum):
    """Two pictures side by side: how it is done, and, crossed, how it is not."""

    HOLD_BACK = "hold lever back"
    """The lever is held back at break-through; nobody leans on it."""
    BRUSH = "brush chips"
    """Chips go by brush, never by fingers."""
    STAND_ASIDE = "stand aside"
    """Beside the line of the wheel, never in it."""
    KEY_ON_HOOK = "key on hook"
    """The chuck key hangs on its hook, never in the chuck."""
    HANDS_OUT = "hands out"
    """Start with the guard down and hands outside."""
    POWER_OFF = "isolator at O"
    """A hand comes to the chuck with the isolator at O, never at I."""
    WAIT_FOR_STILL = "wait for still"
    """The guard goes up when all is still, not while it coasts."""
    HANDS_FAR = "hands far from wheel"
    """Hands hold the far end, a hand's width from the wheel."""
    FLAT_ON_REST = "flat on rest"
    """The work lies flat on the rest, above the gap, never tipped into it."""
    NEVER_BLOW = "never blow"
    """Dust and chips go by vacuum cleaner, never by air."""
    PLUG_ON_HOOK = "plug on hook"
    """A hand comes to the wheel with its plug on the hook."""


@dataclass(frozen=True, slots=True)
class Fits:
    """Where an act can be shown."""

    at: str = "anywhere"
    """drill, grinder, driven (either), or anywhere."""
    hands_in: bool | None = None
    """True: only with `hands_inside`; False: only without; None: either."""
    cuts: bool = False
    """True where it needs the step's set-up."""


_DRILL_IN, _GRINDER_IN = Fits("drill", hands_in=True), Fits("grinder", hands_in=True)
_RUNS = Fits("driven", hands_in=False)
_AT_WHEEL = Fits("grinder", hands_in=False)

FITS = MappingProxyType(
    {
        Act.CHECK_SET_UP: _DRILL_IN,
        Act.FIT_TOOL: _DRILL_IN,
        Act.CLAMP: _DRILL_IN,
        Act.FIRST_TOUCH: _DRILL_IN,
        Act.START: _RUNS,
        Act.CUT: Fits("drill", hands_in=False, cuts=True),
        Act.CLEAR_CHIPS: _DRILL_IN,
        Act.CLEAR_BY_VACUUM: _DRILL_IN,
        Act.TURN_WORK: _DRILL_IN,
        Act.PROVE_SEAT: _DRILL_IN,
        Act.SET_GUIDE: _DRILL_IN,
        Act.START_TAP: _DRILL_IN,
        Act.CUT_THREAD: _DRILL_IN,
        Act.WIND_OUT: _DRILL_IN,
        Act.STOP: _RUNS,
        Act.SWITCH_OFF: Fits("driven", hands_in=False),
        Act.LOCK: Fits("driven", hands_in=False),
        Act.UNLOCK: Fits("driven", hands_in=False),
        Act.TRY_START: Fits("driven", hands_in=False),
        Act.EASE_BELTS: _DRILL_IN,
        Act.MOVE_BELTS: _DRILL_IN,
        Act.EMPTY_MACHINE: _DRILL_IN,
        Act.CHECK_REST_GAP: _GRINDER_IN,
        Act.CHECK_TONGUE_GAP: _GRINDER_IN,
        Act.LOOK_OVER: _GRINDER_IN,
        Act.TURN_WHEEL_BY_HAND: _GRINDER_IN,
        Act.REST_WORK: _AT_WHEEL,
        Act.GRIND: _AT_WHEEL,
        Act.ROLL: _AT_WHEEL,
        Act.DRAW_BACK: _AT_WHEEL,
        Act.DRESS: _AT_WHEEL,
        Act.LET_REST: _AT_WHEEL,
        Act.SET_GAPS: _GRINDER_IN,
        Act.OPEN_REST: _GRINDER_IN,
        Act.WHEEL_OFF: _GRINDER_IN,
        Act.WHEEL_ON: _GRINDER_IN,
    }
)
"""Acts that cannot stand everywhere: a scene never shows a hand where the step lets none in."""


_AT_DRILL = (SoNotSo.HOLD_BACK, SoNotSo.KEY_ON_HOOK, SoNotSo.HANDS_OUT, SoNotSo.POWER_OFF)
_AT_GRINDER = (
    SoNotSo.STAND_ASIDE, SoNotSo.HANDS_FAR, SoNotSo.FLAT_ON_REST, SoNotSo.PLUG_ON_HOOK,
)  # fmt: skip


def pair_belongs_to(pair: SoNotSo) -> str:
    """The machine at which alone a pair is true; empty for any."""
    return "drill" if pair in _AT_DRILL else "grinder" if pair in _AT_GRINDER else ""


class Side(StrEnum):
    """A side, seen from where the operator stands."""

    LEFT = "left"
    RIGHT = "right"


class Form(StrEnum):
    """The plain shape of a part."""

    PLATE = "plate"
    ROUND_BAR = "round bar"
    TUBE = "tube"
    BLOCK = "block"
    CASTING = "casting"


class PartForm(Record):
    """The outer sizes of a part, for its drawing. Its drawing's limits stand elsewhere."""

    about = Area.PICTURE

    shape: Annotated[Form, Area.PICTURE]
    """Its plain shape."""
    length: Annotated[Length, Area.PICTURE, Example("120 mm")]
    """From the datum end to the other."""
    width: Annotated[Length, Area.PICTURE, Example("40 mm")]
    """Across, seen from above; of a bar or tube its diameter."""
    height: Annotated[Length, Area.PICTURE, Example("6 mm")]
    """From its upper face to its lower one; of a bar or tube its diameter."""


class FeatureKind(StrEnum):
    """What one job makes on a part."""

    HOLE = "hole"
    BLIND_HOLE = "blind hole"
    COUNTERSINK = "countersink"
    THREAD = "thread"
    ENDS = "ends"
    """Chamfers or flats at the ends."""


class Feature(Record):
    """Something that a state has and the one before it had not: the strong line of its drawing."""

    about = Area.PICTURE

    kind: Annotated[FeatureKind, Area.PICTURE]
    """What sort of thing it is."""
    size: Annotated[Length, Area.PICTURE, Example("8.5 mm")]
    """Across: the diameter of a hole, the width of a chamfer or flat."""
    at: Annotated[Length | None, Area.PICTURE, Example("60 mm")] = None
    """From the datum end to its middle; left out for what is at the ends."""
