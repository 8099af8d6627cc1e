"""The whole journey as a handful of calls, in order: the file to read first.

content/ -> read -> records -> rules -> (set-ups computed) -> links -> pages -> checked site.
Every call hands back plain values; nothing here knows MkDocs.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from functools import partial
from pathlib import Path

from benchleaf import compute, link, pages, publish, read, registers, search, validate
from benchleaf.diagnose import Finding, Place, Severity, in_order, make_known
from benchleaf.html import free, meanings
from benchleaf.html.inline import Inline
from benchleaf.html.site_facts import (
    ASSETS_ADDRESS,
    DAY_GIVEN,
    SiteFacts,
    day_of_build,
    facts_of,
    is_day_wrong,
)
from benchleaf.html.values import Link, PlannedPage, SearchEntry
from benchleaf.model import FAMILIES, FOLDERS, GROUPS, Shop, copies, drafts
from benchleaf.plan import Timetable
from benchleaf.processes import no_collecting
from benchleaf.record_by_record import Sheets, survey
from benchleaf.registers import REGISTER, forwarding
from benchleaf.write import JOURNAL, finish, write_together

__all__ = [
    "Loaded",
    "SitePlan",
    "check",
    "finish_site",
    "load",
    "not_released",
    "plan_problems",
    "plan_site",
    "register",
    "register_addresses",
    "site_facts",
]

make_known((*read.CODES, *validate.CODES, *compute.CODES, *link.CODES, *publish.CODES))


@dataclass(frozen=True, slots=True)
class Loaded:
    """Everything read from content/, and every finding about it, in order."""

    content: Path
    shop: Shop
    places: validate.Places
    registered: dict[str, Place]
    forwards: registers.Entries
    """Where published addresses that are gone lead now."""
    terms: link.TermIndex
    sheets: Sheets
    """The computed set-ups of each job."""
    term_uses: Mapping[str, tuple[link.Use, ...]]
    fingerprints: Mapping[str, str]
    """The fingerprint of each job\'s meaning."""
    revisions: registers.Registry
    findings: tuple[Finding, ...]
    ledger: registers.Ledger | None = None
    """What was released; None for a shop whose job files say their own revision."""
    notices: tuple[registers.Noticed, ...] = ()
    """The change notices that wait for the next release."""
    holds: tuple[registers.Held, ...] = ()
    """Every hold, those that were lifted too."""

    @property
    def may_publish(self) -> bool:
        """True when no finding is an error."""
        return not any(finding.blocks_publishing for finding in self.findings)

    @property
    def prevents_registering(self) -> tuple[Finding, ...]:
        """Errors, but for a revision that lags behind: registering may be its cure."""
        return tuple(one for one in self.findings if one.blocks_publishing and one.code != "A604")


def load(content: Path, *, preview: bool = False, today: date | None = None) -> Loaded:
    """Read and check a content folder: stops 1 to 5, all problems in one run.

    In a preview a revision that lags behind an edit is a warning: it advances when all is written.
    `today` is the day on which reviews are looked at.
    """
    with no_collecting():
        loaded = _load(content, today or day_of_build())
    return replace(loaded, findings=registers.milder(loaded.findings)) if preview else loaded


def _load(content: Path, today: date, *, keep_sheets: bool = True) -> Loaded:
    unfinished = _before(content)
    contents = read.read_content(content, (*FOLDERS, FAMILIES, GROUPS, *registers.OTHERS))
    contents, made_findings = validate.with_made(contents)
    ledger, ledger_findings = registers.read_ledger(contents, content)
    contents, own_state = registers.with_state(contents, ledger, today)
    documents, findings = contents.documents, registers.graver(contents.findings)
    notices, notice_findings = registers.read_notices(documents)
    shop, places, shape_findings = validate.gather(
        contents,
        read.read_pictures(content / "pictures"),
        read.read_sheets(content / "sheets"),
        read.read_pages(content / "pages"),
    )
    forwards, forward_findings = forwarding.entries(documents)
    registry, revision_findings = registers.read_registry(documents, ledger)
    shop = replace(shop, renamed=registers.renamed(shop, forwards, registry))
    holds, hold_findings = registers.read_holds(documents)
    shop = replace(shop, holds=registers.standing_holds(shop, holds))
    terms = link.TermIndex(shop.terms.values())
    found = survey(shop, places, terms, today, keep_sheets=keep_sheets)
    rule_findings = [*found.findings, *validate.check_shop(shop, places)]
    registered, register_findings = registers.addresses(documents)
    all_findings = [*unfinished, *findings, *made_findings, *shape_findings, *rule_findings]
    all_findings += [*register_findings, *forward_findings]
    all_findings += [*hold_findings, *registers.check_holds(shop, holds, places)]
    all_findings += [*ledger_findings, *own_state, *notice_findings]
    is_damaged = any(one.code == "A606" for one in ledger_findings)
    tally = ledger.tally if ledger else None
    lessons = tuple(
        registers.check_changed(tally, shop.changes, contents, content, is_damaged=is_damaged)
    )
    all_findings += lessons
    gaps = registers.Gaps(places.unbuilt)
    told = {"addresses": register_findings, "forwards": forward_findings}
    faulty = {one for one, problems in told.items() if problems or (one, one) in places.unbuilt}
    gone = tuple(registers.gone(contents, content)) if ledger is None else ()
    all_findings += gone
    faulty |= {Path(one.place.file).stem for one in gone}
    file = f"{content.name}/{REGISTER}"
    found_wrong = forwarding.check(
        registered, forwards, shop, file, gaps, documents=documents, faulty=faulty,
        lost=registers.pages_of(lessons),
    )  # fmt: skip
    all_findings += [one for one in found_wrong if ledger is None or one.code != "A602"]
    if not gaps.hides_records:  # else a slip would hide uses, and look like many
        all_findings += link.check_terms(shop, terms, found.term_uses, places.of)
    if ledger is None:
        revisions, lagging = registers.revisions(
            documents, registry, shop, found.fingerprints, places, gaps, revision_findings
        )
        all_findings += [*revision_findings, *lagging, *registers.no_ledger(notices)]
    else:
        now = registers.standing(
            ledger, registry, notices, shop, found.fingerprints, places, gaps,
            is_damaged=is_damaged,
            named=registers.half_written(documents, notices),
        )  # fmt: skip
        shop, revisions = now.shop, now.registry
        all_findings += now.findings
    loaded = Loaded(
        content,
        shop,
        places,
        registered,
        forwards,
        terms,
        found.sheets,
        found.term_uses,
        found.fingerprints,
        revisions,
        (),
        ledger,
        notices,
        holds,
    )
    all_findings += free_page_findings(loaded)
    if drafts(shop).whole:  # nothing is published yet, so nothing is to be kept
        all_findings = [one for one in all_findings if one.code not in ("A602", "A605")]
    return replace(loaded, findings=in_order(all_findings))


def _before(content: Path) -> tuple[Finding, ...]:
    """Before anything is read: what a command wrote half is finished, and the day is one."""
    if is_day_wrong():
        cure = "write seconds since 1970, or take it out of the environment"
        text = "the day that the environment gives cannot be read"
        return (Finding("R122", Severity.ERROR, Place(DAY_GIVEN), text, (cure,)),)
    try:
        finish(content)
    except OSError as error:
        text = f"what a command wrote half cannot be finished: {error.strerror}"
        cure = "make room on the disk, or give yourself the right to write; then run it again"
        place = Place(f"{content.name}/{JOURNAL}")
        told = (f"it is about {error.filename}", cure)
        return (Finding("R117", Severity.ERROR, place, text, told),)
    return ()


def check(content: Path, *, today: date | None = None) -> tuple[Finding, ...]:
    """Every finding about a content folder, in order; `today` as in `load`."""
    with no_collecting():
        return _load(content, today or day_of_build(), keep_sheets=False).findings


def not_released(loaded: Loaded) -> tuple[Finding, ...]:
    """What a build for use must not publish: drafts; and addresses that are not registered yet."""
    if loaded.ledger is None:
        return ()
    planned = forwarding.promised(loaded.shop)
    return registers.not_released(
        loaded.shop, loaded.places.of, loaded.registered, planned, loaded.content.name
    )


@dataclass(frozen=True, slots=True)
class SitePlan:
    """Every page that will exist, and what a site engine needs besides."""

    pages: tuple[PlannedPage, ...]
    free_pages: tuple[Link, ...]
    inline: Inline
    files: tuple[tuple[str, Path], ...]
    """Address and path of every drawing and sheet that a record names."""
    promised: tuple[str, ...] = ()
    """Every published address that this edition must hold, where it is now or forwarded."""
    foot: Callable[[str], str] = lambda _: ""
    """The HTML at the end of a free page, from its address."""
    photographs: tuple[read.Photograph, ...] = ()
    """Every picture made of pixels that a record names: it is published in copies."""
    texts: tuple[tuple[str, str], ...] = ()
    """Address and text of every other file that is made: scripts, calendars of follow-up."""
    help_first: search.FirstHelp | None = None
    """What search shows before all results, where plain words ask for help."""
    outward: frozenset[str] = frozenset()
    """Every address outside the disk that a page may link to: where its source is edited."""


def plan_site(
    loaded: Loaded,
    overrides: tuple[Path, ...] = (),
    *,
    edition: str = "kiosk",
    edit_base: str = "",
    people: Timetable | None = None,
    machine: str = "",
) -> SitePlan:
    """Stop 6: the pages of a shop that may be published.

    `edition` is `kiosk` for readers, `full` for trainers and engineers too; `edit_base` the
    address of the web before a source file's name at which it is edited,
    `people` the plan for a crew, in the full edition; `machine` the one at which a kiosk stands:
    of a job of several like machines it shows that on its own.
    """
    free_pages = tuple(free.free_pages(loaded.content / "pages"))
    planned, inline, foot = pages.plan_pages(
        loaded.shop,
        loaded.terms,
        loaded.sheets,
        loaded.content.name,
        free_pages,
        overrides,
        edition=edition,
        term_uses=loaded.term_uses,
        moved=forwarding.moved(loaded.registered, loaded.forwards, loaded.shop),
        fingerprints=loaded.fingerprints,
        edit_base=edit_base,
        people=people,
        machine="" if edition == "full" else machine,
        layouts=read.read_layouts(loaded.content),
    )
    promised = tuple(
        one for one in loaded.registered if edition == "full" or not link.is_full_only(one)
    )
    found = meanings.meaning_files(loaded.shop.terms.values(), inline.plain)
    scripts = ((f"{ASSETS_ADDRESS}/{name}", text) for name, text in found.items())
    crew = people if edition == "full" else None
    shop, terms, uses = loaded.shop, loaded.terms, loaded.term_uses
    texts = (*scripts, *pages.calendar_files(shop, terms, loaded.sheets, crew, uses))
    named, photographs = _named_files(loaded)
    outward = pages.edit_links(edit_base, loaded.content.name, planned, free_pages)
    help_first = search.first_help(shop, inline.plain)
    return SitePlan(
        planned, free_pages, inline, named, promised, foot, photographs, texts, help_first, outward
    )


def photograph_copies(plan: SitePlan) -> Iterator[tuple[str, bytes] | Finding]:
    """Address and bytes of every copy of a photograph, or why one cannot be published."""
    return read.prepared(plan.photographs)


def _named_files(
    loaded: Loaded,
) -> tuple[tuple[tuple[str, Path], ...], tuple[read.Photograph, ...]]:
    """The files that records name: those published as they are, and the photographs."""
    plain: list[tuple[str, Path]] = []
    photographs: list[read.Photograph] = []
    for folder, name in loaded.shop.named_files():
        path = loaded.content / folder / name
        size = loaded.shop.pictures.get(name) if folder == "pictures" else None
        made = copies(name, size) if size else ()
        if made:
            sizes = tuple((one.address, one.width) for one in made)
            shown = f"{loaded.content.name}/{folder}/{name}"
            photographs.append(read.Photograph(shown, path, sizes))
        else:
            plain.append((f"{folder}/{name}", path))
    return tuple(plain), tuple(photographs)


def site_facts(loaded: Loaded, *, edition: str = "kiosk") -> SiteFacts:
    """What the document around every page says: the stamp of the copy, the screen's manners."""
    shop = loaded.shop
    jobs = shop.jobs.values() if loaded.may_publish else ()
    prints = [loaded.fingerprints[job.id] for job in jobs]
    prints += [one.reason for those in shop.holds.values() for one in those]
    return facts_of(shop, prints, edition=edition)


def plan_problems(loaded: Loaded, former: SitePlan | None) -> SitePlan:
    """For a preview: the last good plan, with the findings in place of the pages they are about."""
    if former is None:
        inline = Inline(loaded.shop, link.TermIndex(()))
        former = SitePlan((), (), inline, ())
    told = pages.problem_pages(loaded.findings, former.pages, loaded.content.name)
    return replace(former, pages=told)


def free_page_findings(loaded: Loaded) -> tuple[Finding, ...]:
    """Links by id on the free pages that point nowhere."""
    findings: list[Finding] = []
    for path in sorted((loaded.content / "pages").rglob("*.md")):
        name = f"{loaded.content.name}/{path.relative_to(loaded.content).as_posix()}"
        text, problems = read.read_text(path, name)
        findings += problems
        findings += read.hidden_entities(text or "", name)
        findings += read.settings_in_page(text or "", name)
        for column, number, link_text in free.links_in(text or ""):
            place = partial(Place, name, number, column)
            findings += validate.check_text(loaded.shop, loaded.places, link_text, place)
    return tuple(findings)


def finish_site(
    built: Path,
    entries: Iterable[SearchEntry],
    promised: Collection[str] = (),
    outward: Collection[str] = (),
    help_first: search.FirstHelp | None = None,
) -> tuple[Finding, ...]:
    """Stop 7: tidy a built site, add what search needs, and read the site once more.

    Every promised address must be there; only the outward addresses may lead outside the disk.
    """
    publish.tidy(built)
    search.write_search(built, entries, help_first)
    return in_order(list(publish.crawl(built, promised, outward)))


def register(content: Path) -> tuple[tuple[Finding, ...], int]:
    """Add new addresses to the register; the findings that prevent it, and how many were added."""
    loaded = load(content)
    if loaded.prevents_registering:
        return loaded.prevents_registering, 0
    return (), register_addresses(loaded)


def register_addresses(loaded: Loaded) -> int:
    """Add the new addresses of a shop already read to its register; how many there are."""
    planned = forwarding.promised(loaded.shop)
    has_other = (loaded.content / registers.REVISIONS).exists()
    text = registers.addresses_text(loaded.registered, planned, has_other=has_other)
    write_together(loaded.content, {loaded.content / REGISTER: text})
    return len(set(planned) - set(loaded.registered))
