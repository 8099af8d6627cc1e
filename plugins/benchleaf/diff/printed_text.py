"""A comparison as plain text for a terminal: the summary first, then cause by cause."""

from __future__ import annotations

from collections.abc import Iterator

from .change import Change, Consequence, Effect
from .report import (
    HEADLINES,
    NO_CREW,
    Report,
    by_record,
    by_set_up,
    due_groups,
    fingerprint_text,
    headline,
    is_pair,
    is_said,
    percent_text,
    revision_text,
    said,
)


def as_text(report: Report) -> str:
    """The whole comparison."""
    return "\n".join(_lines(report))


def _lines(report: Report) -> Iterator[str]:
    yield f"old: {report.old}"
    yield f"new: {report.new}"
    yield from (f"note: {one}" for one in report.notes)
    yield report.summary()
    yield from (f"LIMIT NEWLY BROKEN: {where}: {reason}" for where, reason in report.broken())
    yield from _jobs(report)
    yield from _people(report)
    for consequence in Consequence:
        changes = report.of(consequence)
        if changes:
            yield ""
            yield f"{HEADLINES[consequence].upper()} ({len(changes)})"
            for name, group in by_record(changes):
                yield f"  {name}"
                for change in group:
                    yield from _change(change)


def _jobs(report: Report) -> Iterator[str]:
    if report.comparison.jobs:
        yield ""
        yield "JOBS"
    for state in report.comparison.jobs:
        must = ", MUST ADVANCE" if state.must_advance else ""
        facts = f"{revision_text(state, '->')}{must}, meaning {fingerprint_text(state, '->')}"
        yield f"  {state.id.upper():<10} {facts}: {state.consequence.value}"


def _people(report: Report) -> Iterator[str]:
    if not report.comparison.changes:
        return
    yield ""
    if report.due is None:
        yield NO_CREW
        return
    yield "PEOPLE" if report.due else "Nobody in the crew is signed off for these jobs."
    for job, what, staff in due_groups(report.due):
        yield f"  {job:<10} {what}: {', '.join(staff)}"


def _change(change: Change) -> Iterator[str]:
    if is_pair(change):
        yield f"    {change.where or change.kind.value}: {change.before} -> {change.after}"
    else:
        yield f"    {headline(change)}"
        for sign, text, seen in zip("-+", (change.before, change.after), change.seen, strict=True):
            yield from (f"      {sign} {line}" for line in (text or "").split("\n") if line)
            if seen is not None and change.record[0] != "files":
                yield f"      {sign} picture: {seen.words}"
    yield f"      why: {change.why}"
    if change.file:
        yield f"      at {change.file}"
    if change.record[0] != "jobs" and change.jobs:
        yield f"      jobs: {', '.join(one.upper() for one in change.jobs)}"
    for name, effects in by_set_up(change.effects):
        yield f"      => {name}"
        yield from (f"         {_effect(label, one)}" for label, one in effects)


def _effect(label: str, effect: Effect) -> str:
    shared = "; other changes move it too" if effect.together else ""
    if is_said(effect):
        return f"{effect.kind.value}: {said(effect)}{shared}"
    percent = percent_text(effect)
    told = f" ({percent})" if percent else ""
    sides = f"{effect.before or 'nothing'} -> {effect.after or 'nothing'}"
    return f"{label}: {sides}{told}{shared}"
