"""What the lines of a list for new people lead to."""

from __future__ import annotations

from benchleaf.link import address, free_page_address
from benchleaf.model import Item

from .lookup import Lookup
from .values import Link

_FOLDERS = {
    "machine": "machines",
    "hazard": "hazards",
    "tool": "tools",
    "fluid": "fluids",
    "term": "terms",
}


def item_link(lookup: Lookup, item: Item) -> Link | None:
    """What a line of a list is about: job or step, page or record; None for an act alone."""
    if item.job:
        return _job_link(lookup, item.job, item.step)
    if item.page:
        target = free_page_address(item.page)
        words = (one.words for one in lookup.free_pages if one.address == target)
        return Link(target, next(words, item.page))
    named = ((kind, getattr(item, key)) for key, kind in _FOLDERS.items())
    return next((lookup.link(kind, found) for kind, found in named if found), None)


def _job_link(lookup: Lookup, job_id: str, step_id: str | None) -> Link:
    link = lookup.link("jobs", job_id)
    if step_id is None:
        return link
    steps = lookup.shop.jobs[job_id].steps
    number, step = next((n, one) for n, one in enumerate(steps, 1) if one.id == step_id)
    words = f"{job_id.upper()} step {number}: {step.title}"
    return Link(address("jobs", job_id, step_id), words)
