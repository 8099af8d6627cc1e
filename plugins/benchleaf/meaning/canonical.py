"""A value of a record in one spelling: the same quantity in another unit is the same value."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from enum import Enum
from fractions import Fraction

from benchleaf.formulas.quantities import Quantity, Toleranced
from benchleaf.formulas.threads import Thread
from benchleaf.model import Shop, name_of
from benchleaf.model.textlinks import FIGURE, TEXT_LINK, TextLink, read_link

from .folding import folded_text, written_link
from .statement import Value


def exact(number: float) -> str:
    """A number as an exact fraction, of the twelve digits that are read of it.

    >>> exact(15.875), exact(500.0)
    ('127/8', '500')
    """
    return str(Fraction(f"{number:.12g}"))


def canonical(value: object) -> Value:
    """The value in one spelling; ids and texts stay as they are, folded."""
    if isinstance(value, Quantity):
        return (value.kind, exact(value.low), exact(value.high))
    if isinstance(value, Toleranced):  # 8 +0.1/-0 and 8 to 8.1 are the same two limits
        return ("limits", exact(value.low), exact(value.high))
    if isinstance(value, Thread):
        return value.name
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, bool | date):
        return str(value)
    if isinstance(value, int | float):
        return exact(float(value))
    return folded_text(str(value))


def proof_text(text: str, shop: Shop) -> str:
    """A text with the name of what each link leads to, as a reader sees it: no id but a job's."""
    if "[[" not in text:
        return text
    return TEXT_LINK.sub(lambda found: _named(read_link(found[1]), shop), text)


def _named(link: TextLink, shop: Shop) -> str:
    is_record = link.kind and link.kind != FIGURE
    record = shop.of_kind(link.kind or "").get(link.id) if is_record else None
    if record is None or link.kind == "jobs":
        return f"[[{shop.first_id(link.id)}]]"
    return f"[[{folded_text(name_of(record))}]]"


def with_first_ids(text: str, shop: Shop) -> str:
    """A text in which each link to a job names it as it was first called."""
    if not shop.renamed or "[[" not in text:
        return text
    return TEXT_LINK.sub(lambda found: _as_first(read_link(found[1]), shop), text)


def _as_first(link: TextLink, shop: Shop) -> str:
    is_job = link.kind == "jobs"
    return written_link(replace(link, id=shop.first_id(link.id)) if is_job else link)


def numbers_of(value: object) -> tuple[float, float] | None:
    """Low and high end of a value that is a number."""
    if isinstance(value, Quantity | Toleranced):
        return value.low, value.high
    if isinstance(value, int | float) and not isinstance(value, bool):
        return float(value), float(value)
    return None


def in_words(value: object) -> str:
    """The value as it was written."""
    if isinstance(value, Quantity | Toleranced):
        return value.text
    if isinstance(value, Thread):
        return value.name
    if isinstance(value, Enum):
        return str(value.value)
    return f"{value:g}" if isinstance(value, float) else " ".join(str(value).split())
