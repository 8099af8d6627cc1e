"""What a change of wording may alter, and what the register of revisions makes of it."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.cli import main
from benchleaf.commands import sides
from benchleaf.diff import ChangeKind, Consequence
from benchleaf.meaning.folding import says_the_same
from benchleaf.registers.revision_register import following
from registering import register_revisions

JOB = "jobs/vg-0010.yml"
REASON = "A plate that lies crooked gets a crooked hole."
Shop = Callable[..., Path]
Edited = Callable[..., dict[str, str]]


@pytest.mark.parametrize(("before", "after"), [
    ("Push the plate down on both parallels.", "Press the plate down on both parallels."),
    ("A key left in teh chuck is thrown out.", "A key left in the chuck is thrown out."),
])  # fmt: skip
def test_other_words_may_say_the_same(before: str, after: str) -> None:
    assert says_the_same(before, after)


@pytest.mark.parametrize(("before", "after"), [
    ("Turn it 2 times.", "Turn it 3 times."),
    ("Turn it two times.", "Turn it three times."),
    ("Leave 5 mm free.", "Leave 5 in free."),
    ("Open the guard.", "Never open the guard."),
    ("Do not push the plate.", "Do push the plate."),
    ("Stop before you measure.", "Stop after you measure."),
    ("Turn the key clockwise.", "Turn the key anticlockwise."),
    ("See [[tool:drill-8]] first.", "See [[tool:drill-9]] first."),
    ("Stop within 30 % of it.", "Stop within 30 of it."),
    ("Clean the jaws.", "Measure a plate."),
])  # fmt: skip
def test_what_turns_a_meaning_round_is_no_wording(before: str, after: str) -> None:
    assert not says_the_same(before, after)


@pytest.fixture
def registered(shop: Shop) -> Callable[..., Path]:
    """The small shop, registered, and then with these files."""

    def make(files: dict[str, str]) -> Path:
        content = shop()
        assert register_revisions(content)[0] == ()
        for name, text in files.items():
            (content / name).write_text(text, encoding="utf-8")
        return content

    return make


def codes(content: Path) -> list[str]:
    return [one.code for one in pipeline.check(content)]


def test_a_declared_change_of_wording_passes_and_asks_for_nothing(
    registered: Callable[..., Path], shop: Shop, edited: Edited, capsys: pytest.CaptureFixture[str]
) -> None:
    content = registered(edited(JOB, REASON, "A plate that sits crooked gets a crooked hole."))
    assert codes(content) == ["A604"]
    assert main(["register", str(content), "--wording-only", "VG-0010"]) == 0
    assert "1 added to" in capsys.readouterr().out
    assert codes(content) == []
    reviewed = sides.compare(sides.Asked(content, old=str(shop())))
    assert reviewed.report is not None
    (change,) = reviewed.report.comparison.changes
    assert (change.kind, change.consequence) == (ChangeKind.REWORDED, Consequence.NOTHING)
    assert not reviewed.report.must_advance()


def test_a_sign_off_holds_through_a_change_of_wording(
    registered: Callable[..., Path], edited: Edited, tmp_path: Path, base_shop: dict[str, str]
) -> None:
    content = registered({})
    first = pipeline.load(content).fingerprints["vg-0010"]
    crew = Path(shutil.copytree(Path(__file__).parents[1] / "crew", tmp_path / "crew"))
    person = crew / "people" / "op-01.yml"
    text = person.read_text(encoding="utf-8")
    person.write_text(
        text.replace("revision: 2", f"revision: 2\n    fingerprint: {first[:8]}", 1),
        encoding="utf-8",
    )
    worded = edited(JOB, REASON, "A plate that sits crooked gets a crooked hole.")
    (content / JOB).write_text(worded[JOB], encoding="utf-8")
    assert register_revisions(content, ["vg-0010"]) == ((), 1)
    meant = tmp_path / "meant" / "content"
    shutil.copytree(content, meant)
    (meant / JOB).write_text(worded[JOB].replace("feet apart", "feet together"), encoding="utf-8")
    reviewed = sides.compare(sides.Asked(meant, old=str(content), crew=crew))
    assert reviewed.report is not None
    (due,) = reviewed.report.due or ()
    assert (due.staff, due.was_stale) == ("op-01", False)


@pytest.mark.parametrize(("old", "new"), [
    (REASON, "A plate that lies crooked never gets a hole."),
    ("A loose plate is swung round by the drill.", "A loose plate is thrown about by the drill."),
    ("Safety glasses with side shields.", "Safety spectacles with side shields."),
    ("id: clamp\n", "id: clamp-it\n"),
    ("thickness: 6 mm", "thickness: 7 mm"),
    ("kind: makes it easier", "kind: can injure"),
])  # fmt: skip
def test_more_than_wording_cannot_be_declared(
    old: str, new: str, registered: Callable[..., Path], edited: Edited,
    capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    content = registered(edited(JOB, old, new))
    before = (content / "revisions.yml").read_text()
    assert register_revisions(content, ["vg-0010"])[1] == 0
    assert (content / "revisions.yml").read_text() == before


def test_the_text_of_a_hazard_is_never_wording(
    registered: Callable[..., Path], edited: Edited
) -> None:
    hazard = edited("hazards/work-turns.yml", "Its edges strike", "Its edges hit")
    content = registered(hazard)
    left, added = register_revisions(content, ["vg-0010", "vg-0020"])
    assert ([one.code for one in left], added) == (["A604", "A604"], 0)


def test_a_new_revision_is_registered_beside_the_old_one(
    registered: Callable[..., Path], edited: Edited
) -> None:
    content = registered(edited(JOB, "revision: 2", "revision: 3", "thickness: 6 mm",
                                "thickness: 7 mm"))  # fmt: skip
    assert codes(content) == ["A605"]
    before = (content / "revisions.yml").read_text().splitlines()
    assert register_revisions(content) == ((), 1)
    after = (content / "revisions.yml").read_text().splitlines()
    assert next(line for line in after if line not in before).startswith(
        "  - {job: VG-0010, revision: 3, "
    )
    assert set(before) <= set(after)
    assert codes(content) == []


def test_revisions_are_numbers_or_letters_in_their_order() -> None:
    assert [following(one) for one in ("1", "9", "A", "Z", "AZ")] == ["2", "10", "B", "AA", "BA"]


def test_in_a_preview_a_revision_that_lags_is_a_warning(
    registered: Callable[..., Path], edited: Edited
) -> None:
    content = registered(edited(JOB, "thickness: 6 mm", "thickness: 7 mm"))
    assert not pipeline.load(content).may_publish
    preview = pipeline.load(content, preview=True)
    assert preview.may_publish
    assert [one.code for one in preview.findings] == ["A604"]


def test_a_job_that_is_not_there_cannot_be_declared(
    registered: Callable[..., Path], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["register", str(registered({})), "--wording-only", "VG-0011"]) == 2
    assert "did you mean 'vg-0010'?" in capsys.readouterr().err


def test_a_lost_entry_of_the_register_is_told(registered: Callable[..., Path], shop: Shop) -> None:
    old, new = registered({}), shop()
    reviewed = sides.compare(sides.Asked(new, old=str(old)))
    assert reviewed.report is not None
    assert reviewed.report.notes == (
        "the register of revisions has lost 2 of its entries"
        " (VG-0010 revision 2, VG-0020 revision A)",
    )
