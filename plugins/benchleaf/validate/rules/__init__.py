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
    acceptances,
    end_of_route,
    gloves_both,
    hands_inside,
    hazard_late,
    history_order,
    injury_without_hazard,
    kept_anchors,
    learned_elsewhere,
    named_files,
    never_met,
    onboarding,
    one_action,
    parts,
    picture_text,
    practice_chips,
    practice_hands,
    practice_holding,
    practice_spindle,
    prerequisites,
    published,
    reasons,
    references,
    review_due,
    route,
    screen_fit,
    sentence_length,
    set_up_fit,
    set_up_limits,
    term_forms,
    text,
    too_many,
    tool_in_chuck,
    trainer_notes,
    tray_count,
    verb_first,
    worn_only,
)

RecordRule = Callable[[Shop, Places, str, str, Record], Iterator[Finding]]
"""Shop, places, and kind, id and record to look at."""
JobRule = Callable[[JobCase], Iterator[Finding]]
ShopRule = Callable[[Shop, Places], Iterator[Finding]]

RECORD_RULES: tuple[RecordRule, ...] = (
    references.check,
    kept_anchors.check,
    text.check,
    named_files.check,
    worn_only.check,
    picture_text.check,
)
JOB_RULES: tuple[JobRule, ...] = (
    set_up_fit.check,
    practice_holding.check,
    practice_spindle.check,
    practice_chips.check,
    practice_hands.check,
    hands_inside.check,
    set_up_limits.check,
    screen_fit.check,
    one_action.check,
    sentence_length.check,
    verb_first.check,
    too_many.check,
    reasons.check,
    injury_without_hazard.check,
    hazard_late.check,
    gloves_both.check,
    tool_in_chuck.check,
    trainer_notes.check,
    learned_elsewhere.check,
    never_met.check,
    tray_count.check,
    end_of_route.check,
    review_due.check,
    history_order.check,
    acceptances.check,
)
"""The acceptances come last: they look at what the others needed."""
SHOP_RULES: tuple[ShopRule, ...] = (
    prerequisites.check,
    route.check,
    term_forms.check,
    parts.check,
    onboarding.check,
    published.check,
)
