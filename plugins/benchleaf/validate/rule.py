"""What a rule is: how it is called, and the codes that are its own."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from benchleaf.diagnose import Code, Finding
from benchleaf.model import Record, Shop

from .case import JobCase
from .places import Places


@dataclass(frozen=True, slots=True)
class RecordRule:
    """Looks at one record of any kind: shop, places, and kind, id and record."""

    check: Callable[[Shop, Places, str, str, Record], Iterator[Finding]]
    codes: tuple[Code, ...]


@dataclass(frozen=True, slots=True)
class JobRule:
    """Looks at one job."""

    check: Callable[[JobCase], Iterator[Finding]]
    codes: tuple[Code, ...]
    is_last: bool = False
    """True for a rule that looks at what the others needed."""


@dataclass(frozen=True, slots=True)
class ShopRule:
    """Needs the whole shop at once."""

    check: Callable[[Shop, Places], Iterator[Finding]]
    codes: tuple[Code, ...]


Rule = RecordRule | JobRule | ShopRule
