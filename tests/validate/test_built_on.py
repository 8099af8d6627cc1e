"""V532 jobs that build on others, V533 hazards never met, V534 what a tray holds."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from benchleaf.diagnose import Finding, Severity
from benchleaf.validate.rules.learned_elsewhere import built_on
from benchleaf.validate.rules.tray_count import numbers_said

Found = Callable[..., tuple[Finding, ...]]
Edited = Callable[..., dict[str, str]]
J1, J2 = "jobs/vg-0010.yml", "jobs/vg-0020.yml"

BUILT_ON = (
    "You learned it in [[TR-0510]].",
    "You clamp to the click of the torque handle. You learned it in [[TR-0510]].",
    "You learnt the count in [[tr-0510#drill]].",
    "You have learned to fit a drill in [[TR-0510]].",
    "You can fit a drill and set the depth stop from [[TR-0510]].",
    "Pull the handle as you learned in [[TR-0510]].",
    "The torque handle was learned in [[TR-0510]].",
    "The way is learned in [[TR-0510]].",
    "You already learned the four words in [[TR-0510]].",
    "You know the click from [[TR-0510]].",
    "You are able to clamp round bar from [[TR-0510]].",
    "Use the skill you have from [[TR-0510]].",
    "Count as you learned with [[job:TR-0510]].",
    "The grip that you know from [[TR-0510]] is the same here.",
)
MENTIONED = (
    "The way is [[TR-0510]].",
    "The next is [[TR-0510]].",
    "The operation before it is [[TR-0510]].",
    "A belt is moved only by [[TR-0510]].",
    "Only a setter opens the cover, for [[TR-0510]].",
    "The setter learned it in [[TR-0510]].",
    "Somebody who has learned [[TR-0510]] moves the belt.",
    "You will learn it in [[TR-0510]].",
    "You have not learned [[TR-0510]] yet: call the setter.",
    "If you have not learned it yet, call the setter.",
    "You learned it in the safety preface. The next is [[TR-0510]].",
    "You can hand the plate on to [[TR-0510]].",
    "You take the plate from the tote of [[TR-0510]].",
    "It is drilled in [[TR-0510]], and learned by doing.",
    "You learned where the [[tool:plug-gauge-8]] hangs.",
    "See [[TR-0510]].",
    "People who learned [[TR-0510]] first are quicker.",
    "What the trainer learned in [[TR-0510]] helps.",
)


@pytest.mark.parametrize("text", BUILT_ON)
def test_v532_a_skill_of_another_job(text: str) -> None:
    assert list(built_on(text)) == ["tr-0510"]


@pytest.mark.parametrize("text", MENTIONED)
def test_v532_a_mention_is_none(text: str) -> None:
    assert list(built_on(text)) == []


def test_v532_in_any_text_of_the_learner(found: Found, edited: Edited) -> None:
    learned = "You learned it in [[VG-0020]]."
    for old in ("Where the emergency stop is.", "A plate that lies crooked gets a crooked hole.",
                "One 8 mm hole through a rack plate."):  # fmt: skip
        assert [one.code for one in found(edited(J1, old, learned))] == ["V532"]
    for old in ("Let the learner push against the plate.", "The check now names the plug gauge."):
        assert found(edited(J1, old, learned)) == ()


def test_v532_once_a_job(found: Found, edited: Edited) -> None:
    learned = "You learned it in [[VG-0020]]."
    twice = edited(J1, "Where the emergency stop is.", learned,
                   "One 8 mm hole through a rack plate.", learned)  # fmt: skip
    assert [one.code for one in found(twice)] == ["V532"]


def test_v532_asked_for_directly_or_through_others(
    found: Found, edited: Edited, base_shop: dict[str, str]
) -> None:
    learned = edited(J2, "More than that makes a countersink.", "You learned it in [[VG-0010]].")
    assert found(learned) == ()  # VG-0020 asks for VG-0010
    third = base_shop[J2].replace("VG-0020", "VG-0030").replace(
        "know_first:\n  - VG-0010", "know_first:\n  - VG-0020"
    ).replace("More than that makes a countersink.", "You learned it in [[VG-0010]].")  # fmt: skip
    third = third.replace("operation_before: VG-0010\n", "")
    assert "V532" not in {one.code for one in found({"jobs/vg-0030.yml": third})}
    alone = third.replace("know_first:\n  - VG-0020\n", "")
    assert "V532" in {one.code for one in found({"jobs/vg-0030.yml": alone})}


def test_v532_itself_and_unknown_jobs_are_told_elsewhere(found: Found, edited: Edited) -> None:
    own = edited(J1, "Where the emergency stop is.", "You learned it in [[VG-0010]].")
    assert found(own) == ()
    gone = edited(J1, "Where the emergency stop is.", "You learned it in [[VG-0099]].")
    assert [one.code for one in found(gone)] == ["L301"]


# V533

NOT_MET = "not_met:\n  - hazard: {}\n    reason: The plate cannot turn.\nhave_ready:"
IN_JOB = "hazards:\n  - work-turns\nhave_ready:"
IN_CLAMP = "    hazards:\n      - work-turns\n    stand:"
IN_DRILL = "    hazards:\n      - work-turns\n    right:"


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ((), "stands in the job's own hazards and in steps 'clamp', 'drill'"),
        ((IN_CLAMP, "    stand:"), "stands in the job's own hazards and in step 'drill'"),
        ((IN_JOB, "have_ready:"), "stands in steps 'clamp', 'drill'"),
    ],
)
def test_v533_what_is_met_is_not_called_never_met(
    found: Found, edited: Edited, changes: tuple[str, ...], said: str
) -> None:
    files = edited(J1, *changes)
    files[J1] = files[J1].replace("have_ready:", NOT_MET.format("work-turns"))
    (finding,) = [one for one in found(files) if one.code == "V533"]
    assert finding.severity is Severity.ERROR
    assert said in finding.text
    line = files[J1].split("\n")[finding.place.line - 1]
    assert line == "  - hazard: work-turns"


def test_v533_an_unknown_hazard_is_told_once(found: Found, edited: Edited) -> None:
    findings = found(edited(J1, "have_ready:", NOT_MET.format("work-turn")))
    assert [one.code for one in findings] == ["L301"]


# V534


@pytest.mark.parametrize(
    ("text", "numbers"),
    [
        ("Put no more than 20 in a tote.", {20}),
        ("Stand no more than 20 in a tray, an empty slot is a missing plate.", {20}),
        ("No more than twenty in the slotted tray.", {20}),
        ("Stand up to 20 plates on edge.", {20}),
        ("20 plates go in a tray.", {20}),
        ("20 to a tray, and count them.", {20}),
        ("The tray holds 20 plates.", {20}),
        ("The board has 40 places.", {40}),
        ("Fill all 40 places.", {40}),
        ("A tray of 15 goes to the reamer.", set()),
        ("A board of 15 blocks goes to the reamer.", {15}),
        ("Put exactly 20 in each tray.", {20}),
        ("Put no more than 20 in the tray and no more than 3 in the red bin.", {20}),
        ("Put at most 5 bad ones in the red tote.", set()),
        ("Stack no more than 3 high.", set()),
        ("Lift no more than 20 kg.", set()),
        ("Put no more than 2 trays on the trolley.", set()),
        ("Leave at most 3 mm of burr.", set()),
        ("Every 10th plate is gauged.", set()),
        ("The 8.5 mm hole looks up.", set()),
        ("Wait up to 10 minutes.", set()),
        ("Write 20 on the card.", set()),
        ("Gauge 5 of them.", set()),
        ("One plate in each slot.", set()),
        ("Lay each plate dot up.", set()),
        ("Put no more than 20.5 kg in a tote.", set()),
        ("Press stop, hang up the brush.", set()),
        ("Sign card 20 and wheel the tote away.", set()),
        ("Take it to bay 3, on the left.", set()),
    ],
)
def test_v534_numbers_of_a_tray(text: str, numbers: set[int]) -> None:
    assert numbers_said(text) == numbers


@pytest.mark.parametrize(
    ("rows", "in_a_row", "said", "is_marked"),
    [(1, 20, 20, False), (5, 8, 40, False), (3, 5, 15, False), (2, 9, 20, True), (1, 20, 40, True)],
)
def test_v534_text_and_tray_agree(
    found: Found, edited: Edited, rows: int, in_a_row: int, said: int, is_marked: bool
) -> None:
    tray = (
        f"tray:\n  kind: slotted tray\n  rows: {rows}\n  in_a_row: {in_a_row}\n  length: 40 mm\n"
        "  width: 6 mm\n  gap: 6 mm\n  tells: An empty slot shows a missing plate.\n"
        f"hand_on: Put no more than {said} in a tray, for"
    )
    old = "hand_on: Lay the plates in the tote, all with the same face to the lamp, for"
    assert [one.code for one in found(edited(J1, old, tray))] == (["V534"] if is_marked else [])
