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
FLUID = "It cools the drill and washes the chips away."
EASE = "Ease the lever when it begins to go light."
STOP = "Press stop, wait until the spindle is still, and clear the chips with the brush."
LAY = "Lay the plates in the tote, all the same way round, for"


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
        (FLUID, "It keeps the drill from getting hot, and carries the chips off."),
        (EASE, "Hold back when the lever goes light."),
        (LAY, "Lay the plates in the tote face up for"),
    ],
)
def test_other_words_for_the_same_are_understood(
    found: Found, edited: Edited, changes: tuple[str, str]
) -> None:
    assert found(edited(JOB, *changes)) == ()


def test_chips_and_a_hook_in_different_points_are_no_brush(found: Found, edited: Edited) -> None:
    """The key hangs on its hook, and the fluid washes chips away: nobody has said brush."""
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


STAGES = ("prepare", "shut down", "isolate", "apply lock", "release stored energy", "verify")
"""29 CFR 1910.147(d)(1) to (d)(6)."""


@pytest.mark.parametrize(
    ("stages", "is_whole"),
    [
        (STAGES, True),
        (STAGES[:1] * 2 + STAGES[1:], True),
        (STAGES[:5], False),
        (STAGES[1:], False),
        (STAGES[::-1], False),
        (("isolate",), False),
        ((*STAGES, "isolate"), False),
    ],
)
def test_lockout_is_whole_and_in_order(
    found: Found, base_shop: dict[str, str], stages: tuple[str, ...], is_whole: bool
) -> None:
    name = "jobs/vg-0020.yml"
    steps = "".join(
        f"  - id: lock-{number}\n    title: Lock it\n    lockout: {stage}\n    key_points:\n"
        "      - point: Do it yourself.\n        reason: R.\n        kind: can injure\n"
        for number, stage in enumerate(stages)
    )
    findings = found({name: base_shop[name].replace("if_wrong:", f"{steps}if_wrong:")})
    assert ("V604" not in codes(findings)) is is_whole
