"""The rule on retraining, kind of change by kind of change, and who is due by when."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path

import pytest

from benchleaf.commands import sides
from benchleaf.diff import Change, ChangeKind, Consequence, Due, Report, due_groups
from benchleaf.diff.area import Area, area_of
from benchleaf.meaning import page_fingerprint
from benchleaf.model import KINDS

SMALL = Path(__file__).parents[1] / "shop"
CREW = Path(__file__).parents[1] / "crew"
JOB, TOOL, MACHINE = "jobs/vg-0010.yml", "tools/drill-8.yml", "machines/bench-drill.yml"
Shop = Callable[..., Path]
Edited = Callable[..., dict[str, str]]
NOBODY, TEACH, TELL, NOTHING = Consequence
ON = date(2026, 4, 6)


@pytest.fixture
def report(shop: Shop) -> Callable[..., Report]:
    """`report({...}, {...})` compares the small shop with the same after these edits."""

    def compare(*files: Mapping[str, str | None], crew: Path | None = None) -> Report:
        merged = {name: text for each in files for name, text in each.items()}
        asked = sides.Asked(shop(merged), old=str(SMALL), crew=crew, on=ON)
        reviewed = sides.compare(asked)
        assert reviewed.report is not None, reviewed
        return reviewed.report

    return compare


@pytest.fixture
def only(report: Callable[..., Report], edited: Edited) -> Callable[..., Change]:
    """`only("file", "old", "new")` is the one change that this edit makes."""

    def change(name: str, *pairs: str) -> Change:
        (one,) = report(edited(name, *pairs)).comparison.changes
        return one

    return change


TAUGHT = (
    ("a key point", JOB, "Push the plate down on both parallels.", "Push the plate down."),
    ("a reason", JOB, "It keeps the lips cool, and carries the chips away.", "It cools the drill."),
    ("its kind", JOB, "kind: makes it easier", "kind: can injure"),
    ("a step", JOB, "title: Gauge the first hole", "title: Gauge each hole"),
    ("where to stand", JOB, "stand: In front of the table, feet apart.", "stand: At the side."),
    ("equipment worn", JOB, "Safety glasses with side shields.", "A face shield."),
    ("what comes off", JOB, "Gloves, rings and watch.", "Rings and watch."),
    ("a hazard of a step", JOB, "    hazards:\n      - work-turns\n    stand", "    stand"),
    ("a limit", JOB, "limits: 8 +0.1/-0 mm", "limits: 8 +0.2/-0 mm"),
    ("the fluid", JOB, "fluid: soluble-oil\n", ""),
    ("a tool's size", TOOL, "size: 8 mm\nshank: 8 mm", "size: 7 mm\nshank: 8 mm"),
    ("the machine", MACHINE, "green button, with the chuck guard down", "white button"),
    ("a guard of the machine", MACHINE, "The chuck guard keeps the spindle off while it is up.",
     "The chuck guard is down before each start."),
    ("a hazard's avoidance", "hazards/work-turns.yml", "before every hole", "before each hole"),
    ("whom to call", "manual.yml", "Call the shift lead with the white button, and",
     "Ring the shift lead, and"),
    ("the route", JOB, "operation_after: VG-0020\n", "operation_after: VG-0010\n"),
    ("a gauge's instruction", JOB, "The go end enters by its own weight, the",
     "The go end enters, the"),
)  # fmt: skip


@pytest.mark.parametrize(("name", "old", "new"), [one[1:] for one in TAUGHT],
                         ids=[one[0] for one in TAUGHT])  # fmt: skip
def test_a_change_of_meaning_is_taught_again(
    name: str, old: str, new: str, only: Callable[..., Change]
) -> None:
    change = only(name, old, new)
    assert change.consequence is TEACH
    assert set(change.jobs.values()) == {TEACH}
    assert change.why


TOLD = (
    ("a figure within tolerance", JOB, "feed: 0.15 mm/rev", "feed: 0.1505 mm/rev"),
    ("the machine's place", MACHINE, "under the window", "beside the saw"),
    ("the material's name", "materials/mild-steel.yml", "name: Mild steel", "name: Soft steel"),
    ("a fluid's name", "fluids/soluble-oil.yml", "id: soluble-oil\nname: ",
     "id: soluble-oil\nname: New "),
    ("the drawing's issue", "parts/vg-r1.yml", "drawing: VG-R1 sheet 1", "drawing: VG-R1 sheet 2"),
    ("a tool's care", TOOL, "Keep it in its own place in the rack.", "Keep it oiled."),
    ("an added picture", JOB, "    right: A steady hiss and two even curls.",
     "    picture:\n      file: clamped-plate.svg\n      text: The drill.\n"
     "    right: A steady hiss and two even curls."),
    ("an added help text", JOB, "    stand: In front", "    right: It sits.\n    stand: In front"),
    ("another name", MACHINE, "  - small drill", "  - little drill"),
    ("a trade term", "terms.yml", "meaning: ", "meaning: In short, "),
    ("a fact of the shop", "manual.yml", "title: Drilling manual", "title: The manual"),
)  # fmt: skip


@pytest.mark.parametrize(("name", "old", "new"), [one[1:] for one in TOLD],
                         ids=[one[0] for one in TOLD])  # fmt: skip
def test_a_lesser_change_is_told(
    name: str, old: str, new: str, report: Callable[..., Report], base_shop: dict[str, str]
) -> None:
    assert old in base_shop[name]
    (change,) = report({name: base_shop[name].replace(old, new, 1)}).comparison.changes
    assert change.consequence is TELL


SILENT = (
    ("a figure's source", MACHINE, "limits_source: invented plate", "limits_source: the plate"),
    ("a rating that no figure needs", MACHINE, "rated_thrust: 4 kN", "rated_thrust: 3.95 kN"),
    ("a shank that still fits", TOOL, "size: 8 mm\nshank: 8 mm", "size: 8 mm\nshank: 7 mm"),
    ("a hazard that the job tells of itself", "materials/mild-steel.yml",
     "hazards:\n  - work-turns\n", ""),
    ("the same force in other words", JOB, "force: 20 kN", "force: 20000 N"),
    ("the change note", JOB, "The check now names the plug gauge.", "The check names the gauge."),
    ("a trainer's note", JOB, "Let the learner push against", "Let the learner tug at"),
    ("an order without meaning", JOB, "  - drill-8\n  - plug-gauge-8",
     "  - plug-gauge-8\n  - drill-8"),
    ("a list for the checks", "manual.yml", "  - rack plate", "  - rack plate\n  - tote"),
)  # fmt: skip


@pytest.mark.parametrize(("name", "old", "new"), [one[1:] for one in SILENT],
                         ids=[one[0] for one in SILENT])  # fmt: skip
def test_what_nobody_is_taught_asks_for_nothing(
    name: str, old: str, new: str, only: Callable[..., Change]
) -> None:
    assert only(name, old, new).consequence is NOTHING


AREAS = (
    (("steps", 0, "hands_inside", "how"), Area.HAZARD),
    (("steps", 0, "hands_inside"), Area.HAZARD),
    (("not_met", 0, "reason"), Area.HAZARD),
    (("not_met", 0), Area.HAZARD),
    (("tray", "in_a_row"), Area.BREAKDOWN),
    (("tray", "tells"), Area.BREAKDOWN),
    (("steps", 0, "planted", "what"), Area.TRAINER),
    (("steps", 0, "props", 0), Area.TRAINER),
    (("steps", 0, "hand_contact"), Area.TRAINER),
)


@pytest.mark.parametrize(("path", "area"), AREAS)
def test_aids_for_teaching_are_about_what_they_say(path: tuple[str | int, ...], area: Area) -> None:
    assert area_of("jobs", path) is area


STAND = "    stand: In front of the table, feet apart.\n"
HANDS = (
    f"{STAND}    hands_inside:\n      doing: loading\n      protected_by: guard with interlock\n"
)
HANDS += "      how: Raise the guard.\n"
TRAY = "tray:\n  kind: tote\n  rows: 1\n  in_a_row: 9\n  length: 90 mm\n  width: 9 mm\n"
TRAY += "  gap: 9 mm\n  tells: A gap.\n"
AIDS = (
    ("hands inside", STAND, HANDS, TEACH),
    ("a hazard never met", "have_ready:\n",
     "not_met:\n  - hazard: work-turns\n    reason: It is bolted.\nhave_ready:\n", TEACH),
    ("a tray", "hand_on: ", f"{TRAY}hand_on: ", TEACH),
    ("a planted fault", STAND, f"{STAND}    planted:\n      what: It is loose.\n"
     "      put_right: Tighten it.\n", NOTHING),
    ("a prop", STAND, f"{STAND}    props:\n      - A loose plate\n", NOTHING),
)  # fmt: skip


@pytest.mark.parametrize(("old", "new", "wanted"), [one[1:] for one in AIDS],
                         ids=[one[0] for one in AIDS])  # fmt: skip
def test_what_a_new_aid_for_teaching_asks_for(
    old: str, new: str, wanted: Consequence, only: Callable[..., Change]
) -> None:
    assert only(JOB, old, new).consequence is wanted


def test_an_id_is_shown_by_name_wherever_it_stands(only: Callable[..., Change]) -> None:
    """By the field's own reference: no list of keys can forget one."""
    new = "not_met:\n  - hazard: work-turns\n    reason: It is bolted.\nhave_ready:\n"
    words = "hazard: work-turns (WARNING: Plate swung round by the drill); reason: It is bolted."
    assert only(JOB, "have_ready:\n", new).after == words


def test_every_kind_of_record_is_about_something() -> None:
    assert all(area_of(kind, ()) for kind in KINDS)


def test_removed_help_is_taught_again(only: Callable[..., Change]) -> None:
    assert only(JOB, "    right: A steady hiss and two even curls.\n", "").consequence is TEACH


def test_a_figure_beyond_tolerance_is_taught_again(only: Callable[..., Change]) -> None:
    change = only(JOB, "feed: 0.15 mm/rev", "feed: 0.13 mm/rev")
    assert change.consequence is TEACH
    assert "more than 5 %" in change.why


def test_a_newly_broken_limit_lets_nobody_run(only: Callable[..., Change]) -> None:
    change = only(JOB, "force: 20 kN", "force: 1 kN")
    assert any(one.touches_a_limit for one in change.effects)
    assert change.consequence is NOBODY
    assert "limit" in change.why


def test_a_job_that_is_gone_is_told_and_a_new_one_is_not(
    report: Callable[..., Report], edited: Edited, base_shop: dict[str, str]
) -> None:
    route = edited(JOB, "operation_after: VG-0020\n", "")
    gone = _whole(report({"jobs/vg-0020.yml": None}, route), "vg-0020")
    assert (gone.difference.kind, gone.consequence) == (ChangeKind.REMOVED, TELL)
    assert gone.why == "the job is gone, and its sign-offs with it"
    text = base_shop["jobs/vg-0020.yml"].replace("operation_before: VG-0010\n", "")
    made = report({"jobs/vg-0030.yml": text.replace("VG-0020", "VG-0030")})
    new = _whole(made, "vg-0030")
    assert new.difference.kind is ChangeKind.ADDED
    assert "gone" not in new.why


def _whole(report: Report, job_id: str) -> Change:
    """The change that is a whole job."""
    (one,) = (each for each in report.comparison.changes
              if each.record == ("jobs", job_id) and each.area == Area.JOB)  # fmt: skip
    return one


def test_a_shop_may_set_its_own_tolerance_and_be_stricter(
    report: Callable[..., Report], edited: Edited
) -> None:
    feed = edited(JOB, "feed: 0.15 mm/rev", "feed: 0.13 mm/rev")
    wide = edited("manual.yml", "preface: safety.md",
                  "preface: safety.md\nretraining:\n  figure_tolerance: 20")  # fmt: skip
    assert _about(report(feed, wide), "figure put in").consequence is TELL
    small = edited(JOB, "feed: 0.15 mm/rev", "feed: 0.1505 mm/rev")
    strict = edited("manual.yml", "preface: safety.md",
                    "preface: safety.md\nretraining:\n  teach_again_for:\n"
                    "    - figures within tolerance")  # fmt: skip
    assert _about(report(small, strict), "figure put in").consequence is TEACH


def test_a_shop_may_only_tell_of_knacks(report: Callable[..., Report], edited: Edited) -> None:
    mild = edited(
        "manual.yml",
        "preface: safety.md",
        "preface: safety.md\nretraining:\n  tell_only_for:\n"
        "    - key points that make it easier\n  reason: knacks are the trainer's",
    )
    knack = "A gauge pushed straight in can jam on the burr."
    easier = edited(JOB, knack, "A gauge pushed straight in can jam.")  # fmt: skip
    grave = edited(
        JOB, "It keeps the lips cool, and carries the chips away.", "It cools the drill."
    )
    assert _about(report(mild, easier), "reason").consequence is TELL
    assert _about(report(mild, grave), "reason").consequence is TEACH


def _about(report: Report, area: str) -> Change:
    (one,) = (each for each in report.comparison.changes if each.area == area)
    return one


def test_a_record_that_no_job_uses_asks_for_nothing(report: Callable[..., Report]) -> None:
    spare = "id: spare\nname: Spare drill\nkind: drill\nwhat: A drill in a drawer.\n"
    (change,) = report({"tools/spare.yml": spare}).comparison.changes
    assert (change.consequence, change.why) == (NOTHING, "no job uses it")


def test_a_changed_preface_calls_back_those_who_signed_it_and_to_it_alone(
    report: Callable[..., Report], base_shop: dict[str, str], tmp_path: Path
) -> None:
    old = page_fingerprint(base_shop["pages/safety.md"])[:8]
    signed = f"signed:\n  - {{page: safety.md, fingerprint: {old}, signed: 2026-03-02}}\nshift:"
    crew = _crew_with(tmp_path, "shift:", signed)
    found = report({"pages/safety.md": "# Safety\n\nOther words.\n"}, crew=crew)
    (change,) = found.comparison.changes
    assert (change.consequence, dict(change.jobs)) == (TEACH, {})
    assert due(found) == [("op-01", "safety.md", TEACH, ON, False)]
    assert next(due_groups(found.due or ()))[1] == f"explain back and sign again, by {ON}"


def test_a_page_set_otherwise_is_nothing(
    report: Callable[..., Report], base_shop: dict[str, str]
) -> None:
    text = base_shop["pages/safety.md"].replace("\n\n", "\n\n\n").replace(". ", ".\n")
    assert report({"pages/safety.md": text}).comparison.changes == ()


def test_another_picture_under_one_name_is_told(
    report: Callable[..., Report], base_shop: dict[str, str]
) -> None:
    picture = base_shop["pictures/clamped-plate.svg"].replace("<svg", "<!-- x --><svg", 1)
    (change,) = report({"pictures/clamped-plate.svg": picture}).comparison.changes
    assert (change.consequence, change.record) == (TELL, ("files", "pictures/clamped-plate.svg"))
    assert set(change.jobs) == {"vg-0010"}


def due(report: Report) -> list[tuple[str, str, Consequence, date, bool]]:
    def one(each: Due) -> tuple[str, str, Consequence, date, bool]:
        return each.staff, each.job, each.consequence, each.by, each.was_stale

    return [one(each) for each in report.due or ()]


def test_without_a_crew_nobody_is_named(report: Callable[..., Report], edited: Edited) -> None:
    assert report(edited(JOB, "feet apart", "feet together")).due is None


def test_who_was_signed_off_is_due_before_the_next_run(
    report: Callable[..., Report], edited: Edited
) -> None:
    found = due(report(edited(JOB, "feet apart", "feet together"), crew=CREW))
    assert ("op-01", "vg-0010", TEACH, ON, False) in found


def test_a_new_revision_is_due_from_the_day_it_comes_into_force(
    report: Callable[..., Report], edited: Edited
) -> None:
    later = edited(JOB, "feet apart", "feet together", "revision: 2", "revision: 3",
                   "effective: 2026-03-02", "effective: 2026-05-01")  # fmt: skip
    found = due(report(later, crew=CREW))
    assert ("op-01", "vg-0010", TEACH, date(2026, 5, 1), False) in found


def test_who_is_only_told_has_the_shop_s_days(
    report: Callable[..., Report], edited: Edited
) -> None:
    found = due(report(edited(JOB, "feed: 0.15 mm/rev", "feed: 0.1505 mm/rev"), crew=CREW))
    assert ("op-01", "vg-0010", TELL, date(2026, 4, 13), False) in found


def test_a_sign_off_for_an_older_meaning_was_stale_already(
    report: Callable[..., Report], edited: Edited, tmp_path: Path
) -> None:
    crew = _crew_with(tmp_path, "revision: 2", "revision: 2\n    fingerprint: 00000000")
    found = due(report(edited(JOB, "feet apart", "feet together"), crew=crew))
    assert ("op-01", "vg-0010", TEACH, ON, True) in found


def test_who_was_taught_the_new_meaning_already_is_not_due(
    report: Callable[..., Report], edited: Edited, tmp_path: Path
) -> None:
    change = edited(JOB, "feet apart", "feet together")
    new = report(change).comparison.jobs[0].new_fingerprint or ""
    crew = _crew_with(tmp_path, "revision: 2", f"revision: 2\n    fingerprint: {new[:8]}")
    assert "op-01" not in {one[0] for one in due(report(change, crew=crew))}


def _crew_with(tmp_path: Path, old: str, new: str) -> Path:
    for path in CREW.rglob("*.yml"):
        target = tmp_path / "crew" / path.relative_to(CREW)
        target.parent.mkdir(parents=True, exist_ok=True)
        text = path.read_text(encoding="utf-8")
        is_first = path.name == "op-01.yml"
        target.write_text(text.replace(old, new, 1) if is_first else text, encoding="utf-8")
    return tmp_path / "crew"
