"""Which records stand: those that no other one puts right."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from benchleaf.diagnose import Finding

from .folded_records import Booked


def standing(records: Sequence[Booked]) -> tuple[tuple[Booked, ...], tuple[Finding, ...]]:
    """The records that no other one replaces, each once; and corrections that fit nothing.

    Of two that put the same one right, as two trainers may do apart, the later one counts.
    """
    known = {one.name: one for one in records}
    found: list[Finding] = []
    heirs: dict[str, list[Booked]] = {}
    for one in known.values():
        if one.record.replaces is not None:
            heirs.setdefault(one.record.replaces, []).append(one)
    gone = set()
    for name, those in heirs.items():
        *less, _ = sorted(those, key=lambda each: each.in_time)
        former = known.get(name)
        found += _misfits(those, former, name)
        twice = f"{name} is put right twice, and the later record counts"
        found += (each.found("C747", ("replaces",), twice, "take one of the two back")
                  for each in less)  # fmt: skip
        gone |= {each.name for each in less}
        if former is not None and former.record.person == those[-1].record.person:
            gone.add(name)
    return tuple(one for name, one in known.items() if name not in gone), tuple(found)


def _misfits(those: Iterable[Booked], former: Booked | None, name: str) -> Iterator[Finding]:
    for one in those:
        if former is None:
            text, cure = f"there is no record {name}", "write the name of its file in records/"
        elif former.record.person != one.record.person:
            person = former.record.person
            text = f"{name} is about {person}, and this record about {one.record.person}"
            cure = "a correction is about the same person: take that one back, and make a new one"
        else:
            continue
        yield one.found("C747", ("replaces",), text, cure)
