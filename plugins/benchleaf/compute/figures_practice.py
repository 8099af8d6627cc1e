"""Figures of practice: a learner's curve, and the rate of a piece from its elements."""

from __future__ import annotations

import math
from collections.abc import Mapping

from benchleaf.formulas import learning_curve, work_rate
from benchleaf.formulas.domain import NotKnownError
from benchleaf.formulas.learning_curve import STUDENT_90, LearningFit, Model

from .declaration import Declaration, Symbol
from .operation import Elements, Observed

_UNIT: Model = "unit"
_MEAN: Model = "cumulative average"
_CHASE, _WIDEMAN = ("chase-4a",), ("wideman-learning",)
_LEAST_SQUARES = ("least-squares",)
_IN_UNIT = "unit model: each doubling of the count takes the percentage of the time"
_IN_MEAN = "cumulative-average model: each doubling takes the percentage of the mean time so far"
_FITTED = "a straight line fitted to all the timed pieces gives it"
_ADDED = "a sum of as many times as there are pieces"
_B = "log2(percentage ÷ 100)"


_NEVER = "this curve never reaches that standard"


def _fitted(observed: Observed) -> LearningFit:
    return _usable(learning_curve.fit_unit(observed.pieces, observed.times_s))


def _mean_fitted(observed: Observed) -> LearningFit:
    if observed.pieces != tuple(range(1, len(observed.pieces) + 1)):
        raise NotKnownError("give the time of every piece from the first, none left out")
    return _usable(learning_curve.fit_average(observed.times_s))


def _usable(fit: LearningFit) -> LearningFit:
    low, high = learning_curve.PERCENT_RANGE
    if not low <= fit.learning_percent <= high:
        raise ValueError(
            f"the times give {fit.learning_percent:.0f} %, and only {low:g} to {high:g} % is used:"
            " time more pieces, or look for what disturbed them"
        )
    return fit


def _band(observed: Observed, piece: float) -> tuple[float, float]:
    band = learning_curve.time_band(_fitted(observed), int(piece))
    return band.low_s / 60, band.high_s / 60


def _band_numbers(observed: Observed, piece: float) -> Mapping[str, float | tuple[float, float]]:
    fit = _fitted(observed)
    student = STUDENT_90[min(fit.observed - 2, len(STUDENT_90)) - 1]
    return {
        "T": learning_curve.time_band(fit, int(piece)).expected_s / 60,
        "t": (-student, student),
        "scatter": fit.scatter,
        "k": float(fit.observed),
        "n": piece,
        "mean": fit.mean_log_piece,
        "S": fit.sum_of_squares,
    }


def _to_standard(model: Model, first: float, percent: float, standard: float) -> int:
    piece = learning_curve.pieces_to_standard(model, first, percent, standard)
    if piece is None:
        raise ValueError(_NEVER)
    return piece


def _unit_to_standard(first: float, percent: float, standard: float) -> int:
    if percent == learning_curve.PERCENT_RANGE[1]:
        raise ValueError(f"{_NEVER}: at 100 % no piece is quicker than the first")
    return _to_standard(_UNIT, first, percent, standard)


def _hours(model: Model, first: float, percent: float, piece: float) -> float:
    return work_rate.hours_to_piece(model, first, percent, 0, int(piece))


def _mean(first: float, percent: float, piece: float) -> float:
    return learning_curve.average_time_s(first, percent, int(piece)) / 60


def _piece_time(first: float, percent: float, piece: float) -> float:
    return learning_curve.unit_time_s(first, percent, int(piece)) / 60


def _mean_piece_time(first: float, percent: float, piece: float) -> float:
    return learning_curve.average_piece_time_s(first, percent, int(piece)) / 60


_CURVE = (Symbol("T1", "s", 0), Symbol("n"), Symbol("percentage", "%", 1))


def _on_curve(first: float, percent: float, piece: float) -> dict[str, float]:
    return {"T1": first, "n": piece, "percentage": percent}


FIRST = Declaration(
    "first", "First piece, on the fitted line", "s", 0, 0, ("observed",),
    lambda observed: _fitted(observed).first_s, "least squares: ln T = ln T1 + b ln n", (),
    _LEAST_SQUARES, "unit model; 3 pieces at least", looked_up=_FITTED,
)  # fmt: skip
LEARNING_PERCENT = Declaration(
    "learning_percent", "Learning percentage, fitted", "%", 1, 1, ("observed",),
    lambda observed: _fitted(observed).learning_percent, "percentage = 100 × 2^b",
    (Symbol("b", "", 3),), _LEAST_SQUARES, "unit model; 51 to 100; b of the fitted line",
    numbers=lambda observed: {"b": math.log2(_fitted(observed).learning_percent / 100)},
)  # fmt: skip
SCATTER = Declaration(
    "scatter", "Scatter about the line", "%", 0, 0, ("observed",),
    lambda observed: 100 * _fitted(observed).scatter,
    "standard deviation of ln T about the line", (), _LEAST_SQUARES, looked_up=_FITTED,
)  # fmt: skip
PIECE_TIME = Declaration(
    "piece_time", "Time of that piece", "min", 2, 2, ("first", "learning_percent", "piece"),
    _piece_time, f"time = T1 ÷ 60 × n^({_B})", _CURVE, _CHASE, _IN_UNIT, numbers=_on_curve,
)  # fmt: skip
PIECE_BAND = Declaration(
    "piece_band", "A new piece, nine times in ten", "min", 2, 2, ("observed", "piece"), _band,
    "time = T × exp(t × scatter × √(1 + 1 ÷ k + (ln(n) − mean)² ÷ S))",
    (Symbol("T", "min", 2), Symbol("t", "", 3), Symbol("scatter", "", 3), Symbol("k"), Symbol("n"),
     Symbol("mean", "", 3), Symbol("S", "", 3)),
    ("least-squares", "nist-t"),
    "unit model; T the time on the line, t of Student, below 0 and above, k timed pieces, mean "
    "and S of ln n",
    numbers=_band_numbers,
)  # fmt: skip
HOURS_TO_PIECE = Declaration(
    "hours_to_piece", "Practice up to that piece", "h", 2, 2,
    ("first", "learning_percent", "piece"),
    lambda first, percent, n: _hours(_UNIT, first, percent, n), "T1 + T2 + ... + Tn", (), _CHASE,
    _IN_UNIT, looked_up=_ADDED,
)  # fmt: skip
PIECES_TO_STANDARD = Declaration(
    "pieces_to_standard", "Piece that reaches the standard", "pieces", 0, 2,
    ("first", "learning_percent", "standard"),
    _unit_to_standard,
    f"n = (standard ÷ T1)^(1 ÷ {_B}), up to a whole piece",
    (Symbol("standard", "s", 0), Symbol("T1", "s", 0), Symbol("percentage", "%", 1)),
    ("stevenson-7s",), _IN_UNIT, asked=0,
    numbers=lambda first, percent, wanted: {
        "standard": wanted, "T1": first, "percentage": percent},
)  # fmt: skip
HOURS_TO_STANDARD = Declaration(
    "hours_to_standard", "Practice until the standard", "h", 2, 2,
    ("first", "learning_percent", "pieces_to_standard"), HOURS_TO_PIECE.run,
    "T1 + T2 + ... + Tn", (), _CHASE, _IN_UNIT, looked_up=_ADDED,
)  # fmt: skip
MEAN_FIRST = Declaration(
    "mean_first", "First piece, mean model", "s", 0, 0, ("observed",),
    lambda observed: _mean_fitted(observed).first_s,
    "least squares: ln mean(n) = ln T1 + b ln n", (), _LEAST_SQUARES,
    "every piece from the first, none left out", looked_up=_FITTED,
)  # fmt: skip
MEAN_FIRST_GIVEN = Declaration(
    "mean_first", "First piece, mean model", "s", 0, 0, ("first",), float, "T1 = first",
    (Symbol("first", "s", 0),), _WIDEMAN, "the same in both models", is_stand_in=True,
)  # fmt: skip
MEAN_PERCENT = Declaration(
    "mean_percent", "Learning percentage, mean model", "%", 1, 1, ("observed",),
    lambda observed: _mean_fitted(observed).learning_percent, "percentage = 100 × 2^b",
    (Symbol("b", "", 3),), _LEAST_SQUARES,
    "every piece from the first, none left out; 51 to 100",
    numbers=lambda observed: {"b": math.log2(_mean_fitted(observed).learning_percent / 100)},
)  # fmt: skip
_MEAN_INPUTS = ("mean_first", "mean_percent", "piece")
MEAN_TIME = Declaration(
    "mean_time", "Mean time up to that piece", "min", 2, 2, _MEAN_INPUTS, _mean,
    f"mean = T1 ÷ 60 × n^({_B})", _CURVE, _WIDEMAN, _IN_MEAN, numbers=_on_curve,
)  # fmt: skip
MEAN_PIECE_TIME = Declaration(
    "mean_model_piece_time", "Time of that piece, mean model", "min", 2, 2, _MEAN_INPUTS,
    _mean_piece_time, f"time = T1 ÷ 60 × (n^(1 + {_B}) − (n − 1)^(1 + {_B}))", _CURVE, _WIDEMAN,
    _IN_MEAN, numbers=_on_curve,
)  # fmt: skip
MEAN_PIECES = Declaration(
    "mean_model_pieces", "Piece that reaches the standard, mean model", "pieces", 0, 0,
    ("mean_first", "mean_percent", "standard"),
    lambda first, percent, wanted: _to_standard(_MEAN, first, percent, wanted),
    "first n whose time is no longer", (), _WIDEMAN, _IN_MEAN,
    looked_up="piece after piece is looked at until one is quick enough",
)  # fmt: skip
MEAN_HOURS = Declaration(
    "mean_model_hours", "Practice until the standard, mean model", "h", 2, 2,
    ("mean_first", "mean_percent", "mean_model_pieces"),
    lambda first, percent, n: _hours(_MEAN, first, percent, n),
    f"hours = T1 ÷ 3600 × n^(1 + {_B})", _CURVE, _WIDEMAN, _IN_MEAN, numbers=_on_curve,
)  # fmt: skip

_WORK = ("work-measurement",)


def _basic(elements: Elements) -> float:
    return work_rate.basic_time_s(elements.times_s, elements.times_a_piece)


def _working(shift: float, breaks: float) -> float:
    if breaks >= shift:
        raise ValueError("the breaks are as long as the shift")
    return shift - breaks


BASIC = Declaration(
    "basic", "Basic time of a piece", "s", 1, 1, ("elements",), _basic,
    "sum of time × how often", (), _WORK, looked_up="a sum of as many terms as there are elements",
)  # fmt: skip
STANDARD = Declaration(
    "standard", "Standard time of a piece", "s", 1, 1, ("basic", "allowance"),
    work_rate.standard_time_s, "standard = basic × (1 + allowance ÷ 100)",
    (Symbol("basic", "s", 1), Symbol("allowance", "%")), _WORK,
    "allowance on the job's time, 0 to 100 %",
)  # fmt: skip
AN_HOUR = Declaration(
    "an_hour", "Pieces an hour", "pieces", 1, 1, ("standard",),
    lambda standard: work_rate.pieces_in_time(standard, 3600), "pieces = 3600 ÷ standard",
    (Symbol("standard", "s", 1),), _WORK,
)  # fmt: skip
_SHIFT, _BREAKS = Symbol("shift", "s"), Symbol("breaks", "s")
WORKING = Declaration(
    "working", "Working time of a shift", "h", 2, 2, ("shift", "breaks"),
    lambda shift, breaks: _working(shift, breaks) / 3600, "working = (shift − breaks) ÷ 3600",
    (_SHIFT, _BREAKS), _WORK,
)  # fmt: skip
A_SHIFT = Declaration(
    "a_shift", "Pieces a shift", "pieces", 0, 1, ("standard", "shift", "breaks"),
    lambda standard, shift, breaks:
        int(work_rate.pieces_in_time(standard, _working(shift, breaks)) + 1e-9),
    "pieces = (shift − breaks) ÷ standard, rounded down",
    (_SHIFT, _BREAKS, Symbol("standard", "s", 1)), _WORK, "somebody who knows the job",
    numbers=lambda standard, shift, breaks: {
        "shift": shift, "breaks": breaks, "standard": standard}, asked=0,
)  # fmt: skip
