"""Everything that a learner of a job is taught, as one list of statements.

Of a shared record enters what the job's pages show, and what keeps from harm; a number that is
only reckoned with enters as the figure or limit that it gives. See `model/marks.py` for the marks
on the fields that say so.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace

from benchleaf.compute import Row, SetUpSheet, Stop, shown_job
from benchleaf.model import (
    Hazard,
    Job,
    PartState,
    Shop,
    WorkPiece,
    hazards_met,
    name_of,
    references,
    stations_of,
    workplace,
)

from .field_walk import Spot, Walk
from .folding import folded_text
from .statement import About, Fact, Statement, Value
from .taught import of_record

_NUMBER = re.compile(r"\d+(?:\.\d+)?")
_SHARED = {"tools": "tool", "materials": "material", "fluids": "fluid"}
"""Kinds of record that a job works with, and what each is called."""


class Meanings:
    """The meanings of the jobs of one shop; what jobs share is walked once."""

    def __init__(self, shop: Shop) -> None:
        self._shop = shop
        self._walk = Walk(shop)
        self._shared: dict[tuple[str, str], list[Statement]] = {}

    def of(self, job: Job, sheets: Sequence[SetUpSheet]) -> tuple[Statement, ...]:
        """The meaning of a job; `sheets` are its computed set-ups."""
        job, read = (  # a figure in a sentence counts as its words, metric whoever reads it
            shown_job(job, sheets),
            shown_job(job, [one.as_read for one in sheets]),
        )
        found = self._of_job(job)
        if read != job:
            each = zip(found, self._of_job(read), strict=True)
            found = [replace(one, words=shown.words) for one, shown in each]
        piece = self._shop.piece(job)
        if piece is not None:
            found += self._of_piece(job, piece)
        found += self._of_machine(job)
        met = self._met(job)
        for kind, record_id in sorted(_used(job, piece)):
            found += self._without(self._of_shared(kind, record_id), kind, record_id, met)
        found += self._of_manual(job)
        for number, sheet in enumerate(sheets, 1):
            found += reckoned(sheet, number)
            found += _cautions(self._shop, job, sheet, number)
        return tuple(found)

    def _of_job(self, job: Job) -> list[Statement]:
        return self._walk.of(job, Spot(("jobs", job.id), (), "", "", "", About.ACT))

    def _of_shared(self, kind: str, record_id: str) -> list[Statement]:
        key = (kind, record_id)
        record = self._shop.of_kind(kind).get(record_id)
        if record is None:
            return []
        if key not in self._shared:
            name = folded_text(name_of(record))
            what = _SHARED.get(kind, kind.removesuffix("s"))
            spot = Spot(
                key, (), f"{kind}/{record_id}", f"{kind}/{name}", f"{what} '{name}'",
                of_record(type(record)),
            )  # fmt: skip
            found = self._walk.of(record, spot)
            if isinstance(record, Hazard):
                found.append(_signal_word(record, spot))
            self._shared[key] = found
        return self._shared[key]

    def _of_piece(self, job: Job, piece: WorkPiece) -> Iterator[Statement]:
        """What the job's page shows of its part: the part, and its own two states of it."""
        spot = Spot(("parts", piece.part.id), (), "part", "part", "part", About.PART)
        taken = self._of_state(piece, piece.takes, spot)
        named = {one.subject for one in taken}  # a mass of the state stands for that of the part
        whole = [one for one in self._walk.of(piece.part, spot) if one.subject not in named]
        for key, found in (("part", whole), ("takes", taken)):
            for one in found:
                yield replace(one, facts=(*one.facts, (("jobs", job.id), (key,))))
        for one in self._of_state(piece, piece.leaves, spot):
            if one.subject == "part/stock":  # it helps: what is made stands in the steps
                fact: Fact = (("jobs", job.id), ("leaves",))
                yield replace(
                    one, about=About.HELP, subject="part/leaves", key="part/leaves",
                    where="part, as the job leaves it", facts=(*one.facts, fact),
                )  # fmt: skip

    def _of_state(self, piece: WorkPiece, state: PartState | None, spot: Spot) -> list[Statement]:
        """The statements of a state, called as they were when each job held a copy of its part."""
        if state is None:
            return []
        at = replace(spot, path=("states", piece.part.states.index(state)))
        return [
            replace(one, subject="part/stock", key="part/stock", where="part, stock")
            if one.subject == "part/looks_like"
            else one
            for one in self._walk.of(state, at)
        ]

    def _met(self, job: Job) -> tuple[str, ...]:
        is_known = job.machine in self._shop.machines
        return hazards_met(job, workplace(self._shop, job)) if is_known else ()

    def _of_machine(self, job: Job) -> Iterator[Statement]:
        own = {*job.hazards, *(one for step in job.steps for one in step.hazards)}
        never = {one.hazard for one in job.not_met}
        for one in stations_of(self._shop, job.machine):  # a cell, and each station in it
            found = self._of_shared("machines", one.id)
            yield from self._without(found, "machines", one.id, (*own, *never))
        for hazard in self._met(job):
            yield from self._of_shared("hazards", hazard)

    def _without(
        self, found: list[Statement], kind: str, record_id: str, known: Collection[str]
    ) -> Iterator[Statement]:
        """The statements of a record, but for hazards that the job tells of itself."""
        subject = f"{kind}/{record_id}/hazards"
        return (one for one in found if one.subject != subject or one.value not in known)

    def _of_manual(self, job: Job) -> Iterator[Statement]:
        """Whom to call and what to do, as it stands on every job's page."""
        manual = self._shop.manual
        for key in ("call", "emergency", "caution", "do_not_run"):
            if key != "call" or job.call is None:
                text, subject = folded_text(getattr(manual, key)), f"manual/{key}"
                where = {"call": "whom to call"}.get(key, key.replace("_", " "))
                fact: Fact = (("manual", "manual"), (key,))
                yield Statement(About.CALL, subject, text, text, where, (fact,), subject)


def statements(shop: Shop, job: Job, sheets: Sequence[SetUpSheet]) -> tuple[Statement, ...]:
    """The meaning of one job: everything that its learner is taught."""
    return Meanings(shop).of(job, sheets)


def _used(job: Job, piece: WorkPiece | None) -> set[tuple[str, str]]:
    """Tools, material and fluid of a job."""
    found = {(kind, name) for _, kind, name in references(job) if kind in _SHARED}
    return found | ({("materials", piece.part.material)} if piece else set())


def _signal_word(hazard: Hazard, spot: Spot) -> Statement:
    word = hazard.signal_word.value
    inputs = ("severity", "accident_if_not_avoided", "harm_if_accident")
    facts = tuple((spot.record, (key,)) for key in inputs)
    where, key = f"{spot.where}, signal word", f"{spot.key}/signal_word"
    subject = f"{spot.subject}/signal_word"
    return Statement(About.HAZARD, subject, word, word, where, facts, key)


def reckoned(sheet: SetUpSheet, number: int = 1) -> Iterator[Statement]:
    """The figures of a set-up, the limits it breaks, and what lies outside the recommended."""
    subject, key = f"set_ups/{sheet.id}", f"set_ups/{number}"
    where = f"set-up '{sheet.title}'"
    read = sheet.as_read  # words alone are in the readers' units: no meaning hangs on them
    for row, shown in zip(sheet.rows, read.rows, strict=True):
        yield _of_row(row, shown, subject, key, where)
    told = [(About.LIMIT, _limit(one), one.reason) for one in read.stops]
    told += [(About.DOUBT, f"doubt {one.code} {one.side}", one.text) for one in read.doubts]
    for named, (about, words) in {name: (about, words) for about, name, words in told}.items():
        yield Statement(about, f"{subject}/{named}", named, words, where, (), f"{key}/{named}")


def _limit(stop: Stop) -> str:
    """Which limit is broken, and on which side: crossing another one is another statement."""
    return " ".join(filter(None, ("limit", stop.code, stop.of, stop.side)))


def _cautions(shop: Shop, job: Job, sheet: SetUpSheet, number: int) -> Iterator[Statement]:
    """What belongs to this kind of work; some of it is the material's."""
    subject, where = f"set_ups/{sheet.id}/take_care", f"set-up '{sheet.title}', take care"
    material = shop.material_of(job)
    for text, words in zip(sheet.cautions, sheet.as_read.cautions, strict=True):
        facts: tuple[Fact, ...] = ()
        if material is not None and text in material.when_drilled:
            path = ("when_drilled", material.when_drilled.index(text))
            facts = ((("materials", material.id), path),)
        key = f"set_ups/{number}/take_care"
        # a number in it is a row's, and is judged there
        said = folded_text(text if facts else _NUMBER.sub("#", text))
        yield Statement(About.ACT, subject, said, words, where, facts, key)


def _of_row(row: Row, shown: Row, subject: str, key: str, where: str) -> Statement:
    value: Value = ("not computed",)
    if row.value is not None and row.step:
        value = tuple(str(steps(end, row.step)) for end in row.value)
    words = shown.figure.text if shown.figure else "not computed"
    about = About.SETTING if row.is_set else About.FIGURE
    return Statement(
        about,
        f"{subject}/{row.key}",
        value,
        words,
        f"{where}, {row.label}",
        key=f"{key}/{row.key}",
        numbers=row.value,
    )


def steps(value: float, step: float) -> int:
    """A value counted in steps; nine digits of it count, so that no rounding error does."""
    return round(float(f"{value / step:.9g}"))
