"""What a release writes: the next number of each changed job, its note, and every new address.

Pure: what was read goes in, the texts of the files come out. A number is never given twice: the
next one follows the greatest there ever was, in the registers or in what the repository remembers.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import date
from functools import partial
from types import MappingProxyType

from benchleaf.compute import set_up_sheets
from benchleaf.meaning import meant
from benchleaf.model import Job, JobChanges, Shop, revision_order

from .chain import START, links
from .changed_kept import TALLY, kept
from .history_entry import Released
from .ledger import Ledger
from .ledger_entries import released_said
from .notices import Noticed, covering, is_wording_only, ready
from .revision_entry import RegisteredRevision
from .revision_register import entry_of, following, line_said, register_line

_HEADING = (
    "# {what}\n# Written by `benchleaf release`, never by hand; entries are only ever added. Each\n"
    "# is bound to those before it, and tally.yml counts them.\n"
)
HEADINGS = {
    "addresses": "Every address this manual has published.",
    "revisions": "What each job meant at each revision, as a fingerprint.",
    "history": "Each change as it was released: number, day, approval, note.",
}
TALLY_HEADING = (
    "# How many entries each register holds, and the link of the last one. Written by\n"
    "# `benchleaf release`, never by hand: a register that lost its end is found by it.\n"
)

NO_RENAMES: Mapping[str, str] = MappingProxyType({})

Affected = Callable[[Noticed], frozenset[str] | None]
"""The jobs that the change of a notice moved; None where that is not known."""


def release(
    shop: Shop, ledger: Ledger, notices: Sequence[Noticed], affected: Affected, today: date
) -> tuple[tuple[RegisteredRevision, ...], tuple[Released, ...]]:
    """The new entries of revisions.yml and history.yml. Every draft is covered by a notice."""
    revisions, history = [], []
    for job_id in ready(shop):
        job, found = shop.jobs[job_id], _of_job(job_id, notices, affected)
        wording = is_wording_only(found)
        number = job.revision if wording else next_number(job_id, ledger, shop.renamed)
        now = meant(shop, job, set_up_sheets(shop, job))
        entry = entry_of(job, now, wording_only=wording)
        revisions.append(entry.model_copy(update={"revision": number}))
        history.append(_released(job, number, found, ledger, today, wording_only=wording))
    for job in _renumbered(shop, ledger):
        revisions.append(entry_of(job, meant(shop, job, set_up_sheets(shop, job))))
        history.append(
            Released(
                job=job.id,
                revision=job.revision,
                effective=job.effective,
                approved_by=job.approved_by,
                note=job.change_note,
            )
        )
    return tuple(revisions), tuple(history)


def _renumbered(shop: Shop, ledger: Ledger) -> Iterator[Job]:
    """Jobs that go on under a new number: their first entry there says what the old one said."""
    for new in dict.fromkeys(shop.renamed.values()):
        if new not in ledger.by_job and new not in shop.drafts:
            yield shop.jobs[new]


def _of_job(job_id: str, notices: Sequence[Noticed], affected: Affected) -> tuple[Noticed, ...]:
    """The notices of a job: those that name it, and those for all whose change moved it too."""
    covers = covering(job_id, notices)
    if len(covers) == 1:
        return covers
    found = tuple(
        one for one in covers if job_id in one.notice.jobs or _moved(job_id, one, affected)
    )
    return found or covers


def _moved(job_id: str, one: Noticed, affected: Affected) -> bool:
    jobs = affected(one)
    return jobs is None or job_id in jobs


def next_number(job_id: str, ledger: Ledger, renamed: Mapping[str, str] = NO_RENAMES) -> str:
    """The number after the greatest that a job ever had, under any of its ids."""
    ids = {job_id, *(old for old, new in renamed.items() if new == job_id)}
    used = {one.revision for each in ids for one in ledger.by_job.get(each, ())}
    used |= {one.revision for one, _ in ledger.entries if one.job in ids}
    used |= {revision for job, revision in ledger.once.numbers() if job in ids}
    greatest = max(used, key=revision_order, default=None)
    return "1" if greatest is None else following(greatest)


def _released(
    job: Job,
    number: str,
    found: Sequence[Noticed],
    ledger: Ledger,
    today: date,
    *,
    wording_only: bool,
) -> Released:
    told = [one.notice for one in found]
    days = [one.effective for one in told if one.effective] or [today]
    former = [one.effective for one in ledger.by_job.get(job.id, ())]
    return Released(
        job=job.id,
        revision=number,
        effective=max([*days, *former]),  # a revision is never older than the one before
        approved_by=", ".join(dict.fromkeys(one.approved_by for one in told)),
        note=" ".join(dict.fromkeys(_sentence(one.note) for one in told)),
        wording_only=wording_only,
    )


def _sentence(note: str) -> str:
    folded = " ".join(note.split())
    return folded if folded[-1] in ".!?" else f"{folded}."


# The files


def texts(
    ledger: Ledger,
    addresses: Iterable[str],
    revisions: Iterable[RegisteredRevision],
    history: Iterable[Released],
    changed: Mapping[str, JobChanges],
) -> dict[str, str]:
    """Name and text of every register with these entries added, and of the tally.

    `changed` is what each revision of a job changed, as it stands in its files by then.
    """
    every = [*(one for one, _ in ledger.entries), *revisions]
    told = [*(one for one, _ in ledger.history), *history]
    entries: dict[str, list[tuple[str, Callable[[str], str]]]] = {
        "addresses": [(one, partial(_address_line, one)) for one in dict.fromkeys(addresses)],
        "revisions": [(line_said(one), partial(register_line, one)) for one in every],
        "history": [(released_said(one), partial(_history_line, one)) for one in told],
    }
    found, counts = {}, []
    for name, known in entries.items():
        made = list(links(said for said, _ in known))
        lines = [line(one) for (_, line), one in zip(known, made, strict=True)]
        heading = _HEADING.format(what=HEADINGS[name]) + (
            f"{name}:\n" if lines else f"{name}: []\n"
        )
        found[f"{name}.yml"] = heading + "".join(lines)
        last = made[-1] if made else START
        counts.append(f'{name}: {{count: {len(made)}, last: "{last}"}}\n')
    files = [
        f'  - {{job: {one.job.upper()}, count: {one.count}, last: "{one.last}"}}\n'
        for one in kept(changed)
    ]
    counts += ["changed:\n", *files] if files else []
    return {**found, TALLY: TALLY_HEADING + "".join(counts)}


def _address_line(address: str, link: str) -> str:
    return f"  - {address} {link}\n"


def _history_line(one: Released, link: str) -> str:
    approved = f", approved_by: {_quoted(one.approved_by)}" if one.approved_by else ""
    wording = ", wording_only: true" if one.wording_only else ""
    return (
        f"  - {{job: {one.job.upper()}, revision: {one.revision}, effective: {one.effective}"
        f'{approved}, note: {_quoted(one.note)}{wording}, link: "{link}"}}\n'
    )


def _quoted(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)
