"""Both registers read and held against the shop: published addresses, and revisions.

Called once by `pipeline.load`; hands on what is registered and the findings.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from benchleaf import read, validate
from benchleaf.diagnose import Finding, Place, Severity
from benchleaf.model import Shop

from . import revision_entries, revision_register
from .faults import damaged
from .gaps import Gaps
from .renamed import former_numbers

REGISTER = "addresses.yml"
REVISIONS = "revisions.yml"


def read_registry(
    documents: tuple[read.Document, ...],
) -> tuple[revision_register.Registry, tuple[Finding, ...]]:
    """The register of revisions as it stands, and what is wrong with it."""
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
) -> tuple[revision_register.Registry, tuple[Finding, ...]]:
    """The register with what it needs to judge the jobs, and what it says of them.

    Jobs of which something could not be read are passed over. A shop without the file has no
    register yet, and is not held to one; one that is damaged proves nothing.
    """
    document = next((one for one in documents if one.kind == "revisions"), None)
    whole = gaps.whole_jobs(shop)
    known = replace(shop, jobs={one: job for one, job in shop.jobs.items() if one in whole})
    registry = replace(registry, numbers=former_numbers(shop.renamed))
    registry = registry.with_former(known, fingerprints)
    if document is None or document.echoes is not None:
        return registry, ()
    found = revision_register.check_revisions(
        known, fingerprints, registry, places.of, document.name
    )
    return registry, tuple(found)


def milder(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """For a preview: a revision that lags behind is a warning."""
    return tuple(
        replace(one, severity=Severity.WARNING) if one.code == "A604" else one for one in findings
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
        elif item.text in registered:
            problems.append(
                damaged("A603", "addresses", item.place, f"'{item.text}' is there twice")
            )
        else:
            registered[item.text] = item.place
    return registered, tuple(problems)
