"""Plain values that pages are made of: a planned page, a link, an entry for search."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType

from benchleaf.model import Machine, Record, SignalWord

from .marked import MarkView

HANDING_ON = "Handing on"
"""The last section of a job, wherever it is shown: how the finished part is left for the next."""


HANDS_IN = "Before your hands go in"
"""What stands above the words on what protects hands inside a machine."""

PUT_RIGHT = "Put right at once, before the machine starts"
"""What stands above the faults that a trainer sets on purpose."""


@dataclass(frozen=True, slots=True)
class Link:
    """Where a link leads, and its words."""

    address: str
    words: str
    detail: str = ""
    """A few more words in smaller type."""


class Found(StrEnum):
    """The kind of thing that search finds, in the words the reader sees; the likeliest first."""

    JOB = "Job"
    PART = "Part"
    MACHINE = "Machine"
    STATION = "Station"
    TOOL = "Tool"
    MATERIAL = "Material"
    FLUID = "Cutting fluid"
    HAZARD = "Hazard"
    TERM = "Word"
    OPERATION = "Formula"
    CHART = "Chart"
    LIST = "List"
    PAGE = "Page"
    STEP = "Step"
    GUIDE = "Guide"


FOUND_OF: Mapping[str, Found] = MappingProxyType(
    {
        "jobs": Found.JOB,
        "parts": Found.PART,
        "machines": Found.MACHINE,
        "materials": Found.MATERIAL,
        "tools": Found.TOOL,
        "fluids": Found.FLUID,
        "hazards": Found.HAZARD,
        "terms": Found.TERM,
        "onboarding": Found.LIST,
    }
)
"""What each kind of record is called there."""


def found_of(kind: str, record: Record) -> Found:
    """What a record is called there: only a machine is called one."""
    is_other = isinstance(record, Machine) and record.kind.noun != "machine"
    return Found.STATION if is_other else FOUND_OF[kind]


KEY_POINT = "Key point"
"""What a step is called in the list of what was found, where the words stand in a key point."""


@dataclass(frozen=True, slots=True)
class SearchEntry:
    """What search finds: an address, its title, and its words without markup."""

    address: str
    title: str
    kind: Found
    lines: tuple[str, ...] = ()
    """Its text; the line with the words looked for is shown beneath the title."""
    points: tuple[str, ...] = ()
    """Key points and their reasons, which count for more than other text."""
    names: tuple[str, ...] = ()
    """Other names for it, which count as much as the title."""
    number: str = ""
    """The job's or part's number: typed or scanned whole, it leads straight here."""
    under: str = ""
    """Where it belongs, shown in smaller type."""
    around: str = ""
    """Words of what it belongs to: they help to tell it from others, but never find it alone."""


@dataclass(frozen=True, slots=True)
class Section:
    """A part of a page that a reader may jump to."""

    anchor: str
    title: str


@dataclass(frozen=True, slots=True)
class Rendered:
    """A page ready for the site: the article's HTML and its search entries."""

    html: str
    entries: tuple[SearchEntry, ...]


@dataclass(frozen=True, slots=True)
class Former:
    """An anchor or page as it was published, and where it leads now."""

    old: str
    """The anchor, or the name of the page."""
    link: Link
    why: str = ""


@dataclass(frozen=True, slots=True)
class Ends:
    """What the manual adds to a page, whatever the page says: its writer is given it."""

    former: tuple[Former, ...] = ()
    """Anchors that stood on the page once."""
    foot: Callable[[], Mapping[str, object]] | None = None
    """What the template of the foot is given; none: the page has no foot."""


NO_ENDS = Ends()


@dataclass(frozen=True, slots=True)
class PlannedPage:
    """A page that will exist: its address is fixed, its HTML is made when it is asked for."""

    address: str
    title: str
    source_file: str
    """The content file it comes from, for the edit link."""
    make: Callable[[Ends], Rendered]
    styles: tuple[str, ...] = ("lists.css",)
    """Style sheets among our assets that this page needs besides those of every page."""
    scripts: tuple[str, ...] = ()
    """Scripts among our assets that this page needs besides those of every page."""
    foot: str = ""
    """What the foot of each printed page says of it; none: its title."""
    is_draft: bool = False
    """True where nobody may be taught from it yet; the page says so."""
    ends: Ends = NO_ENDS

    def render(self) -> Rendered:
        """The page, written once."""
        return self.make(self.ends)


@dataclass(frozen=True, slots=True)
class PictureView:
    """A picture with its size, so that the page does not jump while it loads."""

    address: str
    text: str
    caption: str | None
    width: int
    height: int
    copies: tuple[tuple[str, int], ...] = ()
    """Address and width in pixels of each copy of a photograph; a drawing has none."""
    marks: tuple[MarkView, ...] = ()


@dataclass(frozen=True, slots=True)
class HazardMessage:
    """A safety message: what the hazard is, what happens, how to avoid it."""

    id: str
    link: Link
    word: SignalWord
    what: str
    consequence: str | None
    avoid: tuple[str, ...]
    measured: str = ""
    """How great it is in the step at hand, where that is reckoned."""
    when: str = ""
    """When it bites, where nothing is reckoned of it."""
    control: str = ""
    """What keeps it away at the step at hand, for where its whole text is not shown."""


@dataclass(frozen=True, slots=True)
class HazardPanel:
    """One signal word over all messages of that word, so that it is read once."""

    word: SignalWord
    messages: tuple[HazardMessage, ...]

    @property
    def css(self) -> str:
        """The word in lower case, for the style sheet."""
        return self.word.value.lower()
