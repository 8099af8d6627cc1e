"""Rules of common practice and published rules: said is said, and a like word is not."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from benchleaf.diagnose import Finding, Severity

Found = Callable[..., tuple[Finding, ...]]
Edited = Callable[..., dict[str, str]]
JOB, MACHINE = "jobs/vg-0010.yml", "machines/bench-drill.yml"
LOCATE = "Push the plate down on both parallels."
KEY = "Hang the chuck key on its hook before you press start."
KEY_REASON = "A key left in the chuck is thrown out."
FLUID = "It keeps the lips cool, and carries the chips away."
EASE = "Ease the lever when it begins to go light."
STOP = "Press stop, wait until the spindle is still, and clear the chips with the brush."
LAY = "Lay the plates in the tote, all with the same face to the lamp, for"


def codes(findings: tuple[Finding, ...]) -> set[str]:
    return {finding.code for finding in findings}


@pytest.mark.parametrize(
    ("code", "changes"),
    [
        ("V501", (LOCATE, "Clamp the plate in the jaws.")),
        ("V502", (STOP, "Press stop, and wait until the spindle is still.",
                  KEY, "Take the chuck key out before you press start.")),
        ("V503", (KEY, "Press start with the guard down.", KEY_REASON, "It stops the chips.")),
        ("V504", (FLUID, "Dry steel is hard on the drill.")),
        ("V505", (EASE, "Watch the lever.")),
        ("V505", ("    set_up: guide-hole\n", "")),
        ("V506", (LAY, "Lay the plates in the tote for")),
        ("V507", (STOP, "Clear the chips with the brush.")),
    ],
)  # fmt: skip
def test_what_is_not_said_is_a_warning_with_its_way_out(
    found: Found, edited: Edited, code: str, changes: tuple[str, ...]
) -> None:
    (finding,) = found(edited(JOB, *changes))
    assert (finding.code, finding.severity) == (code, Severity.WARNING)
    assert finding.place.file == "content/jobs/vg-0010.yml"
    assert any("accept" in line for line in finding.help)
    accepted = f"accept:\n  - code: {code.lower()}\n    reason: It does not fit.\nwear:"
    assert found(edited(JOB, *changes, "wear:", accepted)) == ()


@pytest.mark.parametrize(
    "changes",
    [
        (LOCATE, "Push the plate against the stop, then clamp it."),
        (STOP, "Switch off. Brush the chips away at rest."),
        (KEY, "Take the key out of the chuck and press start."),
        (FLUID, "It keeps crumbs of steel from sticking to the lips."),
        (EASE, "Hold back when the lever goes light."),
        (LAY, "Lay the plates in the tote face up for"),
    ],
)
def test_other_words_for_the_same_are_understood(
    found: Found, edited: Edited, changes: tuple[str, str]
) -> None:
    assert found(edited(JOB, *changes)) == ()


def test_chips_and_a_hook_in_different_points_are_no_brush(found: Found, edited: Edited) -> None:
    """The key hangs on its hook, and the fluid carries chips away: nobody has said brush."""
    findings = found(edited(JOB, STOP, "Press stop, and wait until the spindle is still."))
    assert codes(findings) == {"V502"}


def test_a_reason_about_keys_does_not_take_the_key_out(found: Found, edited: Edited) -> None:
    assert KEY_REASON.endswith("thrown out.")
    assert codes(found(edited(JOB, KEY, "Press start with the guard down."))) == {"V503"}


@pytest.mark.parametrize(
    "point",
    [
        "Clear the chips with the brush while the drill is still turning.",
        "Clear the chips with the brush. The spindle still turns.",
    ],
)
def test_still_turning_is_not_still(found: Found, edited: Edited, point: str) -> None:
    assert codes(found(edited(JOB, STOP, point))) == {"V507"}


def test_the_stop_button_is_no_stop_for_the_work(found: Found, edited: Edited) -> None:
    """Pressing stop does not say where the plate lies before it is clamped."""
    clamp = "      - point: Press stop."
    first = (
        f"{clamp}\n        reason: R.\n        kind: can injure\n      - point: Clamp the plate."
    )
    assert codes(found(edited(JOB, f"      - point: {LOCATE}", first))) == {"V501"}


def test_a_warning_against_the_hand_is_no_advice_to_use_it(found: Found, edited: Edited) -> None:
    old = "Turn the [[tool:plug-gauge-8]] as you push."
    assert found(edited(JOB, old, f"Never wipe chips off with a finger. {old}")) == ()
    findings = found(edited(JOB, old, f"Wipe the chips off with a finger. {old}"))
    assert codes(findings) == {"V502"}


def grinder(rest: str, tongue: str, wheel: str) -> tuple[str, str]:
    return (
        "limits_source:",
        f"grinding:\n  work_rest_gap: {rest}\n  tongue_gap: {tongue}\n"
        f"  wheel_rated_speed: {wheel}\n  source: entered for the tests\nlimits_source:",
    )


@pytest.mark.parametrize(
    ("rest", "tongue", "wheel", "expected"),
    [
        # 29 CFR 1910.215(a)(4), (b)(9), (d)(1): 1/8 in, 1/4 in, and the spindle's 1500 rpm.
        ("1/8 in", "1/4 in", "1500 rpm", set()),
        ("3.175 mm", "6.35 mm", "3600 rpm", set()),
        ("3.2 mm", "6 mm", "3600 rpm", {"V601"}),
        ("3 mm", "6.4 mm", "3600 rpm", {"V601"}),
        ("3 mm", "6 mm", "1499 rpm", {"V602"}),
        ("5 mm", "6 mm", "1400 rpm", {"V601", "V602"}),
    ],
)
def test_a_grinder_within_its_rules(
    found: Found, edited: Edited, rest: str, tongue: str, wheel: str, expected: set[str]
) -> None:
    findings = found(edited(MACHINE, *grinder(rest, tongue, wheel)))
    assert codes(findings) == expected
    assert all(finding.blocks_publishing for finding in findings)


@pytest.mark.parametrize(
    ("air", "expected"),
    # 29 CFR 1910.242(b): below 30 psi, which is 206.8 kPa.
    [("29.9 psi", set()), ("206 kPa", set()), ("30 psi", {"V603"}), ("207 kPa", {"V603"}),
     ("2 bar", set()), ("6 bar", {"V603"})],
)  # fmt: skip
def test_air_for_clean_down_is_below_the_rule(
    found: Found, edited: Edited, air: str, expected: set[str]
) -> None:
    line = f"clean_down_air: {air}\nlimits_source:"
    assert codes(found(edited(MACHINE, "limits_source:", line))) == expected


STAGES = ("prepare", "shut down", "isolate", "apply lock", "release stored energy", "verify",
          "clear people", "remove lock", "tell people")  # fmt: skip
"""29 CFR 1910.147(d)(1) to (d)(6); (e)(1) with (e)(2)(i), (e)(3) and (e)(2)(ii)."""


@pytest.mark.parametrize(
    ("stages", "said"),
    [
        (STAGES, ""),
        (STAGES[:1] * 2 + STAGES[1:], ""),
        (STAGES[:8], "no step is 'tell people' (e)(2)(ii)"),
        (STAGES[:6], "no step is 'clear people' (e)(1) and (e)(2)(i), 'remove lock' (e)(3), 'tell"),
        (STAGES[1:], "no step is 'prepare' (d)(1)"),
        ((*STAGES[:6], "remove lock", "clear people", "tell people"),
         "'clear people' belongs before 'remove lock'"),
        ((*STAGES[:6], "clear people", "tell people", "remove lock"),
         "'remove lock' belongs before 'tell people'"),
        ((*STAGES[:7], "tell people", "remove lock", "tell people"),
         "'tell people' belongs after 'remove lock'"),
        (("tell people", *STAGES[:8]), "'tell people' belongs after 'remove lock'"),
        (STAGES[::-1], "'remove lock' belongs before 'tell people'"),
        (("isolate",), "no step is 'prepare' (d)(1), 'shut down' (d)(2), 'apply lock' (d)(4)"),
        ((*STAGES, "isolate"), "'isolate' comes once more after 'tell people'"),
    ],
)  # fmt: skip
def test_lockout_is_whole_and_in_order(
    found: Found, base_shop: dict[str, str], stages: tuple[str, ...], said: str
) -> None:
    """One finding names what is missing and what is misplaced; nine stages are not too many."""
    name = "jobs/vg-0020.yml"
    steps = "".join(
        f"  - id: lock-{number}\n    title: Lock it\n    lockout: {stage}\n    key_points:\n"
        "      - point: Do it yourself.\n        reason: R.\n        kind: can injure\n"
        for number, stage in enumerate(stages)
    )
    findings = found({name: base_shop[name].replace("if_wrong:", f"{steps}if_wrong:")})
    lockout = [one for one in findings if one.code == "V604"]
    assert len(lockout) == bool(said)
    assert all(said in one.text for one in lockout)
    assert "V516" not in codes(findings)


def test_lockout_lacking_and_misplaced_in_one_finding(
    found: Found, base_shop: dict[str, str]
) -> None:
    name = "jobs/vg-0020.yml"
    stages = ("prepare", "isolate", "shut down", *STAGES[3:8])
    steps = "".join(
        f"  - id: lock-{number}\n    title: Lock it\n    lockout: {stage}\n    key_points:\n"
        "      - point: Do it yourself.\n        reason: R.\n        kind: makes it easier\n"
        for number, stage in enumerate(stages)
    )
    findings = found({name: base_shop[name].replace("if_wrong:", f"{steps}if_wrong:")})
    (finding,) = [one for one in findings if one.code == "V604"]
    assert finding.text == (
        "lockout: no step is 'tell people' (e)(2)(ii); 'shut down' belongs before 'isolate'"
    )
    assert finding.place.line > 24  # at the step that is misplaced, not at the list


PROOFS = (
    "Push against the clamped plate before you go on.",
    "Tug at the plate once before you go on.",
    "Try to move both parallels: neither may give.",
    "With the machine off, turn the drill by hand past the plate.",
    "Rock the far end with two fingers: it does not move.",
    "Knock the plate with a knuckle. It must not shift.",
    "Gauge the first plate before the second is drilled.",
    "The first-off is signed before you go on.",
)
NO_PROOFS = (
    "Look at the jaws before you go on.",
    "Tighten the jaws a second time.",
    "Push the handle down and to the left.",
    "Press the lever of the clamp home.",
    "Take the next plate from the tote.",
)


@pytest.mark.parametrize(
    ("point", "is_marked"),
    [*((one, False) for one in PROOFS), *((one, True) for one in NO_PROOFS)],
)
def test_v501_what_is_clamped_is_proved(
    found: Found, edited: Edited, point: str, is_marked: bool
) -> None:
    clamped = f"{LOCATE} Tighten the jaws."
    old = "Push against the clamped plate before you go on."
    files = edited(JOB, LOCATE, clamped, old, point, "Gauge the first hole", "Gauge the hole")
    raised = {one.code for one in found(files) if one.code == "V501"}
    assert raised == ({"V501"} if is_marked else set())


@pytest.mark.parametrize(
    "reason",
    [
        "It takes the heat off the lips.",
        "Aluminium welds to a dry lip, and the hole grows.",
        "Steel sticks to the edge and tears the wall.",
        "The chips have no other way out of a blind hole.",
        "A dry reamer cuts too large, and the wall is rough.",
        "It lubricates the tap; a dry tap breaks.",
        "The hole keeps its size and its finish.",
        "A dry lip squeals, and is dull after ten plates.",
        "Chips pack in the flutes without it.",
    ],
)
def test_v504_any_true_reason_will_do(found: Found, edited: Edited, reason: str) -> None:
    assert found(edited(JOB, FLUID, reason)) == ()


@pytest.mark.parametrize(
    "reason",
    [
        "The setter asks for it.",
        "It is in the can.",
        "The pump runs anyhow.",
        "The plate is steel.",
    ],
)
def test_v504_what_is_no_reason(found: Found, edited: Edited, reason: str) -> None:
    assert codes(found(edited(JOB, FLUID, reason))) == {"V504"}


def test_v504_a_warm_chip_beside_a_shut_valve_is_no_reason(found: Found, edited: Edited) -> None:
    point = "Press stop, wait until the spindle is still, and clear the chips with the brush."
    shut = f"Close the fluid valve. {point}"
    files = edited(JOB, FLUID, "The setter asks for it.", STOP, shut,
                   "Chips cut fingers, and a turning drill winds them in.",
                   "Hot chips burn fingers.")  # fmt: skip
    assert codes(found(files)) == {"V504"}


@pytest.mark.parametrize(
    ("way", "is_marked"),
    [
        ("Count the plates into the tote for", False),
        ("Write the number of good plates on the card for", False),
        ("Stand the plates in the tray; an empty slot is a missing plate, for", False),
        ("Hang each plate on its peg for", False),
        ("Put bad ones in the red bin, good ones in the tote, for", False),
        ("Lay each plate dot up and to the left for", False),
        ("Lay the plates face up for", False),
        ("Use the drilled board for", False),
        ("Lay the plates in the tote for", True),
        ("Put no more than 20 in a tote for", True),
        ("Stack the plates neatly for", True),
        ("Sign the card and wheel the tote away for", True),
    ],
)
def test_v506_good_bad_and_missing_are_told_apart(
    found: Found, edited: Edited, way: str, is_marked: bool
) -> None:
    assert codes(found(edited(JOB, LAY, way))) == ({"V506"} if is_marked else set())


def test_v506_a_tray_tells_by_its_own_key(found: Found, edited: Edited) -> None:
    tray = (
        "tray:\n  kind: tote\n  rows: 2\n  in_a_row: 10\n  length: 40 mm\n  width: 6 mm\n"
        "  gap: 6 mm\n  tells: An empty corner shows what is missing.\nhand_on: Lay the plates for"
    )
    assert found(edited(JOB, f"hand_on: {LAY}", tray)) == ()


@pytest.mark.parametrize(
    "point", ["Tighten in all three key holes.", "Tighten the drill with the chuck key."]
)
def test_v501_a_drill_in_the_chuck_is_no_work(found: Found, edited: Edited, point: str) -> None:
    """Nor is what a step of tool change tightens."""
    first = (
        "      - point: {}\n        reason: R.\n        kind: makes it easier\n"
        f"      - point: {LOCATE} Tighten the jaws."
    )
    files = edited(JOB, f"      - point: {LOCATE}", first.format(point))
    assert "V501" not in codes(found(files))
    plain = first.format("Tighten the nut hard.")
    assert "V501" in codes(found(edited(JOB, f"      - point: {LOCATE}", plain)))
    hands = (
        "    hands_inside:\n      doing: tool change\n      protected_by: lock\n      how: So.\n"
        "    stand: In front of the table, feet apart."
    )
    declared = edited(JOB, f"      - point: {LOCATE}", plain,
                      "    stand: In front of the table, feet apart.", hands)  # fmt: skip
    assert "V501" not in codes(found(declared))
