"""Stop 3 for people: the trees of a crew folder to one crew, held against the jobs there are."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Any, TypeVar

from benchleaf.diagnose import Finding, Related, Severity, suggestion
from benchleaf.model import (
    Crew,
    CrewFacts,
    Drafts,
    Person,
    Promised,
    Record,
    Shift,
    Shop,
    SignOff,
    drafts,
    references,
    revision_order,
)
from benchleaf.read import Contents, Node, Path, Source, plain, with_tree

from .at_the_door import Door, door_slips
from .bench_records import TAKEN_IN, TO_TAKE_IN, read_records, record_slips
from .building import build
from .folded_records import Booked, folded
from .places import locate, written_id
from .rules.references import dangling
from .sign_offs import sign_off_slips

R = TypeVar("R", bound=Record)
UNWRITTEN = CrewFacts(
    shifts=(Shift.model_validate({"id": "none", "name": "-", "starts": "00:00", "hours": "8 h"}),)
)
"""Stands in for a crew.yml with mistakes, so that people's files are still checked."""


@dataclass(slots=True)
class _Gathered:
    """What has been built so far."""

    facts: CrewFacts | None = None
    facts_tree: Node | None = None
    promised: Promised | None = None
    people: dict[str, Person] = field(default_factory=dict)
    trees: dict[str, Node] = field(default_factory=dict)
    records: tuple[Booked, ...] = ()
    """What was made at the bench, as far as it counts."""
    findings: list[Finding] = field(default_factory=list)


def gather_crew(
    contents: Contents, shop: Shop, today: date, door: Door | None = None
) -> tuple[Crew, tuple[Finding, ...]]:
    """The crew, and what is wrong with any of its records or does not fit the shop's jobs.

    `today` says which days are still to come, unless the crew's own facts do. Records made at the
    bench are folded into each person's file, so that all else sees what both say together. `door`
    is given where some of them are still to be taken in.

    With findings of severity error it is incomplete: good for more checks, not for plans.
    """
    gathered = _Gathered()
    made_at_bench = [one for one in contents.documents if one.kind in (TAKEN_IN, TO_TAKE_IN)]
    gathered.records, problems = read_records(made_at_bench, shop)
    gathered.findings += problems
    for document in contents.documents:
        if document.kind in (TAKEN_IN, TO_TAKE_IN):
            continue
        if document.kind == "crew":
            gathered.facts_tree = document.tree
            source = Source(document, (), document.value)
            gathered.facts, problems = build(CrewFacts, source)
            gathered.findings += problems
            if gathered.facts is not None:
                gathered.facts = _by_present_numbers(gathered.facts, shop)
        elif document.kind == "promised":
            _enter_promised(Source(document, (), document.value), gathered, shop)
        else:
            _enter(Source(document, (), document.value), gathered, shop)
    people = dict(sorted(gathered.people.items()))
    crew = Crew(gathered.facts or UNWRITTEN, people, gathered.promised)
    gathered.findings += _cross_checks(gathered, shop)
    if gathered.facts is not None:  # else nobody could say who trains, and as of which day
        day = crew.facts.as_of or today
        gathered.findings += record_slips(gathered.records, crew, shop, day)
        gathered.findings += sign_off_slips(crew, gathered.trees, shop, today)
        if door is not None:
            asked = [one for one in gathered.records if one.at().file in door.files]
            gathered.findings += door_slips(asked, crew, shop, door)
    return crew, _told_once(gathered)


def _told_once(gathered: _Gathered) -> tuple[Finding, ...]:
    """At one value of a record one code is told once, whichever rule came upon it first.

    What cannot be at all (C745) is not called doubtful besides (C727).
    """
    files = {one.at().file for one in gathered.records}
    seen = {("C727", one.place) for one in gathered.findings if one.code == "C745"}
    kept = []
    for one in gathered.findings:
        key = one.code, one.place
        if one.place.file not in files or key not in seen:
            kept.append(one)
        seen.add(key)
    return tuple(kept)


def _enter(source: Source, gathered: _Gathered, shop: Shop) -> None:
    code = written_id(source.value)
    mine = [one for one in gathered.records if one.record.person == code]
    if mine:
        tree, problems = folded(source.tree, mine, shop)
        gathered.findings += problems
        source = Source(with_tree(source.document, tree), (), plain(tree))
    person, problems = build(Person, source)
    gathered.findings += problems
    if code is None:
        return
    tree = source.tree
    if code in gathered.trees:
        gathered.findings.append(_twice(code, tree, gathered.trees[code]))
        return
    gathered.trees[code] = tree
    stem = source.document.name.rpartition("/")[2].removesuffix(".yml")
    if stem != code:
        gathered.findings.append(_file_name(stem, code, tree))
    if person is not None:
        gathered.people[code] = _by_present_numbers(person, shop)


def _enter_promised(source: Source, gathered: _Gathered, shop: Shop) -> None:
    """What was promised of a job that is gone is told, and hinders no new plan."""
    found, problems = build(Promised, source)
    gathered.findings += problems
    if found is None:
        return
    found = _by_present_numbers(found, shop)
    for path, kind, wanted in references(found):
        if kind == "jobs" and wanted not in shop.jobs:
            gone = dangling(shop, kind, wanted, locate(source.tree, path))
            gathered.findings.append(replace(gone, severity=Severity.WARNING))
    gathered.promised = found.model_copy(
        update={
            "lessons": tuple(one for one in found.lessons if one.job in shop.jobs),
            "checks": tuple(one for one in found.checks if one.job in shop.jobs),
        }
    )


def _by_present_numbers(record: R, shop: Shop) -> R:
    """The record with each job under its present number: what was proved goes on."""
    paths = [
        (path, shop.renamed[wanted])
        for path, kind, wanted in (references(record) if shop.renamed else ())
        if kind == "jobs" and wanted in shop.renamed
    ]
    if not paths:
        return record
    values = record.model_dump(mode="json", exclude_defaults=True)
    for (*above, last), present in paths:
        inside: Any = values
        for step in above:
            inside = inside[step]
        inside[last] = present
    return type(record).model_validate(values)


def _twice(code: str, tree: Node, first: Node) -> Finding:
    return Finding(
        "L303",
        Severity.ERROR,
        locate(tree, ("id",)),
        f"the staff code '{code}' is used twice",
        ("give one of the two another code",),
        (Related(locate(first, ("id",)), "used first here"),),
    )


def _file_name(stem: str, code: str, tree: Node) -> Finding:
    return Finding(
        "F210",
        Severity.WARNING,
        locate(tree, ("id",)),
        f"this file is named '{stem}.yml', its person's code is '{code}'",
        (f"name the file {code}.yml",),
    )


def _cross_checks(gathered: _Gathered, shop: Shop) -> Iterator[Finding]:
    for one in gathered.records:
        yield from _references(one.record, one.tree, shop, [])
    facts, tree, unfinished = gathered.facts, gathered.facts_tree, drafts(shop)
    shifts = [one.id for one in facts.shifts] if facts else []
    if facts is not None and tree is not None:
        yield from _references(facts, tree, shop, shifts)
        yield from _shifts_once(facts, tree)
    for code, person in gathered.people.items():
        tree = gathered.trees[code]
        yield from _references(person, tree, shop, shifts)
        yield from _one_state_a_job(person, tree)
        yield from _dates(person, tree)
        yield from _revisions(person, tree, shop)
        yield from _pages(person, tree, shop)
        yield from _taught_from_drafts(person, tree, shop, unfinished)


def _shifts_once(facts: CrewFacts, tree: Node) -> Iterator[Finding]:
    seen: dict[str, int] = {}
    for number, shift in enumerate(facts.shifts):
        if shift.id in seen:
            first = locate(tree, ("shifts", seen[shift.id], "id"))
            yield Finding(
                "L303",
                Severity.ERROR,
                locate(tree, ("shifts", number, "id")),
                f"the shift '{shift.id}' is there twice",
                ("give one of the two another id",),
                (Related(first, "used first here"),),
            )
        seen.setdefault(shift.id, number)


def _references(record: Record, tree: Node, shop: Shop, shifts: list[str]) -> Iterator[Finding]:
    every = {"jobs": shop.jobs, "machines": shop.machines, "onboarding": shop.onboarding}
    for path, kind, wanted in references(record):
        known = every.get(kind)
        if known is not None and wanted not in known:
            yield dangling(shop, kind, wanted, locate(tree, path))
        elif kind == "shifts" and shifts and wanted not in shifts:
            text = f"there is no shift '{wanted}' in crew.yml"
            lines = suggestion(wanted, shifts, what="shifts")
            yield Finding("L301", Severity.ERROR, locate(tree, path), text, lines)


def _stated(person: Person) -> Iterator[tuple[str, Path]]:
    """Every job whose state the record gives, with its place."""
    for key in ("can_do", "learning"):
        for number, one in enumerate(getattr(person, key)):
            yield one.job, (key, number, "job")
    for number, job_id in enumerate(person.not_needed):
        yield job_id, ("not_needed", number)


def _one_state_a_job(person: Person, tree: Node) -> Iterator[Finding]:
    """A job is done, or being learned, or not needed: once. A due day stands beside it."""
    seen: dict[str, Path] = {}
    dues = [(one.job, ("must_be_able", n, "job")) for n, one in enumerate(person.must_be_able)]
    unwanted = {job_id: ("not_needed", n) for n, job_id in enumerate(person.not_needed)}
    for job_id, path in _stated(person):
        if job_id in seen:
            yield _again(job_id, tree, path, seen[job_id])
        seen.setdefault(job_id, path)
    due_seen: dict[str, Path] = dict(unwanted)
    for job_id, path in dues:
        if job_id in due_seen:
            yield _again(job_id, tree, path, due_seen[job_id])
        due_seen.setdefault(job_id, path)


def _again(job_id: str, tree: Node, path: Path, first: Path) -> Finding:
    return Finding(
        "C701",
        Severity.ERROR,
        locate(tree, path),
        f"{job_id.upper()} stands under '{path[0]}' and under '{first[0]}'"
        if path[0] != first[0]
        else f"{job_id.upper()} stands twice under '{path[0]}'",
        ("say once whether they can do it, are learning it, or need not",),
        (Related(locate(tree, first), "first here"),),
    )


def _dates(person: Person, tree: Node) -> Iterator[Finding]:
    for number, one in enumerate(person.can_do):
        if one.last_done is not None and one.last_done < one.judged:
            yield Finding(
                "C702",
                Severity.ERROR,
                locate(tree, ("can_do", number, "last_done")),
                f"last done on {one.last_done}, before it was proved on {one.judged}",
                ("whoever proves that they can do a job does it that day: correct one of the two",),
            )


def _revisions(person: Person, tree: Node, shop: Shop) -> Iterator[Finding]:
    yield from _never(person, tree, shop)
    for job_id, path, revision, words in _said_revisions(person, shop):
        job = shop.jobs.get(job_id)
        if job is not None and _is_later(revision, job.revision):
            yield Finding(
                "C703",
                Severity.WARNING,
                locate(tree, path),
                f"{words} revision {revision}, but {job.id.upper()} is at revision {job.revision}",
                ("correct the record, or read the newest breakdowns",),
            )


def _said_revisions(person: Person, shop: Shop) -> Iterator[tuple[str, Path, str, str]]:
    """Every revision that a record rests on: job, place, revision, and what is said of it."""
    for number, one in enumerate(person.can_do):
        if one.job in shop.jobs and not _never_released(one, shop):
            yield one.job, ("can_do", number, "revision"), one.revision, "signed off on"
        for at, told in enumerate(one.told):
            yield one.job, ("can_do", number, "told", at, "revision"), told.revision, "taught"
    for number, lesson in enumerate(person.learning):
        if lesson.revision:
            yield lesson.job, ("learning", number, "revision"), lesson.revision, "taught"
        for key in ("rounds", "told"):
            for at, each in enumerate(getattr(lesson, key)):
                path = ("learning", number, key, at, "revision")
                yield lesson.job, path, each.revision, "taught"


def _never(person: Person, tree: Node, shop: Shop) -> Iterator[Finding]:
    for number, one in enumerate(person.can_do):
        if one.job in shop.jobs and (why := _never_released(one, shop)):
            yield Finding(
                "C705",
                Severity.ERROR,
                locate(tree, ("can_do", number, "revision")),
                f"signed off on {why}",
                (
                    "people are signed off on what is released",
                    "correct the record, or read the newest manual",
                ),
            )


def _never_released(sign_off: SignOff, shop: Shop) -> str:
    """What was signed off that no register knows; a shop without numbers keeps no such register."""
    draft, mark = shop.drafts.get(sign_off.job), sign_off.fingerprint
    if draft is not None and mark is not None and draft.startswith(mark):
        return f"the draft of {sign_off.job.upper()}"
    if shop.numbers and sign_off.revision not in shop.numbers.get(sign_off.job, ()):
        return f"revision {sign_off.revision} of {sign_off.job.upper()}, which was never released"
    return ""


def _pages(person: Person, tree: Node, shop: Shop) -> Iterator[Finding]:
    """Pages that were signed and that there are not."""
    for number, one in enumerate(person.signed):
        if one.page not in shop.pages:
            text = f"there is no page '{one.page}' in pages/"
            lines = suggestion(one.page, shop.pages, what="pages")
            place = locate(tree, ("signed", number, "page"))
            yield Finding("L301", Severity.ERROR, place, text, lines)


def _taught_from_drafts(
    person: Person, tree: Node, shop: Shop, unfinished: Drafts
) -> Iterator[Finding]:
    """Nobody is taught from a draft, so nobody can have proved that they can do it."""
    for key, done in (("can_do", "signed off on"), ("learning", "taught")):
        for number, one in enumerate(getattr(person, key)):
            if one.job in shop.jobs and not unfinished.is_complete(one.job):
                yield Finding(
                    "C709",
                    Severity.ERROR,
                    locate(tree, (key, number, "job")),
                    f"{done} {one.job.upper()}, which is a draft: nobody is taught from it",
                    (
                        "`benchleaf check` names what is still open (V901): write that first, or "
                        "take this entry out",
                    ),
                )


def _is_later(revision: str, present: str) -> bool:
    return revision_order(revision) > revision_order(present)
