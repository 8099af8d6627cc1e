"""V402: a set-up uses a tool of its job, and a step names a set-up of its job; L303: ids once."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding, Related, Severity, suggestion
from benchleaf.model import Job, Shop

from ..places import Places

RESERVED = frozenset(
    {
        "makes",
        "know-first",
        "wear",
        "machine-controls",
        "hazards",
        "have-ready",
        "set-up",
        "steps",
        "if-wrong",
        "hand-on",
        "revision",
        "top",
    }
)
"""Anchors of the job page's own sections; a step may not take them."""


def check(shop: Shop, places: Places) -> Iterator[Finding]:
    """Findings about the inside of each job."""
    for job in shop.jobs.values():
        yield from _tools(shop, job, places)
        yield from _steps(job, places)
        yield from _anchors(job, places)


def _tools(shop: Shop, job: Job, places: Places) -> Iterator[Finding]:
    for index, set_up in enumerate(job.set_ups):
        dangling = any(tool not in shop.tools for tool in (set_up.tool, *job.tools))
        if not dangling and set_up.tool not in job.tools:
            yield Finding(
                "V402",
                Severity.ERROR,
                places.of("jobs", job.id, ("set_ups", index, "tool")),
                f"the set-up uses '{set_up.tool}', which is no tool of this job",
                (
                    "add it to the job's tools, or name one of them",
                    *suggestion(set_up.tool, job.tools, what="tools of this job"),
                ),
            )


def _steps(job: Job, places: Places) -> Iterator[Finding]:
    known = [set_up.id for set_up in job.set_ups]
    for index, step in enumerate(job.steps):
        if step.set_up is not None and step.set_up not in known:
            yield Finding(
                "V402",
                Severity.ERROR,
                places.of("jobs", job.id, ("steps", index, "set_up")),
                f"the step names the set-up '{step.set_up}', which this job has not",
                suggestion(step.set_up, known, what="set-ups of this job"),
            )


def _anchors(job: Job, places: Places) -> Iterator[Finding]:
    """Steps and set-ups share the page, so their ids are told apart together."""
    named = [(step.id, ("steps", index, "id")) for index, step in enumerate(job.steps)]
    named += [(set_up.id, ("set_ups", index, "id")) for index, set_up in enumerate(job.set_ups)]
    named.sort(key=lambda one: places.of("jobs", job.id, one[1]))
    first: dict[str, tuple[str | int, ...]] = {}
    for anchor, path in named:
        if anchor in RESERVED:
            yield Finding(
                "L303",
                Severity.ERROR,
                places.of("jobs", job.id, path),
                f"'{anchor}' is kept for a part of the job page",
                ("give the step another id",),
            )
        elif anchor in first:
            yield Finding(
                "L303",
                Severity.ERROR,
                places.of("jobs", job.id, path),
                f"the id '{anchor}' is used twice in this job",
                ("give one of the two another id",),
                (Related(places.of("jobs", job.id, first[anchor]), "used first here"),),
            )
        else:
            first[anchor] = path
