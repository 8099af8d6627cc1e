"""The trainer's bench: what a trainer takes out of the manual besides its pages."""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path

from benchleaf import link, pipeline
from benchleaf.diagnose import Finding
from benchleaf.link import FORMS, LISTED_KINDS
from benchleaf.registers import forwarding

__all__ = ["FORMS", "LISTED_KINDS", "addresses"]


def addresses(
    content: Path, form: str, *, kinds: Collection[str] = (), base: str | None = None
) -> tuple[tuple[Finding, ...], str]:
    """The findings that prevent it, or every address of those kinds in one of the forms.

    `base` stands before each address; left out, it is the manual's server where it has one.
    """
    loaded = pipeline.load(content)
    blocking = tuple(finding for finding in loaded.findings if finding.blocks_publishing)
    if blocking:
        return blocking, ""
    plan = pipeline.plan_site(loaded, edition="full")
    titles = {page.address: page.title for page in plan.pages}
    titles |= {one.address: one.words for one in plan.free_pages}
    rows = link.listed(loaded.shop, titles, forwarding.promised(loaded.shop))
    wanted = [row for row in rows if not kinds or row.kind in kinds]
    before = (loaded.shop.manual.server or "") if base is None else base
    return (), link.printed(wanted, form, before)
