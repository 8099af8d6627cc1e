"""Relations of practice: a learner's curve, and the rate of a piece from its elements."""

from __future__ import annotations

from benchleaf.formulas import learning_curve, work_rate
from benchleaf.formulas.learning_curve import Model

from .relation import Input, Observed, Relation, operation

_UNIT: Model = "unit"
_MEAN: Model = "cumulative average"
_CHASE, _WIDEMAN = ("chase-4a",), ("wideman-learning",)
_IN_UNIT = "unit model: each doubling of the count takes the percentage of the time"
_IN_MEAN = "cumulative-average model: each doubling takes the percentage of the mean time so far"


def _fitted(observed: Observed) -> learning_curve.LearningFit:
    return _usable(learning_curve.fit_unit(observed.pieces, observed.times_s))


def _mean_fitted(observed: Observed) -> learning_curve.LearningFit:
    if observed.pieces != tuple(range(1, len(observed.pieces) + 1)):
        raise ValueError("give the time of every piece from the first, none left out")
    return _usable(learning_curve.fit_average(observed.times_s))


def _usable(fit: learning_curve.LearningFit) -> learning_curve.LearningFit:
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


def _to_standard(model: Model, first: float, percent: float, standard: float) -> int:
    piece = learning_curve.pieces_to_standard(model, first, percent, standard)
    if piece is None:
        raise ValueError("this curve never reaches that standard")
    return piece


def _hours(model: Model, first: float, percent: float, piece: float) -> float:
    return work_rate.hours_to_piece(model, first, percent, 0, int(piece))


def _mean(first: float, percent: float, piece: float) -> float:
    return learning_curve.average_time_s(first, percent, int(piece)) / 60


LEARNING = operation(
    "learning-curve",
    "time of a learner's pieces, and pieces and hours to the standard, by two named models",
    {
        "first": Input("time", "time of the first piece"),
        "learning_percent": Input("learning", "unit model: time left after a doubling: 80"),
        "mean_percent": Input("learning", "mean model: mean time left after a doubling: 80"),
        "observed": Input("timed pieces", "pieces that were timed, instead: 1: 5 min, 3: 4 min"),
        "piece": Input("count", "number of a piece, counted from the first"),
        "standard": Input("time", "standard time of a piece"),
    },
    Relation("first", "First piece, on the fitted line", "s", 0, ("observed",),
             lambda observed: _fitted(observed).first_s, "least squares: ln T = ln T1 + b ln n",
             ("least-squares",), "unit model; 3 pieces at least"),
    Relation("learning_percent", "Learning percentage, fitted", "%", 1, ("observed",),
             lambda observed: _fitted(observed).learning_percent, "100 × 2^b",
             ("least-squares",), "unit model; 51 to 100"),
    Relation("scatter", "Scatter about the line", "%", 0, ("observed",),
             lambda observed: 100 * _fitted(observed).scatter,
             "standard deviation of ln T about the line", ("least-squares",)),
    Relation("piece_time", "Time of that piece", "min", 2,
             ("first", "learning_percent", "piece"),
             lambda first, percent, n: learning_curve.unit_time_s(first, percent, int(n)) / 60,
             "T1 × n^b, b = log2(percentage ÷ 100)", _CHASE, _IN_UNIT),
    Relation("piece_band", "A new piece, nine times in ten", "min", 2, ("observed", "piece"),
             _band, "ln T ± t × scatter × √(1 + 1 ÷ k + (ln n − mean)² ÷ S)",
             ("least-squares", "nist-t"), "unit model; t of Student, k timed pieces"),
    Relation("hours_to_piece", "Practice up to that piece", "h", 2,
             ("first", "learning_percent", "piece"),
             lambda first, percent, n: _hours(_UNIT, first, percent, n), "T1 + T2 + ... + Tn",
             _CHASE, _IN_UNIT),
    Relation("pieces_to_standard", "Piece that reaches the standard", "pieces", 0,
             ("first", "learning_percent", "standard"),
             lambda first, percent, wanted: _to_standard(_UNIT, first, percent, wanted),
             "n = (standard ÷ T1)^(1 ÷ b), up to a whole piece", ("stevenson-7s",), _IN_UNIT),
    Relation("hours_to_standard", "Practice until the standard", "h", 2,
             ("first", "learning_percent", "pieces_to_standard"),
             lambda first, percent, n: _hours(_UNIT, first, percent, n), "T1 + T2 + ... + Tn",
             _CHASE, _IN_UNIT),
    Relation("mean_first", "First piece, mean model", "s", 0, ("observed",),
             lambda observed: _mean_fitted(observed).first_s,
             "least squares: ln mean(n) = ln T1 + b ln n", ("least-squares",),
             "every piece from the first, none left out"),
    Relation("mean_first", "First piece, mean model", "s", 0, ("first",), float,
             "the same in both models", _WIDEMAN),
    Relation("mean_percent", "Learning percentage, mean model", "%", 1, ("observed",),
             lambda observed: _mean_fitted(observed).learning_percent, "100 × 2^b",
             ("least-squares",), "every piece from the first, none left out; 51 to 100"),
    Relation("mean_time", "Mean time up to that piece", "min", 2,
             ("mean_first", "mean_percent", "piece"), _mean, "T1 × n^b", _WIDEMAN, _IN_MEAN),
    Relation("mean_model_piece_time", "Time of that piece, mean model", "min", 2,
             ("mean_first", "mean_percent", "piece"),
             lambda first, percent, n:
                 learning_curve.average_piece_time_s(first, percent, int(n)) / 60,
             "n × mean(n) − (n − 1) × mean(n − 1)", _WIDEMAN, _IN_MEAN),
    Relation("mean_model_pieces", "Piece that reaches the standard, mean model", "pieces", 0,
             ("mean_first", "mean_percent", "standard"),
             lambda first, percent, wanted: _to_standard(_MEAN, first, percent, wanted),
             "first n whose time is no longer", _WIDEMAN, _IN_MEAN),
    Relation("mean_model_hours", "Practice until the standard, mean model", "h", 2,
             ("mean_first", "mean_percent", "mean_model_pieces"),
             lambda first, percent, n: _hours(_MEAN, first, percent, n), "n × mean(n)",
             _WIDEMAN, _IN_MEAN),
)  # fmt: skip

_WORK = ("work-measurement",)

RATE = operation(
    "rate",
    "standard time of a piece from its elements, pieces an hour and a shift",
    {
        "elements": Input("times", "times of the elements, with how often: 12 s, 4 s x 2"),
        "basic": Input("time", "basic time of a piece, instead of elements"),
        "allowance": Input("allowance", "allowances in percent of the basic time: 12"),
        "shift": Input("time", "length of the shift"),
        "breaks": Input("time", "breaks in it, 0 unless given"),
    },
    Relation("basic", "Basic time of a piece", "s", 1, ("elements",),
             lambda elements: work_rate.basic_time_s(elements.times_s, elements.times_a_piece),
             "sum of time × how often", _WORK),
    Relation("standard", "Standard time of a piece", "s", 1, ("basic", "allowance"),
             work_rate.standard_time_s, "basic × (1 + allowance ÷ 100)", _WORK,
             "allowance on the job's time, 0 to 100 %"),
    Relation("an_hour", "Pieces an hour", "pieces", 1, ("standard",),
             lambda standard: work_rate.pieces_in_time(standard, 3600), "3600 ÷ standard", _WORK),
    Relation("working", "Working time of a shift", "h", 2, ("shift", "breaks"),
             lambda shift, breaks: _working(shift, breaks) / 3600, "shift − breaks", _WORK),
    Relation("a_shift", "Pieces a shift", "pieces", 0, ("standard", "shift", "breaks"),
             lambda standard, shift, breaks:
                 int(work_rate.pieces_in_time(standard, _working(shift, breaks)) + 1e-9),
             "(shift − breaks) ÷ standard, rounded down", _WORK, "somebody who knows the job"),
    zero_unless_given=("breaks",),
)  # fmt: skip


def _working(shift: float, breaks: float) -> float:
    if breaks >= shift:
        raise ValueError("the breaks are as long as the shift")
    return shift - breaks


PRACTICE = (RATE, LEARNING)
