"""What a build for use refuses: a page of a draft would teach what nobody has given a number."""

from __future__ import annotations

from collections.abc import Collection

from benchleaf.diagnose import Finding, Severity
from benchleaf.link.term_use import PlaceOf
from benchleaf.model import Shop

from .address_register import unregistered
from .loading import REGISTER
from .notices import ready


def not_released(
    shop: Shop,
    place_of: PlaceOf,
    registered: Collection[str],
    planned: Collection[str],
    content: str,
) -> tuple[Finding, ...]:
    """Drafts, named in one error; addresses that only a release registers, in one warning."""
    new = [one for one in planned if one not in registered]
    drafts = ready(shop)  # the page of one that is not written to its end says so itself
    if not drafts:
        file = f"{content}/{REGISTER}"
        return (unregistered(new, file, "benchleaf release"),) if new else ()
    names = ", ".join(one.upper() for one in drafts)
    text = f"{names} {'is a draft' if len(drafts) == 1 else 'are drafts'}: not released yet"
    cure = (
        "on the main branch: run `benchleaf release`, and commit what it writes",
        "to look at drafts: mkdocs serve, or BENCHLEAF_DRAFTS=true mkdocs build",
    )
    return (Finding("A612", Severity.ERROR, place_of("jobs", drafts[0], ()), text, cure),)
