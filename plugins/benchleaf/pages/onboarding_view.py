"""A list for new people as plain data: each item with its link, and what to know before it."""

from __future__ import annotations

from dataclasses import dataclass

from benchleaf.html.list_lines import item_link
from benchleaf.html.lookup import Lookup
from benchleaf.html.values import Link
from benchleaf.meaning import SHOWN, page_fingerprint
from benchleaf.model import Item, Onboarding


@dataclass(frozen=True, slots=True)
class ItemView:
    """One line of the list."""

    key: str
    """Its place in the list, for ticks that last until the browser closes."""
    link: Link | None
    do: str | None
    done_when: str
    signed_by: tuple[str, ...]
    may_run: bool
    authorised_only: bool
    stamp: str
    """The fingerprint of a page that is signed, for the record of who signed it."""


@dataclass(frozen=True, slots=True)
class StageView:
    """A day or stage."""

    title: str
    note: str | None
    items: tuple[ItemView, ...]


@dataclass(frozen=True, slots=True)
class OnboardingView:
    """The whole list."""

    record: Onboarding
    already: tuple[Link, ...]
    stages: tuple[StageView, ...]
    roles: tuple[str, ...]
    """Everybody who signs, in the order in which they are met."""


def onboarding_view(lookup: Lookup, record: Onboarding) -> OnboardingView:
    """The view of one list."""
    stages = tuple(
        StageView(
            stage.title,
            stage.note,
            tuple(_item(lookup, f"{at}.{line}", one) for line, one in enumerate(stage.items, 1)),
        )
        for at, stage in enumerate(record.stages, 1)
    )
    roles = (role for stage in stages for one in stage.items for role in one.signed_by)
    already = lookup.links("jobs", record.already)
    return OnboardingView(record, already, stages, tuple(dict.fromkeys(roles)))


def _item(lookup: Lookup, key: str, item: Item) -> ItemView:
    job = lookup.shop.jobs[item.job] if item.job else None
    return ItemView(
        key,
        item_link(lookup, item),
        item.do,
        item.done_when,
        item.signed_by,
        job is None or not lookup.not_to_run(job),
        job is not None and job.authorised_only is not None,
        _stamp(lookup, item),
    )


def _stamp(lookup: Lookup, item: Item) -> str:
    text = lookup.shop.page_texts.get(item.page or "")
    return page_fingerprint(text)[:SHOWN] if text is not None and item.signed_by else ""
