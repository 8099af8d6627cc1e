"""V530 and V531: a trick on a learner, and a fault set outside `planted`; measured on sentences."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from benchleaf.diagnose import Finding
from benchleaf.validate.rules.planted_fault import fault_in
from benchleaf.validate.rules.trainer_tricks import trick_in

Found = Callable[..., tuple[Finding, ...]]
Edited = Callable[..., dict[str, str]]
JOB = "jobs/vg-0010.yml"
NOTE = "Let the learner push against the plate."

TRICKS = (
    "Turn away as if you were busy.",
    "Turn away while the learner looks at the hooks.",
    "Ask the learner to turn away and guess when the wheel is still.",
    "Then turn away, and listen.",
    "Then listen, with your back turned.",
    "Stand with your back to the learner.",
    "Turn your back and count to ten.",
    "Stay at the door with your back to the drill.",
    "Look away during the third hole.",
    "Look the other way, and see whether the guard comes down.",
    "Hide an oily rag behind the stand before the lesson.",
    "Hide one chip between jaw and plate.",
    "Once, hide the key in your pocket.",
    "Take the brush away and hide it under the bench.",
    "Pretend that the morning check is done.",
    "Pretend to be called away.",
    "Talk to somebody else, as if you had forgotten the learner.",
    "Act as if the guard were down.",
    "Slip a chip under the plate unnoticed.",
    "Loosen the vice while the learner is not looking.",
    "Swap the drills behind the learner's back.",
    "Leave the key in the chuck without a word.",
    "Leave the chuck key in the chuck. Say nothing.",
    "Raise the guard, and do not tell the learner.",
    "Loosen one bolt of the vice without telling them.",
    "Set the belt to the wrong groove, and keep quiet.",
    "Put an oily rag on the stand. Stay silent until it is found.",
    "Leave the vice loose without warning.",
    "Turn the speed card to a wrong speed, and say nothing.",
    "Unplug the guard switch and tell nobody: the guard is then of no use.",
    "Move the start button's cover and never warn the learner.",
    "Open the guard a finger wide without a warning.",
    "Turn away from the learner before the start.",
    "Lay a cracked wheel on the mat without saying a word.",
    "Set the work rest to a wide gap, and don't tell them.",
    "While they are not looking, slacken the depth stop.",
    "Hide the signed card, and hear what the learner does.",
    "Look away, so that the learner must find the stop alone.",
    "Turn your back for the length of one hole.",
    "Pretend the fluid valve is stuck.",
)

NO_TRICKS = (
    "Never turn away while the spindle runs.",
    "Do not look away from the drill.",
    "Nobody turns away here, not even you.",
    "Look away from the learner's hands to the glasses.",
    "Turn the plate away from you.",
    "Let the learner brush the chips away.",
    "See that no chip hides under the plate.",
    "Ask where a chip could hide.",
    "Show how a burr hides under the blade of the caliper.",
    "Hide nothing: say that one thing will be wrong.",
    "Do not pretend, ask.",
    "The learner gauges five plates in silence, and then tells you which may be handed on.",
    "At the third block you are silent.",
    "Say nothing, and hand over the lamp.",
    "Look into the slot with the lamp. Say nothing, and hand over the lamp.",
    "The learner finds the bent drill on the bench, without a word from you.",
    "Do not say which is which.",
    "Do not tell the learner which of the two plates is bad.",
    "The caliper must find it, not you.",
    "Ask for the four words of the rule.",
    "Stand behind the learner, also to the left.",
    "Stand in reach of the stop, and let the learner start.",
    "Say stop once while the spindle runs free.",
    "Drill the first plate yourself, and say now at break-through.",
    "Watch the hands while the plate is turned.",
    "Let the learner turn away from the sparks before they reach the sleeve.",
    "Wait without a word until the chuck stands still.",
    "Count the minute together.",
    "If the learner looks away, press stop.",
    "Keep your back straight, and show how to lift the tote.",
    "Turn back to the first step if the tug was left out.",
    "Put the plate back in the tote.",
    "Tell the learner that a stop card is never held against anybody.",
    "Lay three wheels out, one of them rated too slow.",
    "Say beforehand that the card will show a wrong speed.",
    "Show a plate clamped on a chip, and let the learner find it by the loose parallel.",
    "Let the learner find the stop in two or three small moves.",
    "The learner must send you away from the long end.",
    "Let the setter in training listen with closed eyes to a good wheel and a cracked one.",
    "Ask why the stop button comes before the isolator.",
    "Hang the spring balance on the knob, and read it together.",
)

FAULTS = (
    "Turn the speed card to a wrong speed once.",
    "Then turn the speed card to a wrong speed.",
    "Set the depth stop at a wrong figure.",
    "Set the work rest to a wrong gap.",
    "Hang the torque handle on the wrong hook once.",
    "Put the drill in the wrong place of the rack: in a wrong slot.",
    "Set the stop wrong on purpose.",
    "Leave one setting wrong.",
    "Put the card wrong once, before the learner comes.",
    "Put a thin strip of paper behind the work stop once.",
    "Leave a chip under the plate.",
    "Slip a chip under one parallel.",
    "Place a shim between jaw and plate.",
    "Put some swarf under the block.",
    "Clamp a pin on one chip.",
    "Clamp the block on a long chip, and wait.",
    "Seat the plate on a small chip.",
    "Set a fault before the lesson.",
    "Leave one fault open on the drill.",
    "Plant a fault at the grinder.",
    "Leave the chuck key in the chuck.",
    "Keep the chuck key in your hand once, before the start.",
    "Leave the key off its hook.",
    "Leave the vice loose.",
    "Leave the depth stop unlocked once.",
    "Set the guard bolt half tight.",
    "Leave one jaw of the vice slack.",
    "Lay the 6.5 mm drill in the place of the 6.8.",
    "Hang the brush in the place of the key.",
    "Move the belt card to the wrong step.",
    "Put the stop on a wrong line of the scale.",
    "Leave the strap clamp loose once, and have it found.",
    "Put a wide gap: set the rest at the wrong setting.",
    "Fit the drill at a wrong depth.",
    "Set the fence to the wrong side.",
    "Put chips between the parallels.",
    "Turn the card wrong before the start.",
    "Leave paper under the vice.",
    "Make one fault at the clamp.",
    "Forget the chuck key in the chuck once.",
)

NO_FAULTS = (
    "Give the learner one good plate and one that is too large.",
    "Put one good plate among three bad ones.",
    "Lay a bent drill among three straight ones.",
    "Lay the long and the stub drill side by side.",
    "Put an 8 mm drill beside the right one.",
    "Show a plate clamped on a chip.",
    "Show what a chip under the plate does to the hole, on scrap.",
    "Let the learner clamp once by feel and once to the click.",
    "Ask what a wrong speed would do.",
    "Ask what the learner would do if the card still showed the wrong speed.",
    "See that nothing is wrong before the start.",
    "Never leave the key in the chuck.",
    "Do not leave a chip under the plate.",
    "Let the learner say what was wrong.",
    "If the angle is wrong, start the round again.",
    "Put it right together.",
    "Turn the card back to the right speed, and read it together.",
    "Set the stop again together after each change of drill.",
    "Show a parallel with rust marks, and how it tips a plate.",
    "Give the learner a block drilled on a chip.",
    "Let the learner drill three holes in scrap.",
    "Put the scrap plate on the bench.",
    "Hang the key on its hook, and let the learner say so.",
    "Set the sample seat beside the good one.",
    "Leave the learner time to find it.",
    "Leave the guard down while you talk.",
    "Turn the empty chuck by hand, isolator off, and show the white line.",
    "Put the lamp under the table to show the break-through.",
    "Hold paper behind the hole to show the light.",
    "Let the learner tip the tube over white paper.",
    "Push the V-block a millimetre on a training table.",
    "Ask which faults go on the card.",
    "Leave a loose sample on the bench for the learner to feel.",
    "Let the learner feel how a loose strap moves, on a scrap plate.",
    "Lay a nicked reamer beside a good one.",
    "Say which figure is wrong on the sample card.",
    "Set up the tray with one empty slot, and ask what it means.",
    "Put the wrong drill back in the rack if the learner takes it.",
    "Turn the plate round the wrong way on the bench, and ask what would happen.",
    "Keep the chuck key in its place while you explain.",
)


def test_the_tables_are_large_enough() -> None:
    for table in (TRICKS, NO_TRICKS, FAULTS, NO_FAULTS):
        assert len(set(table)) == len(table) >= 40


@pytest.mark.parametrize("note", TRICKS)
def test_v530_a_trick(note: str) -> None:
    assert trick_in(note)
    assert trick_in(f"Ask for the four words. {note}")


@pytest.mark.parametrize("note", [*NO_TRICKS, *NO_FAULTS])
def test_v530_good_teaching(note: str) -> None:
    assert trick_in(note) == ""


@pytest.mark.parametrize("note", FAULTS)
def test_v531_a_fault_set_on_purpose(note: str) -> None:
    assert fault_in(note)


@pytest.mark.parametrize("note", [*NO_FAULTS, *(one for one in NO_TRICKS if "chip" not in one)])
def test_v531_samples_and_questions_are_none(note: str) -> None:
    assert not fault_in(note)


def test_v530_and_v531_stand_where_they_are_written(found: Found, edited: Edited) -> None:
    tricked = found(edited(JOB, NOTE, f"{NOTE} Then turn away."))
    assert [(one.code, one.place.line) for one in tricked] == [("V530", 68)]
    fault = "Turn the speed card to a wrong speed."
    assert [one.code for one in found(edited(JOB, NOTE, fault))] == ["V531"]
    planted = (
        f"{fault}\n    planted:\n      what: The card shows a wrong speed.\n"
        "      put_right: Turn the card back."
    )
    assert found(edited(JOB, NOTE, planted)) == ()
    secret = planted.replace("wrong speed.\n      put", "wrong speed, without a word.\n      put")
    assert [one.code for one in found(edited(JOB, NOTE, secret))] == ["V530"]
