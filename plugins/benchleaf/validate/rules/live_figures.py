"""L301 for figures in running text: each `[[figure:set-up#row]]` of a job names one of its own."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.compute import figures_of
from benchleaf.diagnose import Finding, Severity, suggestion
from benchleaf.model import KeyPath, texts
from benchleaf.model.textlinks import FIGURE, TextLink, text_links

from ..case import JobCase
from ..rule import JobRule
from .references import CODE as DANGLING


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each link to a figure that the job does not have."""
    for path, text in texts(case.job):
        if "[[" in text:
            for link in text_links(text):
                if link.kind == FIGURE:
                    yield from _of_link(case, path, link)


def _of_link(case: JobCase, path: KeyPath, link: TextLink) -> Iterator[Finding]:
    set_ups = [one.id for one in case.job.set_ups]
    figures = figures_of(link.id, case.job, case.sheets)
    if link.id not in set_ups:
        what = f"this job has no set-up '{link.id}'"
        cure = suggestion(link.id, set_ups, what="set-ups of this job")
    elif link.anchor not in figures:
        what = f"set-up '{link.id}' shows no figure '{link.anchor or ''}'"
        cure = suggestion(link.anchor or "", list(figures), what="its figures")
    else:
        return
    yield Finding(
        DANGLING.id, Severity.ERROR, case.place(*path), f"'[[{link.written}]]': {what}", cure
    )


RULE = JobRule(check, (DANGLING,))
