"""What is found in jobs of one text: once what all of them have, else with those that have it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from benchleaf.diagnose import Finding
from benchleaf.model import Made

FOR_ALL = ("V521", "V533")
"""Codes of a line that is not needed: in a text that several jobs share, one that needs it is
enough."""
_Key = tuple[object, ...]


def told_once(found: Mapping[str, Sequence[Finding]], made: Made) -> Iterator[Finding]:
    """The findings of jobs without a file of their own, by job, as whoever edits reads them."""
    files: dict[str, list[str]] = {}
    for job_id in found:
        files.setdefault(made[job_id].file, []).append(job_id)
    for jobs in files.values():
        having: dict[_Key, dict[str, Finding]] = {}
        for job_id in jobs:
            for one in found[job_id]:
                having.setdefault(_key(one, job_id), {}).setdefault(job_id, one)
        for each in having.values():
            first = next(iter(each.values()))
            if len(each) == len(jobs):
                yield _of_all(first, next(iter(each)), made)
            elif first.code not in FOR_ALL:
                yield _of_some(first, tuple(each))


def _key(one: Finding, job_id: str) -> _Key:
    """A finding without the name of its job."""
    text = "" if one.code in FOR_ALL else _named(one.text, job_id, "")
    return one.code, one.place, text, one.severity


def _of_all(one: Finding, job_id: str, made: Made) -> Finding:
    """A finding that every job of the text has, under the name that they share."""
    shared = made[job_id].family or made[job_id].written
    lines = tuple(_named(line, job_id, shared.upper()) for line in one.help)
    return replace(one, text=_named(one.text, job_id, shared.upper()), help=lines)


def _of_some(one: Finding, jobs: Sequence[str]) -> Finding:
    """A finding that only some jobs of the text have, with which; one that says so stays."""
    if len(jobs) == 1 and _named(one.text, jobs[0], "") != one.text:
        return one
    return replace(one, text=f"{', '.join(job.upper() for job in jobs)}: {one.text}")


def _named(text: str, job_id: str, name: str) -> str:
    return re.sub(rf"\b{re.escape(job_id)}\b(?!-)", name, text, flags=re.IGNORECASE)
