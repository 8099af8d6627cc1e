"""Sign-offs that cannot be so, or that nobody should go by: who judged, when, what it rests on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from statistics import median

from benchleaf.compute import set_up_sheets
from benchleaf.compute.practice import Standard, standard_of
from benchleaf.diagnose import Finding, Severity, nearest, suggestion
from benchleaf.model import (
    Crew,
    Granted,
    Job,
    Learning,
    Missed,
    Person,
    Shop,
    SignOff,
    TimedPiece,
    key_point,
    same_licence,
    station_ids,
)
from benchleaf.read import Node, Path

from .places import locate

SHORT_OF_STANDARD = 0.2
"""A piece that takes less than this share of the reckoned time is taken for a slip. House value."""
SHORT_OF_OTHERS = 0.1
"""The same against the middle one of the learner's other pieces. House value."""
SHORT_S = 5.0
"""The same in seconds, where there is neither. House value."""


@dataclass(frozen=True, slots=True)
class _Records:
    """What the rules look at."""

    crew: Crew
    trees: Mapping[str, Node]
    """Each person's file."""
    shop: Shop
    day: date
    """The day on which the crew is looked at."""
    standards: dict[str, float | None] = field(default_factory=dict)
    """Basic time of a piece of each job, in seconds, as it is asked for."""

    def standard_s(self, job: Job) -> float | None:
        """Basic time of a piece, or None where the job does not tell."""
        if job.id not in self.standards:
            found = standard_of(job, set_up_sheets(self.shop, job)) if job.piece_rate else None
            self.standards[job.id] = found.basic_s if isinstance(found, Standard) else None
        return self.standards[job.id]


def sign_off_slips(
    crew: Crew, trees: Mapping[str, Node], shop: Shop, today: date
) -> Iterator[Finding]:
    """Every such slip. `today` is the day of the build; the crew's own `as_of` comes before it."""
    records = _Records(crew, trees, shop, crew.facts.as_of or today)
    for code, person in crew.people.items():
        tree = trees[code]
        yield from _to_come(records, person, tree)
        yield from _before_it_was(records, person, tree)
        yield from _by_oneself(person, tree)
        yield from _without_lock(records, person, tree)
        yield from _without_prerequisites(records, person, tree)
        yield from _timed(records, person, tree)
        yield from _missed(records, person, tree)
        yield from _licences(records, person, tree)
    yield from _by_nobody(records)
    yield from _by_no_judge(records)


def _days(person: Person) -> Iterator[tuple[Path, date, str]]:
    """Every day on which something is said to have been done."""
    for number, one in enumerate(person.can_do):
        for key, words in (
            ("judged", "proved"),
            ("first_proved", "first proved"),
            ("last_done", "last done"),
        ):
            day = getattr(one, key)
            if day is not None:
                yield ("can_do", number, key), day, f"{one.job.upper()} is {words}"
        for at, told in enumerate(one.told):
            what = f"what changed in {one.job.upper()} is taught"
            yield ("can_do", number, "told", at, "day"), told.day, what
        for at, check in enumerate(one.checks):
            yield (
                ("can_do", number, "checks", at, "day"),
                check.day,
                f"{one.job.upper()} is checked",
            )
    for number, page in enumerate(person.signed):
        yield ("signed", number, "signed"), page.signed, f"{page.page} is signed"


def _to_come(records: _Records, person: Person, tree: Node) -> Iterator[Finding]:
    for path, day, words in _days(person):
        if day > records.day:
            yield Finding(
                "C720",
                Severity.ERROR,
                locate(tree, path),
                f"{words} on {day}, a day that is still to come on {records.day}",
                ("correct the day; nothing is proved before it is done",),
            )


def _before_it_was(records: _Records, person: Person, tree: Node) -> Iterator[Finding]:
    for number, one in enumerate(person.can_do):
        job = records.shop.jobs.get(one.job)
        since = job.in_force_since(one.revision) if job is not None else None
        if since is not None and one.judged < since:
            yield Finding(
                "C721",
                Severity.WARNING,
                locate(tree, ("can_do", number, "judged")),
                f"{one.job.upper()} is judged on {one.judged}; revision {one.revision} came into "
                f"force on {since}",
                ("correct the day, or write the revision that was in force then",),
            )
        for at, told in enumerate(one.told if job is not None else ()):
            since = job.in_force_since(told.revision) if job is not None else None
            if since is not None and told.day < since:
                yield Finding(
                    "C721",
                    Severity.WARNING,
                    locate(tree, ("can_do", number, "told", at, "day")),
                    f"what changed in {one.job.upper()} is taught on {told.day}; revision "
                    f"{told.revision} came into force on {since}",
                    ("correct the day, or write the revision that was in force then",),
                )


def _judges(person: Person) -> Iterator[tuple[Path, str, str]]:
    """Everybody whose word a record rests on: place, code, and what it is said of."""
    for number, one in enumerate(person.can_do):
        yield ("can_do", number, "judged_by"), one.judged_by, f"judged at {one.job.upper()} by"
        for at, told in enumerate(one.told):
            words = f"taught what changed in {one.job.upper()} by"
            yield ("can_do", number, "told", at, "by"), told.by, words
        for at, check in enumerate(one.checks):
            place = ("can_do", number, "checks", at, "by")
            yield place, check.by, f"checked at {one.job.upper()} by"
    for number, lesson in enumerate(person.learning):
        if lesson.trainer is not None:
            words = f"taught {lesson.job.upper()} by"
            yield ("learning", number, "trainer"), lesson.trainer, words
    for number, granted in enumerate(person.authorities):
        if granted.given_by is not None:
            what = granted.may or granted.licence
            yield ("authorities", number, "given_by"), granted.given_by, f"given '{what}' by"


def _by_oneself(person: Person, tree: Node) -> Iterator[Finding]:
    for path, code, words in _judges(person):
        if code == person.id:
            yield Finding(
                "C722",
                Severity.ERROR,
                locate(tree, path),
                f"{person.id} is {words} themselves",
                ("write who it was; nobody judges, teaches or authorises themselves",),
            )


def _by_nobody(records: _Records) -> Iterator[Finding]:
    """Once for each code, however many records rest on it."""
    known = records.crew.codes | set(records.trees)
    found: dict[str, list[tuple[Node, Path, str]]] = {}
    for person in records.crew.people.values():
        tree = records.trees[person.id]
        signed = (
            (("signed", number, "signed_by"), one.signed_by, f"signed {one.page} with")
            for number, one in enumerate(person.signed)
            if one.signed_by is not None
        )
        for path, code, words in (*_judges(person), *signed):
            if code not in known:
                found.setdefault(code, []).append((tree, path, f"{person.id} is {words}"))
    for code, places in found.items():
        tree, path, words = places[0]
        others = len(places) - 1
        more = f" (and {others} record{'s' if others > 1 else ''} more)" if others else ""
        near = nearest(code, known)
        yield Finding(
            "C723",
            Severity.WARNING,
            locate(tree, path),
            f"{words} {code}{more}; nobody of the crew has this code",
            (
                *((f"did you mean '{near}'?",) if near else ()),
                "correct the code, or keep a file of who has left, with last_day",
            ),
        )


def _by_no_judge(records: _Records) -> Iterator[Finding]:
    """Once for each judge, where the shop keeps records of who may judge."""
    if not records.crew.records(Granted.JUDGE):
        return
    found: dict[str, list[tuple[Node, Path, str]]] = {}
    for person in records.crew.people.values():
        for number, one in enumerate(person.can_do):
            judge = records.crew.people.get(one.judged_by)
            job = records.shop.jobs.get(one.job)
            if judge is None or job is None or judge.id == person.id:
                continue
            if not _has(records.shop, judge, job, Granted.JUDGE):
                place = (records.trees[person.id], ("can_do", number, "judged_by"), one.job.upper())
                found.setdefault(judge.id, []).append(place)
    for code, places in found.items():
        tree, path, _ = places[0]
        jobs = ", ".join(dict.fromkeys(job for _, _, job in places))
        yield Finding(
            "C724",
            Severity.WARNING,
            locate(tree, path),
            f"{code} judges {jobs}; no authority to judge that is recorded",
            (f"write it under 'authorities' in {code}.yml, or correct who judged",),
        )


def _has(shop: Shop, person: Person, job: Job, what: Granted) -> bool:
    """Whether an authority is recorded that ever held for a job; its end is the plan's concern."""
    here = station_ids(shop, job.machine)
    return any(one.may is what and one.is_at(job.id, here) for one in person.authorities)


def _without_lock(records: _Records, person: Person, tree: Node) -> Iterator[Finding]:
    """Where the shop keeps records of who may lock off; else it is only not known."""
    if not records.crew.records(Granted.LOCK_OFF):
        return
    for number, one in enumerate(person.can_do):
        job = records.shop.jobs.get(one.job)
        if job and job.is_under_lock and not _has(records.shop, person, job, Granted.LOCK_OFF):
            yield Finding(
                "C725",
                Severity.WARNING,
                locate(tree, ("can_do", number, "job")),
                f"signed off on {one.job.upper()}, which is done under lock; no authority to lock "
                "off is recorded for it",
                ("until it is, they may not run it: write it under 'authorities', with its proof",),
            )


def _without_prerequisites(records: _Records, person: Person, tree: Node) -> Iterator[Finding]:
    """A job on a like machine serves: the work is the same."""
    for number, one in enumerate(person.can_do):
        job = records.shop.jobs.get(one.job)
        first = job.know_first if job is not None else ()
        missing = [each for each in first if not _knows(records.shop, person, each)]
        if missing:
            names = ", ".join(each.upper() for each in missing)
            yield Finding(
                "C726",
                Severity.WARNING,
                locate(tree, ("can_do", number, "job")),
                f"signed off on {one.job.upper()}, and not on what must be known first: {names}",
                ("write those sign-offs, or teach what is missing",),
            )


def _knows(shop: Shop, person: Person, job_id: str) -> bool:
    alike = {job_id, *(one.id for one in shop.alike(job_id))}
    return any(one.job in alike for one in person.can_do)


def _timed(records: _Records, person: Person, tree: Node) -> Iterator[Finding]:
    entries: tuple[tuple[str, Sequence[SignOff | Learning]], ...] = (
        ("can_do", person.can_do),
        ("learning", person.learning),
    )
    for key, those in entries:
        for number, one in enumerate(those):
            job = records.shop.jobs.get(one.job)
            for at, piece in enumerate(one.timed):
                why = _too_short(records, job, one.timed, piece) if job else ""
                if why:
                    yield _short_piece(tree, (key, number, "timed", at, "time"), piece, why)


def _too_short(records: _Records, job: Job, timed: Sequence[TimedPiece], piece: TimedPiece) -> str:
    """What a piece is too short against, or nothing."""
    seconds = piece.time.value
    standard = records.standard_s(job)
    if standard is not None:
        is_short = seconds < SHORT_OF_STANDARD * standard
        return f"{job.id.upper()} takes {standard:.0f} s without allowances" if is_short else ""
    others = [one.time.value for one in timed if one is not piece]
    if len(others) > 1:
        middle = median(others)
        is_short = seconds < SHORT_OF_OTHERS * middle
        return f"their other pieces take about {middle:.0f} s" if is_short else ""
    return f"less than {SHORT_S:g} s" if seconds < SHORT_S else ""


def _short_piece(tree: Node, path: Path, piece: TimedPiece, why: str) -> Finding:
    return Finding(
        "C727",
        Severity.WARNING,
        locate(tree, path),
        f"piece {piece.piece} is timed at {piece.time.text}: {why}",
        ("look at number and unit: `3 s` is often `3 min`; or take the piece out",),
    )


def _missed(records: _Records, person: Person, tree: Node) -> Iterator[Finding]:
    """What a check says was missed, and the breakdown does not have."""
    for number, one in enumerate(person.can_do):
        job = records.shop.jobs.get(one.job)
        if job is None:
            continue
        for at, check in enumerate(one.checks):
            for line, missed in enumerate(check.missed):
                path = ("can_do", number, "checks", at, "missed", line)
                yield from _not_there(job, missed, tree, path)


def _not_there(job: Job, missed: Missed, tree: Node, path: Path) -> Iterator[Finding]:
    steps = {step.id: step for step in job.steps}
    if missed.step not in steps:
        yield Finding(
            "C729",
            Severity.WARNING,
            locate(tree, (*path, "step")),
            f"{job.id.upper()} has no step '{missed.step}'",
            suggestion(missed.step, list(steps), what="steps"),
        )
    elif missed.point is not None and key_point(job, missed) is None:
        points = [one.point for one in steps[missed.step].key_points]
        yield Finding(
            "C729",
            Severity.WARNING,
            locate(tree, (*path, "point")),
            f"no one key point of step '{missed.step}' of {job.id.upper()} begins so: "
            f"{missed.point}",
            (
                *suggestion(missed.point, points, what="key points"),
                "until then it counts like one that can injure",
            ),
        )


def _licences(records: _Records, person: Person, tree: Node) -> Iterator[Finding]:
    """Of names that nothing asks for, those that are nearly one that something does."""
    asked = [one.licence for one in records.crew.facts.asks_for]
    for number, one in enumerate(person.authorities):
        name = one.licence
        if name is None or any(same_licence(name, each) for each in asked):
            continue
        near = nearest(name, asked)
        if near is not None:
            yield Finding(
                "C728",
                Severity.WARNING,
                locate(tree, ("authorities", number, "licence")),
                f"no job asks for '{name}'",
                (f"did you mean '{near}'?", "names under asks_for in crew.yml count"),
            )
