"""Rules that span records, one a module; each gives findings.

A rule on records looks at one record of any kind, a rule on jobs at one job; so these can be
shared among processes. A rule on the shop needs all of it at once.
"""

from collections.abc import Callable, Iterator

from benchleaf.diagnose import Finding
from benchleaf.model import Record, Shop

from ..case import JobCase
from ..places import Places
from . import (
    named_files,
    onboarding,
    parts,
    practice_chips,
    practice_hands,
    practice_holding,
    practice_spindle,
    prerequisites,
    published,
    references,
    route,
    screen_fit,
    set_up_fit,
    set_up_limits,
    term_forms,
    text,
)

RecordRule = Callable[[Shop, Places, str, str, Record], Iterator[Finding]]
"""Shop, places, and kind, id and record to look at."""
JobRule = Callable[[JobCase], Iterator[Finding]]
ShopRule = Callable[[Shop, Places], Iterator[Finding]]

RECORD_RULES: tuple[RecordRule, ...] = (references.check, text.check, named_files.check)
JOB_RULES: tuple[JobRule, ...] = (
    set_up_fit.check,
    practice_holding.check,
    practice_spindle.check,
    practice_chips.check,
    practice_hands.check,
    set_up_limits.check,
    screen_fit.check,
)
SHOP_RULES: tuple[ShopRule, ...] = (
    prerequisites.check,
    route.check,
    term_forms.check,
    parts.check,
    onboarding.check,
    published.check,
)
