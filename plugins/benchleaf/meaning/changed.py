"""A lesson of the difference: what is taught otherwise, in the order of the job.

From the moves between two meanings, or from entries that were kept. What belongs together is one:
a key point with its reason, a new hazard with its consequence.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from benchleaf.model import ChangedStatement, Retraining

from .echoes import told_once
from .folding import says_the_same
from .kept import group_of, move_of, now_token, reason_at, token_of, words_of
from .moves import Move, MoveKind
from .statement import About, Statement
from .verdicts import Consequence, Verdict, gravest_of, verdict

_GRAVE = (
    About.LIMIT, About.HAZARD, About.CONTROL, About.WORN, About.REACHED, About.CALL,
)  # fmt: skip
"""What keeps from harm, or tells of it: told first."""
_INJURES = "can injure"
_POSITION = re.compile(r" \d+(, [a-z ]+)?$")
"""The end of a place in words that names one entry of a list."""


@dataclass(frozen=True, slots=True)
class Changed:
    """One thing that is taught otherwise."""

    about: About
    kind: MoveKind
    place: str
    """Its address inside the job by ids."""
    where: str
    """The same in words, such as `step 'Clamp', key point 2`."""
    of: str
    """What it belongs to, where that stays: the key point whose reason changed."""
    was: str
    """Empty where it is new, and where it reads as it did before."""
    now: str
    """Empty where it is gone."""
    why: str
    """The reason of what it says now, where it has one."""
    verdict: Verdict
    is_grave: bool
    """True for hazards, what keeps them away, and key points that can injure."""
    is_reworded: bool
    """True where no number, negation, direction or order changed, though nobody declared so."""

    @property
    def step(self) -> str:
        """The id of the step that it stands in; empty outside the steps."""
        parts = self.place.split("/")
        return parts[1] if parts[0] == "steps" and len(parts) > 2 else ""


def changed(
    entries: Sequence[ChangedStatement], meaning: Sequence[Statement], rule: Retraining
) -> tuple[Changed, ...]:
    """What is taught otherwise, from kept entries; `meaning` is what the job says now.

    Declared changes of wording are left out: nothing follows from them.
    """
    found = _Found(meaning)
    judged = [
        (found.now(one), verdict(move_of(one), rule, is_declared=one.wording_only))
        for one in entries
    ]
    kept = [(one, what) for one, what in judged if what.what is not Consequence.NOTHING]
    rows = [_row(key, those, found) for key, those in _together(kept).items()]
    rows = sorted(told_once(rows), key=lambda one: found.order(one.place))
    return tuple(_reasons_once(rows))


Judged = tuple[ChangedStatement, Verdict]


class _Found:
    """The present statements of a job by their places and by what they say."""

    def __init__(self, meaning: Sequence[Statement]) -> None:
        self.by_place = {one.subject: one for one in meaning}
        self._order = {one.subject: n for n, one in enumerate(meaning)}
        self._said: dict[tuple[str, str], list[Statement]] = {}
        for one in meaning:
            self._said.setdefault((one.group, token_of(one)), []).append(one)

    def now(self, entry: ChangedStatement) -> ChangedStatement:
        """The entry with its place as it is now: lists may have grown since it was written."""
        token = now_token(entry)
        here = self._said.get((group_of(entry.place), token), []) if token is not None else []
        if not here or any(one.subject == entry.place for one in here):
            return entry
        one = here[0]
        return entry.model_copy(update={"place": one.subject, "where": one.where or entry.where})

    def in_order(self, place: str) -> str:
        """What stands in the list of a place now, in its order; of kinds those that can injure."""
        above, _, last = place.rpartition("/")
        key = "" if last.isdigit() else f"/{last}"
        above = above.rpartition("/")[0] if key else above
        places = itertools.takewhile(
            lambda one: f"{one}{key}" in self.by_place,
            (f"{above}/{number}" for number in itertools.count(1)),
        )
        if key != "/kind":
            return "; ".join(_says(self.by_place[f"{one}{key}"]).rstrip(".") for one in places)
        injure = [one for one in places if _says(self.by_place[f"{one}/kind"]) == _INJURES]
        points = "; ".join(_says(self.by_place.get(f"{one}/point")).rstrip(".") for one in injure)
        return f"These can injure now: {points}" if points else "None of them can injure now"

    def order(self, place: str) -> float:
        """Where it stands in the job; what is gone stands after its neighbours."""
        if place in self._order:
            return self._order[place]
        parts = place.split("/")
        for length in range(len(parts), 0, -1):
            above = "/".join(parts[:length])
            near = [n for one, n in self._order.items() if f"{one}/".startswith(f"{above}/")]
            if near:
                return (max(near) if length < len(parts) else min(near)) + 0.5
        return len(self._order)


def _together(judged: Iterable[Judged]) -> dict[str, list[Judged]]:
    rows: dict[str, list[Judged]] = {}
    for one, what in judged:
        rows.setdefault(_row_key(one), []).append((one, what))
    return rows


def _row_key(entry: ChangedStatement) -> str:
    """What is told in one: the parts of a key point, the record of a hazard that is new."""
    kind = move_of(entry).kind
    parts = entry.place.split("/")
    if "key_points" in parts[:-2] and kind is not MoveKind.MOVED:
        above = "/".join(parts[:-1])
        return f"gone {above}" if kind is MoveKind.GONE else above
    if parts[0] == "not_met":
        return f"{kind} {'/'.join(parts[:-1])}"
    if parts[0] == "hazards" and len(parts) > 2 and kind in (MoveKind.NEW, MoveKind.GONE):
        return f"{kind} hazards/{parts[1]}"
    return f"{kind} {entry.place} {entry.was} {entry.now}"


def _row(key: str, those: list[Judged], found: _Found) -> Changed:
    if key.startswith((f"{MoveKind.NEW} hazards/", f"{MoveKind.GONE} hazards/")) and len(those) > 1:
        return _hazard(those)
    entries = [one for one, _ in those]
    lead = _lead(entries)
    if lead.moved:
        return _moved(lead, those, found)
    above, _, last = lead.place.rpartition("/")
    is_point = "/key_points/" in lead.place
    is_met = not lead.place.startswith("not_met/")
    point, kind = (found.by_place.get(f"{above}/{one}") for one in ("point", "kind"))
    injures = [one.was for one in entries] + [_says(kind)]
    why = lead.why or reason_at(lead.place, found.by_place)
    if not is_met:
        why = next((one.now for one in entries if one.place == f"{above}/reason"), "") or ""
    was, now = _with_kind(*_sides(lead), entries) if is_point else _sides(lead)
    return Changed(
        lead.what,
        move_of(lead).kind,
        lead.place,
        _where(lead, last) if is_met else _NOT_MET,
        _says(point) if is_point and last in ("reason", "kind") else "",
        was,
        now,
        why if lead.now else "",
        gravest_of([what for _, what in those]),
        (is_point and _INJURES in injures)
        or (is_met and any(one.what in _GRAVE for one in entries)),
        all(_is_reworded(move_of(one)) for one in entries),
    )


def _with_kind(was: str, now: str, entries: list[ChangedStatement]) -> tuple[str, str]:
    """A key point on both sides with its kind, where that is another one now."""
    kind = next((one for one in entries if one.place.endswith("/kind")), None)
    if kind is None or len(entries) == 1 or not (kind.was and kind.now):
        return was, now
    return f"{was or now} ({kind.was})", f"{now} ({kind.now})"


_NOT_MET = "a hazard of the machine that is not met in this job"


def _sides(lead: ChangedStatement) -> tuple[str, str]:
    """What it said and says; only once what reads the same, such as a word that became a link."""
    if {lead.was_value, lead.now_value} & _TRUTHS:
        return _in_words(lead, lead.was_value), _in_words(lead, lead.now_value)
    was, now = words_of(lead)
    return ("" if was == now else was), now


_TRUTHS = {"True", "False"}


def _in_words(lead: ChangedStatement, value: str | None) -> str:
    """A yes or no by what it says yes or no to: *at break through*, *not at break through*."""
    what = lead.where.rpartition(", ")[2]
    return {"True": what, "False": f"not {what}"}.get(value or "", "")


def _where(lead: ChangedStatement, last: str) -> str:
    """The place in words; the point of a key point is the key point."""
    return lead.where.removesuffix(f", {last}") if last == "point" else lead.where


def _moved(entry: ChangedStatement, those: list[Judged], found: _Found) -> Changed:
    """The same in another order: titles in both orders, of other lists the one that holds now."""
    is_order = entry.what is About.ORDER
    was, now = (
        _titles(entry, one or "", found) if is_order else "" for one in (entry.was, entry.now)
    )
    where = entry.where if is_order else _POSITION.sub("", entry.where)
    now, was = now or found.in_order(entry.place), was if was != now else ""
    return Changed(
        entry.what, MoveKind.MOVED, entry.place, where, "", was, now, "",
        gravest_of([what for _, what in those]), entry.place.endswith("/kind"), False,
    )  # fmt: skip


def _titles(entry: ChangedStatement, ids: str, found: _Found) -> str:
    above = entry.place.removesuffix("/order")
    titles = ((one, _says(found.by_place.get(f"{above}/{one}/title"))) for one in ids.split(", "))
    return "; ".join(title or one for one, title in titles)


def _says(one: Statement | None) -> str:
    return one.words if one else ""


def _lead(entries: list[ChangedStatement]) -> ChangedStatement:
    """The one that says most: the point itself, before its reason and its kind."""
    ranks = {"reason": 1, "kind": 2}
    return min(entries, key=lambda one: ranks.get(one.place.rpartition("/")[2], 0))


def _is_reworded(move: Move) -> bool:
    before, after = move.before, move.after
    if before is None or after is None or not (before.is_wording and after.is_wording):
        return False
    return says_the_same(str(before.value), str(after.value))


def _hazard(those: list[Judged]) -> Changed:
    """A hazard that is new or gone, in one: signal word, name, what it is, how it is avoided."""
    entries = {one.place.split("/")[2]: one for one, _ in reversed(those)}
    parts = [one for one, _ in those]
    kind = move_of(parts[0]).kind
    is_new = kind is MoveKind.NEW

    def said(key: str) -> str:
        one = entries.get(key)
        return (one.now if is_new else one.was) or "" if one else ""

    avoid = " ".join((one.now if is_new else one.was) or "" for one in parts
                     if one.place.split("/")[2] == "avoid")  # fmt: skip
    head = ": ".join(one for one in (said("signal_word"), said("title")) if one)
    words = " ".join(one for one in (f"{head}.", said("what"), avoid) if one)
    place = "/".join(parts[0].place.split("/")[:2])
    where = parts[0].where.partition(",")[0]
    return Changed(
        About.HAZARD, kind, place, where, "", "" if is_new else f"{head}.", words if is_new else "",
        said("consequence") if is_new else "", gravest_of([what for _, what in those]), True, False,
    )  # fmt: skip


def _reasons_once(rows: list[Changed]) -> Iterator[Changed]:
    """Of several rows about one hazard only the first gives the consequence."""
    told: set[str] = set()
    for one in rows:
        is_hazard = one.place.startswith("hazards/")
        yield replace(one, why="") if is_hazard and one.why in told else one
        if is_hazard:
            told.add(one.why)
