"""Old addresses to where the thing is now: chains followed, and entries that lead nowhere told."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field

from benchleaf.diagnose import Finding, Place, nearest
from benchleaf.link.addresses import SHEETS, index_address, is_full_only, sheet_address

from .faults import unfit
from .forward_entry import Forward

Entries = Mapping[str, tuple[Forward, Place]]
"""The entries of forwards.yml by their old address, each with its place in the file."""


@dataclass(frozen=True, slots=True)
class Moved:
    """Every published address that is gone: where it leads now, and why."""

    to: Mapping[str, str] = field(default_factory=dict)
    why: Mapping[str, str] = field(default_factory=dict)

    @property
    def pages(self) -> tuple[str, ...]:
        """Pages that are gone as a whole."""
        return tuple(old for old in self.to if "#" not in old)

    def inside(self, page: str) -> dict[str, str]:
        """Anchors that are gone from a page, and where each leads now."""
        return {
            old.partition("#")[2]: new for old, new in self.to.items() if old.startswith(f"{page}#")
        }


def moved(registered: Collection[str], planned: Collection[str], entries: Entries) -> Moved:
    """Where every registered address that is gone leads; those that lead nowhere are left out."""
    living = frozenset(planned)
    found: dict[str, str] = {}
    why: dict[str, str] = {}
    for old in registered:
        new = None if old in living else follow(old, living, entries)
        if new is not None:
            found[old] = new
            entry = entries.get(old) or entries.get(_page(old))
            if entry and entry[0].why:
                why[old] = entry[0].why
    return Moved(found, why)


def follow(old: str, living: Collection[str], entries: Entries) -> str | None:
    """The living address at the end of the chain from `old`, or None.

    An anchor or a printed sheet goes with its page: to the same anchor or sheet of the page that
    takes its place, else to that page itself. The chart of a machine that has none any more (no
    drill fits it, say) leads to the machine: a broken limit must never keep pages from changing.
    A part that no job works on any more leads to the list of parts.
    """
    seen: set[str] = set()
    while old not in living:
        if old in seen:
            return None
        seen.add(old)
        following = _next(old, living, entries)
        if following is None:
            return None
        old = following
    return old


def _next(old: str, living: Collection[str], entries: Entries) -> str | None:
    if old in entries:
        return entries[old][0].new
    page, _, anchor = old.partition("#")
    if anchor and page in entries:
        return _within(entries[page][0].new, anchor, living, entries)
    if old.startswith(MACHINE_CHART):
        return f"machines/{machine_of_chart(old)}.html"
    if old.startswith(PART):
        return PARTS_PAGE
    job_id, sheet = _sheet_of(old)
    job_page = f"jobs/{job_id}.html"
    if sheet and job_page in entries:
        new = entries[job_page][0].new
        same = sheet_address(_page(new).removeprefix("jobs/").removesuffix(".html"), sheet)
        return same if same in living or _page(new) in entries else new
    return None


MACHINE_CHART = "charts/speeds-"
"""How the address of a machine's own chart begins."""
PART = "parts/"
PARTS_PAGE = index_address("parts")


def _within(page: str, anchor: str, living: Collection[str], entries: Entries) -> str:
    same = f"{page}#{anchor}"
    is_known = same in living or same in entries or page in entries
    return same if "#" not in page and is_known else page


def _sheet_of(address: str) -> tuple[str, str]:
    for sheet in SHEETS:
        ending = f"-{sheet}.html"
        if address.startswith("trainer/") and address.endswith(ending):
            return address.removeprefix("trainer/").removesuffix(ending), sheet
    return "", ""


def job_of_sheet(address: str) -> str:
    """The job from whose breakdown a sheet is printed; empty for any other page."""
    return _sheet_of(address)[0]


def _page(address: str) -> str:
    return address.partition("#")[0]


def check_forwards(
    registered: Collection[str],
    planned: Collection[str],
    entries: Entries,
    *,
    are_all_registered: bool = True,
) -> Iterator[Finding]:
    """A finding for each entry that does not send a reader from an old address to a living one.

    `are_all_registered` is False where addresses may be registered that nobody can read.
    """
    living = frozenset(planned)
    for old, (entry, place) in entries.items():
        if old in living:
            text = f"'{old}' is forwarded, and still there"
            yield unfit(place, text, "take the entry out; a published id is never used again")
        elif old not in registered and not are_all_registered:
            continue
        elif old not in registered:
            text = f"'{old}' was never published"
            yield unfit(place, text, *_near(old, registered))
        elif entry.new not in living and entry.new not in entries:
            text = f"'{old}' is forwarded to '{entry.new}', which is not there"
            yield unfit(place, text, *_near(entry.new, living))
        else:
            yield from _end_of_chain(old, follow(old, living, entries), place)


def _near(written: str, allowed: Collection[str]) -> tuple[str, ...]:
    """Lists of addresses are long, so only the nearest is offered."""
    near = nearest(written, allowed)
    hint = (f"did you mean '{near}'?",) if near else ()
    return (*hint, "`benchleaf addresses` lists those that are there; addresses.yml has all")


def _end_of_chain(old: str, end: str | None, place: Place) -> Iterator[Finding]:
    if end is None:
        text = f"'{old}' is forwarded in a ring, or to an address that is gone"
        yield unfit(place, text, "send it to an address that is there now")
    elif is_full_only(end) and not is_full_only(old):
        text = f"'{old}' is forwarded to '{end}', which the reader's edition does not hold"
        yield unfit(place, text, "send it to a page that readers have")


def machine_of_chart(page: str) -> str:
    """The machine whose speeds a chart shows, all of them or those of one spindle.

    >>> machine_of_chart("charts/speeds-gang-drill--left.html")
    'gang-drill'
    """
    return page.removeprefix(MACHINE_CHART).removesuffix(".html").partition("--")[0]
