"""Two shops, already read, to changes of meaning and their consequences."""

from .change import (
    Change,
    ChangeKind,
    Comparison,
    Consequence,
    Effect,
    EffectKind,
    JobState,
    Seen,
    Side,
)
from .compare import compare
from .due import Due, due
from .pictured import picture_words, pictures_of
from .printed_json import as_json
from .printed_markdown import as_markdown
from .printed_schema import comparison_schema
from .printed_text import as_text
from .report import (
    HEADLINES,
    NO_CREW,
    Report,
    blocks,
    by_record,
    by_set_up,
    due_groups,
    fingerprint_text,
    is_said,
    percent_text,
    revision_text,
    said,
)
from .versions import compare_written
from .written import UnreadableError, Written, as_written, read_written, written_of

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
    "Seen",
    "Side",
    "UnreadableError",
    "Written",
    "as_json",
    "as_markdown",
    "as_text",
    "as_written",
    "blocks",
    "by_record",
    "by_set_up",
    "compare",
    "compare_written",
    "comparison_schema",
    "due",
    "due_groups",
    "fingerprint_text",
    "is_said",
    "percent_text",
    "picture_words",
    "pictures_of",
    "read_written",
    "revision_text",
    "said",
    "written_of",
]
