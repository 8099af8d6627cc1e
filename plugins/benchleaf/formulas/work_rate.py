"""From the elements of a piece to a rate: pieces an hour and a shift, with stated allowances."""

import math
from dataclasses import dataclass

from .domain import positive, whole, within
from .learning_curve import MOST_PIECES, Model, average_time_s, piece_time_s, unit_time_s

MOST_ALLOWANCE_PERCENT = 100.0
"""Largest allowance accepted. Our own judgement: published ones run from about 5 to 40."""


def basic_time_s(times_s: tuple[float, ...], times_a_piece: tuple[float, ...]) -> float:
    """Find the time of one piece from its elements.

    Equation: sum of time * how often a piece

    Args:
        times_s: [s] time of each element, once
        times_a_piece: [-] how often each comes in a piece; 0.1 for one piece in ten

    Returns:
        [s] basic time of a piece

    Valid: one element at least; times and counts above 0

    >>> basic_time_s((12.0, 4.0, 30.0), (1.0, 2.0, 0.1))
    23.0

    Source: work measurement, sum of elements [work-measurement, read]
    """
    if not times_s or len(times_s) != len(times_a_piece):
        raise ValueError("times_s and times_a_piece must be as many, and not none")
    return math.fsum(
        positive("times_s", one) * positive("times_a_piece", often)
        for one, often in zip(times_s, times_a_piece, strict=True)
    )


def standard_time_s(basic_s: float, allowance_percent: float) -> float:
    """Find the standard time of a piece from its basic time and the allowances.

    Args:
        basic_s: [s] basic time of a piece
        allowance_percent: [%] allowances for personal needs, rest and delays, of the basic time

    Returns:
        [s] standard time of a piece

    Valid: basic above 0; allowance from 0 to 100, of the job's time. Some books take it of the
        working day instead, and divide by 1 - allowance: that is a longer time

    >>> standard_time_s(24.0, 20.0)
    28.8

    Source: work measurement, allowance on job time [work-measurement, read]
    """
    allowance = within("allowance_percent", allowance_percent, 0.0, MOST_ALLOWANCE_PERCENT)
    return positive("basic_s", basic_s) * (1.0 + allowance / 100.0)


def pieces_in_time(standard_s: float, time_s: float) -> float:
    """Find how many pieces a time holds at a steady rate.

    Equation: pieces = time / standard

    Args:
        standard_s: [s] standard time of a piece
        time_s: [s] time worked, 3600 for an hour

    Returns:
        [-] pieces, with a part of a piece

    Valid: both above 0

    >>> pieces_in_time(28.8, 3600.0)
    125.0

    Source: work measurement, rate from standard time [work-measurement, read]
    """
    return positive("time_s", time_s) / positive("standard_s", standard_s)


@dataclass(frozen=True)
class DayOfLearning:
    """What a learner is expected to make in one day of practice."""

    first_piece: int
    """Number of the first piece finished that day."""
    pieces: int
    last_time_s: float
    """Expected time of the last piece of the day, or of the next one where none is finished."""


def days_of_learning(
    model: Model,
    first_s: float,
    learning_percent: float,
    standard_s: float,
    day_s: float,
    done: int,
    days: int,
) -> tuple[DayOfLearning, ...]:
    """Find what is expected of a learner day by day, on a learning curve.

    Equation: pieces of a day = those whose times sum to the day; no piece is under the standard

    Args:
        model: [text] unit or cumulative average
        first_s: [s] time of the first piece
        learning_percent: [%] learning percentage of that model
        standard_s: [s] standard time of a piece, below which nobody is expected to go
        day_s: [s] time of practice in a day
        done: [-] pieces made before the first day
        days: [-] how many days

    Returns:
        first_piece: [-] number of the first piece finished that day
        pieces: [-] pieces finished that day
        last_time_s: [s] expected time of the last of them

    Valid: times above 0; learning from 51 to 100; a piece begun is finished the next day

    >>> [one.pieces for one in days_of_learning("unit", 600.0, 80.0, 240.0, 3600.0, 0, 3)]
    [9, 14, 15]

    Source: learning curve [chase-4a, read]; the floor [learning-floor, our own judgement]
    """
    positive("standard_s", standard_s)
    found, piece, spent = [], whole("done", done, 0, MOST_PIECES), 0.0
    for day in range(1, whole("days", days, 1, 400) + 1):
        start, end = piece, day * positive("day_s", day_s)
        time = _no_less(model, first_s, learning_percent, standard_s, piece + 1)
        while spent + time <= end and piece + 1 < MOST_PIECES:
            spent, piece, last = spent + time, piece + 1, time
            time = _no_less(model, first_s, learning_percent, standard_s, piece + 1)
        found.append(DayOfLearning(start + 1, piece - start, last if piece > start else time))
    return tuple(found)


def hours_to_piece(
    model: Model, first_s: float, learning_percent: float, done: int, piece: int
) -> float:
    """Find the time of practice from now until a piece is finished.

    Equation: sum of the times of the pieces after those done, divided by 3600

    Args:
        model: [text] unit or cumulative average
        first_s: [s] time of the first piece
        learning_percent: [%] learning percentage of that model
        done: [-] pieces made so far
        piece: [-] number of the piece to be finished

    Returns:
        [h] time of practice

    Valid: as in the model; 0 where the piece is done already

    >>> hours_to_piece("unit", 360000.0, 80.0, 0, 8)
    534.59

    Source: Chase and Jacobs, exhibit 4A.2 [chase-4a, read]
    """
    after = whole("done", done, 0, MOST_PIECES)
    last = whole("piece", piece, 1, MOST_PIECES)
    if model == "cumulative average":  # its totals are known without adding up
        totals = [n * average_time_s(first_s, learning_percent, n) if n else 0.0
                  for n in (after, max(after, last))]  # fmt: skip
        return (totals[1] - totals[0]) / 3600.0
    left = range(after + 1, last + 1)
    return math.fsum(unit_time_s(first_s, learning_percent, one) for one in left) / 3600.0


def _no_less(
    model: Model, first_s: float, learning_percent: float, standard_s: float, piece: int
) -> float:
    return max(standard_s, piece_time_s(model, first_s, learning_percent, piece))
