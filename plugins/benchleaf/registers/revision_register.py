"""The register of revisions against the jobs as they are: a change of meaning needs a new revision.

Each job's fingerprint is held against the one registered for its revision. The fingerprints come
from the caller, who has reckoned the set-ups already.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace

from benchleaf.compute import set_up_sheets
from benchleaf.diagnose import Finding, Place, Severity
from benchleaf.link.term_use import PlaceOf
from benchleaf.meaning import (
    METHOD,
    SHOWN,
    Meant,
    Statement,
    meant,
    meant_of,
    moved_since,
    statements,
    verdict,
)
from benchleaf.model import Job, Shop, revision_order

from .former_method import former_core, former_fingerprint
from .revision_entry import RegisteredRevision

HEADING = """\
# What each job meant at each revision, as a fingerprint. Written by `benchleaf register`, never by
# hand; entries are only ever added. While a revision is not published yet, its entry may be taken
# out and registered anew.
"""


@dataclass(frozen=True, slots=True)
class Registry:
    """The entries of the register by job, in the order of the file."""

    by_job: Mapping[str, tuple[RegisteredRevision, ...]]
    former: Mapping[str, str] = field(default_factory=dict)
    """The present fingerprint by the former method, of each job that only such entries know."""
    numbers: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    """Numbers that a job had before the present one, the oldest first."""

    @classmethod
    def of(cls, entries: Iterable[RegisteredRevision]) -> Registry:
        """The registry of these entries."""
        found: dict[str, tuple[RegisteredRevision, ...]] = {}
        for entry in entries:
            found[entry.job] = (*found.get(entry.job, ()), entry)
        return cls(found)

    def with_(self, new: Iterable[RegisteredRevision]) -> Registry:
        """The registry with further entries."""
        every = (one for entries in self.by_job.values() for one in entries)
        return replace(Registry.of((*every, *new)), numbers=self.numbers)

    def every(self, job_id: str) -> tuple[RegisteredRevision, ...]:
        """The entries of a job, those under its former numbers first."""
        ids = (*self.numbers.get(job_id, ()), job_id)
        return tuple(entry for one in ids for entry in self.by_job.get(one, ()))

    def at(self, job: Job) -> tuple[RegisteredRevision, ...]:
        """The entries of a job's present revision."""
        return tuple(one for one in self.by_job.get(job.id, ()) if one.revision == job.revision)

    def newest(self, job: Job) -> str | None:
        """The newest revision registered for a job."""
        revisions = [one.revision for one in self.every(job.id)]
        return max(revisions, key=revision_order, default=None)

    def with_former(self, shop: Shop, fingerprints: Mapping[str, str]) -> Registry:
        """The registry with what the former method needs; that is reckoned for no other job."""
        asked = (
            job
            for job in shop.jobs.values()
            if not self.holds(job, fingerprints[job.id])
            and any(one.method != METHOD for one in self.at(job))
        )
        former = {one.id: former_fingerprint(shop, one, set_up_sheets(shop, one)) for one in asked}
        return replace(self, former=former)

    def holds(self, job: Job, now: str) -> bool:
        """True where the job still means what its revision was registered for."""
        return any(
            one.fingerprint == (now if one.method == METHOD else self.former.get(job.id))
            for one in self.at(job)
        )

    def goes_on(self, job: Job, now: str) -> bool:
        """True for a job under a new number that still means what it meant under the old one."""
        return not self.by_job.get(job.id) and any(
            one.fingerprint == now for one in self.every(job.id)
        )

    def alike(self, job: Job, now: str) -> frozenset[str]:
        """Fingerprints under which a job, at its present revision, means what it means now.

        Several where changes of wording were declared, or where the revision was registered by
        both methods: a sign-off for any of them holds.
        """
        every = [one for one in self.every(job.id) if one.revision == job.revision]
        known = frozenset(one.fingerprint for one in every)
        holds = self.holds(job, now) or (not self.at(job) and now in known)
        return known | {now} if holds else frozenset((now,))

    def said_at(self, job_id: str) -> dict[str, str]:
        """What a job said, by revision and by fingerprint, as far as that is known."""
        entries = [(one, one.said) for one in self.every(job_id) if one.said is not None]
        by_revision = {one.revision: said for one, said in reversed(entries)}
        return by_revision | {one.fingerprint: said for one, said in entries}

    def declared(self) -> frozenset[tuple[str, str]]:
        """Job and fingerprint of each state that is declared as wording only."""
        return frozenset(
            (one.job, one.fingerprint)
            for entries in self.by_job.values()
            for one in entries
            if one.wording_only
        )


def check_revisions(
    shop: Shop,
    fingerprints: Mapping[str, str],
    registry: Registry,
    place_of: PlaceOf,
    register_file: str,
) -> Iterator[Finding]:
    """A604 where a job changed and its revision did not, A605 for what is not registered yet."""
    new: list[str] = []
    for job in shop.jobs.values():
        now = fingerprints[job.id]
        place = place_of("jobs", job.id, ("revision",))
        newest = registry.newest(job)
        known = registry.at(job)
        if known and not registry.holds(job, now):
            yield _changed(shop, job, known, now, place)
        elif not known and newest and revision_order(job.revision) < revision_order(newest):
            yield _went_back(job, newest, place)
        elif not known:
            new.append(f"{job.id.upper()} revision {job.revision}")
    if new:
        yield _unregistered(new, register_file)


def _changed(
    shop: Shop,
    job: Job,
    known: Sequence[RegisteredRevision],
    now: str,
    place: Place,
) -> Finding:
    name, last = job.id.upper(), known[-1]
    meaning = statements(shop, job, set_up_sheets(shop, job))
    moved = moved_lines(shop, meaning, last)
    if only_wording(shop, job, known, meant_of(meaning)):
        other = f"or, where only the wording changed: benchleaf register --wording-only {name}"
    else:
        other = (
            "it is no change of wording only: a number, unit, negation, direction, hazard text,"
            " fact or id changed"
        )
    return Finding(
        "A604",
        Severity.ERROR,
        place,
        f"{name} or a record it uses changed in meaning, and its revision is still {job.revision}"
        f" (registered {last.fingerprint[:SHOWN]}, now {now[:SHOWN]})",
        (
            *moved,
            f"advance the revision to {following(job.revision)}, and say in change_note what"
            " changed; then run `benchleaf register`",
            other,
            "`benchleaf compare` shows the change and who must be taught again",
        ),
    )


MOST_MOVED = 5
"""Statements that one finding lists."""


def moved_lines(
    shop: Shop, meaning: Sequence[Statement], last: RegisteredRevision
) -> tuple[str, ...]:
    """What moved since the entry, the gravest first; empty where the entry does not say."""
    if last.said is None:
        return ()
    rule = shop.manual.retraining
    found = [verdict(one, rule) for one in moved_since(last.said, meaning)]
    found.sort(key=lambda one: one.what.rank)
    lines = tuple(f"{one.what.value}: {one.why}" for one in found[:MOST_MOVED])
    more = len(found) - MOST_MOVED
    return (*lines, f"and {more} more") if more > 0 else lines


def only_wording(shop: Shop, job: Job, known: Sequence[RegisteredRevision], now: Meant) -> bool:
    """True where a job differs in wording alone from what its revision was registered for."""
    first = known[0]
    return first.core == (now.core if first.method == METHOD else former_core(shop, job))


def following(revision: str) -> str:
    """The revision after one.

    >>> following("9"), following("A"), following("Z")
    ('10', 'B', 'AA')
    """
    if revision.isdigit():
        return str(int(revision) + 1)
    letters = revision.rstrip("Z")
    turned = "A" * (len(revision) - len(letters))
    return f"{letters[:-1]}{chr(ord(letters[-1]) + 1)}{turned}" if letters else f"A{turned}"


def _went_back(job: Job, newest: str, place: Place) -> Finding:
    return Finding(
        "A604",
        Severity.ERROR,
        place,
        f"the revision of {job.id.upper()} is {job.revision}, and {newest} was registered before",
        (f"a revision only goes on: write {following(newest)}, or put {newest} back",),
    )


def _unregistered(new: Sequence[str], register_file: str) -> Finding:
    some = ", ".join(new[:3]) + (" and more" if len(new) > 3 else "")
    count = f"{len(new)} revision{'' if len(new) == 1 else 's'}"
    return Finding(
        "A605",
        Severity.WARNING,
        Place(register_file),
        f"{count} not in the register yet: {some}",
        ("run `benchleaf register`, and commit the file with your change",),
    )


def new_entries(
    shop: Shop,
    fingerprints: Mapping[str, str],
    registry: Registry,
    wording_only: Collection[str],
) -> Iterator[RegisteredRevision]:
    """What the register lacks: new revisions, and changes of wording that are declared here.

    A declared change in which more than the wording changed gives nothing. A revision that is
    known by the former method only, and holds, is entered by the present one too.
    """
    for job in shop.jobs.values():
        known = registry.at(job)
        if registry.holds(job, fingerprints[job.id]):
            if all(one.method != METHOD for one in known):
                yield entry_of(job, _meant(shop, job))
            continue
        if known and job.id not in wording_only:
            continue
        newest = registry.newest(job)
        if not known and newest and revision_order(job.revision) < revision_order(newest):
            continue
        now = _meant(shop, job)
        if not known:
            yield entry_of(job, now)
        elif only_wording(shop, job, known, now):
            yield entry_of(job, now, wording_only=True)


def _meant(shop: Shop, job: Job) -> Meant:
    """What the register keeps of a job; reckoned for the few that need it."""
    return meant(shop, job, set_up_sheets(shop, job))


def entry_of(job: Job, now: Meant, *, wording_only: bool = False) -> RegisteredRevision:
    """What the register keeps of a job at its present revision."""
    return RegisteredRevision(
        job=job.id,
        revision=job.revision,
        fingerprint=now.fingerprint,
        core=now.core,
        method=METHOD,
        said=now.said,
        wording_only=wording_only,
    )


def register_text(registry: Registry, new: Iterable[RegisteredRevision]) -> str:
    """The register file: jobs by id, the entries of each in the order in which they came."""
    every = {job: list(entries) for job, entries in registry.by_job.items()}
    for entry in new:
        every.setdefault(entry.job, []).append(entry)
    lines = [register_line(entry) for job in sorted(every) for entry in every[job]]
    return f"{HEADING}revisions:\n" + "".join(lines) if lines else f"{HEADING}revisions: []\n"


def register_line(entry: RegisteredRevision, link: str | None = None) -> str:
    """The line of an entry, with its link where it has one."""
    linked = f', link: "{link}"' if link else ""
    return f"  - {{{line_said(entry)}{linked}}}\n"


def line_said(entry: RegisteredRevision) -> str:
    """Everything that an entry says, as its line holds it, without its link."""
    wording = ", wording_only: true" if entry.wording_only else ""
    method = f", method: {entry.method}" if entry.method > 1 else ""
    said = f', said: "{entry.said}"' if entry.said else ""
    return (
        f"job: {entry.job.upper()}, revision: {entry.revision},"
        f" fingerprint: {entry.fingerprint}, core: {entry.core}{method}{wording}{said}"
    )
