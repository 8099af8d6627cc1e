"""The registers read and held against the shop: published addresses, and revisions.

Called once by `pipeline.load`; hands on what is registered and the findings. A shop has a ledger
where `benchleaf release` gives its revisions; else its job files say them.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from benchleaf import read, validate
from benchleaf.diagnose import Finding, Place, Severity
from benchleaf.model import Shop

from . import revision_entries, revision_register
from .faults import damaged
from .gaps import Gaps
from .ledger import Ledger, renumbered
from .ledger_entries import address_and_link
from .notices import Noticed, check_notices, unreleased
from .renamed import former_numbers

REGISTER = "addresses.yml"
REVISIONS = "revisions.yml"


def read_registry(
    documents: tuple[read.Document, ...], ledger: Ledger | None = None
) -> tuple[revision_register.Registry, tuple[Finding, ...]]:
    """The register of revisions as it stands, and what is wrong with it.

    A ledger has read it already, and told what is wrong.
    """
    if ledger is not None:
        return revision_register.Registry.of(entry for entry, _ in ledger.entries), ()
    document = next((one for one in documents if one.kind == "revisions"), None)
    entries, findings = revision_entries.read_revisions(document)
    return revision_register.Registry.of(entry for entry, _ in entries), findings


def revisions(
    documents: tuple[read.Document, ...],
    registry: revision_register.Registry,
    shop: Shop,
    fingerprints: Mapping[str, str],
    places: validate.Places,
    gaps: Gaps,
    problems: Sequence[Finding] = (),
) -> tuple[revision_register.Registry, tuple[Finding, ...]]:
    """The register with what it needs to judge the jobs, and what it says of them.

    Jobs of which something could not be read are passed over, and those whose entries have
    `problems`. A shop without the file has no register yet, and is not held to one.
    """
    document = next((one for one in documents if one.kind == "revisions"), None)
    whole = gaps.whole_jobs(shop) - revision_entries.unsure_jobs(document, problems, shop.jobs)
    known = replace(shop, jobs={one: job for one, job in shop.jobs.items() if one in whole})
    registry = replace(registry, numbers=former_numbers(shop.renamed))
    registry = registry.with_former(known, fingerprints)
    if document is None or document.echoes is not None:
        return registry, ()
    found = revision_register.check_revisions(
        known, fingerprints, registry, places.of, document.name
    )
    # What looks new may be lost.
    return registry, tuple(one for one in found if one.code != "A605" or not problems)


@dataclass(frozen=True, slots=True)
class Standing:
    """How a shop with a ledger stands to what was released."""

    shop: Shop
    """The shop, which knows its drafts now."""
    registry: revision_register.Registry
    findings: tuple[Finding, ...] = ()


def standing(
    ledger: Ledger,
    registry: revision_register.Registry,
    notices: tuple[Noticed, ...],
    shop: Shop,
    fingerprints: Mapping[str, str],
    places: validate.Places,
    gaps: Gaps,
    *,
    is_damaged: bool,
    named: Collection[str] = (),
) -> Standing:
    """A shop with a ledger: which of its jobs are drafts, and do notices cover them?

    `named` is what notices with a slip name. Jobs of which something could not be read are passed
    over; of a damaged ledger all but those of which it is certain.
    """
    registry = replace(registry, numbers=former_numbers(shop.renamed))
    shop = replace(
        renumbered(shop, ledger, registry.numbers), numbers=ledger.numbers(registry.numbers)
    )
    whole = gaps.whole_jobs(shop)
    if is_damaged:
        whole &= ledger.certain
    known = replace(shop, jobs={one: job for one, job in shop.jobs.items() if one in whole})
    registry = registry.with_former(known, fingerprints)
    drafts = unreleased(known, fingerprints, registry)
    shop, known = replace(shop, drafts=drafts), replace(known, drafts=drafts)
    found = check_notices(
        known, registry, notices, places,
        every=frozenset(shop.jobs), named=named,
        is_whole=whole >= shop.jobs.keys() and not (gaps.hides_records or is_damaged),
    )  # fmt: skip
    return Standing(shop, registry, tuple(found))


def milder(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """For a preview: a revision or a notice that lags behind is a warning."""
    return tuple(
        replace(one, severity=Severity.WARNING)
        if one.code in ("A604", "A605") and one.severity is Severity.ERROR
        else one
        for one in findings
    )


def addresses(
    documents: tuple[read.Document, ...],
) -> tuple[dict[str, Place], tuple[Finding, ...]]:
    """Every registered address with its place, and what is wrong with the register."""
    document = next((one for one in documents if one.kind == "addresses"), None)
    if document is None:
        return {}, ()
    listed = read.child(document.tree, "addresses")
    if not isinstance(listed, read.Listing):
        return {}, (
            damaged(
                "A603", "addresses", Place(document.name, 1, 1), "it holds no list 'addresses'"
            ),
        )
    registered: dict[str, Place] = {}
    problems = []
    for item in listed.items:
        if not isinstance(item, read.Scalar):
            problems.append(damaged("A603", "addresses", item.place, "this entry is no address"))
            continue
        address, _ = address_and_link(item.text)
        if address in registered:
            problems.append(damaged("A603", "addresses", item.place, f"'{address}' is there twice"))
        else:
            registered[address] = item.place
    return registered, tuple(problems)
