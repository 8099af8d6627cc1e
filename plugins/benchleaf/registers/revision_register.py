"""The register of revisions against the jobs as they are: a change of meaning needs a new revision.

Each job's fingerprint is held against the one registered for its revision. The fingerprints come
from the caller, who has reckoned the set-ups already.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from benchleaf.diagnose import Finding, Place, Severity
from benchleaf.diff.fingerprint import SHOWN, core_fingerprint
from benchleaf.link.term_use import PlaceOf
from benchleaf.model import Job, Shop, revision_order

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
        return Registry.of((*every, *new))

    def at(self, job: Job) -> tuple[RegisteredRevision, ...]:
        """The entries of a job's present revision."""
        return tuple(one for one in self.by_job.get(job.id, ()) if one.revision == job.revision)

    def newest(self, job: Job) -> str | None:
        """The newest revision registered for a job."""
        revisions = [one.revision for one in self.by_job.get(job.id, ())]
        return max(revisions, key=revision_order, default=None)

    def alike(self, job: Job, now: str) -> frozenset[str]:
        """Fingerprints under which a job, at its present revision, means what it means now.

        Several where changes of wording were declared: a sign-off for any of them holds.
        """
        known = frozenset(one.fingerprint for one in self.at(job))
        return known if now in known else frozenset((now,))

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
        if known and now not in {one.fingerprint for one in known}:
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
    name = job.id.upper()
    was = known[-1].fingerprint[:SHOWN]
    if core_fingerprint(shop, job) == known[0].core:
        other = (
            f"or, where only the wording changed: benchleaf register --wording-only {name}"
            " (also where nothing changed but the version of Benchleaf)"
        )
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
        f" (registered {was}, now {now[:SHOWN]})",
        (
            f"advance the revision to {following(job.revision)}, and say in change_note what"
            " changed; then run `benchleaf register`",
            other,
            "`benchleaf compare` shows the change and who must be taught again",
        ),
    )


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

    A declared change in which more than the wording changed gives nothing.
    """
    for job in shop.jobs.values():
        now, known = fingerprints[job.id], registry.at(job)
        if now in {one.fingerprint for one in known} or (known and job.id not in wording_only):
            continue
        newest = registry.newest(job)
        if not known and newest and revision_order(job.revision) < revision_order(newest):
            continue
        core = core_fingerprint(shop, job)
        if not known or core == known[0].core:
            yield RegisteredRevision(
                job=job.id,
                revision=job.revision,
                fingerprint=now,
                core=core,
                wording_only=bool(known),
            )


def register_text(registry: Registry, new: Iterable[RegisteredRevision]) -> str:
    """The register file: jobs by id, the entries of each in the order in which they came."""
    every = {job: list(entries) for job, entries in registry.by_job.items()}
    for entry in new:
        every.setdefault(entry.job, []).append(entry)
    lines = [_line(entry) for job in sorted(every) for entry in every[job]]
    return f"{HEADING}revisions:\n" + "".join(lines) if lines else f"{HEADING}revisions: []\n"


def _line(entry: RegisteredRevision) -> str:
    wording = ", wording_only: true" if entry.wording_only else ""
    return (
        f"  - {{job: {entry.job.upper()}, revision: {entry.revision},"
        f" fingerprint: {entry.fingerprint}, core: {entry.core}{wording}}}\n"
    )
