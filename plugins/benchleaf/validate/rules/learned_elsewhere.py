"""V532: a job that builds on what another job taught asks for that job first. A house rule."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample
from benchleaf.model import Area, Job, Shop, area_at, texts
from benchleaf.model.textlinks import TEXT_LINK, read_link

from ..case import JobCase
from ..rule import JobRule
from .sentence_length import sentences

CODE = Code(
    "V532",
    "A job builds on another job and does not ask for it",
    why=(
        "House rule. The timetable and the plan follow `know_first` only: the learner would come "
        "here before the skill was taught."
    ),
    instead="Add the job named to `know_first`, or say the skill here.",
    bad=(
        Sample(
            """
            # A skill of another job that the learner need not know first.
            - file: jobs/vg-0010.yml
              find: Where the emergency stop is.
              put: You can deburr by hand. You learned it in [[VG-0020]].
            """,
            """
            content/jobs/vg-0010.yml:32:5: warning V532 this builds on what VG-0020 taught,
                    and the job does not ask for it
                add VG-0020 to know_first
                where it does not fit this job: accept: [{code: V532, reason: ...}]
            """,
        ),
    ),
    good="""
        # Only mentioned.
        - file: jobs/vg-0010.yml
          find: Where the emergency stop is.
          put: The next job is [[VG-0020]].
    """,
)

_LINK = r"\[\[[^\]]*\]\]"
_BY_YOU = re.compile(
    r"\byou(?:'ve|\s+have|\s+had)?\s+(?:(?:already|first|once|all)\s+)?learn(?:ed|t)\b|"
    rf"\blearn(?:ed|t)\s+(?:\w+\s+)?(?:in|from|at|with)\s+{_LINK}|"
    rf"\byou\s+(?:can|know|are\s+able\s+to)\b[^.!?]*\bfrom\s+{_LINK}|"
    rf"\b(?:skill|way|grip|count)\s+(?:that\s+)?(?:you\s+)?(?:know|have)\s+from\s+{_LINK}",
    re.IGNORECASE,
)
_OTHERS = re.compile(
    r"\b(?:setters?|trainers?|fitters?|people|persons?|somebody|those|whoever|operators?|everybody)"
    r"\b[^.!?]*\blearn",
    re.IGNORECASE,
)
_NOT = re.compile(r"\b(?:not|never|haven't|nobody|will)\b[^.!?]*\blearn", re.IGNORECASE)
_NOT_A_LEARNERS = (Area.REVISION, Area.CHECKS_ONLY, Area.TRAINER)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each job whose skill is built on and that is not asked for."""
    asked = _asked_for(case.shop, case.job)
    told: set[str] = set()
    for path, text in texts(case.job):
        if area_at(Job, path) in _NOT_A_LEARNERS:
            continue
        for wanted in built_on(text):
            if wanted in asked or wanted in told or wanted not in case.shop.jobs:
                continue
            told.add(wanted)
            yield from case.practice(
                CODE,
                path,
                f"this builds on what {wanted.upper()} taught, and the job does not ask for it",
                f"add {wanted.upper()} to know_first",
            )


def built_on(text: str) -> Iterator[str]:
    """The ids of jobs that a text calls the place where something was learned."""
    for one in sentences(text):
        if _BY_YOU.search(one) and not (_OTHERS.search(one) or _NOT.search(one)):
            for match in TEXT_LINK.finditer(one):
                link = read_link(match[1])
                if link.kind == "jobs":
                    yield link.id


def _asked_for(shop: Shop, job: Job) -> frozenset[str]:
    """The job itself, and every job it asks for, directly or through others."""
    seen: set[str] = {job.id}
    waiting = list(job.know_first)
    while waiting:
        wanted = waiting.pop()
        if wanted not in seen:
            seen.add(wanted)
            found = shop.jobs.get(wanted)
            waiting += found.know_first if found is not None else ()
    return frozenset(seen)


RULE = JobRule(check, (CODE,))
