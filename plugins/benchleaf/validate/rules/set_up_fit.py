"""V402: a set-up uses a tool of its job, and a step names a set-up of its job; L303: ids once."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding, Related, Severity, suggestion

from ..case import JobCase


def check(case: JobCase) -> Iterator[Finding]:
    """Findings about the inside of a case.job."""
    yield from _tools(case)
    yield from _steps(case)
    yield from _elements(case)
    yield from _anchors(case)


def _tools(case: JobCase) -> Iterator[Finding]:
    for index, set_up in enumerate(case.job.set_ups):
        dangling = any(tool not in case.shop.tools for tool in (set_up.tool, *case.job.tools))
        if not dangling and set_up.tool not in case.job.tools:
            yield Finding(
                "V402",
                Severity.ERROR,
                case.place("set_ups", index, "tool"),
                f"the set-up uses '{set_up.tool}', which is no tool of this job",
                (
                    "add it to the job's tools, or name one of them",
                    *suggestion(set_up.tool, case.job.tools, what="tools of this job"),
                ),
            )


def _elements(case: JobCase) -> Iterator[Finding]:
    known = [set_up.id for set_up in case.job.set_ups]
    rate = case.job.piece_rate
    for index, element in enumerate(rate.elements if rate else ()):
        if element.set_up is not None and element.set_up not in known:
            yield Finding(
                "V402",
                Severity.ERROR,
                case.place("piece_rate", "elements", index, "set_up"),
                f"an element of the piece names set-up '{element.set_up}', which this job has not",
                suggestion(element.set_up, known, what="set-ups of this job"),
            )


def _steps(case: JobCase) -> Iterator[Finding]:
    known = [set_up.id for set_up in case.job.set_ups]
    for index, step in enumerate(case.job.steps):
        if step.set_up is not None and step.set_up not in known:
            yield Finding(
                "V402",
                Severity.ERROR,
                case.place("steps", index, "set_up"),
                f"the step names the set-up '{step.set_up}', which this job has not",
                suggestion(step.set_up, known, what="set-ups of this job"),
            )


def _anchors(case: JobCase) -> Iterator[Finding]:
    """Steps and set-ups share the page, so their ids are told apart together."""
    job = case.job
    named = [(step.id, ("steps", index, "id")) for index, step in enumerate(job.steps)]
    named += [(set_up.id, ("set_ups", index, "id")) for index, set_up in enumerate(job.set_ups)]
    if len({anchor for anchor, _ in named}) == len(named):
        return  # so it is nearly always: no place needs to be found
    named.sort(key=lambda one: case.place(*one[1]))
    first: dict[str, tuple[str | int, ...]] = {}
    for anchor, path in named:
        if anchor in first:
            yield Finding(
                "L303",
                Severity.ERROR,
                case.place(*path),
                f"the id '{anchor}' is used twice in this job",
                ("give one of the two another id",),
                (Related(case.place(*first[anchor]), "used first here"),),
            )
        else:
            first[anchor] = path
