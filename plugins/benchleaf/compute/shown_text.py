"""Running text as the learner reads it: each `[[figure:set-up#row]]` is the figure itself.

Pages, sheets, search and the fingerprint all take a job's words from here.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Mapping, Sequence

from benchleaf.formulas.quantities import Quantity
from benchleaf.formulas.threads import Thread
from benchleaf.formulas.unit_order import Units
from benchleaf.model import Job, SetUp, Shop, texts, with_texts
from benchleaf.model.textlinks import FIGURE, TEXT_LINK, TextLink, read_link, shows_figures

from .amounts import told_entered
from .results import SetUpSheet

WITHHELD = "(no figure: do not run)"
"""Stands for the figures of a set-up that nobody may run."""


def shown_job(job: Job, sheets: Sequence[SetUpSheet]) -> Job:
    """The job with every figure put into its sentences; the same job where none is asked for.

    Each figure has the units of the sheet that it stands on.
    """
    put = {path: shown_text(text, job, sheets) for path, text in texts(job) if shows_figures(text)}
    changed = with_texts(job, put) if put else job
    assert isinstance(changed, Job)
    return changed


def shown_shop(shop: Shop, sheets: Mapping[str, Sequence[SetUpSheet]]) -> Shop:
    """The shop with every figure put into the sentences of its jobs."""
    jobs = {job_id: shown_job(job, sheets.get(job_id, ())) for job_id, job in shop.jobs.items()}
    return dataclasses.replace(shop, jobs=jobs)


def as_read(sheets: Mapping[str, Sequence[SetUpSheet]]) -> dict[str, tuple[SetUpSheet, ...]]:
    """The sheets of each job in the units that its readers have first."""
    return {job_id: tuple(one.as_read for one in found) for job_id, found in sheets.items()}


def shown_text(text: str, job: Job, sheets: Sequence[SetUpSheet]) -> str:
    """One text of a job as it is read; a link that names no figure is left as it is."""

    def shown(found: re.Match[str]) -> str:
        link = read_link(found[1])
        words = figure_shown(link, job, sheets) if link.kind == FIGURE else None
        return found[0] if words is None else words

    return TEXT_LINK.sub(shown, text)


def figure_shown(link: TextLink, job: Job, sheets: Sequence[SetUpSheet]) -> str | None:
    """The words of the figure that a link names; None where there is none."""
    sheet = next((one for one in sheets if one.id == link.id), None)
    words = figures_of(link.id, job, sheets).get(link.anchor or "")
    return WITHHELD if words and sheet and not sheet.may_run else words


def figures_of(set_up: str, job: Job, sheets: Sequence[SetUpSheet]) -> Mapping[str, str]:
    """Every figure of a set-up by the name a link calls it: rows as computed, then as entered."""
    own = [sheet for sheet in sheets if sheet.id == set_up]
    units = own[0].units if own else Units.METRIC
    found = {
        name.replace("_", "-"): words
        for one in job.set_ups
        if one.id == set_up
        for name, words in _entered(one, units).items()
    }
    rows = (row for sheet in own for row in sheet.rows)
    computed = {row.key.replace("_", "-"): row.figure.text for row in rows if row.figure}
    return found | computed


def _entered(set_up: SetUp, units: Units) -> dict[str, str]:
    found = {}
    for name in type(set_up).model_fields:
        value = getattr(set_up, name)
        if isinstance(value, Quantity):
            found[name] = told_entered(value, units)
        elif isinstance(value, Thread):
            found[name] = value.name
    return found
