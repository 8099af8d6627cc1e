"""The worst case of a comparison: every input at its unfavourable end, all of them at once.

The rule is stated once. Each comparison here is a quotient of products (force, friction and arm
over torque; rating over power), so its worst case is the quotient divided by how far each input may
be off (spread.py). Nothing is averaged: inputs that help one another out are not counted on.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import prod

from .domain import positive, within

MOST_TIMES = 100.0
"""An input that is off by more is no input. Our own judgement."""


@dataclass(frozen=True)
class Off:
    """An input that may be off, and by how many times to its unfavourable side."""

    name: str
    """As a formula calls it: metal, wear, model, clamp, grip, drive."""
    times: float


def at_worst(ratio: float, times: Sequence[float]) -> float:
    """Find how many times enough is left when every input is at its unfavourable end.

    Equation: worst = ratio / (t1 t2 ... tn)

    Args:
        ratio: [-] capacity over load, each as entered
        times: [-] how many times each input may make it worse, 1 at least

    Returns:
        [-] ratio of the worst case, never above the one entered

    Valid: ratio above 0; each factor 1 to 100

    >>> at_worst(2.6, [1.15, 1.15, 1.54])
    1.28

    Source: statics, all errors to one side [statics, geometry]; the factors by spread.py
    """
    for one in times:
        within("times", one, 1.0, MOST_TIMES)
    return positive("ratio", ratio) / prod(times)
