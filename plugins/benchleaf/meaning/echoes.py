"""Rows of a lesson that another row tells already: a trainer reads each thing once.

What is left out is gathered into the row that tells it: its verdict and what can injure go along,
so that a lesson is never milder for it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import TYPE_CHECKING

from .moves import MoveKind
from .statement import About
from .verdicts import gravest_of

if TYPE_CHECKING:
    from .changed import Changed

_COMES_OR_GOES = (MoveKind.NEW, MoveKind.GONE)
_WORKED_WITH = ("tools", "fluids", "materials")
"""Kinds of record that a job names, and that bring statements of their own."""
_LISTS = ("tools", "fluid", "part/material")
"""Places at which a job names what it works with."""


def told_once(rows: Iterable[Changed]) -> list[Changed]:
    """The rows but for those that another one tells."""
    found = _one_call(list(rows))
    found = _at_their_steps(found)
    for teller in (_of_step, _of_record, _of_hazard, _of_key_point, _of_key_points):
        found = _folded(found, teller)
    return _folded(found, _of_trouble, joined=True)


Teller = Callable[["Changed", "list[Changed]"], "Changed | None"]
"""A row and all rows -> the row that tells it; None where it stands for itself."""


def _folded(rows: list[Changed], teller: Teller, *, joined: bool = False) -> list[Changed]:
    """`joined` where the words of what is left out go along, too."""
    tellers = [teller(one, rows) for one in rows]
    kept = {id(one): one for one, other in zip(rows, tellers, strict=True) if other is None}
    for one, other in zip(rows, tellers, strict=True):
        if other is not None and id(other) in kept:
            keeper = kept[id(other)]
            kept[id(other)] = replace(
                keeper,
                was=" ".join(filter(None, (keeper.was, one.was))) if joined else keeper.was,
                now=" ".join(filter(None, (keeper.now, one.now))) if joined else keeper.now,
                verdict=gravest_of([keeper.verdict, one.verdict]),
                is_grave=keeper.is_grave or one.is_grave,
                is_reworded=keeper.is_reworded and one.is_reworded,
            )
    return list(kept.values())


def _first(rows: Iterable[Changed], but: Changed) -> Changed | None:
    return next((one for one in rows if one is not but), None)


def _of_step(one: Changed, rows: list[Changed]) -> Changed | None:
    """A step that is gone takes along all that stood in it."""
    above = _begin(one.place, "steps", 2)
    if not above or one.kind is not MoveKind.GONE or one.place == f"{above}/title":
        return None
    titles = (each for each in rows if each.place == f"{above}/title")
    return _first((each for each in titles if each.kind is MoveKind.GONE), one)


def _of_record(one: Changed, rows: list[Changed]) -> Changed | None:
    """A tool that is named no more takes along what was said of it; a name stands in the list."""
    is_worked_with = one.place.startswith(tuple(f"{kind}/" for kind in _WORKED_WITH))
    if not is_worked_with or one.kind not in _COMES_OR_GOES:
        return None
    name = f"{_begin(one.place, one.place.partition('/')[0], 2)}/name"
    named = next((each for each in rows if each.place == name and each.kind is one.kind), None)
    if named is None or (one.kind is MoveKind.NEW and one is not named):
        return None
    side = "now" if one.kind is MoveKind.NEW else "was"
    listed = (each for each in rows if each.place in _LISTS)
    return _first((each for each in listed if getattr(each, side) == getattr(named, side)), one)


def _of_hazard(one: Changed, rows: list[Changed]) -> Changed | None:
    """A list that names a hazard which is told as a whole."""
    if one.about is not About.HAZARD or not one.place.endswith("hazards"):
        return None
    where = f"hazard '{one.now or one.was}'"
    whole = (each for each in rows if _is_whole_hazard(each))
    return _first((each for each in whole if f"{each.where},".startswith(f"{where},")), one)


def _at_their_steps(rows: list[Changed]) -> list[Changed]:
    """Hazards that are told as a whole, each with the steps that name it."""

    def steps(whole: Changed) -> str:
        listed = (one for one in rows if _of_hazard(one, [whole]) is whole and one.step)
        return ", ".join(dict.fromkeys(one.where.rpartition(", ")[0] for one in listed))

    return [
        replace(one, where=f"{one.where}, {at}") if _is_whole_hazard(one) and (at := steps(one))
        else one
        for one in rows
    ]  # fmt: skip


def _is_whole_hazard(one: Changed) -> bool:
    return one.about is About.HAZARD and one.place.count("/") == 1 and one.place[:8] == "hazards/"


def _of_key_point(one: Changed, rows: list[Changed]) -> Changed | None:
    """A kind or reason that comes or goes with a key point of its step."""
    if not _is_part(one) or one.kind not in _COMES_OR_GOES:
        return None
    points = (each for each in _beside(one, rows) if each.place.endswith("/point"))
    return _first((each for each in points if each.kind is one.kind), one)


def _of_key_points(one: Changed, rows: list[Changed]) -> Changed | None:
    """Kinds and reasons in another order, where a row tells of their key points."""
    if not _is_part(one) or one.kind is not MoveKind.MOVED:
        return None
    told = (each for each in _beside(one, rows) if not _is_part(each) or each.kind is not one.kind)
    return _first(told, one)


def _of_trouble(one: Changed, rows: list[Changed]) -> Changed | None:
    """What to do in a trouble that comes or goes stands with its sign."""
    above = _begin(one.place, "if_wrong", 2)
    if one.kind not in _COMES_OR_GOES or not one.place.startswith(f"{above}/do/"):
        return None
    signs = (each for each in rows if each.place == f"{above}/sign" and each.kind is one.kind)
    return _first(signs, one)


_CALLS = ("call", "manual/call")
"""Whom to call: by the job, and where it does not say it by the manual."""


def _one_call(rows: list[Changed]) -> list[Changed]:
    """A job that calls somebody else than the manual does, or no longer, as one change."""
    calls = {one.kind: one for one in rows if one.place in _CALLS}
    if set(calls) != set(_COMES_OR_GOES):
        return rows
    new, gone = calls[MoveKind.NEW], calls[MoveKind.GONE]
    what = gravest_of([new.verdict, gone.verdict])
    call = replace(new, about=About.CALL, kind=MoveKind.OTHER, where="whom to call", was=gone.was,
                   verdict=what, is_grave=True)  # fmt: skip
    return [call if one is new else one for one in rows if one is not gone]


def _is_part(one: Changed) -> bool:
    return "/key_points/" in one.place and one.place.endswith(("/kind", "/reason"))


def _beside(one: Changed, rows: list[Changed]) -> Iterable[Changed]:
    above = one.place.partition("/key_points/")[0]
    return (each for each in rows if each.place.startswith(f"{above}/key_points/"))


def _begin(place: str, first: str, count: int) -> str:
    """The first parts of a place that has more; empty for another place."""
    parts = place.split("/")
    return "/".join(parts[:count]) if parts[0] == first and len(parts) > count else ""
