"""How much more a cut can ask than was reckoned: the one place that says so."""

from .domain import within
from .drilling_limits import WEAR_RANGE

DULL_WEAR = 1.5
"""Wear factor of a very dull drill (source mh31-table-3, from memory)."""

MODEL_RATIO = 1.0
"""Highest published model of torque over the one reckoned with. The handbook's is the highest of
those compared: the second lies up to 34 % below it, so nothing is added."""


def worst_ratio(wear: float) -> float:
    """Find the load of a cut at its worst over the load reckoned.

    Args:
        wear: [-] wear factor W that the load was reckoned with

    Returns:
        [-] ratio, 1 or more

    Valid: W 1 to 2. The work's own hardness is not in it: give the hardest that comes

    >>> worst_ratio(1.0), worst_ratio(2.0)
    (1.5, 1.0)

    Source: our own rule [worst-case, our own judgement]; Machinery's Handbook 31st ed., Table 3
        [mh31-table-3, from memory]
    """
    return max(1.0, DULL_WEAR / within("wear", wear, *WEAR_RANGE)) * MODEL_RATIO
