"""Pages that people have signed, such as the safety preface: whether they say the same today."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from benchleaf.meaning import Consequence, page_fingerprint, page_move, verdict
from benchleaf.model import Crew, Person, Shop, SignedPage


class Signed(StrEnum):
    """How a signing stands today."""

    HOLDS = "signed"
    AGAIN = "explain back and sign again"
    TELL = "tell"
    UNKNOWN = "not recorded which words were signed"
    NEVER = "no signature recorded"


@dataclass(frozen=True, slots=True)
class Signing:
    """A person, a page, and how their signing stands."""

    person: Person
    page: str
    state: Signed
    why: str
    signed: SignedPage | None


def pages_asked_for(shop: Shop) -> tuple[str, ...]:
    """The preface, and every page that a list for new people asks to be signed."""
    items = (item for one in shop.onboarding.values() for _, _, item in one.items())
    listed = (item.page for item in items if item.signed_by)
    found = dict.fromkeys((shop.manual.preface, *listed))
    return tuple(page for page in found if page is not None and page in shop.page_texts)


def signings(shop: Shop, crew: Crew) -> tuple[Signing, ...]:
    """How each signature stands. Only the preface asks for one of those who never signed."""
    return tuple(one for person in crew.people.values() for one in _of_person(shop, person))


def _of_person(shop: Shop, person: Person) -> Iterator[Signing]:
    signed = {one.page for one in person.signed}
    asked = pages_asked_for(shop)
    for page in dict.fromkeys((*asked, *(one for one in shop.pages if one in signed))):
        is_due = page in signed or page == shop.manual.preface
        if is_due and page in shop.page_texts:
            yield _signing(shop, person, page)


def _signing(shop: Shop, person: Person, page: str) -> Signing:
    signed = person.signing(page)
    if signed is None:
        return Signing(person, page, Signed.NEVER, "", None)
    if signed.fingerprint is None:
        return Signing(person, page, Signed.UNKNOWN, "", signed)
    if page_fingerprint(shop.page_texts[page]).startswith(signed.fingerprint):
        return Signing(person, page, Signed.HOLDS, "", signed)
    move = page_move(page, is_preface=page == shop.manual.preface)
    found = verdict(move, shop.manual.retraining)
    state = Signed.AGAIN if found.what is Consequence.TEACH else Signed.TELL
    return Signing(person, page, state, found.why, signed)
