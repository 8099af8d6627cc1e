"""The registers of a shop whose revisions `benchleaf release` gives, read and held to their tally.

In such a shop no job file says its own revision: number, day, approval and notes stand in
history.yml, so that two branches that change one job never meet there. What the ledger knows of a
job is put into its record before that is built.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path
from typing import Any

from benchleaf.diagnose import Finding, Place, Severity
from benchleaf.model import Revised, Shop
from benchleaf.model.textlinks import TEXT_LINK, read_link
from benchleaf.read import Contents, Document, Source, key_place
from benchleaf.validate import build

from .certain import certain_jobs
from .chain import CURE, End, Linked, broken, damaged
from .changed_kept import TALLY
from .gone import had_ledger
from .history_entry import Count, Released, Tally
from .ledger_entries import of_addresses, of_history, of_revisions
from .once_there import Once, lost, once_there
from .revision_entries import Registered, read_revisions, unsure_jobs

HISTORY = "history.yml"
STATE = ("revision", "effective", "approved_by", "change_note", "history")
"""Keys of a job that `benchleaf release` gives."""
NO_NUMBER = "0"
"""Stands in for the revision of a job that was never released; no page shows it."""
NOT_YET = "not released yet"


@dataclass(frozen=True, slots=True)
class Ledger:
    """What was released, in the order in which it was."""

    entries: Registered = ()
    """Of revisions.yml."""
    history: tuple[tuple[Released, Source], ...] = ()
    by_job: Mapping[str, tuple[Released, ...]] = field(default_factory=dict)
    once: Once = field(default_factory=Once)
    """What the repository remembers of the registers."""
    tally: Tally | None = None
    """What it counts; None where that is not known."""
    certain: frozenset[str] = frozenset()
    """The jobs of which the registers are whole, whatever else is damaged in them."""

    def numbers(self, former: Mapping[str, Sequence[str]]) -> dict[str, frozenset[str]]:
        """Every revision that was released, by job; `former` are the ids that a job had before."""
        return {
            job: frozenset(
                one.revision
                for job_id in (*former.get(job, ()), job)
                for one in self.by_job.get(job_id, ())
            )
            for job in (*self.by_job, *former)
        }


def read_ledger(contents: Contents, content: Path) -> tuple[Ledger | None, tuple[Finding, ...]]:
    """The ledger, and what was altered, taken out or written in by hand in any of its files.

    None for a shop whose job files say their own revision.
    """
    known = {one.kind: one for one in contents.documents}
    kinds = known.keys() | {kind for kind, _ in contents.unread}
    if not kinds & {"tally", "history"} and not had_ledger(contents, content):
        return None, ()
    history, damage = _history(known.get("history"))
    if "history" not in kinds and "tally" not in kinds:  # else the tally counts what is gone
        damage = [damaged("A606", "history", Place(f"{content.name}/{HISTORY}"), "it is gone")]
    entries, wrong = read_revisions(known.get("revisions"))
    tally, more = _tally(known.get("tally"), content.name, is_there="tally" in kinds)
    by_job: dict[str, tuple[Released, ...]] = {}
    for one, _ in history:
        by_job[one.job] = (*by_job.get(one.job, ()), one)
    ledger = Ledger(entries, history, by_job, once_there(content), tally)
    told = {
        "history": damage,
        "revisions": [replace(one, help=CURE) for one in wrong],
        "addresses": [],
    }
    # What cannot be read as a whole is told already, and breaks every chain.
    whole = [one for one in told if not told[one] and (one, one) not in contents.unread]
    chains = _chains(ledger, known.get("addresses"))
    for name in whole:
        end = _end(tally, name)
        told[name] += broken(_CODES[name], name, chains[name], end, f"{content.name}/{name}.yml")
    if not told["revisions"] and not told["history"]:
        told["revisions"] += _without_entry(ledger, content.name)
    texts = {one.kind: one.text for one in contents.documents}
    forgotten = tuple(lost(ledger.once, texts.items(), content.name))
    for name in whole:
        if not told[name]:  # else the same is told already
            told[name] += (one for one in forgotten if _is_about(one, name))
    unsure = unsure_jobs(known.get("revisions"), wrong, by_job)
    certain = certain_jobs(ledger, chains, told, texts) - unsure
    ledger = replace(ledger, certain=certain)
    return ledger, (*more, *(one for name in _CODES for one in told[name]))


_CODES = {"addresses": "A603", "revisions": "A606", "history": "A606"}


def _is_about(one: Finding, register: str) -> bool:
    return one.place.file.endswith(f"/{register}.yml")


def _chains(ledger: Ledger, addresses: Document | None) -> dict[str, list[Linked]]:
    return {
        "addresses": list(of_addresses(addresses)),
        "revisions": of_revisions(ledger.entries),
        "history": of_history(ledger.history),
    }


def _end(tally: Tally | None, register: str) -> End | None:
    count: Count | None = getattr(tally, register, None)
    return End(count.count, count.last) if count else None


def _without_entry(ledger: Ledger, content: str) -> Iterator[Finding]:
    """The newest revision that the history tells of each job has its entry."""
    registered = {(one.job, one.revision) for one, _ in ledger.entries}
    for job, released in ledger.by_job.items():
        newest = released[-1].revision
        if (job, newest) not in registered:
            why = f"it has no entry for revision {newest} of {job.upper()}"
            yield damaged("A606", "revisions", Place(f"{content}/revisions.yml"), why)


def _history(
    document: Document | None,
) -> tuple[tuple[tuple[Released, Source], ...], list[Finding]]:
    if document is None:
        return (), []
    listed = document.value.get("history") if isinstance(document.value, dict) else None
    if not isinstance(listed, list):
        return (), [damaged("A606", "history", Place(document.name, 1, 1), "it holds no list")]
    found, problems = [], []
    for index, value in enumerate(listed):
        source = Source(document, ("history", index), value)
        entry, wrong = build(Released, source)
        if entry is not None:
            found.append((entry, source))
        elif wrong:
            problems.append(damaged("A606", "history", source.tree.place, wrong[0].text))
        else:
            problems.append(damaged("A606", "history", source.tree.place, "this is no entry"))
    return tuple(found), problems


def _tally(
    document: Document | None, content: str, *, is_there: bool
) -> tuple[Tally | None, tuple[Finding, ...]]:
    if document is None:
        why = "it is gone, and it counts the entries of the registers"
        gone = damaged("A606", "tally", Place(f"{content}/{TALLY}"), why)
        return None, () if is_there else (gone,)
    tally, wrong = build(Tally, Source(document, (), document.value))
    if tally is None:
        why = wrong[0].text if wrong else "a key stands empty"
        return None, (damaged("A606", "tally", Place(document.name, 1, 1), why),)
    return tally, ()


# What the ledger knows, put into the jobs


def with_state(
    contents: Contents, ledger: Ledger | None, today: date
) -> tuple[Contents, tuple[Finding, ...]]:
    """The documents with each job's revision and notes in it, and jobs that say their own."""
    if ledger is None:
        return contents, ()
    documents: list[Document] = []
    problems: list[Finding] = []
    known = frozenset(_ids(contents.documents))
    for document in contents.documents:
        if document.kind == "jobs" and isinstance(document.value, dict):
            problems += _says_its_own(document)
            job = str(document.value.get("id") or "").strip().lower()
            state = _state(ledger.by_job.get(job, ()), today, known)
            document = replace(document, value={**document.value, **state})
        documents.append(document)
    return replace(contents, documents=tuple(documents)), tuple(problems)


def renumbered(shop: Shop, ledger: Ledger, numbers: Mapping[str, Sequence[str]]) -> Shop:
    """The shop where a job under a new number goes on with the revision it had under the old."""
    jobs = dict(shop.jobs)
    known = frozenset((kind, record_id) for kind, record_id, _ in shop.every())
    for new, old in numbers.items():
        every = _issues(one for job_id in (*old, new) for one in ledger.by_job.get(job_id, ()))
        issues = list({one.revision: one for one in every}.values())
        if issues:
            jobs[new] = jobs[new].model_copy(update=_built(_issued(issues, known)))
    return replace(shop, jobs=jobs)


def _built(state: Mapping[str, Any]) -> dict[str, Any]:
    """The keys as a built job holds them."""
    history = tuple(Revised.model_validate(one) for one in state.get("history", ()))
    return {**state, "effective": date.fromisoformat(state["effective"]), "history": history}


def _ids(documents: Sequence[Document]) -> Iterator[tuple[str, str]]:
    """Kind and id of each record that is there."""
    for one in documents:
        value = one.value if isinstance(one.value, dict) else {}
        listed = value.get(one.kind)
        for record in listed if isinstance(listed, list) else (value,):
            if isinstance(record, dict):
                yield one.kind, str(record.get("id") or "").strip().lower()


def _living(note: str, known: Collection[tuple[str, str]]) -> str:
    """A note of the past with links to whole records that are there yet; others become words."""

    def link(found: re.Match[str]) -> str:
        aim = read_link(found[1])
        if (aim.kind, aim.id) not in known:
            return aim.id.upper() if aim.kind == "jobs" else aim.id
        return found[0] if aim.anchor is None else f"[[{found[1].partition('#')[0]}]]"

    return TEXT_LINK.sub(link, note)


def _state(
    released: Sequence[Released], today: date, known: Collection[tuple[str, str]]
) -> dict[str, Any]:
    """The keys of a job that tell its revision, as its file would hold them."""
    issues = _issues(released)
    if issues:
        return _issued(issues, known)
    first = {"revision": NO_NUMBER, "effective": today.isoformat()}
    return {**first, "approved_by": NOT_YET, "change_note": NOT_YET.capitalize() + "."}


def _issues(released: Iterable[Released]) -> list[Released]:
    """Those of what was released that have a number of their own."""
    return [one for one in released if not one.wording_only]


def _issued(issues: Sequence[Released], known: Collection[tuple[str, str]]) -> dict[str, Any]:
    *former, last = issues
    return {
        "revision": last.revision,
        "effective": last.effective.isoformat(),
        "approved_by": last.approved_by or "not recorded",
        "change_note": _living(last.note, known),
        "history": [
            {
                "revision": one.revision,
                "effective": one.effective.isoformat(),
                "note": _living(one.note, known),
            }
            for one in reversed(former)
        ],
    }


def _says_its_own(document: Document) -> Iterator[Finding]:
    assert isinstance(document.value, dict)
    written = [key for key in STATE if key in document.value]
    if written:
        yield Finding(
            "A611",
            Severity.ERROR,
            key_place(document.tree, written[0]) or document.tree.place,
            f"this job says its own {', '.join(written)}, and here `benchleaf release` gives it",
            (
                "take these keys out: benchleaf release --take-over does it for every job",
                "what changed stands in a change notice: benchleaf new notice WORD",
            ),
        )
