"""Jobs under another number: the same job goes on, where its forward and its meaning say so.

A forward alone is no proof: a job that is gone may lead to quite another one. Only where the new
number was registered with a meaning that the old one had before is it the same job. Then its
sign-offs go on, and nothing is said otherwise where another job names it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from benchleaf.compute import set_up_sheets
from benchleaf.meaning import Meanings, fingerprint_of
from benchleaf.model import Job, Shop

from .former_method import former_fingerprint
from .forwards import Entries
from .revision_register import Registry


def renamed(shop: Shop, entries: Entries, registry: Registry) -> dict[str, str]:
    """The number that each job once had -> the one it has now; the oldest of a job first."""
    wanted = dict(_by_forward(shop, entries))
    while wanted:
        tried = replace(shop, renamed=wanted)
        held = {old: new for old, new in wanted.items() if _is_same(old, new, tried, registry)}
        if held == wanted:
            break
        wanted = held
    return wanted


def _by_forward(shop: Shop, entries: Entries) -> Iterator[tuple[str, str]]:
    chains = []
    for address in entries:
        chain = [_job(address)]
        while chain[-1] and chain[-1] not in shop.jobs and len(set(chain)) == len(chain):
            entry = entries.get(f"jobs/{chain[-1]}.html")
            chain.append(_job(entry[0].new) if entry else "")
        if chain[-1] in shop.jobs and len(chain) > 1:
            chains.append(chain)
    for chain in sorted(chains, key=len, reverse=True):
        yield chain[0], chain[-1]


def _job(address: str) -> str:
    """The job whose page that is, empty for any other address."""
    is_page = address.startswith("jobs/") and address.endswith(".html")
    return address.removeprefix("jobs/").removesuffix(".html") if is_page else ""


def _is_same(old: str, new: str, shop: Shop, registry: Registry) -> bool:
    before = {one.fingerprint for one in registry.by_job.get(old, ())}
    own = registry.by_job.get(new, ())
    if own:
        return own[0].fingerprint in before
    return bool(before & set(_now(shop, shop.jobs[new]))) if before else False


def _now(shop: Shop, job: Job) -> Iterator[str]:
    """The fingerprint of a job by both methods."""
    sheets = set_up_sheets(shop, job)
    yield fingerprint_of(Meanings(shop).of(job, sheets))
    yield former_fingerprint(shop, job, sheets)


def former_numbers(renames: Mapping[str, str]) -> dict[str, tuple[str, ...]]:
    """Each job under another number -> those that it had, the oldest first."""
    found: dict[str, tuple[str, ...]] = {}
    for old, new in renames.items():
        found[new] = (*found.get(new, ()), old)
    return found
