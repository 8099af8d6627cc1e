"""Change notices against the jobs: each job whose meaning moved is covered by a notice, and named.

A notice names its jobs, or is for *those affected*. It covers a moved job that it names; one for
those affected covers every moved job. Numbers are given later, by `releasing.py`.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial

from benchleaf.compute import set_up_sheets
from benchleaf.diagnose import Finding, Place, Related, Severity, suggestion
from benchleaf.meaning import SHOWN, meant_of, statements
from benchleaf.model import THOSE_AFFECTED, ChangeNotice, Drafts, Job, Shop, drafts
from benchleaf.read import Document, Source
from benchleaf.validate import Places, build, check_text
from benchleaf.validate.places import locate

from .revision_register import Registry, moved_lines, only_wording

NOTICES = "notices"


@dataclass(frozen=True, slots=True)
class Noticed:
    """A change notice and where it stands."""

    notice: ChangeNotice
    source: Source

    def place(self, *path: str | int) -> Place:
        """The place of a value in it."""
        return locate(self.source.tree, path)


def read_notices(
    documents: Iterable[Document],
) -> tuple[tuple[Noticed, ...], tuple[Finding, ...]]:
    """Every change notice, and what is wrong with its keys."""
    found: list[Noticed] = []
    problems: list[Finding] = []
    for document in documents:
        if document.kind == NOTICES:
            source = Source(document, (), document.value)
            notice, slips = build(ChangeNotice, source)
            problems += slips
            if notice is not None:
                found.append(Noticed(notice, source))
    return tuple(found), tuple(problems)


def half_written(documents: Iterable[Document], notices: Iterable[Noticed]) -> frozenset[str]:
    """What the notices name that have a slip: a job's id, or all those affected.

    Such a job has its notice: only the slip is to be mended.
    """
    read_well = {one.source.document.name for one in notices}
    names: set[str] = set()
    for document in documents:
        if document.kind == NOTICES and document.name not in read_well:
            value = document.value if isinstance(document.value, dict) else {}
            jobs = value.get("jobs")
            names |= {
                str(one).strip().lower() for one in (jobs if isinstance(jobs, list) else [jobs])
            }
    return frozenset(names)


def no_ledger(notices: Iterable[Noticed]) -> tuple[Finding, ...]:
    """Notices that nobody would take, since the job files say their own revisions."""
    return tuple(
        Finding(
            "A608",
            Severity.ERROR,
            one.place(),
            "in this shop each job's file says its own revision, so no notice is read",
            (
                "take the shop over, once, on the main branch: benchleaf release --take-over",
                "or advance the revision in the job's file, and take the notice away",
            ),
        )
        for one in notices
    )


def unreleased(shop: Shop, fingerprints: Mapping[str, str], registry: Registry) -> dict[str, str]:
    """The present fingerprint of each job that is new, or means another thing than was released."""
    return {
        job.id: fingerprints[job.id]
        for job in shop.jobs.values()
        if not registry.holds(job, fingerprints[job.id])
        and not registry.goes_on(job, fingerprints[job.id])
    }


def ready(shop: Shop, unfinished: Drafts | None = None) -> tuple[str, ...]:
    """The drafts that a release may give a number: those that are written to their end."""
    unfinished = unfinished or drafts(shop)
    return tuple(one for one in shop.drafts if unfinished.is_complete(one))


def covering(job_id: str, notices: Iterable[Noticed]) -> tuple[Noticed, ...]:
    """The notices that cover a moved job, those that name it first."""
    known = tuple(notices)
    named = tuple(one for one in known if job_id in one.notice.jobs)
    return (*named, *(one for one in known if one.notice.covers_all))


def is_wording_only(found: Sequence[Noticed]) -> bool:
    """What the notices of a job say: those that name it decide, else those for all."""
    return bool(found) and all(one.notice.wording_only for one in deciding(found))


def deciding(found: Sequence[Noticed]) -> tuple[Noticed, ...]:
    """Of the notices that cover a job those that name it; where none does, all."""
    named = tuple(one for one in found if not one.notice.covers_all)
    return named or tuple(found)


def check_notices(
    shop: Shop,
    registry: Registry,
    notices: Sequence[Noticed],
    places: Places,
    *,
    every: Collection[str],
    named: Collection[str] = (),
    is_whole: bool = True,
) -> Iterator[Finding]:
    """Jobs that no notice covers, and notices that do not fit. `shop` knows its drafts.

    `every` are the ids of all jobs, of those too that could not be read as a whole; `is_whole` says
    that there are none of these. `named` is what notices with a slip name.
    """
    unfinished = drafts(shop)
    for one in notices:
        yield from _unfit(one, shop, registry, every, unfinished, is_whole=is_whole)
        yield from check_text(shop, places, one.notice.note, partial(one.place, "note"))
    bare: list[str] = []
    for job_id in ready(shop, unfinished):
        found = covering(job_id, notices)
        if not found:
            if not {job_id, THOSE_AFFECTED} & set(named):
                bare.append(job_id)
            continue
        yield from _disagreeing(job_id, deciding(found))
        if is_wording_only(found):
            yield from _more_than_wording(shop, shop.jobs[job_id], registry, found[0])
    for job_id in bare:
        is_first = job_id == bare[0]
        cure = _lines_to_write(bare) if is_first else ("name it in the same notice",)
        yield _uncovered(shop, shop.jobs[job_id], registry, places.of("jobs", job_id), cure)


def _lines_to_write(jobs: Sequence[str]) -> tuple[str, ...]:
    names = ", ".join(one.upper() for one in jobs)
    return (
        "add a change notice in content/notices/ (`benchleaf new notice WORD` writes it):",
        f"jobs: [{names}]",
        "note: what changed, in a sentence for the reader",
        "approved_by: the role of who approved it",
    )


def _uncovered(
    shop: Shop, job: Job, registry: Registry, place: Place, cure: tuple[str, ...]
) -> Finding:
    name, now = job.id.upper(), shop.drafts[job.id]
    known = registry.at(job)
    if not known:
        text = f"{name} is new, and no change notice covers it"
        return Finding("A605", Severity.ERROR, place, text, cure)
    last = known[-1]
    meaning = statements(shop, job, set_up_sheets(shop, job))
    wording = only_wording(shop, job, known, meant_of(meaning))
    return Finding(
        "A604",
        Severity.ERROR,
        place,
        f"{name} or a record it uses changed in meaning since revision {job.revision}, and no"
        f" change notice covers it (registered {last.fingerprint[:SHOWN]}, now {now[:SHOWN]})",
        (
            *moved_lines(shop, meaning, last),
            *cure,
            *(("where only the wording changed: wording_only: true",) if wording else ()),
            "`benchleaf compare` shows the change and who must be taught again",
        ),
    )


def _unfit(
    one: Noticed,
    shop: Shop,
    registry: Registry,
    every: Collection[str],
    unfinished: Drafts,
    *,
    is_whole: bool,
) -> Iterator[Finding]:
    for index, job_id in enumerate(one.notice.jobs):
        if job_id not in every:
            was = job_id in registry.by_job
            text = (
                f"{job_id.upper()} is not there any more" if was else f"no job '{job_id.upper()}'"
            )
            cure = ("take it out of this notice",) if was else suggestion(job_id, every)
            yield Finding("A608", Severity.ERROR, one.place("jobs", index), text, cure)
    named = [job_id for job_id in one.notice.jobs if job_id in shop.jobs]
    for index, job_id in enumerate(one.notice.jobs):
        if job_id in named and not unfinished.is_complete(job_id):
            text = f"{job_id.upper()} is not written to its end, so no number can be given to it"
            cure = ("write what is still open (V901), or take the job out of this notice",)
            yield Finding("A608", Severity.ERROR, one.place("jobs", index), text, cure)
    still = [job_id for job_id in named if job_id not in shop.drafts]
    if still or (one.notice.covers_all and not shop.drafts and is_whole):
        what = ", ".join(job_id.upper() for job_id in still) or "every job"
        text = f"{what} means what was released: this notice says nothing new of it"
        cure = ("take the job out of the notice, or take the notice away",)
        yield Finding("A608", Severity.WARNING, one.place("jobs"), text, cure)


def _disagreeing(job_id: str, found: Sequence[Noticed]) -> Iterator[Finding]:
    first = found[0]
    other = next(
        (one for one in found if one.notice.wording_only != first.notice.wording_only), None
    )
    if other is not None:
        wording, changed = (first, other) if first.notice.wording_only else (other, first)
        yield Finding(
            "A609",
            Severity.ERROR,
            wording.place("wording_only"),
            f"one notice says wording only of {job_id.upper()}, another does not",
            ("take wording_only out here: what the other says changes the meaning",),
            (Related(changed.place("jobs"), "the other notice"),),
        )


def _more_than_wording(shop: Shop, job: Job, registry: Registry, one: Noticed) -> Iterator[Finding]:
    known = registry.at(job)
    place = one.place("wording_only")
    if not known:
        text = f"{job.id.upper()} is new: that is no change of wording"
        yield Finding("A610", Severity.ERROR, place, text, ("take wording_only out",))
        return
    meaning = statements(shop, job, set_up_sheets(shop, job))
    if not only_wording(shop, job, known, meant_of(meaning)):
        yield Finding(
            "A610",
            Severity.ERROR,
            place,
            f"the notice says wording only, and more of {job.id.upper()} changed",
            (
                *moved_lines(shop, meaning, known[-1]),
                "take wording_only out: a number, unit, negation, direction, hazard text, fact or"
                " id changed",
            ),
        )
