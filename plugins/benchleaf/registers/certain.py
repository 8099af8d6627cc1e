"""The jobs of which damaged registers still tell for sure what was released.

Register and history get one entry each at a release. Where both tell the same of a job, one of the
two is whole, and nothing that the repository remembers of it is missing, the job lost nothing: then
a change of it is told beside the damage, and not in a second run.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import TYPE_CHECKING

from benchleaf.diagnose import Finding

from .chain import Linked, breaks
from .once_there import gone_lines, numbered

if TYPE_CHECKING:
    from .ledger import Ledger

_BOTH = ("revisions", "history")


def certain_jobs(
    ledger: Ledger,
    chains: Mapping[str, Sequence[Linked]],
    told: Mapping[str, Sequence[Finding]],
    texts: Mapping[str, str],
) -> frozenset[str]:
    """The jobs that lost nothing; `told` is what is wrong with each register."""
    if all(told[name] for name in _BOTH):
        return frozenset()
    entered: dict[str, list[tuple[str, bool]]] = {}
    for one, _ in ledger.entries:
        entered.setdefault(one.job, []).append((one.revision, one.wording_only))
    issued = {
        job: [(one.revision, one.wording_only) for one in those]
        for job, those in ledger.by_job.items()
    }
    alike = {job for job, those in issued.items() if entered.get(job) == those}
    return frozenset(alike - set(_altered(chains)) - set(_forgotten(ledger, texts)))


def _altered(chains: Mapping[str, Sequence[Linked]]) -> Iterator[str]:
    return (one.job for name in _BOTH for one in breaks(chains[name]))


def _forgotten(ledger: Ledger, texts: Mapping[str, str]) -> Iterator[str]:
    """The jobs of lines that the repository remembers and that stand nowhere now."""
    for name in _BOTH:
        for line in gone_lines(ledger.once, name, texts.get(name, "")):
            if (found := numbered(line)) is not None:
                yield found[0]
