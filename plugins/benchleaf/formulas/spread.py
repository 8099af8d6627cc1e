"""How far each input of a comparison may be off to its unfavourable side: declared here alone.

Each is how many times the comparison gets worse by that input: 1 where nothing is known to make it
worse. worst_case.py puts them together. Inputs that are no match of these (arms, diameters, feeds)
are measured or set, and are off by far less.
"""

from collections.abc import Mapping
from types import MappingProxyType

from .domain import positive, within
from .jaw_friction import JAW_FRICTION, METAL_FACTOR, SECOND_JAW_FRICTION, WET_FACTOR

HARDEST: Mapping[str, float] = MappingProxyType(
    # Steel: a bar a quarter harder than its row. The handbook's Kd rises from 24000 at 200 BHN to
    # 31000 at 300 (source mh31-table-6, from memory): 1.15 times at 250. Grey cast iron: published
    # forces of it differ by 1.97 times where those of steel differ by 1.66, and its skin is hard
    # (source force-spread). The quarter is our own judgement.
    {"steel": 1.15, "aluminium alloy": 1.15, "brass": 1.15, "grey cast iron": 1.3}
)
"""How many times harder than its entered factor a bar of that metal may cut."""

DULLEST = 1.5
"""Wear factor of a very dull drill (source mh31-table-3, from memory). A drill that is sharp when
it is fitted gets there if nobody grinds it."""

MODEL: Mapping[str, float] = MappingProxyType(
    {
        # The handbook's torque is the highest of the published ones compared: 15.7 against 15 and
        # 12.6 N m, 11.3 against 8.9 and 6.4, 37.2 against 33.9 and 20 (source force-spread).
        "torque": 1.0,
        # One catalogue's thrust is higher: 4548 against 4420 N (source force-spread).
        "thrust": 1.03,
        # Two models differ by up to 1.25 times and nobody has measured one. Our own judgement: the
        # higher is taken, and once more as much is counted.
        "enlarging": 1.25,
        # A second model of a tap is higher by 0.19 for carbon steel and 0.36 for stainless steel
        # (source lubero, read): the larger.
        "tapping": 1.36,
    }
)
"""How many times higher another published model may be than the one that is reckoned with."""

CUTS: Mapping[str, str] = MappingProxyType(
    {"drilling": "torque", "enlarging": "enlarging", "tapping": "tapping"}
)
"""Which of MODEL stands for a torque: in the solid, of a hole that is there, of a tap."""

CLAMP: Mapping[str, float] = MappingProxyType(
    {
        # Tightening by feel gives 35 % less at worst, by torque 25 % (source clamp-spread).
        "feel": 1 / 0.65,
        "torque handle": 1 / 0.75,
        # The lowest of ten pulls is not the lowest of a thousand. Our own judgement.
        "lowest measured": 1 / 0.9,
    }
)
"""How many times less a clamp may press than was entered, by how its force is known."""

MEASURED_FRICTION = 1 / 0.9
"""A friction with a trial of its own behind it may still be a tenth less. Our own judgement."""

SERRATED_AT_WORST: Mapping[tuple[str, str], float] = MappingProxyType(
    {
        # The lowest the second maker prints for a jaw that is no smoother: grooves beside diamond
        # serration, Z serration beside serration (source jaw-table-second, read).
        ("ground", "diamond serrated"): 0.07,
        ("machined", "diamond serrated"): 0.11,
        ("unmachined", "diamond serrated"): 0.16,
        ("ground", "serrated"): 0.15,
        ("machined", "serrated"): 0.18,
        ("unmachined", "serrated"): 0.20,
    }
)
"""Friction by a second maker's table, for jaws that are not smooth."""

SPREAD_RANGE = (1.0, 60.0)
"""Percent by which an input may fall by a shop's own measurement. Our own judgement: nothing is
known to less than a hundredth, and a clamp that loses more is none."""

MOST_PUBLISHED = 10.0
"""Largest published factor believed. Our own judgement."""

DRIVE_POWER = 1.6
"""A drive at its worst keeps its share of the power to this power. The handbook's range for geared
heads, 0.80 down to 0.70, gives it (source mh31-table-4, from memory)."""

MOTOR_BEARS = 1.6
"""Times its rated torque that an induction motor bears for 15 s and does not stall (source
iec-60034, from memory)."""

BARELY = 1.1
"""Below it the worst case is told as a doubt: what is left out here, the arm and the point, is off
by about a tenth. Our own judgement."""


def hardest_times(metal: str) -> float:
    """Look up how many times harder than entered a bar may cut.

    Equation: by table

    Args:
        metal: [text] metal of the work, a key of HARDEST

    Returns:
        [-] factor on thrust and torque

    Valid: the metals of HARDEST

    >>> hardest_times("steel")
    1.15

    Source: Machinery's Handbook 31st ed., Table 6 [mh31-table-6, from memory]; published forces
        [force-spread, read]; the quarter is our own judgement
    """
    if metal not in HARDEST:
        raise ValueError(f"metal is {metal!r}; it must be one of {', '.join(HARDEST)}")
    return HARDEST[metal]


def dullest_times(wear: float) -> float:
    """Find how many times more a drill may take once it is very dull.

    Equation: times = 1.5 / W, and 1 where the entered factor W is higher

    Args:
        wear: [-] wear factor W that is reckoned with

    Returns:
        [-] factor on thrust and torque

    Valid: above 0

    >>> dullest_times(1.3)
    1.154

    Source: Machinery's Handbook 31st ed., Table 3 [mh31-table-3, from memory]
    """
    return max(1.0, DULLEST / positive("wear", wear))


def friction_times(work: str, jaws: str, *, is_measured: bool, is_wet: bool) -> float:
    """Find how many times less the jaws may rub than is counted.

    Equation: times = mu1 / mu2 by the two makers' tables, or 1 / 0.9 of a trial; times the factor
        of wet work where a dry friction is counted: an oily film is enough

    Args:
        work: [text] surface of the work: ground, machined or unmachined
        jaws: [text] surface of the jaw: smooth, diamond serrated or serrated
        is_measured: [any] True where the friction was tried out
        is_wet: [any] True where the friction counted is one of wet work, or was tried wet

    Returns:
        [-] factor by which the friction may fall

    Valid: the rows of JAW_FRICTION

    >>> friction_times("unmachined", "smooth", is_measured=False, is_wet=True)
    1.071

    Source: two makers' tables [jaw-table, read] [jaw-table-second, read], wet over dry [jaw-wet,
        read]
    """
    if (work, jaws) not in JAW_FRICTION:
        raise ValueError(f"work and jaws are {work!r} and {jaws!r}; no table has them")
    film = 1.0 if is_wet else WET_FACTOR[jaws]
    if is_measured:
        return MEASURED_FRICTION * film
    lowest = SECOND_JAW_FRICTION[work] if jaws == "smooth" else SERRATED_AT_WORST[work, jaws]
    return max(1.0, JAW_FRICTION[work, jaws] / lowest) * film


def unknown_times(friction: float, jaws: str, metal: str, *, is_wet: bool) -> float:
    """Find how many times less jaws may rub where nobody says how the work is finished.

    Equation: times = mu / (mu2 k), at least 1, with mu2 of machined work by the second maker and k
        of the metal; times the factor of wet work where a dry friction is counted

    Args:
        friction: [-] friction mu that is counted on
        jaws: [text] surface of the jaw: smooth, diamond serrated or serrated
        metal: [text] metal of the work, a key of METAL_FACTOR
        is_wet: [any] True where the friction counted is one of wet work

    Returns:
        [-] factor by which the friction may fall

    Valid: friction above 0; the rows of JAW_FRICTION and METAL_FACTOR

    >>> unknown_times(0.15, "smooth", "steel", is_wet=True)
    1.5

    Source: two makers' tables [jaw-table, read] [jaw-table-second, read], wet over dry [jaw-wet,
        read]
    """
    if ("machined", jaws) not in JAW_FRICTION or metal not in METAL_FACTOR:
        raise ValueError(f"jaws and metal are {jaws!r} and {metal!r}; no table has them")
    smooth = jaws == "smooth"
    lowest = SECOND_JAW_FRICTION["machined"] if smooth else SERRATED_AT_WORST["machined", jaws]
    film = 1.0 if is_wet else WET_FACTOR[jaws]
    return max(1.0, positive("friction", friction) / (lowest * METAL_FACTOR[metal])) * film


def own_times(percent: float, published: float, *, has_source: bool) -> float:
    """Find how many times less an input may be where the shop has a spread of its own.

    Equation: times = 1 / (1 - p / 100); without a source the published one where it is more

    Args:
        percent: [%] how much less p it may be
        published: [-] factor of the published spread
        has_source: [any] True where it is said how it was measured

    Returns:
        [-] factor by which the input may fall

    Valid: p 1 to 60; published 1 at least

    >>> own_times(10.0, 1.538, has_source=True), own_times(10.0, 1.538, has_source=False)
    (1.111, 1.538)

    Source: the shop's own measurement, with its source [worst-case, our own judgement]
    """
    within("percent", percent, *SPREAD_RANGE)
    within("published", published, 1.0, MOST_PUBLISHED)
    times = 1 / (1 - percent / 100)
    return times if has_source else max(times, published)


def clamp_times(known_by: str) -> float:
    """Look up how many times less a clamp may press than was entered.

    Equation: by table

    Args:
        known_by: [text] how its force is known: feel, torque handle or lowest measured

    Returns:
        [-] factor by which the force may fall

    Valid: the keys of CLAMP

    >>> clamp_times("torque handle")
    1.333

    Source: scatter of tightened screws [clamp-spread, from memory]; of a measured force our own
        judgement
    """
    if known_by not in CLAMP:
        raise ValueError(f"known_by is {known_by!r}; it must be one of {', '.join(CLAMP)}")
    return CLAMP[known_by]


def drive_times(efficiency: float) -> float:
    """Find how many times more a drive may lose than its share says.

    Equation: times = E / E^1.6

    Args:
        efficiency: [-] share E of the power that the whole drive passes on

    Returns:
        [-] factor on what is asked of motor or hand

    Valid: above 0 and up to 1

    >>> drive_times(0.8)
    1.143

    Source: Machinery's Handbook 31st ed., Table 4 [mh31-table-4, from memory]
    """
    share = within("efficiency", positive("efficiency", efficiency), 0.0, 1.0)
    return float(share ** (1 - DRIVE_POWER))
