"""Stop 3: trees to records, and rules that span records."""

from collections.abc import Iterator

from benchleaf.diagnose import Finding
from benchleaf.model import Shop

from .crew import gather_crew
from .fields import classes_at, tags
from .gather import gather
from .places import Places
from .rules import RULES
from .rules.text import check_text


def check_rules(shop: Shop, places: Places) -> Iterator[Finding]:
    """Every finding of every rule."""
    for rule in RULES:
        yield from rule(shop, places)


__all__ = [
    "RULES",
    "Places",
    "check_rules",
    "check_text",
    "classes_at",
    "gather",
    "gather_crew",
    "tags",
]
