"""The entries of each register as the chain sees them: what each says, and its link."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence

from benchleaf.read import Document, Listing, Scalar, Source, child

from .chain import Linked
from .history_entry import Released
from .revision_entry import RegisteredRevision
from .revision_register import line_said

History = Sequence[tuple[Released, Source]]


def released_said(one: Released) -> str:
    """Everything that an entry of the history says, without its link."""
    said = one.model_dump(mode="json", exclude={"link"})
    return json.dumps(said, sort_keys=True, ensure_ascii=True)


def address_and_link(text: str) -> tuple[str, str]:
    """An entry of addresses.yml: the address, and the link after it."""
    address, _, link = text.partition(" ")
    return address, link.strip()


def of_history(history: History) -> list[Linked]:
    """The entries of history.yml."""
    return [_linked(one, released_said(one), source) for one, source in history]


def of_revisions(entries: Sequence[tuple[RegisteredRevision, Source]]) -> list[Linked]:
    """The entries of revisions.yml."""
    return [_linked(one, line_said(one), source) for one, source in entries]


def _linked(one: Released | RegisteredRevision, said: str, source: Source) -> Linked:
    name = f"the entry of {one.job.upper()} revision {one.revision}"
    return Linked(name, said, one.link or "", lambda: source.tree.place, one.job)


def of_addresses(document: Document | None) -> Iterator[Linked]:
    """The entries of addresses.yml."""
    listed = child(document.tree, "addresses") if document else None
    for item in listed.items if isinstance(listed, Listing) else ():
        if isinstance(item, Scalar):
            address, link = address_and_link(item.text)
            yield Linked(f"'{address}'", address, link, lambda item=item: item.place)  # type: ignore[misc]
