"""The time of the first pieces together, which published tables print beside that of one piece."""

import math

from benchleaf.formulas.domain import positive, whole
from benchleaf.formulas.learning_curve import MOST_PIECES, learning_exponent


def unit_total_s(first_s: float, learning_percent: float, pieces: int) -> float:
    """Find the time of the first pieces together by the unit model.

    Equation: T1 + T2 + ... + Tn

    Args:
        first_s: [s] time T1 of the first piece
        learning_percent: [%] learning percentage of the unit model
        pieces: [-] how many n, from the first on

    Returns:
        [s] time of the n pieces

    Valid: T1 above 0; learning from 51 to 100; n from 1 to a million

    >>> round(unit_total_s(100000.0, 80.0, 8))
    534591

    Source: Chase and Jacobs, exhibit 4A.2 [chase-4a, read]
    """
    exponent = learning_exponent(learning_percent)
    count = whole("pieces", pieces, 1, MOST_PIECES)
    shares = (number**exponent for number in range(1, count + 1))
    return positive("first_s", first_s) * math.fsum(shares)
