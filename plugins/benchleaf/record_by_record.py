"""Stops 3 to 5 for one record after another: its set-ups, its findings, the terms it uses.

Each record is looked at once, jobs in several processes where there are many.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date

from benchleaf import link, validate
from benchleaf.compute import SetUpSheet, set_up_sheets
from benchleaf.diagnose import Finding
from benchleaf.meaning import Meanings, fingerprint_of
from benchleaf.model import Job, Made, Record, Shop
from benchleaf.processes import spread

Sheets = Mapping[str, tuple[SetUpSheet, ...]]
"""The computed set-ups of each job."""
_Item = tuple[str, str, Record]


@dataclass(slots=True)
class _Part:
    """What is found in a share of the records."""

    findings: list[Finding] = field(default_factory=list)
    of_made: dict[str, tuple[Finding, ...]] = field(default_factory=dict)
    """Those of jobs that have no file of their own, by job."""
    sheets: dict[str, tuple[SetUpSheet, ...]] = field(default_factory=dict)
    uses: list[tuple[str, link.Use]] = field(default_factory=list)
    fingerprints: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Survey:
    """What is found in all records."""

    findings: list[Finding]
    sheets: Sheets
    term_uses: Mapping[str, tuple[link.Use, ...]]
    fingerprints: Mapping[str, str]
    """The fingerprint of each job's meaning."""


def survey(
    shop: Shop, places: validate.Places, terms: link.TermIndex, today: date, *, keep_sheets: bool
) -> Survey:
    """Look at every record. `keep_sheets` is False where only the findings are wanted."""

    def look(items: Sequence[_Item]) -> _Part:
        part, meanings = _Part(), Meanings(shop)
        for kind, record_id, record in items:
            sheets = set_up_sheets(shop, record) if isinstance(record, Job) else ()
            found = validate.check_record(shop, places, kind, record_id, record, sheets, today)
            if kind == "jobs" and record_id in shop.made:
                part.of_made[record_id] = tuple(found)
            else:
                part.findings += found
            if isinstance(record, Job):
                part.fingerprints[record_id] = fingerprint_of(meanings.of(record, sheets))
                if keep_sheets:
                    part.sheets[record_id] = sheets
            part.uses += link.uses_in(kind, record_id, record, terms)
        return part

    others = [one for one in shop.every() if one[0] != "jobs"]
    parts = spread(look, [("jobs", job_id, job) for job_id, job in shop.jobs.items()])
    every = [*parts, look(others), look([("manual", "manual", shop.manual)])]
    return _joined(every, shop.made)


def _joined(parts: Sequence[_Part], made: Made) -> Survey:
    of_made = {job_id: one for part in parts for job_id, one in part.of_made.items()}
    findings: list[Finding] = [one for part in parts for one in part.findings]
    findings += validate.told_once(of_made, made)
    sheets = {job_id: sheets for part in parts for job_id, sheets in part.sheets.items()}
    uses = link.joined(part.uses for part in parts[:-1])  # the manual itself is no use
    prints = {job_id: one for part in parts for job_id, one in part.fingerprints.items()}
    return Survey(findings, sheets, uses, prints)
