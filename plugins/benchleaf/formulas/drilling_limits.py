"""The bounds both unit systems of the handbook's drilling model share."""

from collections.abc import Mapping
from types import MappingProxyType

from .domain import positive

WEAR_RANGE = (1.0, 2.0)
"""From sharp to the largest wear factor of any operation (source mh31-table-3, from memory):
1.3 is normal drilling, 1.5 a very dull drill or a material hard to machine. Below 1 the
model would promise less force than a sharp drill needs."""

KD_RANGE = (4000.0, 70000.0)
"""Smallest and largest Kd of Table 6, magnesium to a nickel superalloy (source mh31-table-6, from
memory). It refuses a specific cutting force in N/mm2 (500 to 3000) put in Kd's place, which would
show a tenth of the real force."""

LOWEST_KD: Mapping[str, float] = MappingProxyType(
    {"steel": 12000.0, "grey cast iron": 14000.0, "aluminium alloy": 7000.0, "brass": 7000.0}
)
"""Lowest Kd of Table 6 by the metal (source mh31-table-6, from memory): free-machining steel, iron
of 150 BHN, most aluminium alloys, leaded brass."""

FAR_BELOW = 0.9
"""Share of the lowest below which a Kd is doubted. Our own judgement: the table is coarse."""


def is_far_below(kd: float, metal: str) -> bool:
    """Find whether a Kd is one of another metal, or of another unit.

    Equation: by table

    Args:
        kd: [-] work material factor Kd, in the handbook's scale
        metal: [text] metal of the work, a key of LOWEST_KD

    Returns:
        [any] True below nine tenths of the lowest of that metal

    Valid: the metals of LOWEST_KD

    >>> is_far_below(7000, "steel"), is_far_below(12000, "steel")
    (True, False)

    Source: Machinery's Handbook 31st ed., Table 6 [mh31-table-6, from memory]; the share is our own
        judgement
    """
    if metal not in LOWEST_KD:
        raise ValueError(f"metal is {metal!r}; it must be one of {', '.join(LOWEST_KD)}")
    return positive("kd", kd) < FAR_BELOW * LOWEST_KD[metal]
