"""A person's file and the records made at the bench, folded together in the order of time.

It is done on the trees, so that each value still knows where it was written: every rule about
people then looks at records, too, and names the record's own file.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date, time, timedelta

from benchleaf.diagnose import Finding, Place, Severity
from benchleaf.model import ROUNDS, BenchKind, BenchRecord, Result, Shop
from benchleaf.read import Listing, Mapping, Node, Scalar, child

from .places import locate, written

DAY_BEFORE = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Booked:
    """A record with its tree."""

    record: BenchRecord
    tree: Node
    name: str
    """The record's name, by what it said when it was made."""

    @property
    def in_time(self) -> tuple[date, time, str]:
        """A sort key: as things happened, and the same on every computer."""
        return self.record.day, self.record.begun or time(), self.name

    @property
    def job(self) -> str:
        """The job, where the record is of one."""
        return self.record.job or ""

    def at(self, *keys: str | int) -> Place:
        """Where one of its values was written."""
        return locate(self.tree, keys)

    def says(self, text: str, *keys: str | int) -> Scalar:
        """A text with the place of a value of this record."""
        return Scalar(text, self.at(*keys))

    def found(self, code: str, keys: Sequence[str | int], text: str, cure: str) -> Finding:
        """A finding at one of its values."""
        return Finding(code, Severity.WARNING, self.at(*keys), text, (cure,))


@dataclass(slots=True)
class _Folding:
    """One person's lists while records are folded in."""

    tree: Mapping
    shop: Shop
    lists: dict[str, list[Node]]
    made: dict[str, int] = field(default_factory=dict)
    """Pieces of each job that the records know of."""
    findings: list[Finding] = field(default_factory=list)


_LISTS = ("can_do", "learning", "not_needed", "absent")


def folded(tree: Node, records: Iterable[Booked], shop: Shop) -> tuple[Node, tuple[Finding, ...]]:
    """The tree of a person's file with what records say, and what of it does not fit together."""
    in_time = sorted(records, key=lambda one: one.in_time)
    if not isinstance(tree, Mapping) or not in_time:
        return tree, ()
    lists = {key: child(tree, key) for key in _LISTS}
    if any(one is not None and not isinstance(one, Listing) for one in lists.values()):
        return tree, ()  # told already
    held = {key: list(one.items) if isinstance(one, Listing) else [] for key, one in lists.items()}
    folding = _Folding(tree, shop, held)
    for one in in_time:
        _FOLD[one.record.kind](folding, one)
    return _put_back(folding, lists), tuple(folding.findings)


def _put_back(folding: _Folding, before: dict[str, Node | None]) -> Node:
    entries = {key.text: (key, value) for key, value in folding.tree.entries}
    for key, items in folding.lists.items():
        former = before[key]
        if items and (not isinstance(former, Listing) or tuple(items) != former.items):
            head = entries[key][0] if key in entries else Scalar(key, items[0].place)
            entries[key] = head, Listing(tuple(items), former.place if former else items[0].place)
        elif not items and former is not None:
            del entries[key]
    return Mapping(tuple(entries.values()), folding.tree.place)


# Entries of the lists


def _index(folding: _Folding, key: str, job: str) -> int | None:
    """The place of a job's entry in a list."""
    for number, one in enumerate(folding.lists[key]):
        found = written(one, ("job",)) if isinstance(one, Mapping) else written(one, ())
        wanted = (found or "").strip().lower()
        if folding.shop.renamed.get(wanted, wanted) == job:
            return number
    return None


def _entry(folding: _Folding, key: str, job: str) -> Mapping | None:
    number = _index(folding, key, job)
    found = folding.lists[key][number] if number is not None else None
    return found if isinstance(found, Mapping) else None


def _mapping(one: Booked, values: dict[str, Node]) -> Mapping:
    keys = tuple((Scalar(name, value.place), value) for name, value in values.items())
    return Mapping(keys, one.at())


def _set(folding: _Folding, key: str, one: Booked, values: dict[str, Node]) -> None:
    """Write the entry of a job: in the place of the one that is there, or at the end."""
    tree = _mapping(one, values)
    number = _index(folding, key, one.job)
    if number is None:
        folding.lists[key].append(tree)
    else:
        folding.lists[key][number] = tree


def _values(entry: Mapping | None) -> dict[str, Node]:
    return {key.text: value for key, value in entry.entries} if entry is not None else {}


def _take_out(folding: _Folding, key: str, job: str) -> None:
    number = _index(folding, key, job)
    if number is not None:
        del folding.lists[key][number]


def _day(values: dict[str, Node], key: str) -> date | None:
    node = values.get(key)
    try:
        return date.fromisoformat(node.text) if isinstance(node, Scalar) else None
    except ValueError:
        return None


def _whole(values: dict[str, Node], key: str) -> int:
    node = values.get(key)
    text = node.text.strip() if isinstance(node, Scalar) else ""
    return int(text) if text.isascii() and text.isdigit() else 0


# What each kind of record does


def _lesson(folding: _Folding, one: Booked) -> None:
    """Rounds are credited as far as they follow on one another without a gap."""
    sign_off = _entry(folding, "can_do", one.job)
    if sign_off is None:
        _learn(folding, one)
        if one.record.result is Result.ALONE:
            _sign_off(folding, one)
        return
    if (_day(_values(sign_off), "judged") or date.min) > one.record.day:
        return
    if one.record.result is Result.ALONE:
        _sign_off(folding, one)
    elif one.record.result is Result.MORE:
        _end(folding, one)
    elif one.record.rounds and not _why_not(folding, one):
        _did(folding, one)  # after a lapse only the try-out counts


def _learn(folding: _Folding, one: Booked) -> None:
    record, values = one.record, _values(_entry(folding, "learning", one.job))
    before = _whole(values, "round")
    is_other = before > 0 and _text(values, "revision").upper() != record.revision
    if is_other and 1 in record.rounds:
        before = 0  # they began again, on the page as it is now
    reached = before
    while reached + 1 in record.rounds:
        reached += 1
    beyond = [number for number in sorted(record.rounds) if number > reached]
    if beyond:
        folding.findings.append(one.found(
            "C743", ("steps",),
            f"round {beyond[0]} of {one.job.upper()} is said to be done, and round {reached + 1} "
            "is not recorded",
            f"take in the record of round {reached + 1} first: rounds go in their order",
        ))  # fmt: skip
    if before == 0:  # else they began on an older one, and are still told what changed since
        values["revision"] = one.says(record.revision or "", "revision")
    values["job"] = one.says(one.job, "job")
    values["round"] = one.says(str(reached), "steps")
    values["trainer"] = one.says(record.by, "by")
    _add_times(folding, one, values)
    _take_out(folding, "not_needed", one.job)
    _set(folding, "learning", one, values)


def _text(values: dict[str, Node], key: str) -> str:
    node = values.get(key)
    return node.text if isinstance(node, Scalar) else ""


def _add_times(folding: _Folding, one: Booked, values: dict[str, Node]) -> None:
    """Pieces count on from the last one that is known, unless the record says how many were made.

    The times of somebody on their own go into no curve without that: what they made meanwhile
    nobody counted.
    """
    record, former = one.record, values.get("timed")
    items = list(former.items) if isinstance(former, Listing) else []
    if one.job not in folding.made:
        numbers = (_whole(_values(each), "piece") for each in items if isinstance(each, Mapping))
        folding.made[one.job] = max(numbers, default=0)
    known = folding.made[one.job]
    before = record.made_before
    if before is not None and before < known:
        folding.findings.append(one.found(
            "C743", ("made_before",),
            f"{before} pieces of {one.job.upper()} are said to be made before, and {known} are "
            "recorded",
            "correct made_before, or leave it out where nobody counted",
        ))  # fmt: skip
    if before is None and "judged" in values:
        return
    base = max(before or 0, known)
    for number, piece in enumerate(record.pieces):
        if piece.time is not None:
            entry = {
                "piece": one.says(str(base + piece.piece), "pieces", number, "piece"),
                "time": one.says(piece.time.text, "pieces", number, "time"),
            }
            keys = tuple((Scalar(key, value.place), value) for key, value in entry.items())
            items.append(Mapping(keys, one.at("pieces", number)))
    folding.made[one.job] = base + max((each.piece for each in record.pieces), default=0)
    if items:
        values["timed"] = Listing(tuple(items), items[0].place)


def _sign_off(folding: _Folding, one: Booked) -> None:
    """Judged able: all rounds are behind whoever does it for the first time."""
    record, former = one.record, _values(_entry(folding, "can_do", one.job))
    learning = _values(_entry(folding, "learning", one.job))
    reached = _whole(learning, "round")
    if not former and reached < len(ROUNDS):
        folding.findings.append(one.found(
            "C743", ("result",),
            f"judged able to do {one.job.upper()} alone, and round {reached + 1} of {len(ROUNDS)} "
            "is not recorded",
            "teach the rounds that are left, or take in their record first",
        ))  # fmt: skip
        return
    values: dict[str, Node] = {
        "job": one.says(one.job, "job"),
        "revision": one.says(record.revision or "", "revision"),
        "fingerprint": one.says(record.fingerprint or "", "fingerprint"),
        "judged": one.says(str(record.day), "day"),
        "judged_by": one.says(record.by, "by"),
        "last_done": one.says(str(record.day), "day"),
    }
    first = former.get("first_proved", former.get("judged"))
    if first is not None:
        values["first_proved"] = first
    timed = former.get("timed", learning.get("timed"))
    if timed is not None:
        values["timed"] = timed
    if former:
        _add_times(folding, one, values)
    _take_out(folding, "learning", one.job)
    _take_out(folding, "not_needed", one.job)
    _set(folding, "can_do", one, values)


def _end(folding: _Folding, one: Booked) -> None:
    """A sign-off that was seen not to hold ends the day before."""
    values = _values(_entry(folding, "can_do", one.job))
    until = one.record.day - DAY_BEFORE
    former = _day(values, "until")
    if former is None or former > until:
        values["until"] = one.says(str(until), "result")
        _set(folding, "can_do", one, values)


def _why_not(folding: _Folding, one: Booked) -> tuple[str, str, str] | None:
    """Key, text and cure, where no sign-off held on the day; else nothing."""
    values = _values(_entry(folding, "can_do", one.job))
    day, job, person = one.record.day, one.job.upper(), one.record.person
    judged = _day(values, "judged")
    if judged is None or judged > day:
        cure = "whoever learns a job does it in a lesson: make a record of that kind"
        return "job", f"{person} is not signed off on {job} on {day}", cure
    last = max(judged, _day(values, "last_done") or judged)
    ends = last + timedelta(days=folding.shop.manual.teaching.recheck_after_unused_days)
    ends = min(ends, _day(values, "until") or date.max)
    if day > ends:
        cure = "it is proved again before the next run: make a try-out record"
        return "day", f"the sign-off of {person} for {job} held until {ends}, not on {day}", cure
    return None


def _did(folding: _Folding, one: Booked) -> bool:
    """They did the job, which counts only as long as the sign-off held: nothing is revived."""
    against = _why_not(folding, one)
    if against is not None:
        key, text, cure = against
        folding.findings.append(one.found("C749", (key,), text, cure))
        return False
    values = _values(_entry(folding, "can_do", one.job))
    last = _day(values, "last_done") or _day(values, "judged")
    if last is None or one.record.day > last:
        values["last_done"] = one.says(str(one.record.day), "day")
    _add_times(folding, one, values)
    _set(folding, "can_do", one, values)
    return True


def _check(folding: _Folding, one: Booked) -> None:
    if one.record.result is Result.MORE and _entry(folding, "can_do", one.job) is not None:
        _end(folding, one)
    elif _did(folding, one):
        _looked(folding, one)


def _looked(folding: _Folding, one: Booked) -> None:
    """What was stopped and shown again at a step was missed: the checks to come go by it.

    The record counts errors a step, so the step is named and none of its key points.
    """
    values = _values(_entry(folding, "can_do", one.job))
    missed = tuple(
        _mapping(one, {"step": one.says(each.step, "steps", number, "step")})
        for number, each in enumerate(one.record.steps)
        if each.errors
    )
    entry: dict[str, Node] = {
        "day": one.says(str(one.record.day), "day"),
        "by": one.says(one.record.by, "by"),
        "result": one.says("missed" if missed else "nothing missed", "result"),
    }
    if missed:
        entry["missed"] = Listing(missed, missed[0].place)
    former = values.get("checks")
    before = former.items if isinstance(former, Listing) else ()
    values["checks"] = Listing((*before, _mapping(one, entry)), one.at())
    _set(folding, "can_do", one, values)


def _absence(folding: _Folding, one: Booked) -> None:
    record = one.record
    values = {
        "first": one.says(str(record.day), "day"),
        "last": one.says(str(record.last), "last") if record.last else None,
        "starts": one.says(f"{record.begun:%H:%M}", "begun") if record.begun else None,
        "ends": one.says(f"{record.ended:%H:%M}", "ended") if record.ended else None,
    }
    entries = tuple((Scalar(key, node.place), node) for key, node in values.items() if node)
    folding.lists["absent"].append(Mapping(entries, one.at()))


def _nothing(folding: _Folding, one: Booked) -> None:
    """A record that was only taken back says nothing itself."""


_FOLD: dict[BenchKind, Callable[[_Folding, Booked], object]] = {
    BenchKind.LESSON: _lesson,
    BenchKind.TRY_OUT: _lesson,
    BenchKind.CHECK: _check,
    BenchKind.DONE: _did,
    BenchKind.ABSENCE: _absence,
    BenchKind.TAKEN_BACK: _nothing,
}
