"""`promised.yml` written: what people were told of a plan, one line a session."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from benchleaf.model import Promised, PromisedLesson
from benchleaf.plan import Timetable, promise_of
from benchleaf.read.folder import PROMISED_FILE
from benchleaf.write import write_text

_HEAD = """\
# What people were told of the plan. `benchleaf timetable --promise` writes this file.
# The next plan keeps to it, and says what had to move and why.
"""


def promised_text(promised: Promised) -> str:
    """The file."""
    return _HEAD + "".join(f"{line}\n" for line in _lines(promised))


def write_promised(crew: Path, plan: Timetable) -> Path:
    """Write the file of a plan whole, or leave the former one."""
    path = crew / PROMISED_FILE
    write_text(path, promised_text(promise_of(plan)), within=crew)
    return path


def _lines(promised: Promised) -> Iterator[str]:
    yield f"made: {promised.made}"
    if promised.lessons:
        yield "lessons:"
        for one in promised.lessons:
            yield from _lesson(one)
    if promised.checks:
        yield "checks:"
    for each in promised.checks:
        yield (
            f"  - {{job: {each.job.upper()}, person: {each.person}, trainer: {each.trainer}, "
            f'day: {each.day}, starts: "{each.starts:%H:%M}"}}'
        )


def _lesson(one: PromisedLesson) -> Iterator[str]:
    yield f"  - job: {one.job.upper()}"
    yield f"    people: [{', '.join(one.people)}]"
    yield f"    trainer: {one.trainer}"
    yield f"    round: {one.round}"
    yield "    sessions:"
    for each in one.sessions:
        yield f'      - {{day: {each.day}, starts: "{each.starts:%H:%M}", minutes: {each.minutes}}}'
