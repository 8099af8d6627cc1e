"""What the rules of common practice look for in the words of a breakdown. A helper, no rule."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchleaf.diagnose import Finding, Place, Severity
from benchleaf.model import Job, Shop, Step, ToolKind

_SENTENCE = re.compile(r"[^.!?]+[.!?]?")
_NOT = re.compile(r"\b(never|not|no|don't|without|instead of)\b", re.IGNORECASE)


def words(pattern: str) -> re.Pattern[str]:
    """A pattern of whole words, without regard to capitals."""
    return re.compile(rf"\b(?:{pattern})\b", re.IGNORECASE)


def said_in(step: Step) -> str:
    """Title, key points and reasons of a step as one text."""
    points = (f"{one.point} {one.reason}" for one in step.key_points)
    return " ".join((f"{step.title}.", *points))


def asked_in(step: Step) -> str:
    """Title and key points of a step: what is to be done, without the reasons."""
    return " ".join((f"{step.title}.", *(one.point for one in step.key_points)))


def in_one_point(step: Step, *patterns: re.Pattern[str]) -> bool:
    """True where one key point holds all the patterns."""
    return any(says(one.point, *patterns) for one in step.key_points)


def told(text: str, *patterns: re.Pattern[str]) -> bool:
    """True where one sentence that forbids nothing holds all the patterns."""
    return any(
        all(pattern.search(sentence) for pattern in patterns) and not _NOT.search(sentence)
        for sentence in _SENTENCE.findall(text)
    )


def says(text: str, *patterns: re.Pattern[str]) -> bool:
    """True where every pattern is found somewhere in the text."""
    return all(pattern.search(text) for pattern in patterns)


def drills(shop: Shop, job: Job) -> bool:
    """True for a job that drills: it has a drilling set-up, or a drill among its tools."""
    tools = (shop.tools.get(tool_id) for tool_id in job.tools)
    has_drill = any(tool is not None and tool.kind is ToolKind.DRILL for tool in tools)
    return has_drill and bool(job.set_ups)


def practice(job: Job, code: str, place: Place, text: str, cure: str) -> Iterator[Finding]:
    """A warning of common practice, unless the job accepts it."""
    if not job.accepts(code):
        yield Finding(
            code,
            Severity.WARNING,
            place,
            text,
            (cure, f"where it does not fit this job: accept: [{{code: {code}, reason: ...}}]"),
        )
