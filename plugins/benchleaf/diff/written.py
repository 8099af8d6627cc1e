"""A manual's meaning written down as JSON, and read back: what another version of the tool reckons.

Everything that a learner is taught, job by job, with unrounded numbers. So two versions can be held
against each other on the same content, though each knows its own formulas only.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from benchleaf.meaning import About, Meanings, Statement, fingerprint_of

from .change import Side

FORM = 1
"""The form of what is written; a later one that reads otherwise is a later number."""


@dataclass(frozen=True, slots=True)
class WrittenJob:
    """What one job says."""

    title: str
    revision: str
    effective: str
    fingerprint: str
    meaning: tuple[Statement, ...]


@dataclass(frozen=True, slots=True)
class Written:
    """What every job says, and by which version it was reckoned."""

    version: str
    jobs: Mapping[str, WrittenJob]


class UnreadableError(Exception):
    """Why a file holds no meaning, in a line."""


def written_of(side: Side, version: str) -> Written:
    """The meaning of a shop that was read and reckoned."""
    meanings, found = Meanings(side.shop), {}
    for job_id, job in side.shop.jobs.items():
        meaning = meanings.of(job, side.sheets.get(job_id, ()))
        found[job_id] = WrittenJob(
            job.title, job.revision, job.effective.isoformat(), fingerprint_of(meaning), meaning
        )
    return Written(version, found)


def as_written(written: Written) -> str:
    """The JSON."""
    jobs = {
        job_id: {
            "title": one.title,
            "revision": one.revision,
            "effective": one.effective,
            "fingerprint": one.fingerprint,
            "statements": [_statement(each) for each in one.meaning],
        }
        for job_id, one in written.jobs.items()
    }
    values = {"form": FORM, "tool": written.version, "jobs": jobs}
    return json.dumps(values, indent=1, ensure_ascii=False) + "\n"


def _statement(one: Statement) -> dict[str, Any]:
    return {
        "about": one.about.name,
        "subject": one.subject,
        "value": one.value,
        "words": one.words,
        "where": one.where,
        "key": one.key,
        "numbers": one.numbers,
    }


def read_written(text: str) -> Written:
    """What was written, or `UnreadableError`."""
    try:
        values = json.loads(text)
        form = values["form"]
        if form != FORM:
            raise UnreadableError(f"it is of form {form}; this version reads form {FORM}")
        jobs = {job_id: _job(one) for job_id, one in values["jobs"].items()}
        return Written(str(values["tool"]), jobs)
    except (ValueError, KeyError, TypeError, AttributeError):
        raise UnreadableError("it holds no meaning that was written down") from None


def _job(values: Mapping[str, Any]) -> WrittenJob:
    return WrittenJob(
        str(values["title"]),
        str(values["revision"]),
        str(values["effective"]),
        str(values["fingerprint"]),
        tuple(_read(one) for one in values["statements"]),
    )


def _read(values: Mapping[str, Any]) -> Statement:
    numbers = values["numbers"]
    name = values["about"]  # one that only a later version knows is taught like an act
    return Statement(
        About[name] if name in About.__members__ else About.ACT,
        values["subject"],
        _value(values["value"]),
        values["words"],
        values["where"],
        key=values["key"],
        numbers=(float(numbers[0]), float(numbers[1])) if numbers is not None else None,
    )


def _value(value: Any) -> Any:
    return tuple(_value(one) for one in value) if isinstance(value, list) else str(value)


def in_the_same_steps(old: Sequence[Statement], new: Sequence[Statement]) -> list[Statement]:
    """The old statements, with what is the same number told in the steps of the new version."""
    known = {(one.about, one.subject): one for one in new}
    return [_as_now(one, known.get((one.about, one.subject))) for one in old]


def _as_now(old: Statement, new: Statement | None) -> Statement:
    if new is None or old.numbers is None or new.numbers is None:
        return old
    ends = zip(old.numbers, new.numbers, strict=True)
    is_same = all(f"{before:.9g}" == f"{after:.9g}" for before, after in ends)
    return replace(old, value=new.value) if is_same else old
