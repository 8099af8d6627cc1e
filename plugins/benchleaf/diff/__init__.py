"""Two shops, already read, to changes of meaning and their consequences."""

from .change import (
    Change,
    ChangeKind,
    Comparison,
    Consequence,
    Effect,
    EffectKind,
    JobState,
    Side,
)
from .compare import compare
from .due import Due, due
from .printed_json import as_json
from .printed_markdown import as_markdown
from .printed_text import as_text
from .report import (
    HEADLINES,
    NO_CREW,
    Report,
    by_record,
    by_set_up,
    due_groups,
    fingerprint_text,
    is_said,
    percent_text,
    revision_text,
    said,
)

__all__ = [
    "HEADLINES",
    "NO_CREW",
    "Change",
    "ChangeKind",
    "Comparison",
    "Consequence",
    "Due",
    "Effect",
    "EffectKind",
    "JobState",
    "Report",
    "Side",
    "as_json",
    "as_markdown",
    "as_text",
    "by_record",
    "by_set_up",
    "compare",
    "due",
    "due_groups",
    "fingerprint_text",
    "is_said",
    "percent_text",
    "revision_text",
    "said",
]
