"""A job's standard from its elements, and a learner's curve against it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from benchleaf.formulas import learning_curve, work_rate
from benchleaf.formulas.learning_curve import LearningFit, PieceRange, TimeBand
from benchleaf.model import Job, TimedPiece

from .found import Drilled
from .results import SetUpSheet

LEAST_OBSERVED = learning_curve.LEAST_OBSERVED
ENOUGH = 5
"""Fewer timed pieces show a range that is too wide to plan by: Student's t is 6.3 for three of them
and 2.9 for four, against 2.4 for five. A house rule."""


@dataclass(frozen=True, slots=True)
class ElementTime:
    """One element of a piece."""

    what: str
    seconds: float
    times_a_piece: float
    source: str
    """Whether its time was entered or reckoned."""


@dataclass(frozen=True, slots=True)
class Standard:
    """How long a piece takes somebody who knows the job."""

    elements: tuple[ElementTime, ...]
    allowances: tuple[tuple[str, float], ...]
    """What for, and percent of the basic time."""
    basic_s: float
    standard_s: float
    source: str

    @property
    def allowance_percent(self) -> float:
        """All allowances together, in percent of the basic time."""
        return sum(percent for _, percent in self.allowances)

    @property
    def pieces_an_hour(self) -> float:
        """At the standard, without breaks."""
        return work_rate.pieces_in_time(self.standard_s, 3600.0)


@dataclass(frozen=True, slots=True)
class NoStandard:
    """Why a job has no standard."""

    missing: str


def standard_of(job: Job, sheets: Sequence[SetUpSheet]) -> Standard | NoStandard:
    """The standard of a job; `sheets` are its computed set-ups."""
    rate = job.piece_rate
    if rate is None:
        return NoStandard("the job's piece_rate")
    if any(not sheet.may_run for sheet in sheets):
        return NoStandard("a set-up that may be run")
    found = []
    for one in rate.elements:
        seconds = one.time.value if one.time else _reckoned(sheets, one.set_up or "")
        if seconds is None:
            return NoStandard(f"the time of set-up '{one.set_up}', which is not computed")
        source = "entered" if one.time else "time of the set-up, reckoned"
        found.append(ElementTime(one.what, seconds, one.times_a_piece, source))
    basic = work_rate.basic_time_s(
        tuple(one.seconds for one in found), tuple(one.times_a_piece for one in found)
    )
    allowances = tuple((one.what, one.percent) for one in rate.allowances)
    total = sum(percent for _, percent in allowances)
    if total > work_rate.MOST_ALLOWANCE_PERCENT:
        return NoStandard("allowances of 100 % together at most")
    standard = work_rate.standard_time_s(basic, total)
    return Standard(tuple(found), allowances, basic, standard, rate.source)


def _reckoned(sheets: Iterable[SetUpSheet], set_up: str) -> float | None:
    sheet = next((one for one in sheets if one.id == set_up), None)
    return sheet.found.time if sheet and isinstance(sheet.found, Drilled) else None


@dataclass(frozen=True, slots=True)
class Curve:
    """A learner's curve on the unit model."""

    first_s: float
    learning_percent: float
    fit: LearningFit | None
    """None where the percentage is the shop's own and not this learner's."""
    observed: tuple[tuple[int, float], ...]
    """Number and seconds of each timed piece."""

    def expected_s(self, piece: int) -> float:
        """Expected time of a piece, in seconds."""
        return learning_curve.unit_time_s(self.first_s, self.learning_percent, piece)

    def band(self, piece: int) -> TimeBand | None:
        """Between what a new piece lies nine times in ten; None without a fit."""
        return learning_curve.time_band(self.fit, piece) if self.fit else None

    def pieces_at(self, basic_s: float) -> PieceRange | None:
        """Between which pieces the basic time is reached, nine times in ten; None without a fit.

        Stop-watch times hold no allowances, so that they are held against a time without them.
        """
        return learning_curve.pieces_between(self.fit, basic_s) if self.fit else None

    def pieces_to_time(self, basic_s: float | None) -> tuple[int, ...]:
        """Numbers of the next pieces that are worth timing; none where the curve says enough.

        House rule: five pieces at least, each some half as many again as the one before, so that
        they lie apart on the curve; two more where the range is wider than one to three, or has no
        end.
        """
        known = len({piece for piece, _ in self.observed})
        more = max(0, ENOUGH - known)
        found = self.pieces_at(basic_s) if basic_s is not None else None
        if not more and found is not None and (found.high is None or found.high > 3 * found.low):
            more = 2
        pieces = [self.observed[-1][0]]
        for _ in range(more):
            pieces.append(max(pieces[-1] + 1, round(1.5 * pieces[-1])))
        return tuple(pieces[1:])

    def piece_at(self, standard_s: float) -> int | None:
        """The first piece expected to take no longer than the standard, or None."""
        return learning_curve.pieces_to_standard(
            "unit", self.first_s, self.learning_percent, standard_s
        )


@dataclass(frozen=True, slots=True)
class NoCurve:
    """Why a learner has no curve."""

    missing: str


def curve_of(timed: Iterable[TimedPiece], shop_percent: float | None) -> Curve | NoCurve:
    """A learner's curve from timed pieces; the shop's percentage stands in below three."""
    observed = tuple(sorted((one.piece, one.time.value) for one in timed))
    pieces = tuple(piece for piece, _ in observed)
    times = tuple(seconds for _, seconds in observed)
    if not observed:
        return NoCurve("times of this learner's pieces")
    if len(set(pieces)) < LEAST_OBSERVED:
        return _from_the_shop(observed, shop_percent)
    fit = learning_curve.fit_unit(pieces, times)
    low, high = learning_curve.PERCENT_RANGE
    if not low <= fit.learning_percent <= high:
        return NoCurve(
            f"times that fall with practice: these give {fit.learning_percent:.0f} %, and only "
            f"{low:g} to {high:g} % is used"
        )
    return Curve(fit.first_s, fit.learning_percent, fit, observed)


def _from_the_shop(
    observed: tuple[tuple[int, float], ...], shop_percent: float | None
) -> Curve | NoCurve:
    if shop_percent is None:
        return NoCurve(
            f"times of {LEAST_OBSERVED} pieces, or the shop's learning_percent in manual.yml"
        )
    piece, seconds = observed[-1]
    share = learning_curve.unit_time_s(1.0, shop_percent, piece)
    return Curve(seconds / share, shop_percent, None, observed)
