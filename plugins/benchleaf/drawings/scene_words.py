"""What a scene shows, in words, for acts whose picture is always the same."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from benchleaf.model import Act

SAID: Mapping[Act, str] = MappingProxyType(
    {
        Act.DEBURR: (
            "The work is in the bench vice. A hand turns the countersink at the mouth of its hole."
        ),
        Act.FILE: (
            "The work is in the bench vice. A file goes over its edge, with a hand at each end."
        ),
        Act.CLEAN_HOLE: "The work is in the bench vice. A bottle brush goes down through its hole.",
        Act.START_TAP: "The tap takes its first turns under the guide",
        Act.CUT_THREAD: "The tap goes down, forward and back",
        Act.WIND_OUT: "The tap is turned back out",
        Act.SWITCH_OFF: "A hand turns the isolator to O.",
        Act.LOCK: "A hand puts a lock and a tag on the isolator.",
        Act.UNLOCK: "A hand takes the lock off, and the handle stays at O.",
        Act.TRY_START: "A finger presses start, and nothing turns.",
        Act.EASE_BELTS: (
            "A hand lets the tension lever come round slowly, with the belt cover shut."
        ),
        Act.MOVE_BELTS: (
            "A palm on its flat side moves the belt to the next step; its former place is dashed."
        ),
        Act.TELL_PEOPLE: "One person at the machine tells everybody who stands round it.",
        Act.CLEAR_PEOPLE: "Everybody but the one at the machine goes away from it, beyond a line.",
        Act.READ_CARD: "A finger goes along the lines of a card.",
        Act.SIGN_CARD: "A hand signs a card whose lines are ticked.",
        Act.BRUSH_DOWN: "A brush takes chips off the vice, away from the hand.",
        Act.VACUUM: "The nozzle of a vacuum cleaner takes up the chips.",
        Act.WIPE: "A hand draws a wipe over the bare metal.",
        Act.MOP: "The floor is mopped; a wet-floor sign stands beside it.",
        Act.LOOK_OVER: "A hand tries a bolt of the guard; the cable is whole.",
        Act.TURN_WHEEL_BY_HAND: "A flat hand turns the wheel upwards.",
        Act.REST_WORK: (
            "The work lies flat on the work rest, clear of the wheel, with both hands at "
            "its far end."
        ),
        Act.GRIND: (
            "The work lies flat on the work rest and touches the rim, with both hands at "
            "its far end."
        ),
        Act.ROLL: (
            "The pin lies flat on the work rest and is rolled against the rim, with both "
            "hands on its holder."
        ),
        Act.DRAW_BACK: "The work is drawn straight back from the wheel.",
        Act.DRESS: "The dresser hooks over the work rest and touches the rim, held in both hands.",
        Act.SET_GAPS: "Work rest and tongue guard are moved in towards the wheel.",
        Act.OPEN_REST: "The work rest is moved back from the wheel.",
        Act.WHEEL_OFF: "The guard is open, and the old wheel comes off.",
        Act.WHEEL_ON: "The guard is open, and the new wheel is on the spindle.",
        Act.READ_LABEL: "A finger on the label of the wheel.",
        Act.LOOK_AT_WHEEL: "A hand turns the wheel under a lamp.",
        Act.HANG_WHEEL: "The wheel hangs by its bore on a rod, clear of the floor.",
        Act.TAP_WHEEL: (
            "The wheel hangs on a rod. A mallet taps its side at one of four marked places,"
            " left and right of the upright line."
        ),
        Act.TAG_WHEEL: "A hand hangs a tag on the wheel.",
    }
)
