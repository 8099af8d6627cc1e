"""Sheets printed from a breakdown: what a trainer carries, fills in and keeps."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import partial

from benchleaf.diff import SHOWN, fingerprint
from benchleaf.drawings.symbol import Symbol, symbol
from benchleaf.html.lookup import Lookup
from benchleaf.html.site_facts import day_of_build
from benchleaf.html.values import Link, PlannedPage, Rendered
from benchleaf.html.writer import Writer
from benchleaf.link import SHEETS, sheet_address
from benchleaf.model import Check, Job

from .job_view import JobView, check_view, job_view
from .pull_lesson import PullLesson, pull_lesson

SHEET_WORDS = {
    "breakdown": "Breakdown sheet",
    "card": "Pocket card",
    "try-out": "Try-out record",
    "get-ready": "Get-ready list",
    "set-up": "Set-up sheet",
}
"""What each sheet is called."""
READ_FROM_MM = 200
"""A card is read in the hand: our choice."""
MM_PER_INCH = 25.4
_INSIDE, _OUTSIDE = re.compile(r"\bplug\b", re.I), re.compile(r"\b(?:snap|ring)\b", re.I)


@dataclass(frozen=True, slots=True)
class Gauging:
    """A check with limits, and the sizes at which its gauge goes and does not go."""

    step: int
    what: str
    limits: str
    between: str
    inches: str
    gauge: Link | None
    go: str = ""
    """Size of the end that must go, where the gauge is a plug, snap or ring gauge."""
    not_go: str = ""


@dataclass(frozen=True, slots=True)
class SheetView:
    """What every sheet of a job is made of."""

    sheet: str
    name: str
    view: JobView
    fingerprint: str
    """The digits that are shown."""
    made: date
    symbol: Symbol
    others: tuple[Link, ...]
    """The other sheets of the job."""
    gauging: tuple[Gauging, ...]
    props: tuple[tuple[int, str], ...]
    """What the trainer needs for the lesson, each with the number of its step."""
    put_right: tuple[tuple[int, str], ...]
    """What was set wrong on purpose, and is put right at the end."""
    pull: PullLesson | None


def sheet_links(job: Job) -> tuple[Link, ...]:
    """A link to each sheet of a job."""
    return tuple(Link(sheet_address(job.id, one), SHEET_WORDS[one]) for one in SHEETS)


def sheet_pages(lookup: Lookup, writer: Writer, content_name: str) -> Iterator[PlannedPage]:
    """Every sheet of every job."""
    for job in lookup.shop.jobs.values():
        made: dict[str, JobView] = {}  # the five sheets of a job share its view
        for one in SHEETS:
            render = partial(_rendered, lookup, writer, job, one, made)
            title = f"{SHEET_WORDS[one]}: {job.id.upper()} {job.title}"
            source = f"{content_name}/jobs/{job.id}.yml"
            yield PlannedPage(sheet_address(job.id, one), title, source, render)


def _rendered(
    lookup: Lookup, writer: Writer, job: Job, sheet: str, made: dict[str, JobView]
) -> Rendered:
    view = made.setdefault(job.id, job_view(lookup, job)) if job.id not in made else made[job.id]
    here = sheet_address(job.id, sheet)
    shown = sheet_view(lookup, view, sheet)
    manual = lookup.shop.manual
    html = writer.write(f"sheet-{sheet}.html.jinja", here, sheet=shown, view=view, manual=manual)
    return Rendered(html, (), ())


def sheet_view(lookup: Lookup, view: JobView, sheet: str) -> SheetView:
    """The view of one sheet."""
    job, number = view.job, view.number
    server = lookup.shop.manual.server
    steps = tuple(enumerate(job.steps, 1))
    text = f"{server}jobs/{job.id}.html" if server else number
    return SheetView(
        sheet,
        SHEET_WORDS[sheet],
        view,
        fingerprint(lookup.shop, job, lookup.sheets(job))[:SHOWN],
        day_of_build(),
        symbol(text, READ_FROM_MM, f"Symbol for a scanner: {text}"),
        tuple(link for link in sheet_links(job) if link.words != SHEET_WORDS[sheet]),
        tuple(_gauging(lookup, job)),
        tuple((number, one) for number, step in steps for one in step.props),
        tuple((number, step.planted.put_right) for number, step in steps if step.planted),
        pull_lesson(job, lookup.sheets(job)),
    )


def _gauging(lookup: Lookup, job: Job) -> Iterator[Gauging]:
    for number, step in enumerate(job.steps, 1):
        for check in step.checks:
            shown = check_view(lookup, check)
            if shown.between_mm is not None and shown.limits is not None:
                low, high = shown.between_mm
                inches = f"{low / MM_PER_INCH:.4f} to {high / MM_PER_INCH:.4f} in"
                go, not_go = _go_and_not_go(lookup, check, low, high)
                yield Gauging(
                    number, check.what, shown.limits, shown.limits_low_high or "", inches,
                    shown.gauge, go, not_go,
                )  # fmt: skip


def _go_and_not_go(lookup: Lookup, check: Check, low: float, high: float) -> tuple[str, str]:
    """GO is the end that takes all the metal the limits allow: least hole, greatest shaft.

    Common practice after Taylor; ISO 1938-1 and ASME B4.4M have it (from memory).
    """
    gauge = lookup.shop.tools.get(check.gauge or "")
    name = " ".join((gauge.name, *gauge.also)) if gauge else ""
    if _INSIDE.search(name):
        return _size(low), _size(high)
    if _OUTSIDE.search(name):
        return _size(high), _size(low)
    return "", ""


def _size(mm: float) -> str:
    return f"{mm:.3f}".rstrip("0").rstrip(".") + f" mm ({mm / MM_PER_INCH:.4f} in)"
