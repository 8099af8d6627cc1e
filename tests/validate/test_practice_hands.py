"""Hands, gloves, loose vices, steps without a hazard, and what comes first when it goes wrong.

Each rule in several wordings, and the like wordings that it must leave alone. V508 of the holding
and V509 are errors that no job can accept, so a wrong alarm there stops a whole manual.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from benchleaf.diagnose import Finding, Severity

Found = Callable[..., tuple[Finding, ...]]
Edited = Callable[..., dict[str, str]]
JOB = "jobs/vg-0010.yml"
HOW = "how: The plate lies on parallels in the drill vice, long edges in the jaws."
BOLTED = "bolted_down: Two bolts hold the vice to the table."
POINT = "point: Let fluid run on the drill."
WEAR = "wear:\n  - Safety glasses with side shields."
TAKE_OFF = "take_off:\n  - Gloves, rings and watch."
HAZARD_OF_DRILL = (
    "a turning drill winds them in.\n        kind: can injure\n    hazards:\n      - work-turns\n"
)
TROUBLE = (
    "      - Press stop and wait until the spindle is still.\n      - Hand the drill to the setter."
)


def hits(findings: tuple[Finding, ...], code: str) -> list[Finding]:
    return [finding for finding in findings if finding.code == code]


# V508, the holding


@pytest.mark.parametrize(
    "how",
    [
        "Hold the plate with your left hand.",
        "One hand holds the plate on the table.",
        "The plate is held by hand against the fence.",
        "Grip the plate with your fingers.",
        "Keep the plate steady with your fist.",
        "Two parallels. Your hand grips the plate's end.",
        "Press the plate down with both HANDS.",
    ],
)
def test_v508_a_hand_is_no_holding(found: Found, edited: Edited, how: str) -> None:
    (finding,) = hits(found(edited(JOB, HOW, f"how: {how}")), "V508")
    assert finding.severity is Severity.ERROR
    assert finding.place.line == 23


@pytest.mark.parametrize(
    "how",
    [
        "The plate lies in the vice. Never hold it with a hand.",
        "Clamps hold the plate, not your hand.",
        "Two clamps hold the plate without a hand near it.",
        "The jaws hold the plate. Hand the next plate to the vice only at rest.",
        "The handle of the vice grips the plate.",
        "Turn the hand wheel until the jaws grip the plate.",
        "The left-hand clamp holds the plate on its step block.",
        "The vice holds the plate; it is shorthand for the fixture.",
    ],
)
def test_v508_a_like_word_is_no_hand(found: Found, edited: Edited, how: str) -> None:
    assert hits(found(edited(JOB, HOW, f"how: {how}")), "V508") == []


def test_v508_of_the_holding_cannot_be_accepted(found: Found, edited: Edited) -> None:
    accepted = "accept:\n  - code: V508\n    reason: We always did.\nwear:"
    files = edited(JOB, HOW, "how: Hold the plate with a hand.", "wear:", accepted)
    assert len(hits(found(files), "V508")) == 1


def test_v508_in_the_holding_of_a_set_up_too(found: Found, edited: Edited) -> None:
    own = (
        "overtravel: 1 mm\n    holding:\n      method: clamps\n      how: Hold it with one hand.\n"
        "      bolted_down: To the table.\n      positive_stop:\n        rated_force: 500 N\n"
        "        arm: 120 mm\n        source: entered\n"
    )
    files = edited(JOB, "overtravel: 1 mm\n", own)
    (finding,) = hits(found(files), "V508")
    assert files[JOB].split("\n")[finding.place.line - 1].strip().startswith("how: Hold it")


# V508, the key points


@pytest.mark.parametrize(
    "point",
    [
        "Hold the plate with one hand while you drill.",
        "Steady the workpiece with your left hand as you drill.",
        "Grip the bar in your fist while it drills.",
        "While you drill, press the part down with your fingers.",
        "Keep a hand on the lever. Hold the plate with the other hand while you drill.",
        "Hold the plate with one hand while drilling.",
        "Hold the plate by hand while the drill cuts.",
        "Hold the plate by hand against the drill.",
    ],
)
def test_v508_a_hand_on_the_work_while_it_is_cut(found: Found, edited: Edited, point: str) -> None:
    (finding,) = hits(found(edited(JOB, POINT, f"point: {point}")), "V508")
    assert finding.severity is Severity.WARNING
    assert finding.place.file == "content/jobs/vg-0010.yml"


@pytest.mark.parametrize(
    "point",
    [
        "Never hold the plate with a hand while you drill.",
        "Do not steady the plate with your hand while you drill.",
        "Hold the lever with one hand while you drill.",
        "Hand the plate to the next bench.",
        "Hold the plate with one hand while you tighten the vice.",
        "While you drill, the clamps hold the plate.",
        "Keep both hands on the lever as you drill, and off the plate.",
        "Hold the chip brush in your hand while you drill on.",
    ],
)
def test_v508_other_work_for_a_hand(found: Found, edited: Edited, point: str) -> None:
    assert hits(found(edited(JOB, POINT, f"point: {point}")), "V508") == []


def test_v508_of_a_key_point_may_be_accepted(found: Found, edited: Edited) -> None:
    accepted = "accept:\n  - code: v508\n    reason: The fixture closes round it.\nwear:"
    point = "point: Hold the plate in the fixture with one hand while you drill."
    assert hits(found(edited(JOB, POINT, point)), "V508") != []
    assert hits(found(edited(JOB, POINT, point, "wear:", accepted)), "V508") == []


# V509


@pytest.mark.parametrize(
    "bolted",
    ["The vice stands loose on the table.", "It is not bolted, it is heavy.", "Unbolted.",
     "The vice lies free on the table.", "It stands free.", "The vice is not clamped.",
     "Not fixed: it floats under the drill."],
)  # fmt: skip
def test_v509_a_loose_vice_is_an_error(found: Found, edited: Edited, bolted: str) -> None:
    (finding,) = hits(found(edited(JOB, BOLTED, f"bolted_down: '{bolted}'")), "V509")
    assert finding.severity is Severity.ERROR


@pytest.mark.parametrize(
    "bolted",
    ["Two bolts hold the vice to the table.", "Bolted to the T-slots at both ends.",
     "Two bolts hold it. Never leave it loose.", "A pin keeps the bolts from working loose.",
     "Two bolts, so that it never works loose.", "Clamped. No bolt is loose: push and feel."],
)  # fmt: skip
def test_v509_a_vice_that_is_fixed_is_none(found: Found, edited: Edited, bolted: str) -> None:
    assert hits(found(edited(JOB, BOLTED, f"bolted_down: '{bolted}'")), "V509") == []


# V510


@pytest.mark.parametrize(
    "line", ["Leather gloves.", "A GLOVE on the left hand.", "Glasses and cut-proof gloves"]
)
def test_v510_gloves_are_not_worn_at_a_spindle(found: Found, edited: Edited, line: str) -> None:
    (finding,) = hits(found(edited(JOB, WEAR, f"{WEAR}\n  - {line}")), "V510")
    assert (finding.severity, "worn at a spindle" in finding.text) == (
        Severity.WARNING, True,
    )  # fmt: skip


@pytest.mark.parametrize(
    "line",
    ["Gloves for carrying plates only.", "Gloves when handling bars, off at the drill.",
     "Gloves while deburring by hand.", "Nitrile gloves for mixing fluid.", "No gloves.",
     "Never gloves at the spindle."],
)  # fmt: skip
def test_v510_gloves_elsewhere_and_no_gloves_are_none(
    found: Found, edited: Edited, line: str
) -> None:
    assert hits(found(edited(JOB, WEAR, f"{WEAR}\n  - {line}")), "V510") == []


@pytest.mark.parametrize(("line", "missing"), [("Rings and watch.", True), ("Any glove.", False)])
def test_v510_somebody_must_say_that_gloves_come_off(
    found: Found, edited: Edited, line: str, missing: bool
) -> None:
    findings = hits(found(edited(JOB, TAKE_OFF, f"take_off:\n  - {line}")), "V510")
    assert bool(findings) is missing


def test_v510_a_machine_without_a_spindle_takes_no_gloves_off(found: Found, edited: Edited) -> None:
    speeds = "spindle_speeds:\n  - 400 rpm\n  - 650 rpm\n  - 1000 rpm\n  - 1500 rpm\n"
    files = edited(JOB, TAKE_OFF, "take_off:\n  - Rings.") | edited(
        "machines/bench-drill.yml", speeds, ""
    )
    assert hits(found(files), "V510") == []


# V511


def test_v511_a_step_that_cuts_has_a_hazard(found: Found, edited: Edited) -> None:
    without = HAZARD_OF_DRILL.replace("    hazards:\n      - work-turns\n", "")
    (finding,) = hits(found(edited(JOB, HAZARD_OF_DRILL, without)), "V511")
    assert "step 'drill'" in finding.text


def test_v511_a_step_that_does_not_cut_needs_none(found: Found) -> None:
    """The step `gauge` of the small shop has no hazard and no set-up."""
    assert hits(found(), "V511") == []


# V512


@pytest.mark.parametrize(
    "lines",
    [
        ("Call the shift lead.", "Press stop."),
        ("Look at the drill.", "Switch off and wait."),
        ("Pull harder.", "Let go of the lever."),
        ("Call for help.", "Step back."),
        ("Look at the fluid.", "Turn the isolator."),
    ],
)
def test_v512_the_stop_comes_first(found: Found, edited: Edited, lines: tuple[str, ...]) -> None:
    listed = "\n".join(f"      - {line}" for line in lines)
    (finding,) = hits(found(edited(JOB, TROUBLE, listed)), "V512")
    assert finding.severity is Severity.WARNING


@pytest.mark.parametrize(
    "lines",
    [
        ("Press stop.", "Call the shift lead."),
        ("Let go, and press stop.", "Stand clear until it is still."),
        ("Stand back. Call the shift lead.",),
        ("Go over it once more.", "Put the plate in the red tote."),
    ],
)
def test_v512_a_stop_in_its_place_or_none_wanted(
    found: Found, edited: Edited, lines: tuple[str, ...]
) -> None:
    listed = "\n".join(f"      - {line}" for line in lines)
    assert hits(found(edited(JOB, TROUBLE, listed)), "V512") == []


@pytest.mark.parametrize("code", ["V510", "V511", "V512"])
def test_a_warning_may_be_accepted_with_a_reason(found: Found, edited: Edited, code: str) -> None:
    changes = {
        "V510": (TAKE_OFF, "take_off:\n  - Rings."),
        "V511": (
            HAZARD_OF_DRILL,
            HAZARD_OF_DRILL.replace("    hazards:\n      - work-turns\n", ""),
        ),
        "V512": (TROUBLE, "      - Call the lead.\n      - Press stop."),
    }[code]
    accepted = f"accept:\n  - code: {code}\n    reason: It does not fit.\nwear:"
    both = (*changes, "wear:", accepted)
    assert hits(found(edited(JOB, *changes)), code) != []
    assert hits(found(edited(JOB, *both)), code) == []


# R114


@pytest.mark.parametrize(
    ("written", "is_cut"),
    [
        ("The plate lies on parallels #2 of the set.", True),
        ("The plate lies on parallels #2", True),
        ("The plate lies on parallels # 2 of the set, a comment.", False),
        ("The plate lies on parallels of set#2.", False),
        ('"The plate lies on parallels #2 of the set."', False),
        ("'The plate lies on parallels #2 of the set.'", False),
        (">-\n    The plate lies on parallels #2 of the set.", False),
    ],
)
def test_r114_a_text_that_a_sign_cuts_off(
    found: Found, edited: Edited, written: str, is_cut: bool
) -> None:
    findings = hits(found(edited(JOB, HOW, f"how: {written}")), "R114")
    assert bool(findings) is is_cut
    if is_cut:
        assert findings[0].severity is Severity.WARNING
        assert (findings[0].place.line, "'#2" in findings[0].text) == (23, True)
