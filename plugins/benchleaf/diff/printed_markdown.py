"""A comparison as Markdown for a pull request: tables and lists that every forge shows."""

from __future__ import annotations

import re
from collections.abc import Iterator

from .change import Change, Consequence, Effect, Seen
from .report import (
    HEADLINES,
    NO_CREW,
    Report,
    blocks,
    by_record,
    by_set_up,
    due_groups,
    fingerprint_text,
    headline,
    is_list,
    is_pair,
    is_said,
    percent_text,
    revision_text,
    said,
)

_SIGNS = re.compile(r"([\\`*_\[\]<>|#~@])")


def as_markdown(report: Report) -> str:
    """The whole comparison."""
    return "\n".join(_lines(report)).strip() + "\n"


def _lines(report: Report) -> Iterator[str]:
    yield "## What changes for the people at the machines"
    yield ""
    yield f"**{_said(report.summary())}**"
    yield ""
    yield f"Old: {_said(report.old)}. New: {_said(report.new)}."
    yield from (f"\nNote: {_said(one)}." for one in report.notes)
    for where, reason in report.broken():
        yield f"\n**Limit newly broken: {_said(where)}: {_said(reason)}.**"
    late = [state.id.upper() for state in report.must_advance()]
    if late:
        yield f"\n**The revision must advance**, since the meaning changed: {', '.join(late)}."
    yield from _jobs(report)
    yield from _people(report)
    for consequence in Consequence:
        yield from _group(report, consequence)


def _jobs(report: Report) -> Iterator[str]:
    if not report.comparison.jobs:
        return
    yield ""
    yield "| job | revision | meaning | what follows |"
    yield "| --- | --- | --- | --- |"
    for state in report.comparison.jobs:
        revision = revision_text(state, "→").removeprefix("revision ")
        cells = (
            f"{state.id.upper()} {_said(state.title)}",
            revision + (" **must advance**" if state.must_advance else ""),
            fingerprint_text(state, "→"),
            _strong(state.consequence),
        )
        yield f"| {' | '.join(cells)} |"


def _strong(consequence: Consequence) -> str:
    value = consequence.value
    return f"**{value}**" if consequence.stops_a_run else value


def _people(report: Report) -> Iterator[str]:
    if not report.comparison.changes:
        return
    yield ""
    yield "### People"
    yield ""
    if report.due is None:
        yield NO_CREW
    elif not report.due:
        yield "Nobody in the crew is signed off for these jobs."
    for job, what, staff in due_groups(report.due or ()):
        yield f"- **{job}**, {what}: {', '.join(staff)}"


def _group(report: Report, consequence: Consequence) -> Iterator[str]:
    changes = report.of(consequence)
    if not changes:
        return
    yield ""
    yield f"### {HEADLINES[consequence]} ({len(changes)})"
    for name, group in by_record(changes):
        yield ""
        yield f"#### {_said(name)}"
        yield ""
        for change in group:
            yield from _change(change)


def _change(change: Change) -> Iterator[str]:
    where = _said(change.where or change.kind.value)
    if is_pair(change):
        yield f"- **{where}**: {_said(change.before)} → {_said(change.after)}"
    else:
        yield f"- **{_said(headline(change))}**"
        sides = (("before", change.before), ("after", change.after))
        for (label, text), seen in zip(sides, change.seen, strict=True):
            if text is not None:
                yield from _side(label, text)
            if seen is not None:
                yield from _picture(label, seen, is_told=change.record[0] == "files")
    file = f" (`{change.file}`)" if change.file else ""
    yield f"  - *{_said(change.why)}*{file}"
    if change.record[0] != "jobs" and change.jobs:
        yield f"  - jobs: {', '.join(one.upper() for one in change.jobs)}"
    for name, effects in by_set_up(change.effects):
        yield f"  - {_said(name)}"
        yield from (f"    - {_effect(label, one)}" for label, one in effects)


def _side(label: str, text: str) -> Iterator[str]:
    if not is_list(text):
        yield f"  - {label}: {_said(text)}"
        return
    yield f"  - {label}:"
    for mark, words in blocks(text):
        if mark is None:
            yield ""
        yield f"    {mark} {_said(words)}" if mark else f"    {_said(words)}"
        if mark is None:
            yield ""


def _picture(label: str, seen: Seen, *, is_told: bool) -> Iterator[str]:
    """The picture where the forge can show it, else its name and size; a forge fetches no file
    that lies in no revision, and shows no picture that is written into the text.
    """
    if seen.link:
        yield f"  - {label}: ![{_said(seen.words)}](<{seen.link}>)"
    elif not is_told:
        yield f"  - picture {label}: {_said(seen.words)}"


def _effect(label: str, effect: Effect) -> str:
    if is_said(effect):
        return f"**{effect.kind.value}**: {_said(said(effect))}{_shared(effect)}"
    percent = percent_text(effect)
    told = f" ({percent})" if percent else ""
    sides = f"{_said(effect.before or 'nothing')} → {_said(effect.after or 'nothing')}"
    return f"{_said(label)}: {sides}{told}{_shared(effect)}"


def _shared(effect: Effect) -> str:
    return "; other changes move it too" if effect.together else ""


def _said(text: str | None) -> str:
    """Text in which no sign is taken for Markdown, on one line."""
    return _SIGNS.sub(r"\\\1", " ".join((text or "").split()))
