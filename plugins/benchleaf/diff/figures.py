"""Set-up figures on either side: which moved, by how much, and which limits broke or cleared."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from benchleaf.compute import Figure, Row, SetUpSheet

from .change import Effect, EffectKind

NOT_COMPUTED = "not computed"


def figure_effects(
    job_id: str, old: Sequence[SetUpSheet], new: Sequence[SetUpSheet]
) -> tuple[Effect, ...]:
    """Every figure, limit and doubt that differs between a job's set-ups on either side.

    A set-up on one side only is no moved figure; its limits are told all the same.
    """
    olds, news = ({sheet.id: sheet for sheet in side} for side in (old, new))
    found: list[Effect] = []
    for set_up in dict.fromkeys((*olds, *news)):
        before, after = olds.get(set_up), news.get(set_up)
        if before is not None and after is not None:
            if before is after:
                continue
            found += _moved(job_id, before, after)
        found += _limits(job_id, set_up, before, after)
    return tuple(found)


def _moved(job_id: str, old: SetUpSheet, new: SetUpSheet) -> Iterator[Effect]:
    olds, news = ({row.key: row for row in sheet.rows} for sheet in (old, new))
    for key in dict.fromkeys((*olds, *news)):
        before, after = olds.get(key), news.get(key)
        texts = _text(before), _text(after)
        if texts[0] != texts[1]:
            label = (after or before).label  # type: ignore[union-attr]
            place = f"set-up {new.id}, {label}"
            figures = (before and before.figure) or None, (after and after.figure) or None
            percent = percent_moved(*figures)
            yield Effect(EffectKind.FIGURE, ("jobs", job_id), place, *texts, percent, code=key)


def _text(row: Row | None) -> str | None:
    """What the page shows; None where there is no such row."""
    if row is None:
        return None
    return row.figure.text if row.figure else f"{NOT_COMPUTED}: {row.missing}"


def percent_moved(old: Figure | None, new: Figure | None) -> float | None:
    """How far a figure moved in percent of the value before; of a range, the end that moved most.

    None where there is nothing to compare: no figure on a side, other units, or a zero before.
    """
    if old is None or new is None or old.unit != new.unit:
        return None
    ends = [(old.low, new.low), (old.high, new.high)]
    if any(before == 0 and after != 0 for before, after in ends):
        return None
    moves = [100 * (after - before) / abs(before) if before else 0.0 for before, after in ends]
    return max(moves, key=abs)


def _limits(
    job_id: str, set_up: str, old: SetUpSheet | None, new: SetUpSheet | None
) -> Iterator[Effect]:
    place = f"set-up {set_up}"
    record = ("jobs", job_id)
    befores, afters = _stops(old), _stops(new)
    for code in dict.fromkeys((*befores, *afters)):
        before, after = befores.get(code), afters.get(code)
        if before != after:
            kind = _KINDS[before is None, after is None]
            yield Effect(kind, record, place, before, after, code=code)
    was, now = (Counter(sheet.doubts if sheet else ()) for sheet in (old, new))
    for doubt in now - was:
        yield Effect(EffectKind.DOUBT, record, place, None, doubt, code=doubt)
    for doubt in was - now:
        yield Effect(EffectKind.DOUBT_CLEARED, record, place, doubt, None, code=doubt)


_KINDS: Mapping[tuple[bool, bool], EffectKind] = {
    (True, False): EffectKind.LIMIT_BROKEN,
    (False, True): EffectKind.LIMIT_CLEARED,
    (False, False): EffectKind.LIMIT_MOVED,
}


def _stops(sheet: SetUpSheet | None) -> dict[str, str]:
    """Reasons not to run, by code; several of one code are told as one."""
    found: dict[str, str] = {}
    for stop in sheet.stops if sheet else ():
        found[stop.code] = (
            f"{found[stop.code]}; {stop.reason}" if stop.code in found else stop.reason
        )
    return found
