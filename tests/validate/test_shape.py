"""A file to a record: each slip named once, at its key, with what is allowed."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from benchleaf.diagnose import Finding, Place
from benchleaf.model import Hazard, Holding, Job, Step, Term, ToolKind
from benchleaf.read import Source, document_of
from benchleaf.validate.building import build
from benchleaf.validate.classes import class_at, meaning, spoken

Found = Callable[..., tuple[Finding, ...]]
Edited = Callable[..., dict[str, str]]
J1, J2 = "jobs/vg-0010.yml", "jobs/vg-0020.yml"
HAZARD = "hazards/work-turns.yml"
KEY_POINT_KIND = "kind: makes or breaks the job"


def only(found: tuple[Finding, ...]) -> Finding:
    (finding,) = found
    return finding


def term(text: str) -> tuple[Term | None, tuple[Finding, ...]]:
    document, problems = document_of(text, "terms", "t.yml")
    assert problems == ()
    assert document is not None
    return build(Term, Source(document, (), document.value))


def test_a_record_comes_out_whole() -> None:
    record, findings = term("id: Burr\nword: burr\nmeaning: A sharp edge.\nvariants: [fash]\n")
    assert findings == ()
    assert record == Term(id="burr", word="burr", meaning="A sharp edge.", variants=("fash",))


def test_every_slip_of_a_record_is_told_in_one_run() -> None:
    record, findings = term("id: a_b\nwrod: burr\nvariants: fash\n")
    assert record is None
    assert [(each.code, each.place.line, each.place.column) for each in findings] == [
        ("F207", 1, 5), ("F202", 1, 1), ("F203", 3, 11), ("F201", 2, 1),
    ]  # fmt: skip


def test_a_mistyped_key_is_not_called_missing_too() -> None:
    finding = only(term("id: a\nwrod: burr\nmeaning: M\n")[1])
    assert (finding.code, finding.place) == ("F201", Place("t.yml", 2, 1))
    assert finding.help[0] == "did you mean 'word'?"


def test_a_key_that_is_like_no_other_is_not_guessed_at() -> None:
    first, second = sorted(each.code for each in term("id: a\nzzz: burr\nmeaning: M\n")[1])
    assert (first, second) == ("F201", "F202")


def test_an_empty_value_is_the_readers_finding_alone(found: Found, edited: Edited) -> None:
    assert only(found(edited(J2, "makes: A rack plate without a burr at its guide hole.",
                             "makes:"))).code == "R112"  # fmt: skip


@pytest.mark.parametrize(
    ("name", "old", "new", "allowed"),
    [
        (HAZARD, "severity: death or serious injury", "severity: grave",
         {"death or serious injury", "minor or moderate injury", "no injury"}),
        (J2, KEY_POINT_KIND, "kind: knack",
         {"makes or breaks the job", "can injure", "makes it easier"}),
        (HAZARD, "harm_if_accident: could", "harm_if_accident: might", {"will", "could"}),
        (J1, "method: vice", "method: magnet", {"vice", "clamps", "fixture"}),
        (J1, "operation: drilling", "operation: sawing",
         {"counterboring", "countersinking", "drilling", "reaming", "tapping"}),
        (J1, "hole: through", "hole: thru", {"through", "blind"}),
        ("tools/drill-8.yml", "kind: drill", "kind: driller",
         set(map(str, ToolKind))),
    ],
)  # fmt: skip
def test_the_words_allowed_are_told_whole(
    found: Found, edited: Edited, name: str, old: str, new: str, allowed: set[str]
) -> None:
    finding = next(each for each in found(edited(name, old, new)) if each.code == "F204")
    (line,) = (line for line in finding.help if line.startswith("allowed: "))
    assert set(line.removeprefix("allowed: ").split(", ")) == allowed


@pytest.mark.parametrize(
    ("name", "old", "new", "meant"),
    [
        (J2, KEY_POINT_KIND, "kind: makes or breaks", "makes or breaks the job"),
        (J2, KEY_POINT_KIND, "kind: can injur", "can injure"),
        (HAZARD, "severity: death or serious injury", "severity: serious injury or death",
         "death or serious injury"),
        (HAZARD, "severity: death or serious injury", "severity: minor injury",
         "minor or moderate injury"),
    ],
)  # fmt: skip
def test_the_nearest_word_is_the_one_meant(
    found: Found, edited: Edited, name: str, old: str, new: str, meant: str
) -> None:
    finding = next(each for each in found(edited(name, old, new)) if each.code == "F204")
    assert finding.help[0] == f"did you mean '{meant}'?"


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("        reason: More than that makes a countersink.\n", "", "F202"),
        ("        reason: More", "        raeson: More", "F201"),
        (KEY_POINT_KIND, "kind: knack", "F204"),
        ("  - id: deburr\n", "  - id: de_burr\n", "F207"),
        ("    do:\n      - Go over it once more.", "    do: Go over it once more.", "F203"),
    ],
)
def test_a_slip_inside_a_list_is_not_told_of_the_list_too(
    found: Found, edited: Edited, old: str, new: str, code: str
) -> None:
    assert [each.code for each in found(edited(J2, old, new))] == [code]


def test_a_list_that_is_really_empty_is_told(found: Found, edited: Edited) -> None:
    finding = only(found(edited(J2, "wear:\n  - Safety glasses with side shields.", "wear: []")))
    assert (finding.code, finding.place) == ("F208", Place("content/jobs/vg-0020.yml", 19, 7))


def test_a_margin_without_its_reason_is_told_at_the_margin(found: Found, edited: Edited) -> None:
    text = edited(J1, "  clamping:\n", "  margin: 1.5\n  clamping:\n")
    finding = only(found(text))
    assert finding.code == "F208"
    line = text[J1].split("\n").index("  margin: 1.5") + 1
    assert finding.place.line == line


@pytest.mark.parametrize(
    ("name", "old", "new", "written"),
    [
        (J2, "effective: 2026-02-16", "effective: 16.02.2026", "16.02.2026"),
        (J2, "revision: A", "revision: A.1", "A.1"),
        (J1, "faces: 1", "faces: 4", "4"),
        (J1, "friction: 0.15", "friction: 1.5", "1.5"),
        ("machines/bench-drill.yml", "efficiency: 0.8", "efficiency: 80", "80"),
    ],
)
def test_what_was_written_is_quoted(
    found: Found, edited: Edited, name: str, old: str, new: str, written: str
) -> None:
    assert f"'{written}'" in only(found(edited(name, old, new))).text


def test_two_empty_texts_are_two_findings(found: Found, edited: Edited) -> None:
    findings = found(edited(J2, "title: Deburr the guide hole of a rack plate", 'title: ""',
                            "approved_by: production engineer", 'approved_by: "  "'))  # fmt: skip
    assert [(each.code, each.place.line) for each in findings] == [("F208", 2), ("F208", 5)]


def test_an_item_that_is_no_record_is_told_at_the_item(found: Found) -> None:
    findings = found({"terms.yml": "terms:\n  - burr\n"})
    assert Place("content/terms.yml", 2, 5) in {each.place for each in findings}
    assert "F203" in {each.code for each in findings}


def test_the_class_at_a_path() -> None:
    assert class_at(Job, ()) is Job
    assert class_at(Job, ("steps", 0)) is Step
    assert class_at(Job, ("holding",)) is Holding
    assert class_at(Job, ("title",)) is None


@pytest.mark.parametrize(
    ("cls", "words"), [(Job, "job"), (Step, "step"), (Hazard, "hazard")]
)  # fmt: skip
def test_a_class_is_spoken_of_in_words(cls: type[Job | Step | Hazard], words: str) -> None:
    assert spoken(cls) == words


def test_a_set_up_is_spelt_as_the_shop_spells_it(found: Found, edited: Edited) -> None:
    assert "set-up" in only(found(edited(J1, "    feed: 0.15 mm/rev\n", ""))).text


def test_the_meaning_of_a_key_is_its_description() -> None:
    assert meaning(Job, "approved_by") == "A role, not a name."
    assert meaning(Job, "nothing") is None
