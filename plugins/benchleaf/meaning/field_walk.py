"""The statements of one record: each field that is taught, with its place and what it rests on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from benchleaf.model import Hazard, KeyPoint, KeyPointKind, Record, Shop, name_of

from .canonical import canonical, in_words, numbers_of, proof_text, with_first_ids
from .folding import folded_text
from .statement import About, Path, RecordKey, Statement, Value
from .taught import Field, fields_taught

_NUMBERED = (About.ACT, About.PART, About.MATERIAL, About.TOOL)
"""What a number is about is the number itself, unless it is a rating or the like."""


@dataclass(frozen=True, slots=True)
class Spot:
    """Where the walk stands."""

    record: RecordKey
    path: Path
    subject: str
    key: str
    where: str
    about: About
    keeps_from_harm: bool = False
    """True where no change of a text is one of wording only."""


class Walk:
    """The statements of records of one shop."""

    def __init__(self, shop: Shop) -> None:
        self._shop = shop

    def of(self, record: Record, spot: Spot) -> list[Statement]:
        """Every statement that a record makes by its own fields."""
        spot = replace(spot, keeps_from_harm=isinstance(record, Hazard))
        return list(self._record(record, spot, _entries(record)))

    def _record(self, value: Record, spot: Spot, entries: Mapping[str, int]) -> Iterator[Statement]:
        if isinstance(value, KeyPoint):
            about = About.EASIER if value.kind is KeyPointKind.EASIER else spot.about
            grave = spot.keeps_from_harm or value.kind is KeyPointKind.CAN_INJURE
            spot = replace(spot, about=about, keeps_from_harm=grave)
        for field in fields_taught(type(value)):
            inner = getattr(value, field.key)
            if inner is not None and inner != () and inner != field.default:
                yield from self._field(inner, field, spot, entries)

    def _field(
        self, value: object, field: Field, spot: Spot, entries: Mapping[str, int]
    ) -> Iterator[Statement]:
        keeps_about = field.about is None or spot.about is About.EASIER
        below = Spot(
            spot.record,
            (*spot.path, field.key),
            _joined(spot.subject, field.key),
            _joined(spot.key, field.key),
            f"{spot.where}, {field.name}" if spot.where else field.name,
            spot.about if keeps_about else field.about or spot.about,
            spot.keeps_from_harm or field.keeps_from_harm,
        )
        if isinstance(value, tuple):
            yield from self._list(value, field, below, spot.where, entries)
        elif isinstance(value, Record):
            yield from self._record(value, below, entries)
        else:
            yield self._value(value, field, below, entries)

    def _list(
        self,
        value: tuple[object, ...],
        field: Field,
        spot: Spot,
        above: str,
        entries: Mapping[str, int],
    ) -> Iterator[Statement]:
        ids = [one.id for one in value if isinstance(one, Record) and hasattr(one, "id")]
        if len(ids) > 1 and not field.is_free:
            yield Statement(
                About.ORDER, f"{spot.subject}/order", tuple(ids), ", ".join(ids),
                f"order of the {field.name}", ((spot.record, spot.path),), f"{spot.key}/order", "",
            )  # fmt: skip
        for number, one in enumerate(value):
            below = _entry(one, number, field, spot, above)
            if isinstance(one, Record):
                yield from self._record(one, below, entries)
            else:
                yield self._value(one, field, below, entries)

    def _value(
        self, value: object, field: Field, spot: Spot, entries: Mapping[str, int]
    ) -> Statement:
        found, words, proof = canonical(value), in_words(value), None
        if field.kind is not None and field.kind != "jobs":
            proof, words = self._named(field.kind, str(value))
        elif field.kind == "jobs":
            found = self._shop.first_id(str(value))
        elif field.is_prose:
            found = with_first_ids(str(found), self._shop)
            proof = proof_text(folded_text(str(value)), self._shop)
        elif type(value) is str and value in entries:  # a set-up of the same job, say
            proof = str(entries[value])
        numbers = numbers_of(value)
        return Statement(
            About.NUMBER if numbers and spot.about in _NUMBERED else spot.about,
            spot.subject,
            found,
            words,
            spot.where,
            ((spot.record, spot.path),),
            spot.key,
            proof,
            numbers,
            field.is_prose and not spot.keeps_from_harm,
        )

    def _named(self, kind: str, record_id: str) -> tuple[Value, str]:
        """What a reader sees of a record that is named: never its id."""
        record = self._shop.of_kind(kind).get(record_id)
        name = folded_text(name_of(record)) if record is not None else record_id
        return (kind, name), name


def _joined(above: str, below: str) -> str:
    return f"{above}/{below}" if above and below else above or below


def _entry(one: object, number: int, field: Field, spot: Spot, above: str) -> Spot:
    """The spot of one entry of a list: by its id, else its position; neither without order."""
    position = str(number + 1)
    own = place = "" if field.is_free else position
    name = field.each if field.is_free else f"{field.each} {position}"
    if isinstance(one, Record):
        own = getattr(one, "id", own)
        name = f"{field.each} '{one.title}'" if hasattr(one, "title") else name
        if field.is_free:
            own = place = _name_of_entry(one, position)
    return Spot(
        spot.record,
        (*spot.path, number),
        _joined(spot.subject, own),
        _joined(spot.key, place),
        f"{above}, {name}" if above else name,
        spot.about,
        spot.keeps_from_harm,
    )


def _name_of_entry(entry: Record, position: str) -> str:
    """An entry of a list without order: by what it names, so that no order enters."""
    return next((one for one in entry.__dict__.values() if type(one) is str), position)


def _entries(record: Record) -> dict[str, int]:
    """The entries of a record's lists that have an id, each with its position from 1."""
    return {
        one.id: number
        for value in record.__dict__.values()
        if isinstance(value, tuple)
        for number, one in enumerate(value, 1)
        if isinstance(one, Record) and hasattr(one, "id")
    }
