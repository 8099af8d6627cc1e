"""Published addresses that are gone: the entries that forward them, and where each leads.

Called by the pipeline with each load, and by the command that lists addresses.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from benchleaf import link, read, validate
from benchleaf.compute.charts import charts
from benchleaf.diagnose import Finding, Place
from benchleaf.model import Shop

from . import address_register, forwards
from .faults import unfit
from .forward_entry import Forward


def promised(shop: Shop) -> tuple[str, ...]:
    """Every address of the manual as it is now, in its order."""
    return tuple(link.every_address(shop, [chart.id for chart in charts(shop)]))


def check(
    registered: Mapping[str, Place], entries: forwards.Entries, shop: Shop, register_file: str
) -> Iterator[Finding]:
    """Addresses that are gone, new ones, and entries that do not fit."""
    planned = promised(shop)
    forwarded = forwards.moved(registered, planned, entries).to
    yield from address_register.check_register(registered, planned, register_file, forwarded)
    yield from forwards.check_forwards(registered, planned, entries)


def moved(registered: Mapping[str, Place], entries: forwards.Entries, shop: Shop) -> forwards.Moved:
    """Where each published address that is gone leads now."""
    return forwards.moved(registered, promised(shop), entries)


def entries(
    documents: Iterable[read.Document],
) -> tuple[dict[str, tuple[Forward, Place]], tuple[Finding, ...]]:
    """Forwarding entries by their old address, and what is wrong with them."""
    document = next((one for one in documents if one.kind == "forwards"), None)
    if document is None:
        return {}, ()
    listed = document.value.get("forwards") if isinstance(document.value, dict) else None
    if not isinstance(listed, list):
        place = Place(document.name, 1, 1)
        return {}, (unfit(place, "this file holds no list 'forwards'", "start with 'forwards:'"),)
    found: dict[str, tuple[Forward, Place]] = {}
    problems: list[Finding] = []
    for index, value in enumerate(listed):
        source = read.Source(document, ("forwards", index), value)
        entry, slips = validate.build(Forward, source)
        problems += slips
        if entry is not None and entry.old in found:
            text = f"'{entry.old}' is forwarded twice"
            problems.append(unfit(source.tree.place, text, "take one of the two out"))
        elif entry is not None:
            found[entry.old] = (entry, source.tree.place)
    return found, tuple(problems)
