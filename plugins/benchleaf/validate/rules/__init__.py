"""Rules that span records, one a module. Each takes the shop and the places, and gives findings."""

from collections.abc import Callable, Iterator

from benchleaf.diagnose import Finding
from benchleaf.model import Shop

from ..places import Places
from . import (
    named_files,
    parts,
    practice_chips,
    practice_hands,
    practice_holding,
    practice_spindle,
    prerequisites,
    published,
    references,
    route,
    set_up_fit,
    set_up_limits,
    term_forms,
    text,
)

Rule = Callable[[Shop, Places], Iterator[Finding]]

RULES: tuple[Rule, ...] = (
    references.check,
    text.check,
    prerequisites.check,
    route.check,
    term_forms.check,
    parts.check,
    set_up_fit.check,
    named_files.check,
    practice_holding.check,
    practice_spindle.check,
    practice_chips.check,
    practice_hands.check,
    published.check,
    set_up_limits.check,
)
"""Every rule, in the order of the codes."""
