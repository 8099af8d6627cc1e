"""Moved statements as records that are kept, and kept ones back as moves.

A record keeps what it takes to judge a move again later: both texts as shown, both values as
compared, numbers not rounded. So entries of several revisions can be put together to one.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence

from benchleaf.model import ChangedRevision, ChangedStatement, Shop, name_of
from benchleaf.model.textlinks import FIGURE, TEXT_LINK, read_link

from .moves import Move, MoveKind, percent_moved
from .parted import parted
from .statement import About, Statement

_YES = {"True": "yes", "False": "no"}


def plain_words(text: str, shop: Shop) -> str:
    """A text as it is read, with the name in place of each link, and no marks of emphasis."""
    if "[[" in text:
        text = TEXT_LINK.sub(lambda found: _named(found[1], shop), text)
    return text.replace("**", "").replace("`", "")


def _named(inside: str, shop: Shop) -> str:
    link = read_link(inside)
    if link.kind == "jobs":
        return link.id.upper()
    is_record = link.kind and link.kind != FIGURE
    record = shop.of_kind(link.kind or "").get(link.id) if is_record else None
    return name_of(record) if record is not None else inside


def token_of(one: Statement) -> str:
    """The value of a statement as one text, by which it is told from others."""
    return one.value if isinstance(one.value, str) else json.dumps(one.value)


def group_of(place: str) -> str:
    """A place without positions, so that entries of one list are held against one another."""
    return "/".join("*" if part.isdigit() else part for part in place.split("/"))


def written(
    moves: Iterable[Move],
    meaning: Sequence[Statement],
    was: Shop,
    now: Shop,
    *,
    is_declared: bool = False,
) -> tuple[ChangedStatement, ...]:
    """Moves as records; `meaning` is what the job says now, the shops name what links lead to.

    `is_declared` where the author declared that only the wording changed.
    """
    by_place = {one.subject: one for one in meaning}
    found = (_written(one, by_place, was, now) for one in moves)
    return tuple(
        one.model_copy(update={"wording_only": True}) if is_declared and one.wording else one
        for one in found
    )


def _written(move: Move, by_place: dict[str, Statement], was: Shop, now: Shop) -> ChangedStatement:
    before, after, one = move.before, move.after, move.one
    texts = [
        plain_words(_YES.get(side.words, side.words), shop) if side else None
        for side, shop in ((before, was), (after, now))
    ]
    values = [token_of(side) if side else None for side in (before, after)]
    shown = [None if value == text else value for value, text in zip(values, texts, strict=True)]
    sides = [side for side in (before, after) if side is not None]
    is_elsewhere = before is not None and before.subject != one.subject
    is_otherwise = before is not None and before.about is not one.about
    why = reason_at(after.subject, by_place) if after else ""
    return ChangedStatement(
        what=one.about,
        was_what=before.about if before and is_otherwise else None,
        place=one.subject,
        was_place=before.subject if before and is_elsewhere else None,
        where=one.where or one.subject,
        was=texts[0] or None,
        now=texts[1] or None,
        why=plain_words(why, now) or None,
        moved=move.kind is MoveKind.MOVED,
        wording=all(side.is_wording for side in sides),
        was_value=shown[0],
        now_value=shown[1],
        was_numbers=before.numbers if before else None,
        now_numbers=after.numbers if after else None,
    )


def reason_at(place: str, by_place: dict[str, Statement]) -> str:
    """The reason that goes with a key point, the consequence that goes with a hazard."""
    above, _, last = place.rpartition("/")
    if "/key_points/" in place and last != "reason":
        return _words(by_place.get(f"{above}/reason"))
    if place.startswith("hazards/") and not place.endswith("/consequence"):
        return _words(by_place.get("/".join((*place.split("/")[:2], "consequence"))))
    return ""


def _words(one: Statement | None) -> str:
    return one.words if one else ""


def move_of(entry: ChangedStatement) -> Move:
    """The move that an entry was written from, as far as it is judged by it."""
    before = after = None
    if was_token(entry) is not None:
        before = Statement(
            entry.was_what or entry.what, entry.was_place or entry.place,
            was_token(entry) or "", entry.was or "", entry.where, numbers=_ends(entry.was_numbers),
            is_wording=entry.wording,
        )  # fmt: skip
    if now_token(entry) is not None:
        after = Statement(
            entry.what, entry.place, now_token(entry) or "", entry.now or "", entry.where,
            numbers=_ends(entry.now_numbers), is_wording=entry.wording,
        )  # fmt: skip
    return Move(_kind(entry), before, after)


def _kind(entry: ChangedStatement) -> MoveKind:
    if entry.moved:
        return MoveKind.MOVED
    if was_token(entry) is None:
        return MoveKind.NEW
    return MoveKind.GONE if now_token(entry) is None else MoveKind.OTHER


def was_token(entry: ChangedStatement) -> str | None:
    """What it said before, as it is compared; None where it is new."""
    return entry.was if entry.was_value is None else entry.was_value


def now_token(entry: ChangedStatement) -> str | None:
    """What it says now, as it is compared; None where it is gone."""
    return entry.now if entry.now_value is None else entry.now_value


def words_of(entry: ChangedStatement) -> tuple[str, str]:
    """What it said and what it says, told apart; alike where it reads as it did before."""
    ends = _ends(entry.was_numbers), _ends(entry.now_numbers)
    was, now = parted(entry.was or "", entry.now or "", *ends)
    percent = percent_moved(*ends)
    return was, f"{now} ({percent:+.2g} %)" if percent and was == now else now


def _ends(numbers: tuple[float, ...] | None) -> tuple[float, float] | None:
    return (numbers[0], numbers[-1]) if numbers else None


def together(revisions: Iterable[ChangedRevision]) -> tuple[ChangedStatement, ...]:
    """Entries of several revisions as one: first was, last now; what is as it was drops out.

    A statement is followed by what it says, since positions in a list shift.
    """
    found: list[ChangedStatement] = []
    for revision in revisions:
        for entry in revision.statements:
            _add(found, entry)
    return tuple(_paired(found))


def _add(found: list[ChangedStatement], entry: ChangedStatement) -> None:
    """Join an entry to what it goes on from, then to what it puts back."""
    for fits in (_goes_on, _is_put_back):
        at = next((n for n, one in enumerate(found) if fits(one, entry)), None)
        if at is not None:
            one = found.pop(at)
            entry = _joined(one, entry) if fits is _goes_on else _joined(entry, one)
        if _is_as_it_was(entry):
            return
    found.append(entry)


def _goes_on(one: ChangedStatement, entry: ChangedStatement) -> bool:
    """True where an entry says of what it was what the other says that it is now."""
    if not _same_list(one.place, entry.was_place or entry.place, is_moved=entry.moved):
        return False
    if one.moved is not entry.moved:
        return False
    if entry.moved:
        return one.what is entry.what
    return now_token(one) is not None and now_token(one) == was_token(entry)


def _is_put_back(one: ChangedStatement, entry: ChangedStatement) -> bool:
    """True where an entry brings what the other took away."""
    same = _same_list(one.was_place or one.place, entry.place, is_moved=entry.moved)
    if not same or one.moved or entry.moved or (one.was_what or one.what) is not entry.what:
        return False
    return was_token(one) is not None and was_token(one) == now_token(entry)


def _same_list(one: str, other: str, *, is_moved: bool) -> bool:
    """True for places of one list. Kinds of key points say the same in many places: there it counts
    which one it is, or a kind that came and one that went would seem to be one put back."""
    if one.endswith("/kind") and not is_moved:
        return one == other
    return group_of(one) == group_of(other)


def _joined(first: ChangedStatement, last: ChangedStatement) -> ChangedStatement:
    """First was, last now."""
    was_what = first.was_what or first.what
    was_place = first.was_place or first.place
    is_gone = now_token(last) is None
    return last.model_copy(
        update={
            "was": first.was,
            "was_value": first.was_value,
            "was_numbers": first.was_numbers,
            "was_what": None if was_what is last.what or is_gone else was_what,
            "was_place": None if was_place == last.place else was_place,
            "wording": first.wording and last.wording,
            "wording_only": first.wording_only and last.wording_only,
        }
    )


def _paired(found: Iterable[ChangedStatement]) -> Iterator[ChangedStatement]:
    """What is gone and what is new in one list belong together, as between two meanings."""
    rest = list(found)
    while rest:
        one = rest.pop(0)
        at = next((n for n, other in enumerate(rest) if _are_a_pair(one, other)), None)
        if at is not None:
            other = rest.pop(at)
            one = _joined(one, other) if now_token(one) is None else _joined(other, one)
        yield one


def _are_a_pair(one: ChangedStatement, other: ChangedStatement) -> bool:
    if one.moved or other.moved or not _same_list(one.place, other.place, is_moved=False):
        return False
    first = (was_token(one) is None, now_token(one) is None)
    return first in ((True, False), (False, True)) and first == (
        now_token(other) is None, was_token(other) is None,
    )  # fmt: skip


def _is_as_it_was(one: ChangedStatement) -> bool:
    if one.moved:
        return one.what is About.ORDER and _same_order(was_token(one), now_token(one))
    return one.was_what is None and was_token(one) == now_token(one)


def _same_order(was: str | None, now: str | None) -> bool:
    """True where what both lists hold stands in one order."""
    before, after = (json.loads(one) if one and one[0] == "[" else [] for one in (was, now))
    both = set(before) & set(after)
    return [one for one in before if one in both] == [one for one in after if one in both]
