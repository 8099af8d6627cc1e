"""How a learner's time for a piece falls with practice: two named models of the learning curve.

Unit model (Crawford): the time of piece n is T1 n^b. Cumulative-average model (Wright): the mean
time of the first n pieces is T1 n^b. With one percentage the two give different times: at 80 % the
second piece takes 80 % of the first in the unit model and 60 % in the other, so a figure always
names its model. Both describe practice at one task and say nothing about safety or quality.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from .domain import positive, whole, within

Model = Literal["unit", "cumulative average"]
"""What falls by the percentage at each doubling: the piece's own time, or the mean so far."""

PERCENT_RANGE = (51.0, 100.0)
"""Learning percentages accepted; 100 is no learning. Our own judgement: published ones run from 70
to 95. At 50 the cumulative-average model leaves no time for the second piece."""

MOST_PIECES = 1_000_000
"""Most pieces counted; beyond it a slip of the pen is likelier."""


def learning_exponent(learning_percent: float) -> float:
    """Find the exponent of a learning curve from its percentage.

    Equation: b = log2(learning / 100)

    Args:
        learning_percent: [%] time after a doubling of the count, over the time before it

    Returns:
        [-] exponent b, 0 or below

    Valid: learning from 51 to 100

    >>> learning_exponent(90.0)
    -0.1520

    Source: Stevenson, Example 7S.4, which rounds b so [stevenson-7s, second-hand]
    """
    return math.log2(within("learning_percent", learning_percent, *PERCENT_RANGE) / 100.0)


def unit_time_s(first_s: float, learning_percent: float, piece: int) -> float:
    """Find the time of one piece by the unit model.

    Equation: Tn = T1 n^b

    Args:
        first_s: [s] time T1 of the first piece
        learning_percent: [%] learning percentage of the unit model
        piece: [-] number n of the piece, 1 for the first

    Returns:
        [s] time Tn of that piece

    Valid: T1 above 0; learning from 51 to 100; n from 1 to a million

    >>> unit_time_s(100000.0, 80.0, 8)
    51200.0

    Source: Chase and Jacobs, exhibit 4A.2 [chase-4a, read]
    """
    return positive("first_s", first_s) * _share(learning_percent, piece)


def average_time_s(first_s: float, learning_percent: float, pieces: int) -> float:
    """Find the mean time of the first pieces by the cumulative-average model.

    Equation: An = T1 n^b

    Args:
        first_s: [s] time T1 of the first piece
        learning_percent: [%] learning percentage of the cumulative-average model
        pieces: [-] how many n, from the first on

    Returns:
        [s] mean time An of the n pieces

    Valid: T1 above 0; learning from 51 to 100; n from 1 to a million

    >>> average_time_s(100.0, 80.0, 4)
    64.0

    Source: Wideman, learning curve mathematics [wideman-learning, read]
    """
    return positive("first_s", first_s) * _share(learning_percent, pieces)


def average_piece_time_s(first_s: float, learning_percent: float, piece: int) -> float:
    """Find the time of one piece by the cumulative-average model.

    Equation: n An - (n - 1) A(n - 1)

    Args:
        first_s: [s] time T1 of the first piece
        learning_percent: [%] learning percentage of the cumulative-average model
        piece: [-] number n of the piece, 1 for the first

    Returns:
        [s] time of that piece

    Valid: T1 above 0; learning from 51 to 100; n from 1 to a million

    >>> average_piece_time_s(100.0, 80.0, 2)
    60.0

    Source: Wideman, learning curve mathematics [wideman-learning, read]
    """
    total = piece * average_time_s(first_s, learning_percent, piece)
    if piece == 1:
        return total
    return total - (piece - 1) * average_time_s(first_s, learning_percent, piece - 1)


def piece_time_s(model: Model, first_s: float, learning_percent: float, piece: int) -> float:
    """Find the time of one piece by either model.

    Equation: Tn = T1 n^b (unit); n An - (n - 1) A(n - 1) (cumulative average)

    Args:
        model: [text] unit or cumulative average
        first_s: [s] time T1 of the first piece
        learning_percent: [%] learning percentage of that model
        piece: [-] number n of the piece, 1 for the first

    Returns:
        [s] time of that piece

    Valid: as in the model

    >>> piece_time_s("unit", 100.0, 80.0, 2), piece_time_s("cumulative average", 100.0, 80.0, 2)
    (80.0, 60.0)

    Source: Wideman, learning curve mathematics [wideman-learning, read]
    """
    return _by_model(model)(first_s, learning_percent, piece)


def pieces_to_standard(
    model: Model, first_s: float, learning_percent: float, standard_s: float
) -> int | None:
    """Find the first piece that takes no longer than the standard time.

    Equation: smallest n with Tn <= standard; in the unit model n = (standard / T1)^(1 / b), up

    Args:
        model: [text] unit or cumulative average
        first_s: [s] time T1 of the first piece
        learning_percent: [%] learning percentage of that model
        standard_s: [s] standard time of a piece

    Returns:
        [-] number of that piece, or None where a million pieces do not reach it

    Valid: times above 0; learning from 51 to 100

    >>> pieces_to_standard("unit", 600.0, 90.0, 360.0)
    29

    Source: Stevenson, Example 7S.4 [stevenson-7s, second-hand]
    """
    # A curve that is solved from two pieces must not miss its own point by the last bit.
    standard_s = positive("standard_s", standard_s) * (1 + 1e-12)
    time_of = _by_model(model)
    low, high = 0, 1  # the curve only falls: double until it is under, then halve the gap
    while time_of(first_s, learning_percent, high) > standard_s:
        if high == MOST_PIECES:
            return None
        low, high = high, min(2 * high, MOST_PIECES)
    while high - low > 1:
        middle = (low + high) // 2
        is_over = time_of(first_s, learning_percent, middle) > standard_s
        low, high = (middle, high) if is_over else (low, middle)
    return high


@dataclass(frozen=True)
class LearningFit:
    """A learning curve laid through observed times, on the model that it names."""

    model: Model
    first_s: float
    """Time of the first piece on the fitted line, not the one observed."""
    learning_percent: float
    scatter: float
    """Residual standard deviation, in natural logarithms; 0.10 is about 10 %."""
    observed: int
    """How many times it is fitted to."""
    mean_log_piece: float
    """Mean of the natural logarithms of the pieces' numbers."""
    sum_of_squares: float
    """Sum of the squared distances of those logarithms from their mean."""


@dataclass(frozen=True)
class TimeBand:
    """Expected time of a piece, and between what a single new piece lies nine times in ten."""

    expected_s: float
    low_s: float
    high_s: float


LEAST_OBSERVED = 3
"""Fewest pieces to fit: two always lie on a curve, and show no scatter."""


def fit_unit(pieces: tuple[int, ...], times_s: tuple[float, ...]) -> LearningFit:
    """Fit the unit model to observed times by least squares in logarithms.

    Equation: ln Tn = ln T1 + b ln n

    Args:
        pieces: [-] numbers of the pieces that were timed
        times_s: [s] their times

    Returns:
        model: [text] unit
        first_s: [s] time T1 of the first piece on the line
        learning_percent: [%] learning percentage, 100 * 2^b
        scatter: [-] residual standard deviation of ln T
        observed: [-] how many times
        mean_log_piece: [-] mean of ln n
        sum_of_squares: [-] sum of squares of ln n about its mean

    Valid: 3 pieces or more, not all the same; times above 0. A percentage above 100 means that the
        times rise: no learning is seen. One below 51 is not used for forecasts

    >>> round(fit_unit((1, 2, 4), (100.0, 80.0, 64.0)).learning_percent, 1)
    80.0

    Source: least squares on the logarithms [least-squares, geometry]
    """
    if len(pieces) != len(times_s):
        raise ValueError("pieces and times_s must be as many")
    return _fit("unit", pieces, times_s)


def fit_average(times_s: tuple[float, ...]) -> LearningFit:
    """Fit the cumulative-average model to the times of the first pieces, none left out.

    Equation: ln An = ln T1 + b ln n, An the mean of the first n times

    Args:
        times_s: [s] times of pieces 1, 2, 3 and so on

    Returns:
        model: [text] cumulative average
        first_s: [s] time T1 of the first piece on the line
        learning_percent: [%] learning percentage, 100 * 2^b
        scatter: [-] residual standard deviation of ln A
        observed: [-] how many times
        mean_log_piece: [-] mean of ln n
        sum_of_squares: [-] sum of squares of ln n about its mean

    Valid: 3 times or more, above 0. Means hide the scatter of single pieces, so its scatter is no
        measure of it

    >>> round(fit_average((100.0, 60.0, 50.63)).learning_percent, 1)
    80.0

    Source: least squares on the logarithms [least-squares, geometry]
    """
    means = tuple(math.fsum(times_s[:count]) / count for count in range(1, len(times_s) + 1))
    return _fit("cumulative average", tuple(range(1, len(means) + 1)), means)


def time_band(fit: LearningFit, piece: int) -> TimeBand:
    """Find what to expect of one new piece on a fitted unit curve, with a band of nine in ten.

    Equation: ln Tn +/- t s sqrt(1 + 1 / k + (ln n - mean)^2 / S)

    Args:
        fit: [any] a fit of the unit model
        piece: [-] number n of the piece

    Returns:
        expected_s: [s] time on the line
        low_s: [s] lower end of the band
        high_s: [s] upper end of the band

    Valid: the unit model; learning from 51 to 100. t is Student's for 90 % and k - 2 degrees of
        freedom, k the number of times, s their scatter and S the sum of squares

    >>> band = time_band(fit_unit((1, 2, 4, 8), (100.0, 82.0, 62.0, 52.0)), 16)
    >>> band.low_s < band.expected_s < band.high_s
    True

    Source: prediction from a straight line [least-squares, geometry]; t [nist-t, read]
    """
    if fit.model != "unit":
        raise ValueError(f"fit is of the {fit.model} model; it must be of the unit model")
    expected = unit_time_s(fit.first_s, fit.learning_percent, piece)
    away = math.log(piece) - fit.mean_log_piece
    spread = math.sqrt(1.0 + 1.0 / fit.observed + away**2 / fit.sum_of_squares)
    factor = math.exp(_student_90(fit.observed - 2) * fit.scatter * spread)
    return TimeBand(expected, expected / factor, expected * factor)


@dataclass(frozen=True)
class PieceRange:
    """From which piece on a time may be reached, and by which it is; None where none can tell."""

    low: int
    high: int | None


def pieces_between(fit: LearningFit, time_s: float) -> PieceRange:
    """Find between which pieces a fitted unit curve comes down to a time, nine times in ten.

    Equation: (ln T - ln T1 - b x)^2 = t^2 s^2 (1 / k + (x - mean)^2 / S), solved for x = ln n

    Args:
        fit: [any] a fit of the unit model
        time_s: [s] the time T that is to be reached

    Returns:
        low: [-] first piece on which it may be reached
        high: [-] piece by which it is reached, or None

    Valid: the unit model; T above 0. The edges of the band of the line meet T there; without an end
        where the slope is not sure to fall, or beyond a million pieces. t, k, s, S as in the band

    >>> pieces_between(fit_unit((1, 2, 4, 8), (100.0, 82.0, 62.0, 52.0)), 40.0)
    PieceRange(low=13, high=27)

    Source: inverse prediction from a straight line [least-squares, geometry]; t [nist-t, read]
    """
    if fit.model != "unit":
        raise ValueError(f"fit is of the {fit.model} model; it must be of the unit model")
    slope = math.log2(fit.learning_percent / 100.0)
    mean = fit.mean_log_piece
    above = math.log(fit.first_s) + slope * mean - math.log(positive("time_s", time_s))
    wide = (_student_90(fit.observed - 2) * fit.scatter) ** 2
    square = slope**2 - wide / fit.sum_of_squares  # of the quadratic in x - mean
    half, rest = above * slope, above**2 - wide / fit.observed
    root = half**2 - square * rest
    is_falling = slope < 0 < square
    if not is_falling and (root < 0 or square == 0):
        return PieceRange(1, None)
    ends = sorted((-half + sign * math.sqrt(max(root, 0.0))) / square for sign in (-1.0, 1.0))
    pieces = [_piece_at_log(mean + one) for one in ends]
    if is_falling:
        return PieceRange(pieces[0] or MOST_PIECES, pieces[1])
    reaches = slope < 0 and -above / slope >= ends[1]
    return PieceRange((pieces[1] or MOST_PIECES) if reaches else 1, None)


def _piece_at_log(log_piece: float) -> int | None:
    piece = math.exp(min(log_piece, 50.0)) * (1 - 1e-12)
    return None if piece > MOST_PIECES else max(1, math.ceil(piece))


STUDENT_90 = (
    6.314, 2.920, 2.353, 2.132, 2.015, 1.943, 1.895, 1.860, 1.833, 1.812,
    1.796, 1.782, 1.771, 1.761, 1.753, 1.746, 1.740, 1.734, 1.729, 1.725,
    1.721, 1.717, 1.714, 1.711, 1.708, 1.706, 1.703, 1.701, 1.699, 1.697,
)  # fmt: skip
"""Student's t for a two-sided band of 90 %, by 1 to 30 degrees of freedom (source nist-t, read)."""


def _student_90(freedom: int) -> float:
    """Beyond the table its last value is used: a little wider than need be."""
    return STUDENT_90[min(freedom, len(STUDENT_90)) - 1]


def _share(learning_percent: float, piece: int) -> float:
    count = whole("piece", piece, 1, MOST_PIECES)
    return float(count ** learning_exponent(learning_percent))


def _by_model(model: Model) -> Callable[[float, float, int], float]:
    known = {"unit": unit_time_s, "cumulative average": average_piece_time_s}
    if model not in known:
        raise ValueError(f"model is {model!r}; it must be one of {', '.join(known)}")
    return known[model]


def _fit(model: Model, pieces: tuple[int, ...], times_s: tuple[float, ...]) -> LearningFit:
    if len(pieces) < LEAST_OBSERVED:
        raise ValueError(f"{len(pieces)} times are given; {LEAST_OBSERVED} at least are needed")
    x = [math.log(whole("piece", piece, 1, MOST_PIECES)) for piece in pieces]
    y = [math.log(positive("time", time)) for time in times_s]
    count = len(x)
    mean_x, mean_y = math.fsum(x) / count, math.fsum(y) / count
    squares = math.fsum((one - mean_x) ** 2 for one in x)
    if squares == 0:
        raise ValueError("all times are of one piece; pieces of different numbers are needed")
    slope = math.fsum((a - mean_x) * (b - mean_y) for a, b in zip(x, y, strict=True)) / squares
    start = mean_y - slope * mean_x
    left = math.fsum((b - start - slope * a) ** 2 for a, b in zip(x, y, strict=True))
    scatter = math.sqrt(left / (count - 2))
    return LearningFit(model, math.exp(start), 100.0 * 2.0**slope, scatter, count, mean_x, squares)
