"""V528 hands inside and what suffices, V529 steps that show hands and do not declare them."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from sentences_hands import FOUND_DRILL, FOUND_WHEEL, SILENT_DRILL, SILENT_WHEEL

from benchleaf import pipeline
from benchleaf.diagnose import Finding, Severity
from benchleaf.model import (
    GrindingWheel,
    HandsInside,
    InsideWork,
    Job,
    KeyPoint,
    LockoutStage,
    Protection,
    Shop,
    Step,
)
from benchleaf.validate.case import JobCase
from benchleaf.validate.places import Places
from benchleaf.validate.rules import hands_declared, hands_protected

Found = Callable[..., tuple[Finding, ...]]
Edited = Callable[..., dict[str, str]]
SMALL = Path(__file__).parents[1] / "shop"
JOB = "jobs/vg-0010.yml"
WHEEL = {
    "work_rest_gap": "3 mm",
    "tongue_gap": "6 mm",
    "wheel_rated_speed": "3600 rpm",
    "source": "entered for the tests",
}
STAND = "    stand: In front of the table, feet apart.\n"
LOADING, CLEANING, GAUGING, TURNING, CHANGE, SERVICING = InsideWork
INTERLOCK, OWN, LOCK, STOP, EMERGENCY, NOTHING = Protection


@pytest.fixture(scope="module")
def small() -> Shop:
    return pipeline.load(SMALL).shop


def findings_of(shop: Shop, *steps: Step, at_wheel: bool = False) -> list[Finding]:
    """What the rule says of a job with these steps."""
    job = shop.jobs["vg-0010"]
    machine = shop.machines[job.machine]
    if at_wheel:
        wheel = GrindingWheel.model_validate(WHEEL)
        grinder = machine.model_copy(update={"grinding": wheel})
        shop = Shop.of(shop.manual, {"machines": {machine.id: grinder}})
    changed = Job.model_construct(**{**dict(job), "steps": steps})
    case = JobCase(shop, Places({}), changed, (), date(2026, 3, 9))
    return [*hands_protected.check(case), *hands_declared.check(case)]


def step_of(
    *points: str, hands: HandsInside | None = None, lockout: LockoutStage | None = None
) -> Step:
    told = [
        KeyPoint.model_validate({"point": one, "reason": "R.", "kind": "makes it easier"})
        for one in points
    ]
    step = Step.model_validate({"id": "go-on", "title": "Go on with the job", "key_points": told})
    return step.model_copy(update={"hands_inside": hands, "lockout": lockout})


def hands_of(doing: InsideWork, by: Protection, minor: str | None = None) -> HandsInside:
    return HandsInside(doing=doing, protected_by=by, how="So.", minor_servicing=minor)


TOO_WEAK = {
    LOADING: {},
    CLEANING: {STOP: "error", EMERGENCY: "error", NOTHING: "error"},
    GAUGING: {STOP: "error", EMERGENCY: "error", NOTHING: "error"},
    TURNING: {STOP: "error", EMERGENCY: "error", NOTHING: "error", INTERLOCK: "error"},
    CHANGE: {STOP: "error", EMERGENCY: "error", NOTHING: "error", INTERLOCK: "warning"},
    SERVICING: {STOP: "error", EMERGENCY: "error", NOTHING: "error", INTERLOCK: "warning",
                OWN: "warning"},
}  # fmt: skip
"""29 CFR 1910.147(a)(2)(ii) and (b); interlock at the driven part by the house rule."""


@pytest.mark.parametrize("doing", InsideWork)
@pytest.mark.parametrize("by", Protection)
def test_v528_what_suffices(small: Shop, doing: InsideWork, by: Protection) -> None:
    raised = findings_of(small, step_of("Go on.", hands=hands_of(doing, by)))
    expected = TOO_WEAK[doing].get(by)
    assert [(one.code, one.severity.value) for one in raised] == (
        [("V528", expected)] if expected else []
    )
    assert all(f"what suffices for {doing.value}: " in one.help[0] for one in raised)


@pytest.mark.parametrize(
    ("by", "severity"),
    [(OWN, None), (LOCK, None), (INTERLOCK, Severity.WARNING), (EMERGENCY, Severity.ERROR)],
)
def test_v528_minor_servicing_has_its_reason(
    small: Shop, by: Protection, severity: Severity | None
) -> None:
    hands = hands_of(SERVICING, by, "Routine at each batch.")
    raised = findings_of(small, step_of("Go on.", hands=hands))
    assert [one.severity for one in raised] == ([severity] if severity else [])


def test_v528_a_reason_makes_no_button_good_for_cleaning(small: Shop) -> None:
    hands = hands_of(CLEANING, EMERGENCY, "Routine.")
    (finding,) = findings_of(small, step_of("Go on.", hands=hands))
    assert (finding.code, finding.severity) == ("V528", Severity.ERROR)
    assert "isolates nothing" in finding.text


def test_the_tables_are_large_enough() -> None:
    silent, found = (*SILENT_DRILL, *SILENT_WHEEL), (*FOUND_DRILL, *FOUND_WHEEL)
    assert (len(set(silent)), len(set(found))) == (len(silent), len(found))
    assert len(silent) >= 60
    assert len(found) >= 40


@pytest.mark.parametrize("sentence", FOUND_DRILL)
def test_v529_hands_are_shown(small: Shop, sentence: str) -> None:
    (finding,) = findings_of(small, step_of(sentence))
    assert (finding.code, finding.severity) == ("V529", Severity.WARNING)


@pytest.mark.parametrize("sentence", FOUND_WHEEL)
def test_v529_hands_are_shown_at_a_wheel(small: Shop, sentence: str) -> None:
    (finding,) = findings_of(small, step_of(sentence), at_wheel=True)
    assert finding.code == "V529"


@pytest.mark.parametrize("sentence", [*SILENT_DRILL, *SILENT_WHEEL])
def test_v529_no_hands_are_shown(small: Shop, sentence: str) -> None:
    assert findings_of(small, step_of(sentence)) == []
    assert findings_of(small, step_of(sentence), at_wheel=True) == []


@pytest.mark.parametrize("sentence", [*FOUND_DRILL, *FOUND_WHEEL])
def test_v529_a_declaration_is_enough(small: Shop, sentence: str) -> None:
    step = step_of(sentence, hands=hands_of(TURNING, OWN))
    assert findings_of(small, step, at_wheel=True) == []


def test_v529_one_finding_a_step(small: Shop) -> None:
    step = step_of("Turn the chuck by hand.", "Tighten with the chuck key.")
    assert len(findings_of(small, step)) == 1
    assert len(findings_of(small, step, step_of("Turn the chuck by hand."))) == 2


def test_v529_loading_behind_a_guard_covers_no_chuck(small: Shop) -> None:
    weak, own = hands_of(LOADING, INTERLOCK), hands_of(LOADING, OWN)
    (finding,) = findings_of(small, step_of("Turn the chuck by hand.", hands=weak))
    assert "speaks of loading only" in finding.text
    assert findings_of(small, step_of("Turn the chuck by hand.", hands=own)) == []
    assert findings_of(small, step_of("Lay the plate in the vice.", hands=weak)) == []


def test_v529_under_the_lock_nothing_more_is_asked(small: Shop) -> None:
    turn = step_of("Turn the chuck by hand.")
    lock = step_of("Hang your lock.", lockout=LockoutStage.APPLY_LOCK)
    unlock = step_of("Take your lock off.", lockout=LockoutStage.REMOVE_LOCK)
    assert findings_of(small, lock, turn, unlock) == []
    assert len(findings_of(small, lock, unlock, turn)) == 1
    assert len(findings_of(small, lock, turn)) == 1  # a lock that never comes off proves nothing


def test_v529_only_where_a_spindle_or_a_wheel_turns(found: Found, edited: Edited) -> None:
    point = "Push against the clamped plate before you go on."
    turned = edited(JOB, point, "Push against the plate. Turn the chuck by hand.")
    speeds = "spindle_speeds:\n  - 400 rpm\n  - 650 rpm\n  - 1000 rpm\n  - 1500 rpm\n"
    at_bench = edited("machines/bench-drill.yml", speeds, "")
    assert "V529" in {one.code for one in found(turned)}
    assert "V529" not in {one.code for one in found(turned, at_bench)}


def test_v529_may_be_accepted_and_v528_as_error_may_not(found: Found, edited: Edited) -> None:
    accept = "accept:\n  - code: {}\n    reason: It does not fit.\nwear:"
    point = "Push against the clamped plate before you go on."
    turn = (point, "Push against the plate. Turn the chuck by hand.")
    assert found(edited(JOB, *turn, "wear:", accept.format("V529"))) == ()
    hands = (
        "    hands_inside:\n      doing: cleaning\n      protected_by: stop button\n"
        f"      how: It is pressed.\n{STAND}"
    )
    raised = found(edited(JOB, STAND, hands, "wear:", accept.format("V528")))
    assert "V528" in {one.code for one in raised}


def test_v529_a_trainers_note_is_read_too(found: Found, edited: Edited) -> None:
    note = "Let the learner push against the plate."
    (finding,) = found(edited(JOB, note, f"{note} Turn the chuck by hand, and ask what wobbles."))
    assert finding.code == "V529"
