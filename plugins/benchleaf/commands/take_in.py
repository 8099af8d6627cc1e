"""`benchleaf take-in` and `benchleaf give-out`: a job from a spreadsheet, and back."""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from benchleaf import read, registers, validate
from benchleaf.diagnose import Finding, Place, Severity, report
from benchleaf.model import FOLDERS, GROUP_KEY, Job, Trait, has
from benchleaf.model.ids import normal_id
from benchleaf.read import Node, Scalar
from benchleaf.workbooks import watched
from benchleaf.workbooks.gathered import tree_of
from benchleaf.workbooks.helps import empty_tables, helps
from benchleaf.workbooks.job_file import job_text
from benchleaf.workbooks.tables import Table, tables_of
from benchleaf.write import write_bytes, write_together

from .answer import Answer, give, misuse
from .shop_units import told_in_units, units_here

NAME = "job"
"""The sheet of the job's own keys."""
OPEN_CODES = ("F202",)
"""A needed key that is missing is no error here: it is marked in the file."""


def add(commands: Any) -> None:
    """Add the commands to the parser."""
    take = commands.add_parser("take-in", help="make a job file of a spreadsheet")
    take.add_argument("file", type=Path, metavar="FILE", help="an .xlsx or .csv file")
    take.add_argument("--id", default="", metavar="ID", help="the job's id, such as TR-0140")
    take.add_argument("--title", default="", help="the job's title, where the file has none")
    take.add_argument("--content", type=Path, default=Path("content"), metavar="FOLDER")
    take.add_argument("--replace", action="store_true",
                      help="write over the job file that is there, comments too")  # fmt: skip
    take.set_defaults(run=_take_in)
    out = commands.add_parser("give-out", help="write a job as a spreadsheet")
    out.add_argument("id", metavar="ID", help="the job, such as TR-0140")
    out.add_argument("file", type=Path, metavar="FILE", help="the .xlsx file to write")
    out.add_argument("--content", type=Path, default=Path("content"), metavar="FOLDER")
    out.set_defaults(run=_give_out)


def _take_in(options: argparse.Namespace) -> int:
    if not options.content.is_dir():
        return misuse(f"there is no folder {options.content}/", ("name it: --content FOLDER",))
    given = {"id": options.id, "title": options.title}
    is_issued = has_ledger(options.content)
    text, job_id, findings = taken_in(options.file, given, is_issued=is_issued)
    if findings:
        print(report(findings))
        return 1
    path: Path = options.content / "jobs" / f"{job_id}.yml"
    if path.exists() and not options.replace:
        return misuse(
            f"{path} is there already",
            ("--replace writes over it; look at the difference before you keep it",),
        )
    write_together(options.content, {path: text})
    still = text.count("\n# open: ") + text.count(" # open: ")
    left = f"; {still} places are open, marked '# open:'" if still else ""
    print(f"{path} is written{left}. Now run `benchleaf check`")
    return 0


def has_ledger(content: Path) -> bool:
    """True where `benchleaf release` gives the revisions, and no job file says its own."""
    return (content / registers.TALLY).exists()


def taken_in(
    file: Path, given: Mapping[str, str], *, is_issued: bool = False
) -> tuple[str, str, tuple[Finding, ...]]:
    """The text of a job file, the job's id, and what is amiss; no text where anything is.

    Where `is_issued`, a release gives the revision and its notes, and the file says none of them.
    """
    from benchleaf.workbooks.spreadsheet import read_tables  # its library is slow to import

    tables, problems = read_tables(file)
    notes: watched.Notes = {}
    extra: dict[str, Node] = {}
    found = list(problems)
    rest: list[Table] = []
    for table in tables:
        if table.name.lower() == watched.NAME:
            if table.rows:
                extra, notes, amiss = watched.breakdown_of(table)
                found += amiss
        elif table.rows or table.name.lower() != NAME:
            rest.append(table)
    tree, amiss = tree_of(Job, rest, NAME)
    found += amiss
    tree = _with(tree, {key: Scalar(text, Place(file.name)) for key, text in given.items() if text})
    tree = _with(tree, {key: one for key, one in extra.items() if read.child(tree, key) is None})
    named = read.child(tree, "id")
    if found:
        return "", "", tuple(found)
    if not isinstance(named, Scalar):
        return "", "", (Finding("R116", Severity.ERROR, Place(file.name),
                                "the job has no id", ("write it: --id TR-0140",)),)  # fmt: skip
    found += [*_amiss(tree, file.name), *(_given_by_release(tree) if is_issued else ())]
    if found:
        return "", "", tuple(found)
    text = job_text(Job, tree, notes, is_issued=is_issued)
    return text, normal_id(named.text), ()


def _given_by_release(tree: Node) -> Iterator[Finding]:
    """What stands in the workbook, and only a release may give."""
    for key in Job.model_fields:
        value = read.child(tree, key) if has(Job, key, Trait.ISSUED) else None
        if value is not None:
            text = f"'{key}' is given by `benchleaf release`, and nobody types it"
            cure = "leave it empty; a change notice says what changed: benchleaf new notice WORD"
            yield Finding("A611", Severity.ERROR, value.place, text, (cure,))


def _with(tree: Node, more: Mapping[str, Node]) -> Node:
    """The tree with keys put in the place of those there."""
    assert isinstance(tree, read.Mapping)
    kept = tuple(one for one in tree.entries if one[0].text not in more)
    new = tuple((Scalar(key, value.place), value) for key, value in more.items())
    return replace(tree, entries=(*new, *kept))


def _amiss(tree: Node, name: str) -> Sequence[Finding]:
    """Every finding about a field, but for keys that are still open."""
    document = read.Document("jobs", name, "", read.plain(tree))
    document.__dict__["tree"] = tree  # where a cached property keeps it: each value has its cell
    _, findings = validate.build(Job, read.Source(document, (), document.value))
    return [one for one in findings if one.code not in OPEN_CODES]


def _give_out(options: argparse.Namespace) -> int:
    return give(given_out(options.id, options.file, options.content))


def given_out(job_id: str, file: Path, content: Path) -> Answer:
    """Write a job as a workbook; where it stands, or why not."""
    if file.suffix.lower() != ".xlsx":
        return Answer(problem=f"'{file}' does not end in .xlsx", help=("a workbook is .xlsx",))
    path = content / "jobs" / f"{job_id.lower()}.yml"
    if not path.is_file():
        return Answer(problem=f"there is no job file {path}", help=("name the job by its id",))
    document, findings = read.read_document(path, "jobs", f"{content.name}/jobs/{path.name}")
    if document is None or findings or not isinstance(document.value, dict):
        return Answer(problem=f"{path} cannot be read", help=("run `benchleaf check`",))
    if GROUP_KEY in document.value:
        cure = "a workbook is for a job of one machine: edit the file"
        return Answer(problem=f"{path} is a job of several machines", help=(cure,))
    try:
        tables = tables_of(Job, document.value, NAME)
    except ValueError as error:
        return Answer(problem=f"{path}: {error}", help=("run `benchleaf check`",))
    write_bytes(file, _workbook(tables, content))
    return Answer(text=f"{file} is written; its comments are not in it")


def empty_workbook(job_id: str, content: Path) -> bytes:
    """The workbook of a new job: every key with its help, and a sheet for watching."""
    tables = empty_tables(Job, NAME, job_id, is_issued=has_ledger(content))
    return _workbook(tables, content)


def _workbook(tables: Sequence[Table], content: Path) -> bytes:
    from benchleaf.workbooks.spreadsheet import workbook  # its library is slow to import

    units = units_here(content)
    told = {
        at: replace(one, says=told_in_units(one.says, units))
        for at, one in helps(Job, ids_of(content)).items()
    }
    return workbook(tables, told)


def ids_of(content: Path) -> dict[str, tuple[str, ...]]:
    """The ids of the shop's records by kind, from the names of their files."""
    return {
        kind: tuple(sorted(path.stem for path in (content / kind).glob("*.yml")))
        for kind in FOLDERS
    }
