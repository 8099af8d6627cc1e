"""The registers read and held against the shop: published addresses, and revisions.

Called once by `pipeline.load`; hands on what is registered and the findings. A shop has a ledger
where `benchleaf release` gives its revisions; else its job files say them.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from benchleaf import read, validate
from benchleaf.diagnose import Finding, Place, Severity
from benchleaf.model import Shop

from . import revision_entries, revision_register
from .faults import damaged
from .ledger import Ledger
from .ledger_entries import address_and_link
from .notices import Noticed, check_notices, unreleased

REGISTER = "addresses.yml"
REVISIONS = "revisions.yml"


def revisions(
    documents: tuple[read.Document, ...],
    shop: Shop,
    fingerprints: Mapping[str, str],
    places: validate.Places,
    *,
    is_whole: bool,
) -> tuple[revision_register.Registry, tuple[Finding, ...]]:
    """The register of revisions, and what it says of the shop's jobs.

    `is_whole` is False where other errors leave records out. A shop without the file has no
    register yet, and is not held to one.
    """
    document = next((one for one in documents if one.kind == "revisions"), None)
    entries, findings = revision_entries.read_revisions(document)
    registry = revision_register.Registry.of(entry for entry, _ in entries)
    if is_whole:
        registry = registry.with_former(shop, fingerprints)
    if document is None or findings or not is_whole:
        return registry, findings
    found = revision_register.check_revisions(
        shop, fingerprints, registry, places.of, document.name
    )
    return registry, tuple(found)


@dataclass(frozen=True, slots=True)
class Standing:
    """How a shop with a ledger stands to what was released."""

    shop: Shop
    """The shop, which knows its drafts now."""
    registry: revision_register.Registry
    findings: tuple[Finding, ...] = ()


def standing(
    ledger: Ledger,
    notices: tuple[Noticed, ...],
    shop: Shop,
    fingerprints: Mapping[str, str],
    places: validate.Places,
    *,
    is_whole: bool,
) -> Standing:
    """A shop with a ledger: which of its jobs are drafts, and do notices cover them?"""
    registry = revision_register.Registry.of(entry for entry, _ in ledger.entries)
    shop = replace(shop, numbers=ledger.numbers())
    if not is_whole:
        return Standing(shop, registry)
    registry = registry.with_former(shop, fingerprints)
    shop = replace(shop, drafts=unreleased(shop, fingerprints, registry))
    found = check_notices(shop, registry, notices, places)
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
