"""Slips that say *this page is wrong*: what a screen kept, read back for the engineer's list.

A slip is one line: job, step, revision, and one of a few ready words. There is no room in it for
anything about a person.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from benchleaf.diagnose import Finding, Place, Severity, suggestion
from benchleaf.model import Job

WORDS = (
    "a hazard is missing",
    "a number is wrong",
    "the picture does not match",
    "I cannot do this as written",
    "I do not understand the words",
    "something else is wrong",
)
"""What a slip may say, the gravest first; also on the screen and on the printed form."""
HEAD = "job; step; revision; what is wrong"
"""The first line of a file of slips."""
WHOLE = "whole page"
"""What stands in place of a step."""


@dataclass(frozen=True, slots=True)
class Slip:
    """One slip."""

    job: str
    step: str
    """The step's id; empty where it is about the whole page."""
    revision: str
    """As the page calls itself: `revision 5`, or what it is a draft of."""
    what: str


def slips_of(text: str, name: str) -> tuple[tuple[Slip, ...], tuple[Finding, ...]]:
    """The slips in a text, and every line that is none."""
    slips, findings = [], []
    for number, line in enumerate(text.removeprefix("\ufeff").splitlines(), 1):
        if not line.strip() or _plain(line) == _plain(HEAD):
            continue
        cells = [" ".join(one.split()) for one in line.split(";")]
        place = Place(name, number, 1)
        if len(cells) != 4 or not all(cells):
            said = f"'{line.strip()}' is no slip: {len(cells)} parts, and a slip has 4"
            findings.append(_amiss(place, said, (f"a slip reads: {HEAD}",)))
            continue
        job, step, revision, what = cells
        known = next((one for one in WORDS if _plain(one) == _plain(what)), "")
        if not known:
            at = Place(name, number, line.rfind(";") + 2)
            allowed = suggestion(what, WORDS, what="words of a slip")
            findings.append(_amiss(at, f"no slip says '{what}'", allowed))
            continue
        where = "" if _plain(step) == WHOLE else step.lower()
        slips.append(Slip(job.lower(), where, revision.lower(), known))
    return tuple(slips), tuple(findings)


def _plain(text: str) -> str:
    return " ".join(text.lower().split())


def _amiss(place: Place, text: str, help_lines: tuple[str, ...]) -> Finding:
    return Finding("R124", Severity.ERROR, place, text, help_lines)


def slips_listed(slips: Iterable[Slip], jobs: Mapping[str, Job], drafts: Iterable[str] = ()) -> str:
    """The slips by job and step, in the order of the steps, the same ones counted."""
    counted = Counter(slips)
    if not counted:
        return "no slips"
    lines: list[str] = []
    for job_id in sorted({one.job for one in counted}, key=lambda one: (one not in jobs, one)):
        job = jobs.get(job_id)
        title = job.title if job else "no job of this content"
        lines.append(f"{job_id.upper()}  {title}")
        here = [one for one in counted if one.job == job_id]
        for step in sorted({one.step for one in here}, key=lambda one: _place(job, one)):
            lines.append(f"  {_step_words(job, step)}")
            at_step = [one for one in here if one.step == step]
            for slip in sorted(at_step, key=lambda one: (WORDS.index(one.what), one.revision)):
                times = f"  {counted[slip]} times" if counted[slip] > 1 else ""
                former = _former(job, slip, is_draft=job_id in drafts)
                lines.append(f"    {slip.what}  ({slip.revision}{former}){times}")
    total = counted.total()
    lines.append(f"{total} slip{'s' if total != 1 else ''}")
    return "\n".join(lines)


def _place(job: Job | None, step: str) -> tuple[int, str]:
    ids = [one.id for one in job.steps] if job else []
    return (ids.index(step) + 1 if step in ids else len(ids) + 1 if step else 0), step


def _step_words(job: Job | None, step: str) -> str:
    if not step:
        return WHOLE
    for number, one in enumerate(job.steps if job else (), 1):
        if one.id == step:
            return f"step {number}, {one.title}"
    return f"step '{step}', which is not there now"


def _former(job: Job | None, slip: Slip, *, is_draft: bool) -> str:
    """What the job is now, where that is not what the slip was written on."""
    if job is None or is_draft or slip.revision == f"revision {job.revision}".lower():
        return ""
    return f", now revision {job.revision}"
