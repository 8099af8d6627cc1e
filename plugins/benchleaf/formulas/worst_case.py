"""The worst case of a comparison: every input at its unfavourable end, all of them at once.

The rule is stated once. Each comparison here is a quotient of products (force, friction and arm
over torque; rating over power), so its worst case is the quotient divided by how far each input may
be off (spread.py). Nothing is averaged: inputs that help one another out are not counted on.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import prod

from .domain import positive, within
from .drilling_limits import WEAR_RANGE
from .spread import MODEL, clamp_times, dullest_times, friction_times, hardest_times

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


def load_at_worst(wear: float, metal: str, model: str) -> float:
    """Find the load of a cut at its worst over the load reckoned.

    Equation: worst = metal worn model, each by spread.py

    Args:
        wear: [-] wear factor W that the load was reckoned with
        metal: [text] metal of the work, a key of HARDEST
        model: [text] what is reckoned, a key of MODEL

    Returns:
        [-] ratio, 1 or more

    Valid: W 1 to 2

    >>> load_at_worst(1.3, "steel", "torque"), load_at_worst(2.0, "steel", "torque")
    (1.327, 1.15)

    Source: every input at its bad end at once [worst-case, our own judgement]
    """
    if model not in MODEL:
        raise ValueError(f"model is {model!r}; it must be one of {', '.join(MODEL)}")
    worn = dullest_times(within("wear", wear, *WEAR_RANGE))
    return hardest_times(metal) * worn * MODEL[model]


def hold_at_worst(known_by: str, work: str, jaws: str, *, is_measured: bool) -> float:
    """Find how many times less a clamp in a dry job may hold than was entered.

    Equation: hold = clamp grip, each by spread.py

    Args:
        known_by: [text] how its force is known: feel, torque handle or lowest measured
        work: [text] surface of the work: ground, machined or unmachined
        jaws: [text] surface of the jaw: smooth, diamond serrated or serrated
        is_measured: [any] True where the friction was tried out

    Returns:
        [-] ratio, 1 or more

    Valid: the rows of JAW_FRICTION

    >>> hold_at_worst("lowest measured", "machined", "smooth", is_measured=False)
    1.313

    Source: every input at its bad end at once [worst-case, our own judgement]
    """
    rubs = friction_times(work, jaws, is_measured=is_measured, is_wet=False)
    return clamp_times(known_by) * rubs
