"""L301 in running text: every `[[link]]` leads to a record, and to a step that it has."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial

from benchleaf.diagnose import Finding, Place, Severity, suggestion
from benchleaf.model import Record, Shop, texts
from benchleaf.model.textlinks import FIGURE, TextLink, link_kinds, text_links

from ..places import Places
from ..rule import RecordRule
from .references import CODE as DANGLING
from .references import dangling, exists


def check(
    shop: Shop, places: Places, kind: str, record_id: str, record: Record
) -> Iterator[Finding]:
    """A finding for each link in text that points nowhere."""
    for path, text in texts(record):
        if "[[" in text:
            place = partial(places.of, kind, record_id, path)
            yield from check_text(shop, places, text, place, has_figures=kind == "jobs")


def check_text(
    shop: Shop, places: Places, text: str, place: Callable[[], Place], *, has_figures: bool = False
) -> Iterator[Finding]:
    """The links of one text; `place` says where it stands, and is asked only where needed.

    A job's figures are looked at with its set-ups (`live_figures.py`).
    """
    for link in text_links(text):
        if link.kind is None:
            yield _not_a_link(link, place())
        elif link.kind == FIGURE:
            yield from () if has_figures else (_no_figure(link, place()),)
        elif not exists(shop, places, link.kind, link.id):
            yield dangling(shop, link.kind, link.id, place(), written=f"'[[{link.written}]]': ")
        elif link.anchor is not None:
            yield from _anchor(shop, link, place)


def _not_a_link(link: TextLink, place: Place) -> Finding:
    return Finding(
        DANGLING.id,
        Severity.ERROR,
        place,
        f"'[[{link.written}]]' is no link",
        (
            "write [[TR-0140]] for a job, [[kind:id]] for others, with #step for a step",
            f"kinds: {', '.join(link_kinds())}",
        ),
    )


def _no_figure(link: TextLink, place: Place) -> Finding:
    return Finding(
        DANGLING.id,
        Severity.ERROR,
        place,
        f"'[[{link.written}]]': only a job's own sentences can show a figure",
        ("write the figure out, or link to the job that has it: [[TR-0140]]",),
    )


def _anchor(shop: Shop, link: TextLink, place: Callable[[], Place]) -> Iterator[Finding]:
    """Steps and set-ups are the places a link may name inside a job."""
    if link.kind != "jobs":
        yield Finding(
            DANGLING.id,
            Severity.ERROR,
            place(),
            f"'[[{link.written}]]': only jobs have places that a link can name",
            ("take the part after # out",),
        )
    job = shop.jobs.get(link.id) if link.kind == "jobs" else None
    if job is None:
        return
    known = [*(step.id for step in job.steps), *(set_up.id for set_up in job.set_ups)]
    if link.anchor not in known:
        yield Finding(
            DANGLING.id,
            Severity.ERROR,
            place(),
            f"'[[{link.written}]]': job {link.id.upper()} has no step or set-up '{link.anchor}'",
            suggestion(str(link.anchor), known, what="steps and set-ups"),
        )


RULE = RecordRule(check, (DANGLING,))
