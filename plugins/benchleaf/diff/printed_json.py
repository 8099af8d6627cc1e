"""A comparison as JSON with stable keys, for other programs."""

from __future__ import annotations

import json
from typing import Any

from .change import Change, Effect, JobState
from .due import Due
from .report import Report


def as_json(report: Report) -> str:
    """An object; its `changes` list has the cause, its effects and the consequence of each."""
    values = {
        "old": report.old,
        "new": report.new,
        "notes": list(report.notes),
        "summary": report.summary(),
        "changes": [_change(one) for one in report.comparison.changes],
        "jobs": [_job(one) for one in report.comparison.jobs],
        "crew_given": report.due is not None,
        "people": [_person(one) for one in report.due or ()],
    }
    return json.dumps(values, indent=2, ensure_ascii=False)


def _change(change: Change) -> dict[str, Any]:
    kind, name = change.record
    return {
        "record": f"{kind}/{name}",
        "place": change.place,
        "where": change.where,
        "kind": change.kind.value,
        "about": str(change.area),
        "before": change.before,
        "after": change.after,
        "consequence": change.consequence.value,
        "why": change.why,
        "file": change.file or None,
        "jobs": {job: one.value for job, one in change.jobs.items()},
        "effects": [_effect(one) for one in change.effects],
    }


def _effect(effect: Effect) -> dict[str, Any]:
    kind, name = effect.record
    return {
        "record": f"{kind}/{name}",
        "place": effect.place,
        "kind": effect.kind.value,
        "key": effect.code or None,
        "before": effect.before,
        "after": effect.after,
        "percent": None if effect.percent is None else round(effect.percent, 2),
        "other_changes_too": effect.together,
    }


def _job(state: JobState) -> dict[str, Any]:
    return {
        "id": state.id,
        "title": state.title,
        "revision": {"before": state.old_revision, "after": state.new_revision},
        "fingerprint": {"before": state.old_fingerprint, "after": state.new_fingerprint},
        "consequence": state.consequence.value,
        "revision_must_advance": state.must_advance,
    }


def _person(one: Due) -> dict[str, Any]:
    return {
        "staff": one.staff,
        "job": None if one.is_page else one.job,
        "page": one.job if one.is_page else None,
        "consequence": one.consequence.value,
        "by": one.by.isoformat(),
        "signed_off_on_revision": None if one.is_page else one.revision,
        "signed_on": one.revision if one.is_page else None,
        "was_stale_before": one.was_stale,
    }
