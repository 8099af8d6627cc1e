"""What could not be read: nothing is said of it, and everything of the rest.

A mistake in one record must not hide what is wrong with another, nor make it look gone.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import dataclass

from benchleaf.link import addresses
from benchleaf.model import FOLDERS, Record, Shop, references
from benchleaf.validate import may_be

from .forwards import MACHINE_CHART, job_of_sheet, machine_of_chart

Key = tuple[str, str]
_REGISTERS = ("addresses", "forwards", "revisions")


@dataclass(frozen=True, slots=True)
class Gaps:
    """Records that are there and could not be read, or not as a whole."""

    unbuilt: Collection[Key] = ()
    """Kind and id; a kind twice for all of its records. The registers' files stand here too."""

    @property
    def hides_records(self) -> bool:
        """True where a record is missing."""
        return any(kind not in _REGISTERS for kind, _ in self.unbuilt)

    def hidden(self, registered: Collection[str]) -> frozenset[str]:
        """The registered addresses of which nobody can say whether they are gone."""
        if not self.unbuilt:
            return frozenset()
        kinds = {kind for kind, name in self.unbuilt if name == kind or not self._has(kind, name,
                 registered)}  # fmt: skip
        return frozenset(one for one in registered if self._hides(_owner(one), kinds))

    @staticmethod
    def _has(kind: str, name: str, registered: Collection[str]) -> bool:
        """False for a file whose name is no published id: its record may have any."""
        return addresses.address(kind, name) in registered

    def _hides(self, owner: Key, kinds: Collection[str]) -> bool:
        kind, name = owner
        if kind == "parts":  # a part is there as long as a job works on it
            return any(one == "jobs" for one, _ in self.unbuilt)
        return name != "index" and (
            kind in kinds or any(may_be(kind, name, one) for one in self.unbuilt)
        )

    def whole_jobs(self, shop: Shop) -> frozenset[str]:
        """The jobs of which everything is known that they say: no record they use is missing."""
        if ("manual", "manual") in self.unbuilt:
            return frozenset()
        known: dict[Key, bool] = {}
        return frozenset(
            job_id for job_id, job in shop.jobs.items()
            if ("jobs", job_id) not in self.unbuilt and self._is_whole(shop, job, known)
        )  # fmt: skip

    def _is_whole(self, shop: Shop, record: Record, known: dict[Key, bool]) -> bool:
        for key in _named(record):
            if key not in known:
                found = shop.of_kind(key[0]).get(key[1])
                known[key] = found is not None and key not in self.unbuilt  # also ends a ring
                if found is not None and known[key]:
                    known[key] = self._is_whole(shop, found, known)
            if not known[key]:
                return False
        return True


def _named(record: Record) -> Iterator[Key]:
    return ((kind, name) for _, kind, name in references(record) if kind != "jobs")


def _owner(address: str) -> Key:
    """The record that an address belongs to."""
    page, _, anchor = address.partition("#")
    if page == addresses.TERMS_PAGE:
        return "terms", anchor or "index"
    if page.startswith(MACHINE_CHART):
        return "machines", machine_of_chart(page)
    folder, _, name = page.removesuffix(".html").rpartition("/")
    if folder == "trainer":
        return "jobs", job_of_sheet(page) or name
    return (folder, name) if folder in (*FOLDERS, "parts") else ("pages", "index")
