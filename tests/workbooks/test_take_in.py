"""Spreadsheets as people bring them: what is taken in, and what is told with its cell."""

from __future__ import annotations

from collections.abc import Callable
from datetime import time
from pathlib import Path
from typing import Any

import pytest
from openpyxl import Workbook, load_workbook

from benchleaf import read
from benchleaf.cli import main
from benchleaf.commands.take_in import empty_workbook, taken_in
from benchleaf.model import OPEN_MARK, Job, KeyPointKind
from benchleaf.workbooks import watched
from benchleaf.workbooks.helps import helps
from benchleaf.workbooks.tables import table_columns, table_names
from registering import take_over

JOB = (("key", "value"), ("id", "TR-0600"), ("title", "Drill the plate"))
ISSUED = ("revision", "effective", "approved_by", "change_note")
STEPS = (("id", "title", "key_points.point", "key_points.reason", "key_points.kind"),
         ("clamp", "Clamp the plate", "Push it to the stop.", "It sets the place.",
          "makes or breaks the job"),
         (None, None, "Keep both hands away.", "The drill turns it.", "can injure"))  # fmt: skip


def book(path: Path, **sheets: tuple[tuple[Any, ...], ...]) -> Path:
    made = Workbook()
    made.remove(made.worksheets[0])
    for name, rows in sheets.items():
        sheet = made.create_sheet(name)
        for row in rows:
            sheet.append(row)
    made.save(path)
    return path


def value_of(text: str) -> dict[str, Any]:
    document, problems = read.document_of(text, "jobs", "job.yml")
    assert {one.code for one in problems} <= {"R112"}  # a key that is still open
    assert document is not None
    assert isinstance(document.value, dict)
    return document.value


def test_a_breakdown_in_rows(tmp_path: Path) -> None:
    text, job_id, findings = taken_in(book(tmp_path / "a.xlsx", job=JOB, steps=STEPS), {})
    assert not findings
    assert job_id == "tr-0600"
    (step,) = value_of(text)["steps"]
    assert [one["point"] for one in step["key_points"]] == [
        "Push it to the stop.", "Keep both hands away."]  # fmt: skip
    assert text.count("# open: ") == sum(
        info.is_required() for key, info in Job.model_fields.items()
        if key not in ("id", "title", "steps")
    ) + 1  # of what can go wrong: the sign, and what to do  # fmt: skip
    written = [line for line in text.split("\n") if OPEN_MARK in line]
    assert len(written) == text.count("# open: for example: ")
    assert "None" not in text


def edited(path: Path, edit: Callable[[Any], None]) -> Path:
    opened = load_workbook(path)
    edit(opened)
    opened.save(path)
    return path


def put(sheet: str, cell: str, value: Any, number_format: str = "") -> Callable[[Any], None]:
    def edit(opened: Any) -> None:
        opened[sheet][cell] = value
        if number_format:
            opened[sheet][cell].number_format = number_format

    return edit


def merge(opened: Any) -> None:
    opened["steps"].merge_cells("B2:B3")


BAD: tuple[tuple[Callable[[Any], None], str, str], ...] = (
    (put("steps", "C2", "=A1&B1"), "sheet steps, cell C2", "a formula"),
    (put("steps", "C2", "#REF!"), "sheet steps, cell C2", "shows an error, #REF!"),
    (merge, "sheet steps, cell B2", "the cells B2:B3 are merged"),
    (put("steps", "C2", time(0, 12)), "sheet steps, cell C2", "took it for a time of day"),
    (put("steps", "C2", 0.3, "0%"), "sheet steps, cell C2", "shown as percent"),
    (put("steps", "E2", "vital"), "sheet steps, cell E2", "'vital' is not allowed for 'kind'"),
    (put("steps", "B1", "tittle"), "sheet steps, cell B1", "'tittle' is no column of 'steps'"),
    (put("steps", "C1", "title"), "sheet steps, cell C1", "the head 'title' stands twice"),
    (put("steps", "H2", "x"), "sheet steps, cell H2", "a value in a column without a head"),
    (put("job", "A3", "titel"), "sheet job, cell A3", "'titel' is no key of a job"),
    (put("job", "A4", "title"), "sheet job, cell B4", "'title' stands twice"),
    (put("job", "B4", "alone"), "sheet job, cell B4", "a value without a key"),
    (put("job", "B2", "TR 0600"), "sheet job, cell B2", "is no id"),
)  # fmt: skip


@pytest.mark.parametrize(("edit", "place", "says"), BAD, ids=[one[2] for one in BAD])
def test_a_bad_cell_is_told_by_sheet_row_and_column(
    tmp_path: Path, edit: Callable[[Any], None], place: str, says: str
) -> None:
    file = book(tmp_path / "a.xlsx", job=JOB, steps=STEPS)
    assert not taken_in(file, {})[2]
    edited(file, edit)
    if edit is BAD[10][0]:
        edited(file, put("job", "B4", "Twice"))
    text, _, findings = taken_in(file, {})
    assert not text
    told = [one for one in findings if says in one.text]
    assert told, [one.text for one in findings]
    assert str(told[0].place) == f"a.xlsx, {place}"
    assert told[0].help
    assert told[0].blocks_publishing


def test_the_words_of_people_lead_to_the_column_and_the_table(tmp_path: Path) -> None:
    rows = "id,title,Key point,reason,test\nclamp,Clamp it,Push it.,It sits.,can injure\n"
    for name in ("steps.csv", "saw.csv"):
        (tmp_path / name).write_text(rows, encoding="utf-8")
    heads = [one.help for one in taken_in(tmp_path / "steps.csv", {"id": "TR-0600"})[2]]
    meant = ("key_points.point", "key_points.reason", "key_points.kind")
    assert heads == [(f"did you mean '{one}'?",) for one in meant]
    (table,) = taken_in(tmp_path / "saw.csv", {"id": "TR-0600"})[2]
    assert "such as tr-0600-steps.csv" in table.help[0]


def test_all_bad_cells_are_told_in_one_run(tmp_path: Path) -> None:
    file = book(tmp_path / "a.xlsx", job=JOB, steps=STEPS)
    edited(file, put("steps", "C2", "=A1"))
    edited(file, put("job", "A3", "titel"))
    edited(file, merge)
    assert len(taken_in(file, {})[2]) >= 3


@pytest.mark.parametrize(
    ("name", "data", "says"),
    [
        ("a.xlsm", b"", "holds macros"),
        ("a.ods", b"", "neither .xlsx nor .csv"),
        ("a.xlsx", b"no workbook", "cannot be read"),
        ("steps.csv", "schräg".encode("latin-1"), "not UTF-8"),
    ],
)
def test_a_file_that_is_none(tmp_path: Path, name: str, data: bytes, says: str) -> None:
    (tmp_path / name).write_bytes(data)
    (finding,) = taken_in(tmp_path / name, {"id": "TR-0600"})[2]
    assert says in finding.text
    assert finding.help


def test_no_file(tmp_path: Path) -> None:
    (finding,) = taken_in(tmp_path / "a.xlsx", {})[2]
    assert "there is no file" in finding.text


@pytest.mark.parametrize("mark", [";", ",", "\t"])
def test_steps_as_text_with_any_separator(tmp_path: Path, mark: str) -> None:
    rows = (mark.join(f'"{one or ""}"' for one in row) for row in STEPS)
    (tmp_path / "tr-steps.csv").write_text("\ufeff" + "\n".join(rows), encoding="utf-8")
    text, _, findings = taken_in(tmp_path / "tr-steps.csv", {"id": "TR-0600"})
    assert not findings
    assert [len(one["key_points"]) for one in value_of(text)["steps"]] == [2]


WATCHED = "\n".join(
    ";".join(row)
    for row in (
        watched.HEADS[:4] + watched.HEADS[5:],
        ("Take a plate", "it is off the tray", "3 4", "5", *[""] * 8),
        ("Clamp the plate", "the lever is down", "12 s", "8", "b taps it down", "it lifts",
         "Push to the stop.", "It sets the place.", "makes or breaks the job", "The plate lifts.",
         "Loosen.", "A burred plate"),
        (*[""] * 6, "Tap it down.", "It leans else.", "makes or breaks the job", "", "", ""),
    )
)  # fmt: skip


def test_what_was_watched_becomes_a_breakdown_with_its_times(tmp_path: Path) -> None:
    (tmp_path / "watching.csv").write_text(WATCHED, encoding="utf-8")
    text, _, findings = taken_in(tmp_path / "watching.csv", {"id": "TR-0600", "title": "Drill"})
    assert not findings
    value = value_of(text)
    (step,) = value["steps"]
    assert (step["id"], len(step["key_points"]), step["props"]) == (
        "clamp-plate", 2, ["A burred plate"])  # fmt: skip
    assert value["if_wrong"] == [{"sign": "The plate lifts.", "do": ["Loosen."]}]
    # By hand: a has 3 and 4, mean 3.5, b has 5: (3.5 + 5) / 2 = 4.25; then (12 + 8) / 2 = 10.
    times = [(one["what"], one["time"]) for one in value["piece_rate"]["elements"]]
    assert times == [("Take a plate", "4.2 s"), ("Clamp the plate", "10.0 s")]
    for line in (
        "# from 3 to 5 s, 3 times in all",
        "# done otherwise: b taps it down",
        "# why: it lifts",
        "# open: agree on one way",
        "no key point, so it is no step",
    ):
        assert line in text  # fmt: skip


@pytest.mark.parametrize("written", ["12 min", "0:12", "-3", "0", "quick"])
def test_a_time_that_is_none_is_told(tmp_path: Path, written: str) -> None:
    head = "element;operator a\n"
    (tmp_path / "watching.csv").write_text(f"{head}Clamp;{written}\n", encoding="utf-8")
    (finding,) = taken_in(tmp_path / "watching.csv", {"id": "TR-0600"})[2]
    assert str(finding.place) == "watching.csv, row 2, column B"
    assert written in finding.text


def test_the_empty_workbook_holds_help_and_lists(tmp_path: Path) -> None:
    (tmp_path / "content/machines").mkdir(parents=True)
    (tmp_path / "content/machines/pillar-drill.yml").write_text("id: pillar-drill\n")
    (tmp_path / "new.xlsx").write_bytes(empty_workbook("TR-0600", tmp_path / "content"))
    made = load_workbook(tmp_path / "new.xlsx")
    assert {"job", "steps", watched.NAME} < set(made.sheetnames)
    rows = made["job"].iter_rows(min_row=2)
    keys = {row[0].value: row[0].comment for row in rows if row[0].value}
    assert set(keys) == {one.head for one in table_columns(Job, "")}
    assert all(comment is not None and len(comment.text) > 10 for comment in keys.values())
    words = {
        tuple(cell.value for cell in column if cell.value)
        for column in made["lists"].iter_cols()
    }  # fmt: skip
    heads = [cell.value for cell in made["steps.checks"][1]]
    assert (heads[0], made["steps.checks"]["A1"].comment is None) == ("of", False)
    assert tuple(KeyPointKind) in words
    assert ("pillar-drill",) in words
    reaches = {str(one.sqref) for one in made["steps"].data_validations.dataValidation}
    assert reaches
    text, job_id, findings = taken_in(tmp_path / "new.xlsx", {"title": "Drill"})
    assert not findings
    assert job_id == "tr-0600"
    assert "# open:" in text


def test_every_table_is_named_in_the_workbook_or_belongs_to_one() -> None:
    names = list(table_names(Job))
    assert len(names) == len(set(names))
    assert all(len(name) <= 31 for name in names)  # longest name of a sheet


def test_the_commands(
    shop: Callable[..., Path], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    content = shop()
    monkeypatch.chdir(content.parent)
    before = (content / "jobs/vg-0010.yml").read_text(encoding="utf-8")
    assert main(["give-out", "VG-0010", "a.xlsx"]) == 0
    assert main(["take-in", "a.xlsx"]) == 2  # it would write over the job
    assert (content / "jobs/vg-0010.yml").read_text(encoding="utf-8") == before
    assert main(["take-in", "a.xlsx", "--replace"]) == 0
    assert main(["check"]) == 0
    assert main(["new", "job", "VG-0099", "--format", "xlsx"]) == 0
    assert main(["take-in", "vg-0099.xlsx"]) == 0
    assert (content / "jobs/vg-0099.yml").is_file()
    assert main(["new", "hazard", "x", "--format", "xlsx"]) == 2
    assert main(["give-out", "VG-7777", "b.xlsx"]) == 2
    capsys.readouterr()


def test_a_release_gives_the_revision_and_no_workbook_asks_for_it(
    shop: Callable[..., Path], monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    content = shop()
    take_over(content)
    monkeypatch.chdir(content.parent)
    assert main(["new", "job", "VG-0099", "--format", "xlsx"]) == 0
    made = load_workbook("vg-0099.xlsx")
    keys = {row[0].value for row in made["job"].iter_rows(min_row=2)}
    assert "title" in keys
    assert not keys & set(ISSUED)
    assert "history" not in made.sheetnames
    assert main(["take-in", "vg-0099.xlsx"]) == 0
    text = (content / "jobs" / "vg-0099.yml").read_text(encoding="utf-8")
    assert "title:" in text
    assert not [key for key in ISSUED if f"\n{key}:" in text]
    assert main(["give-out", "VG-0010", "a.xlsx"]) == 0
    assert main(["take-in", "a.xlsx", "--replace"]) == 0
    (content / "jobs" / "vg-0099.yml").unlink()
    assert main(["check"]) == 0
    edited(Path("a.xlsx"), lambda opened: opened["job"].append(("revision", "3")))
    capsys.readouterr()
    assert main(["take-in", "a.xlsx", "--replace"]) == 1
    told = capsys.readouterr().out
    assert "A611 'revision' is given by `benchleaf release`" in told
    assert "sheet job, cell B" in told


@pytest.mark.parametrize(
    ("table", "head", "needed"),
    [
        ("", "title", "Needed."),
        ("", "fluid", ""),
        ("", "picture.text", "Needed where picture is filled in."),
        ("", "holding.clamping.force", "Needed where holding.clamping is filled in."),
        ("set_ups", "feed_stop.how", "Needed where feed_stop is filled in."),
        ("set_ups", "id", "Needed."),
        ("set_ups", "thread", "Needed for tapping."),
        ("steps", "key_points.point", "Needed."),
        ("steps", "planted.what", "Needed where planted is filled in."),
    ],
)
def test_a_cell_says_where_it_is_needed(table: str, head: str, needed: str) -> None:
    assert helps(Job, {})[table, head].needed == needed
