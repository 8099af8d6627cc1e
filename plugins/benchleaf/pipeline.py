"""The whole journey as a handful of calls, in order: the file to read first.

content/ -> read -> records -> rules -> (set-ups computed) -> links -> pages -> checked site.
Every call hands back plain values; nothing here knows MkDocs.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from pathlib import Path

from benchleaf import link, read, validate
from benchleaf.diagnose import Finding, Place, Severity, in_order
from benchleaf.model import FOLDERS, KINDS, Manual, Record, Shop

REGISTER = "addresses.yml"


@dataclass(frozen=True, slots=True)
class Loaded:
    """Everything read from content/, and every finding about it, in order."""

    content: Path
    shop: Shop
    places: validate.Places
    registered: dict[str, Place]
    findings: tuple[Finding, ...]

    @property
    def may_publish(self) -> bool:
        """True when no finding is an error."""
        return not any(finding.blocks_publishing for finding in self.findings)


def load(content: Path) -> Loaded:
    """Read and check a content folder: stops 1 to 5, all problems in one run."""
    documents, findings = read.read_content(content, FOLDERS)
    shop, places, shape_findings = validate.gather(documents)
    rule_findings = validate.check_rules(shop, places)
    registered, register_findings = _register(documents, content)
    all_findings = [*findings, *shape_findings, *rule_findings, *register_findings]
    if not places.unbuilt and not register_findings and shop.jobs:
        all_findings += link.check_register(
            registered, list(link.every_address(shop)), f"{content.name}/{REGISTER}"
        )
    return Loaded(content, shop, places, registered, in_order(all_findings))


def check(content: Path) -> tuple[Finding, ...]:
    """Every finding about a content folder, in order."""
    return load(content).findings


def register(content: Path) -> tuple[tuple[Finding, ...], int]:
    """Add new addresses to the register; the findings that prevent it, and how many were added."""
    loaded = load(content)
    blocking = tuple(finding for finding in loaded.findings if finding.blocks_publishing)
    if blocking:
        return blocking, 0
    planned = list(link.every_address(loaded.shop))
    text = link.register_text(loaded.registered, planned)
    (content / REGISTER).write_text(text, encoding="utf-8")
    return (), len(set(planned) - set(loaded.registered))


def schema(kind: str) -> str | None:
    """JSON Schema of a kind of record, or None where there is no such kind."""
    classes: dict[str, type[Record]] = {**KINDS, "manual": Manual}
    singular = {name.removesuffix("s"): name for name in KINDS}
    found = classes.get(singular.get(kind, kind))
    return json.dumps(found.model_json_schema(), indent=2) if found else None


def schema_kinds() -> tuple[str, ...]:
    """The kinds that `schema` knows."""
    return (*KINDS, "manual")


def _register(
    documents: tuple[read.Document, ...], content: Path
) -> tuple[dict[str, Place], tuple[Finding, ...]]:
    """Every registered address with its place, and what is wrong with the register."""
    document = next((one for one in documents if one.kind == "addresses"), None)
    if document is None:
        return {}, ()
    listed = read.child(document.tree, "addresses")
    if not isinstance(listed, read.Listing):
        return {}, (_damaged(Place(document.name, 1, 1), "it holds no list 'addresses'"),)
    registered: dict[str, Place] = {}
    problems = []
    for item in listed.items:
        if not isinstance(item, read.Scalar) or item.text in registered:
            problems.append(_damaged(item.place, "this entry is no address, or is there twice"))
        else:
            registered[item.text] = item.place
    return registered, tuple(problems)


def _damaged(place: Place, why: str) -> Finding:
    return Finding(
        "A603", Severity.ERROR, place, f"the register of addresses is damaged: {why}",
        ("restore it from the last commit, then run `benchleaf register`",),
    )  # fmt: skip
