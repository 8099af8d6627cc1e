"""Set-ups and operations as JSON with stable keys, for other programs; the shapes are in model."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence

from benchleaf.formulas.sources import source
from benchleaf.model import Job
from benchleaf.model.told import (
    Amount,
    Bounds,
    Cited,
    Limits,
    ShownAmount,
    Told,
    ToldDoubt,
    ToldFeel,
    ToldFigure,
    ToldJob,
    ToldMissing,
    ToldReckoning,
    ToldSetUp,
    ToldSpeed,
    ToldStop,
    ToldUnknown,
    ToldZone,
    Working,
)

from .declaration import ends
from .operations import OPERATIONS
from .reckon import Reckoning, Result
from .results import FeelCurve, Figure, Reach, Row, SetUpSheet, Sum
from .si import in_si

ENTERED = "as the shop's records say"
"""Status of a source that is no publication of the formulas."""


def job_json(job: Job, sheets: Sequence[SetUpSheet], *, on_hold: bool = False) -> str:
    """The set-ups of a job; `on_hold` where it may not run, whatever its set-ups say."""
    return _text(
        ToldJob(
            format="benchleaf set-ups 1",
            job=job.id.upper(),
            title=job.title,
            revision=job.revision,
            may_run=not on_hold and all(sheet.may_run for sheet in sheets),
            set_ups=tuple(_set_up(sheet) for sheet in sheets),
        )
    )


def reckoning_json(reckoning: Reckoning) -> str:
    """An operation's results."""
    doubts = ((one.key, one.doubt) for one in reckoning.results if one.doubt)
    return _text(
        ToldReckoning(
            format="benchleaf reckoning 1",
            operation=reckoning.operation,
            what=OPERATIONS[reckoning.operation].what,
            given=dict(reckoning.given),
            within_limits=reckoning.within_limits,
            results=tuple(_result(one) for one in reckoning.results),
            not_computed=tuple(
                ToldUnknown(key=one.key, label=one.label, why=one.why)
                for one in reckoning.not_computed
            ),
            doubts=tuple(
                ToldDoubt(key=key, code=None, side=None, text=text) for key, text in doubts
            ),
            cautions=(),
        )
    )


def _text(told: Told) -> str:
    return json.dumps(told.model_dump(mode="json"), indent=2, ensure_ascii=False)


def _set_up(sheet: SetUpSheet) -> ToldSetUp:
    return ToldSetUp(
        id=sheet.id,
        title=sheet.title,
        operation=sheet.operation,
        tool=sheet.tool,
        may_run=sheet.may_run,
        do_not_run=tuple(
            ToldStop(
                code=one.code, side=one.side.value, reason=one.reason, cure=one.cure, path=one.path
            )
            for one in sheet.stops
        ),
        results=tuple(_row(row) for row in sheet.rows if row.figure is not None),
        not_computed=tuple(
            ToldMissing(
                key=row.key, label=row.label, missing=row.missing, is_optional=row.is_optional
            )
            for row in sheet.rows
            if row.figure is None
        ),
        doubts=tuple(
            ToldDoubt(key=None, code=one.code, side=one.side.value, text=one.text)
            for one in sheet.doubts
        ),
        cautions=sheet.cautions,
        spindle_speeds=tuple(
            ToldSpeed(rpm=one.rpm, inside=one.inside, chosen=one.chosen)
            for one in sheet.speed_steps
        ),
        feel=_feel(sheet.feel) if sheet.feel is not None else None,
    )


def _feel(curve: FeelCurve) -> ToldFeel:
    return ToldFeel(
        along=curve.along,
        upward=curve.upward,
        points=curve.points,
        zones=tuple(
            ToldZone(key=one.key, start=one.start, end=one.end, wall=one.wall)
            for one in curve.zones
        ),
    )


def _row(row: Row) -> ToldFigure:
    assert row.figure is not None
    low, high = row.value or (row.figure.low, row.figure.high)
    return ToldFigure(
        key=row.key,
        label=row.label,
        **_amounts(low, high, row.figure, row.other),
        formula=row.formula,
        working=row.working,
        sums=_sums(row.sums),
        looked_up=row.looked_up,
        limits=_limits(row.limits, row.reach, row.figure, (low, high)),
        note=row.note,
        step=row.step,
        is_set=row.is_set,
        source=row.source,
        sources=(*_cited(row.source_keys), *map(_entered, row.entered)),
    )


def _result(one: Result) -> ToldFigure:
    figure, declared = one.figure, one.declared
    return ToldFigure(
        key=one.key,
        label=one.label,
        **_amounts(one.low, one.high, figure, one.other),
        formula=one.formula,
        working=one.working,
        sums=_sums(one.sums),
        looked_up=one.looked_up,
        limits=_limits(one.limits, declared.reach, figure, (one.low, one.high)),
        note=one.note,
        step=declared.meant_step,
        is_set=declared.is_set,
        source=one.source,
        sources=_cited(declared.sources),
    )


def _amounts(low: float, high: float, figure: Figure, other: Figure | None) -> dict[str, object]:
    """The parts of a figure that are numbers with a unit."""
    is_one = low == high
    (si_low, unit), (si_high, _) = in_si(low, figure.unit), in_si(high, figure.unit)
    return {
        "value": low if is_one else None,
        "low": low,
        "high": high,
        "unit": figure.unit,
        "si": Amount(value=si_low if is_one else None, low=si_low, high=si_high, unit=unit),
        "shown": figure.text,
        "other": _shown(other) if other is not None else None,
    }


def _shown(figure: Figure) -> ShownAmount:
    return ShownAmount(low=figure.low, high=figure.high, unit=figure.unit, shown=figure.text)


def _sums(sums: Iterable[Sum]) -> tuple[Working, ...]:
    return tuple(
        Working(formula=one.formula, numbers=dict(one.numbers), value=one.value, text=one.text)
        for one in sums
    )


def _limits(text: str, reach: Reach, figure: Figure, value: tuple[float, float]) -> Limits:
    """What is broken is judged by the value itself; what is advised, as closely as it is shown."""
    half = 0.5 * 10.0**-figure.decimals
    return Limits(
        text=text,
        do_not_run=_bounds(reach.least, reach.most, value),
        advised=_bounds(reach.advised_least, reach.advised_most, value, half),
    )


def _bounds(
    least: float | None, most: float | None, value: tuple[float, float], near: float = 0.0
) -> Bounds:
    low, high = ends(value)
    side = None
    if most is not None and high > most + near:
        side = "above"
    elif least is not None and low < least - near:
        side = "below"
    return Bounds(at_least=least, at_most=most, side=side)


def _cited(keys: Iterable[str]) -> tuple[Cited, ...]:
    return tuple(
        Cited(key=one.key, title=one.title, where=one.where, status=one.status.value)
        for one in map(source, dict.fromkeys(keys))
    )


def _entered(text: str) -> Cited:
    return Cited(key=None, title=text, where="", status=ENTERED)
