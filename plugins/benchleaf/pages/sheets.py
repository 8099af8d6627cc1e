"""Sheets printed from a breakdown: what a trainer carries, fills in and keeps."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import partial

from benchleaf.compute import amount, inside, told
from benchleaf.drawings.symbol import Symbol, symbol
from benchleaf.formulas.quantities import MM_PER_INCH
from benchleaf.formulas.rounding import Direction, to_step
from benchleaf.html.issue import issue_of
from benchleaf.html.lookup import Lookup
from benchleaf.html.site_facts import SHEET_STYLES, day_of_build
from benchleaf.html.values import Ends, Link, PlannedPage, Rendered
from benchleaf.html.writer import Writer
from benchleaf.link import SHEETS, sheet_address
from benchleaf.meaning import SHOWN
from benchleaf.model import Check, Job, PlantedFault, Tool, ToolKind, Units, units_at
from benchleaf.people.record_page import record_mark

from .card import Card, card
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
_INSIDE, _OUTSIDE = re.compile(r"\bplug\b", re.I), re.compile(r"\b(?:snap|ring)\b", re.I)


@dataclass(frozen=True, slots=True)
class Gauging:
    """A check with limits or a gauge, and the sizes at which the gauge goes and does not go."""

    step: int
    what: str
    limits: str
    """Empty where the gauge alone tells good from bad, by `how`."""
    between: str
    other: str
    """The same in the other units."""
    gauge: Link | None
    how: str
    go: str = ""
    """Size of the end that must go, where the gauge is a plug, snap or ring gauge."""
    no_go: str = ""


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
    planted: tuple[tuple[int, PlantedFault], ...]
    """What is set wrong on purpose, and put right before the machine starts."""
    pull: PullLesson | None
    wheels: tuple[Tool, ...]
    """Grinding wheels among the tools: what is set up where a job has no set-up."""
    card: Card


def sheet_links(lookup: Lookup, job: Job) -> tuple[Link, ...]:
    """A link to each sheet of a job that has something to say.

    A set-up sheet with nothing to set is still made, since its address may be printed somewhere.
    """
    offered = (one for one in SHEETS if one != "set-up" or _has_something_to_set(lookup, job))
    return tuple(Link(sheet_address(job.id, one), SHEET_WORDS[one]) for one in offered)


def _has_something_to_set(lookup: Lookup, job: Job) -> bool:
    return bool(job.set_ups or _wheels(lookup, job) or tuple(_gauging(lookup, job)))


def _wheels(lookup: Lookup, job: Job) -> tuple[Tool, ...]:
    tools = (lookup.shop.tools[one] for one in job.tools)
    return tuple(one for one in tools if one.kind is ToolKind.GRINDING_WHEEL)


def sheet_pages(lookup: Lookup, writer: Writer, content_name: str) -> Iterator[PlannedPage]:
    """Every sheet of every job."""
    for job in lookup.shop.jobs.values():
        made: dict[str, JobView] = {}  # the five sheets of a job share its view
        for one in SHEETS:
            render = partial(_rendered, lookup, writer, job, one, made)
            title = f"{SHEET_WORDS[one]}: {job.id.upper()} {job.title}"
            source = f"{content_name}/{lookup.shop.source_file('jobs', job.id)}"
            where = sheet_address(job.id, one)
            yield PlannedPage(where, title, source, render, styles=SHEET_STYLES)


def _rendered(
    lookup: Lookup, writer: Writer, job: Job, sheet: str, made: dict[str, JobView], ends: Ends
) -> Rendered:
    view = made.setdefault(job.id, job_view(lookup, job)) if job.id not in made else made[job.id]
    here = sheet_address(job.id, sheet)
    shown = sheet_view(lookup, view, sheet)
    manual = lookup.shop.manual
    html = writer.write(
        f"sheet-{sheet}.html.jinja",
        here,
        ends,
        sheet=shown,
        view=view,
        manual=manual,
        units=units_at(lookup.shop, job),
    )
    return Rendered(html, ())


def sheet_view(lookup: Lookup, view: JobView, sheet: str) -> SheetView:
    """The view of one sheet."""
    job, number = view.job, view.number
    manual = lookup.shop.manual
    server = manual.server
    steps = tuple(enumerate(job.steps, 1))
    text = f"{server}jobs/{job.id}.html" if server else number
    if sheet == "try-out":  # the record page compares it with its own
        text = record_mark(job, lookup.fingerprints.get(job.id, ""))
    return SheetView(
        sheet,
        SHEET_WORDS[sheet],
        view,
        lookup.fingerprints.get(job.id, "")[:SHOWN],
        day_of_build(),
        symbol(text, READ_FROM_MM, f"Symbol for a scanner: {text}{_draft(lookup, job)}"),
        tuple(link for link in sheet_links(lookup, job) if link.words != SHEET_WORDS[sheet]),
        tuple(_gauging(lookup, job)),
        tuple((number, one) for number, step in steps for one in step.props),
        tuple((number, step.planted) for number, step in steps if step.planted),
        pull_lesson(job, lookup.sheets(job)),
        _wheels(lookup, job),
        card(view, job.call or manual.call, manual.emergency, manual.do_not_run),
    )


def _draft(lookup: Lookup, job: Job) -> str:
    drafts = lookup.shop.drafts
    return f" ({issue_of(job, drafts)})" if job.id in drafts else ""


def _gauging(lookup: Lookup, job: Job) -> Iterator[Gauging]:
    units = units_at(lookup.shop, job)
    for number, step in enumerate(job.steps, 1):
        for check in step.checks:
            shown = check_view(lookup, check, units)
            how = check.how or ""
            if shown.between_mm is not None and shown.limits is not None:
                low, high = shown.between_mm
                other = _in_other(low, high, units)
                ends = _go_and_no_go(lookup, check, (low, high), units)
                yield Gauging(
                    number, check.what, shown.limits, shown.limits_low_high or "", other,
                    shown.gauge, how, *ends,
                )  # fmt: skip
            elif shown.gauge is not None:
                yield Gauging(number, check.what, "", "", "", shown.gauge, how)


def _in_other(low: float, high: float, units: Units) -> str:
    if units is Units.INCH:
        return inside(low, high, "mm", 3).text
    return f"{low / MM_PER_INCH:.4f} to {high / MM_PER_INCH:.4f} in"


def _go_and_no_go(
    lookup: Lookup, check: Check, limits: tuple[float, float], units: Units
) -> tuple[str, str]:
    """GO is the end that takes all the metal the limits allow: least hole, greatest shaft.

    Common practice after Taylor; ISO 1938-1 and ASME B4.4M have it (from memory).
    """
    gauge = lookup.shop.tools.get(check.gauge or "")
    name = " ".join((gauge.name, *gauge.also)) if gauge else ""
    low, high = _size(limits[0], units, "up"), _size(limits[1], units, "down")
    if _INSIDE.search(name):
        return low, high
    if _OUTSIDE.search(name):
        return high, low
    return "", ""


def _size(mm: float, units: Units, toward: Direction) -> str:
    """One end of the limits, never outside of them where inches stand first."""
    if units is Units.INCH:
        inner = to_step(mm, 0.001, direction=toward)
        return f"{told(amount(mm, 'mm', 3, toward), units)} ({_bare(inner)} mm)"
    return f"{_bare(mm)} mm ({mm / MM_PER_INCH:.4f} in)"


def _bare(mm: float) -> str:
    return f"{mm:.3f}".rstrip("0").rstrip(".")
