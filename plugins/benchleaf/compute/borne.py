"""Whether something bears the work from below, where the tool pushes it down."""

from __future__ import annotations

import re

from benchleaf.model import Holding

from .sheet import Sheet
from .worst import no_less

_BORNE = re.compile(
    r"\b(?:lies|lie|lying|laid|rests?|stands?|sits?|seated|borne|supported|backed|bears?)\b"
    r"|\bon (?:the |two |a |its )?(?:\w+ )*(?:parallels|table|v-block|backing|packing|block|bed)\b"
    r"|\b(?:parallels|v-block|backing|packing|mandrel|collet|chuck)\b",
    re.IGNORECASE,
)
"""Words by which a holding says what the work lies on."""
_NOTHING = re.compile(
    r"\bnothing (?:lies |stands |is )?(?:under|beneath|below)"
    r"|\b(?:over|across|above) (?:a|the) gap\b"
    r"|\b(?:no|without(?: any)?|not) (?:parallels|backing|packing|support(?:ed)?|borne)\b"
    r"|\bhangs?\b|\boverhangs?\b|\bin the air\b",
    re.IGNORECASE,
)
"""Words by which it says that nothing does."""


def borne_from_below(sheet: Sheet) -> None:
    """A caution where no record says what bears the work against the thrust."""
    held = sheet.case.holding
    if held is None or _is_borne(held):
        return
    thrust = sheet.drilled.thrust
    push = f" with up to {no_less(thrust, 'N')}" if thrust is not None else ""
    sheet.cautions.append(
        f"Nothing here says what bears the work from below, and the drill pushes it down{push}. "
        "Work over a gap bends, tips or slides down in the jaws, and grabs as it springs back. Put "
        "parallels or a backing piece under it, clear of the hole."
    )


def _is_borne(held: Holding) -> bool:
    if held.borne_by is not None:
        return True
    return bool(_BORNE.search(held.how)) and not _NOTHING.search(held.how)
