"""Published addresses that are gone: the entries that forward them, and where each leads.

Called by the pipeline with each load, and by the command that lists addresses.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

from benchleaf import link, read, validate
from benchleaf.compute.charts import charts
from benchleaf.diagnose import Finding, Place
from benchleaf.model import Shop

from . import address_register, forwards
from .faults import unfit
from .forward_entry import Forward
from .gaps import Gaps

NO_GAPS = Gaps()


def promised(shop: Shop) -> tuple[str, ...]:
    """Every address of the manual as it is now, in its order."""
    return tuple(link.every_address(shop, [chart.id for chart in charts(shop)]))


def check(
    registered: Mapping[str, Place],
    entries: forwards.Entries,
    shop: Shop,
    register_file: str,
    gaps: Gaps = NO_GAPS,
    *,
    documents: Sequence[read.Document] = (),
    faulty: Collection[str] = (),
    lost: Collection[str] = (),
) -> Iterator[Finding]:
    """Addresses that are gone, new ones, and entries that do not fit.

    Nothing is said of what the gaps hide. `faulty` names those of the two files, `addresses` and
    `forwards`, that have mistakes of their own: what these may lead to is not told as well.
    `lost` are addresses of which it is told already why they are gone.
    """
    hidden = gaps.hidden(registered) | (set(lost) & registered.keys())
    planned = (*promised(shop), *hidden)
    forwarded = set(forwards.moved(registered, planned, entries).to)
    renumbered = {one for one in forwarded if _is_renumbered(one, entries, registered, planned)}
    unsure = {one for one in registered if _may_be_forwarded(one, documents, faulty)}
    found = address_register.check_register(
        registered, planned, register_file, (forwarded - renumbered) | unsure
    )
    yield from (one for one in found if one.code != "A602" or not faulty)
    is_sure = "addresses" not in faulty  # else an entry may lead from what cannot be read
    apart = {old: one for old, one in entries.items() if old not in hidden}
    yield from forwards.check_forwards(registered, planned, apart, are_all_registered=is_sure)


def _may_be_forwarded(
    address: str, documents: Sequence[read.Document], faulty: Collection[str]
) -> bool:
    """True where forwards.yml has a mistake that may be about this address."""
    if "forwards" not in faulty:
        return False
    document = next((one for one in documents if one.kind == "forwards"), None)
    if document is None or document.echoes is not None:
        return True
    return address.partition("#")[0] in document.text


def _is_renumbered(
    old: str, entries: forwards.Entries, registered: Mapping[str, Place], planned: Sequence[str]
) -> bool:
    """True for a part that is gone while a new one came: it may be the same under a new number."""
    if not old.startswith(forwards.PART) or old in entries:
        return False
    return any(one.startswith(forwards.PART) and one not in registered for one in planned)


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
