"""Where each formula and factor comes from, and how far it was checked.

A status is part of the figure: a number recalled from memory is said to be so wherever it is
shown. Titles and places only; what a source says is in the formula that uses it.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import Enum
from types import MappingProxyType


class SourceStatus(Enum):
    """How a figure was obtained, in the words shown to the reader."""

    READ = "read"
    """The figure was read in the publication, or in a reproduction of its page."""
    SECOND_HAND = "second-hand"
    """The figure was read in somebody's transcription, not in the publication."""
    MEMORY = "from memory"
    """The figure was recalled; open the book before relying on it."""
    COMMON_PRACTICE = "common practice"
    """A shop rule with no publication behind it."""
    GEOMETRY = "geometry"
    """Follows from plane geometry or statics; anyone can work it out again."""
    JUDGEMENT = "our own judgement"
    """Chosen here, with the reason beside it; no publication says it."""


@dataclass(frozen=True)
class Source:
    """One place a figure comes from."""

    key: str
    title: str
    where: str
    """Edition, page or section."""
    status: SourceStatus

    def citation(self) -> str:
        """Cite the source on one plain line, its status in words at the end.

        >>> source("mh31-table-6").citation()
        "Machinery's Handbook, 31st ed., Table 6, work material factor Kd (from memory)"
        """
        return f"{self.title}, {self.where} ({self.status.value})"


_MH31 = "Machinery's Handbook, 31st ed."
_GROOVER5 = "Groover, Fundamentals of Modern Manufacturing, 5th ed."
_GROOVER4 = "Groover, Fundamentals of Modern Manufacturing, 4th ed., solutions"
_READ, _MEMORY = SourceStatus.READ, SourceStatus.MEMORY

_ALL = (
    Source("mh31-drilling", _MH31, "p. 1152, drilling equations 1 to 7", _READ),
    # Tables 3 and 4: notes taken by others on the 30th edition agree with memory.
    Source("mh31-table-3", _MH31, "Table 3, tool wear factor W", _MEMORY),
    Source("mh31-table-4", _MH31, "Table 4, machine tool efficiency E", _MEMORY),
    # Table 6: the row for steel of 200 BHN agrees within 3 % with 23300, read in another book.
    Source("mh31-table-6", _MH31, "Table 6, work material factor Kd", _MEMORY),
    Source("mh31-table-7", _MH31, "p. 1152, Table 7, chisel edge factors", _READ),
    Source("mh31-table-8", _MH31, "p. 1153, Table 8, feed factors", _READ),
    Source("mh31-table-9", _MH31, "p. 1153, Table 9, drill diameter factors", _READ),
    # The 5th edition is inferred from page codes and chapter numbers.
    Source("groover5-eq-21.10", _GROOVER5, "equation 21.10, drill point allowance", _READ),
    Source("groover5-ex-21.2", _GROOVER5, "Example 21.2, drilling time", _READ),
    Source("groover5-20.4", _GROOVER5, "section 20.4, machine efficiency", _READ),
    Source("groover4-22.1", _GROOVER4, "problem 22.1", _READ),
    Source("groover4-22.10", _GROOVER4, "problem 22.10", _READ),
    Source("groover4-22.13", _GROOVER4, "problem 22.13", _READ),
    Source("tungaloy-l068", "Tungaloy general catalogue 2020-2021", "p. L068, drilling", _READ),
    Source(
        "asme-b94.11m",
        "ANSI/ASME B94.11M, Twist Drills",
        "nominal diameters of number, letter and fraction sizes",
        SourceStatus.SECOND_HAND,
    ),
    Source("navy-14345", "US Navy, NAVEDTRA 14345", "p. 93, in a public reproduction", _READ),
    Source(
        "drill-guide-deep",
        "Metal Drilling Reference Guide (HSS drills)",
        "speed and feed reduction for deep holes",
        _READ,
    ),
    Source(
        "statics", "Elementary statics", "moment of a force, dry friction", SourceStatus.GEOMETRY
    ),
    Source(
        "ilo-levers",
        "ILO Encyclopaedia of Occupational Health and Safety",
        "text on levers, greatest force, one hand in front of the body",
        _READ,
    ),
    Source("geometry", "Plane geometry", "lengths along the drill's axis", SourceStatus.GEOMETRY),
    Source("number-rules", "Decimal arithmetic", "rounding, halves up", SourceStatus.GEOMETRY),
    Source("step-rule", "This manual", "rule for a spindle step", SourceStatus.JUDGEMENT),
    Source("margin", "This manual", "holding margin and its reason", SourceStatus.JUDGEMENT),
)

SOURCES: Mapping[str, Source] = MappingProxyType({each.key: each for each in _ALL})
"""Every source by its key."""


def source(key: str) -> Source:
    """Find a source by its key, or raise ValueError listing the keys there are.

    >>> source("statics").status
    <SourceStatus.GEOMETRY: 'geometry'>
    """
    if key not in SOURCES:
        raise ValueError(f"source key is {key!r}; it must be one of {', '.join(sorted(SOURCES))}")
    return SOURCES[key]
