"""L301: every id in a field names a record that exists."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding, Place, Severity, suggestion
from benchleaf.model import KINDS, Record, Shop, references

from ..places import Places


def check(
    shop: Shop, places: Places, kind: str, record_id: str, record: Record
) -> Iterator[Finding]:
    """A finding for each reference that points nowhere."""
    for path, wanted_kind, wanted in references(record):
        if not exists(shop, places, wanted_kind, wanted):
            yield dangling(shop, wanted_kind, wanted, places.of(kind, record_id, path))


def exists(shop: Shop, places: Places, kind: str, record_id: str) -> bool:
    """True for a record that is there, also where it is there with mistakes of its own."""
    unbuilt = ((kind, record_id), (kind, kind))  # the second: a whole shared list, like terms
    return record_id in shop.of_kind(kind) or any(one in places.unbuilt for one in unbuilt)


def dangling(shop: Shop, kind: str, record_id: str, place: Place, *, written: str = "") -> Finding:
    """The finding, with the nearest id, also of another kind."""
    text = f"{written}there is no '{record_id}' among the {kind}"
    elsewhere = tuple(
        f"'{record_id}' is one of the {other}"
        for other in KINDS
        if record_id in shop.of_kind(other)
    )
    help_lines = (*elsewhere, *suggestion(record_id, shop.of_kind(kind), what=f"the {kind}"))
    return Finding("L301", Severity.ERROR, place, text, help_lines)
