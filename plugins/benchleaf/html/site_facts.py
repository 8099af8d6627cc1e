"""What the document around every page needs: the stamp of the copy, the screen's manners."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime

from benchleaf.link import GUIDE_PAGE
from benchleaf.model import Shop, drafts, place_word

from .dates import long_date

ASSETS_ADDRESS = "assets/benchleaf"
STYLES = ("benchleaf.css", "parts.css", "scenes.css", "manners.css")
"""Loaded by every page, in this order; the first declares the layers."""
LIST_STYLES = ("lists.css",)
"""For lists and most records."""
DOOR_STYLES = ("doors.css",)
"""For home, and for the jobs of a station."""
JOB_STYLES = ("job.css", "wrong.css", "steps.css")
WRONG_STYLES = ("wrong.css", "slips.css")
"""What is opened later is loaded then, by `benchleafSheet` of `screen.js`."""
SHEET_STYLES = ("sheets.css",)
"""For sheets, forms and pages about people."""
CHART_STYLES = ("charts.css",)
"""For charts, and for a job that is taught on several machines alike."""
SCRIPTS = (
    "screen.js", "pictures.js", "bench.js", "terms.js", "idle.js", "age.js", "speak.js",
    "search.js",
)  # fmt: skip
"""Loaded by every page, after it is drawn; `early.js` comes before."""

_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'{}; img-src 'self' data:; "
    "font-src 'self'; media-src 'self'; connect-src 'none'; form-action 'none'; base-uri 'none'"
)
POLICY = _POLICY.format("")
"""The content security policy of the manual's own pages: no inline script, no inline style."""
FREE_POLICY = _POLICY.format(" 'unsafe-inline'")
"""For free pages, whose Markdown aligns table columns by inline style."""

DAMAGED = "This copy is damaged. Do not work from it. Tell the shift lead."
"""What a page says of itself where it is not whole, or not of one build with the rest."""

DAY_GIVEN = "SOURCE_DATE_EPOCH"


@dataclass(frozen=True, slots=True)
class SiteFacts:
    """Facts that every page carries."""

    shop: str
    title: str
    made: str
    """The day the copy was made, as 2026-11-25."""
    made_words: str
    fingerprint: str
    """The first signs of one fingerprint taken of those of all jobs together."""
    copy_days: int
    idle_seconds: int
    steps_idle_seconds: int
    pedal_next: str
    pedal_back: str
    paper: str
    """The paper to print on, which names its style sheet."""
    guide: str = ""
    """The first page of the guide; empty where the edition holds none."""
    is_draft: bool = False
    """True where nobody may be taught from any page yet."""
    stations: str = "Machines"
    """What the places of the shop are called together."""
    open_pages: tuple[str, ...] = ()
    """Free pages that are not written to the end; each says so."""
    damaged: str = DAMAGED
    assets: str = ASSETS_ADDRESS
    scripts: tuple[str, ...] = SCRIPTS
    policy: str = POLICY
    free_policy: str = FREE_POLICY


def facts_of(shop: Shop, fingerprints: Iterable[str], *, edition: str) -> SiteFacts:
    """The facts of one build, from the fingerprints of its jobs."""
    manual = shop.manual
    kiosk = manual.kiosk
    goes_home = edition == "kiosk" or kiosk.idle_everywhere
    together = hashlib.sha256("\n".join(sorted(fingerprints)).encode()).hexdigest()
    day = day_of_build()
    return SiteFacts(
        manual.shop,
        manual.title,
        day.isoformat(),
        long_date(day),
        together[:8],
        kiosk.copy_days,
        kiosk.idle_minutes * 60 * goes_home,
        kiosk.steps_idle_minutes * 60 * goes_home,
        kiosk.pedal_next or "",
        kiosk.pedal_back or "",
        manual.paper.value,
        GUIDE_PAGE if edition == "full" else "",
        drafts(shop).whole,
        open_pages=tuple(shop.open_pages),
        stations=f"{place_word(shop).capitalize()}s",
    )


def given_day() -> date | None:
    """The day that SOURCE_DATE_EPOCH gives; None where it gives none that a calendar has."""
    epoch = os.environ.get(DAY_GIVEN, "")
    if not (epoch.isascii() and epoch.isdigit() and len(epoch) < 16):
        return None
    try:
        return datetime.fromtimestamp(int(epoch), UTC).date()
    except (OverflowError, ValueError, OSError):
        return None


def is_day_wrong() -> bool:
    """True where the environment gives a day that cannot be read."""
    return bool(os.environ.get(DAY_GIVEN)) and given_day() is None


def day_of_build() -> date:
    """Today, or the day that SOURCE_DATE_EPOCH gives for a build that can be made again."""
    return given_day() or datetime.now().astimezone().date()
