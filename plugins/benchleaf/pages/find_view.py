"""Everything from A to Z, for who has no keyboard or does not know the spelling, as plain data."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from benchleaf.html.lookup import KIND_WORDS, SEE_WORDS, Lookup
from benchleaf.html.values import Link, found_of
from benchleaf.link import SEE_PAGE, TERMS_PAGE, address, index_address, routes
from benchleaf.model import KINDS

from .job_lists import ways

DIGITS = "0 to 9"


@dataclass(frozen=True, slots=True)
class Letter:
    """What begins with one letter."""

    letter: str
    anchor: str
    links: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class FindView:
    """The ways to find a job, the lists of each kind, and everything by letter."""

    ways: tuple[Link, ...]
    lists: tuple[Link, ...]
    letters: tuple[Letter, ...]


def find_view(lookup: Lookup) -> FindView:
    """The view of the page."""
    by_letter: dict[str, list[Link]] = {}
    for link in sorted(_everything(lookup), key=lambda one: (one.words.casefold(), one.address)):
        by_letter.setdefault(_letter(link.words), []).append(link)
    letters = tuple(
        Letter(letter, f"letter-{letter.lower().replace(' ', '-')}", tuple(links))
        for letter, links in sorted(by_letter.items())
    )
    jobs = tuple(Link(target, words) for _, words, target in ways(lookup.place))
    kinds = (kind for kind in KINDS if kind not in ("jobs", "terms"))
    lists = [Link(index_address(kind), lookup.kind_words(kind)) for kind in kinds]
    lists.insert(0, Link(SEE_PAGE, SEE_WORDS))
    return FindView(jobs, (*lists, Link(TERMS_PAGE, KIND_WORDS["terms"])), letters)


def _letter(words: str) -> str:
    first = words[:1].upper()
    return DIGITS if first.isdecimal() else first


def _everything(lookup: Lookup) -> Iterator[Link]:
    """Every page and word by its name; a job by what it does, its number beside it."""
    for kind, record_id, record in lookup.shop.every():
        if kind == "parts":  # by its number too, below
            continue
        if kind == "jobs" and record_id in lookup.elsewhere:
            continue
        words = lookup.link(kind, record_id).words
        number = f"{record_id.upper()} " if kind == "jobs" else ""
        detail = number or found_of(kind, record).value
        if kind == "jobs" and lookup.not_to_run(lookup.shop.jobs[record_id]):
            detail = f"{number.strip()}: do not run"
        yield Link(address(kind, record_id), _capital(words.removeprefix(number)), detail.strip())
        for name in getattr(record, "also", ()):
            yield Link(address(kind, record_id), _capital(name), f"see {words}")
    for route in routes(lookup.shop):
        yield Link(address("parts", route.id), route.part.name, f"Part {route.part.number}")


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]
