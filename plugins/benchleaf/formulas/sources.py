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


_MH31 = "Machinery's Handbook, 31st ed."
_GROOVER5 = "Groover, Fundamentals of Modern Manufacturing, 5th ed."
_GROOVER4 = "Groover, Fundamentals of Modern Manufacturing, 4th ed., solutions"
_READ, _MEMORY = SourceStatus.READ, SourceStatus.MEMORY
_OURS = SourceStatus.JUDGEMENT

_ALL = (
    Source("mh31-drilling", _MH31, "p. 1152, drilling equations 1 to 7", _READ),
    # Table 3: notes taken by others on the 30th edition agree with memory.
    Source("mh31-table-3", _MH31, "Table 3, tool wear factor W", _MEMORY),
    # Table 6: the row for steel of 200 BHN agrees within 3 % with 23300, read in another book.
    # Table 4: a second book has about 0.90 for all drives, which is milder.
    Source("mh31-table-4", _MH31, "Table 4, machine efficiency E", _MEMORY),
    Source("mh31-table-6", _MH31, "Table 6, work material factor Kd", _MEMORY),
    Source("mh31-table-7", _MH31, "p. 1152, Table 7, chisel edge factors", _READ),
    Source("mh31-table-8", _MH31, "p. 1153, Table 8, feed factors", _READ),
    Source("mh31-table-9", _MH31, "p. 1153, Table 9, drill diameter factors", _READ),
    # The 5th edition is inferred from page codes and chapter numbers.
    Source("groover5-eq-21.10", _GROOVER5, "equation 21.10, drill point allowance", _READ),
    Source("groover5-ex-21.2", _GROOVER5, "Example 21.2, drilling time", _READ),
    Source("groover4-22.1", _GROOVER4, "problem 22.1", _READ),
    Source("groover4-22.10", _GROOVER4, "problem 22.10", _READ),
    Source("tungaloy-l068", "Tungaloy general catalogue 2020-2021", "p. L068, drilling", _READ),
    Source(
        "asme-b94.11m",
        "ANSI/ASME B94.11M, Twist Drills",
        "nominal diameters of number, letter and fraction sizes",
        SourceStatus.SECOND_HAND,
    ),
    Source(
        "drill-guide-deep",
        "Metal Drilling Reference Guide for HSS drills, maker not named, undated",
        "4 pages, deep hole parameters, studylib document 18232362",
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
    Source(
        "kodak-forces",
        "Eastman Kodak, Ergonomic Design for People at Work",
        "vol. 2, 1986, forces that a design should not pass, in a transcription",
        SourceStatus.SECOND_HAND,
    ),
    Source(
        "arm-force",
        "La Delfa and Potvin, Applied Ergonomics 59 (2017), pp. 410-421",
        "arm strength of women, standing, hand at elbow height, by the program they published",
        SourceStatus.SECOND_HAND,
    ),
    Source("geometry", "Plane geometry", "lengths along the drill's axis", SourceStatus.GEOMETRY),
    Source("number-rules", "Decimal arithmetic", "rounding, halves up", SourceStatus.GEOMETRY),
    Source("step-rule", "This manual", "rule for a spindle step", _OURS),
    Source(
        "jaw-table",
        "Röhm works standard RN-1391",
        "p. 45, Table 4, friction of jaws, and factors of metals, in a public reproduction",
        _READ,
    ),
    Source(
        "jaw-table-second",
        "Hainbuch, operating manuals of clamping devices",
        "Table 5 p. 28 and Table 10 p. 44, friction along the circumference",
        _READ,
    ),
    Source(
        "jaw-wet",
        "Hainbuch, operating manuals of clamping devices",
        "p. 40, contact factors, wet over dry",
        _READ,
    ),
    Source(
        "force-spread",
        "Catalogues of Mitsubishi, Iscar, Kyocera, Tungaloy and Röhm, and the handbook",
        "cutting forces, torques and thrusts printed for one metal, compared",
        _READ,
    ),
    Source(
        "clamp-spread",
        "NASA Reference Publication 1228, Fastener Design Manual, 1990",
        "scatter of tightening: by feel 35 %, by torque wrench 25 %",
        _MEMORY,
    ),
    Source(
        "iec-60034",
        "IEC 60034-1, rotating electrical machines",
        "momentary excess torque of induction motors: 60 % for 15 s",
        _MEMORY,
    ),
    Source("worst-case", "This manual", "every input at its bad end at once", _OURS),
    Source("helix", "This manual", "helix of a standard drill, 30°", _OURS),
    Source("margin", "This manual", "holding margin and its reason", _OURS),
    # Threads, tapping, clearance holes.
    Source(
        "iso-261",
        "ISO 261, metric screw threads, general plan",
        "diameters and pitches, in public lists",
        SourceStatus.SECOND_HAND,
    ),
    Source(
        "iso-965-1",
        "ISO 965-1, metric screw threads, tolerances",
        "minor diameter of internal threads 6H, in public lists and catalogues",
        SourceStatus.SECOND_HAND,
    ),
    Source(
        "asme-b1.1",
        "ASME B1.1, Unified inch screw threads",
        "sizes, and minor diameter of internal threads 2B, in public lists",
        SourceStatus.SECOND_HAND,
    ),
    Source(
        "tapmatic-formulas",
        "Tapmatic, tapping formulas",
        "tap drill from percentage of thread, as quoted elsewhere",
        SourceStatus.SECOND_HAND,
    ),
    Source(
        "yamawa-flow", "Yamawa catalogue 2016-2017", "flow chart of M10 tapping, engagement", _READ
    ),
    Source("yamawa-640", "Yamawa catalogue 2021", "p. 640, torque of cutting taps", _READ),
    Source(
        "lubero",
        "Lubero Präzisionswerkzeuge, technical page Calculations, undated",
        "torques and power, table of kc, lubero.de",
        _READ,
    ),
    Source(
        "bs-328",
        "BS 328, twist drills",
        "metric sizes, in an encyclopaedia",
        SourceStatus.SECOND_HAND,
    ),
    Source(
        "mh26-taps",
        "Machinery's Handbook, 26th ed.",
        "chamfer length of hand taps, as quoted elsewhere",
        SourceStatus.SECOND_HAND,
    ),
    Source(
        "eisc-depth",
        "EISC, machining tip Minimum Tap Depth, undated",
        "one pitch beyond the chamfer, with the worked example 1/4-20, eisc.com",
        _READ,
    ),
    Source(
        "osg-9535",
        "OSG Corporation, question 9535, machining depth of a tap, undated",
        "effective length + chamfer + external centre + one pitch, osgnavi.com",
        _READ,
    ),
    Source(
        "hand-tapping",
        "Hand tapping",
        "turns forward and back, three shop lessons",
        SourceStatus.COMMON_PRACTICE,
    ),
    Source(
        "iso-273",
        "ISO 273, clearance holes",
        "fine, medium and coarse series, in public lists",
        SourceStatus.SECOND_HAND,
    ),
    # Countersinking, counterboring, reaming.
    Source("somta-33", "Somta user guide", "p. 33, counterbores for cap screws", _READ),
    Source(
        "iso-4762",
        "ISO 4762, hexagon socket head cap screws",
        "head height, in suppliers' lists",
        SourceStatus.SECOND_HAND,
    ),
    Source(
        "florida-dml",
        "University of Florida, Design and Manufacturing Laboratory",
        "speeds and feeds, as quoted elsewhere",
        SourceStatus.SECOND_HAND,
    ),
    Source(
        "gtz-reaming",
        "Institut für berufliche Entwicklung (IBE) and GTZ, Manual Reaming, a trainees' course",
        "section 5.3, allowance in steel, in a public reproduction",
        _READ,
    ),
    Source(
        "iti-reaming",
        "Note for fitters' trade tests, September 2023",
        "under sizes of reaming, eventexam.blogspot.com; up to 20 mm as IBE and GTZ have it",
        _READ,
    ),
    Source(
        "tc-9-524-reaming",
        "US Army, TC 9-524, Fundamentals of Machine Tools, October 1996",
        "chapter 4, machine reamers, p. 71 of a public reproduction: half the speed of the drill",
        _READ,
    ),
    Source(
        "kibbe-reaming",
        "Kibbe, Neely, Meyer and White, Machine Tool Practices",
        "section H, Table H-5: a third to half the speed of drilling, as quoted elsewhere",
        SourceStatus.SECOND_HAND,
    ),
    Source(
        "carvill-179",
        "Carvill, Mechanical Engineer's Data Handbook, 1993",
        "p. 179, allowance of a reamer about 0.015 mm per millimetre",
        _READ,
    ),
    Source(
        "mh30-reaming",
        "Machinery's Handbook, 30th ed.",
        "speed and feed of reaming, notes by others",
        SourceStatus.SECOND_HAND,
    ),
    # Fits.
    Source(
        "narayana-15",
        "Narayana, Kannaiah and Venkata Reddy, Machine Drawing",
        "Tables 15.1 to 15.3, fundamental tolerances and deviations",
        _READ,
    ),
    Source(
        "iso-2306",
        "ISO 2306, drills for use before tapping screw threads",
        "coarse in public charts; fine in the IBE and GTZ course Thread Cutting, appendix 1",
        SourceStatus.SECOND_HAND,
    ),
    Source(
        "tap-chart",
        "Machinery's Handbook, tap drill sizes of Unified threads",
        "about 75 % of thread, in four public copies",
        SourceStatus.SECOND_HAND,
    ),
    Source("drill-choice", "This manual", "rule for a tap drill", _OURS),
    # The feel of the quill, deep holes, pilots and the life of an edge.
    Source(
        "chisel-share",
        "This manual",
        "lips and chisel edge told apart in factor B, by a form recalled from Shaw and Oxford "
        "(1957) that gives every row of Table 7",
        _OURS,
    ),
    Source(
        "chisel-measured",
        "Modern Machining Technology: A Practical Guide",
        "p. 145, axial force of a 29.5 mm drill in steel, shares of its edges",
        _READ,
    ),
    # Enlarging a hole.
    Source(
        "shaw-oxford",
        "Shaw and Oxford, On the Drilling of Metals 2, Transactions of the ASME 79 (1957)",
        "torque of drilling with and without a pilot hole",
        _MEMORY,
    ),
    Source(
        "el-hofy",
        "El-Hofy, Fundamentals of Machining Processes",
        "pp. 133-148, enlarging holes, in public excerpts",
        SourceStatus.SECOND_HAND,
    ),
    Source(
        "iscar-kc",
        "Iscar catalogues of turning tools 2017 and boring systems 2022",
        "p. 558 and p. 111, cutting force by material and chip thickness",
        _READ,
    ),
    Source(
        "enlarging-lands",
        "This manual",
        "a reamer's lands rub: twice the torque of its cut; no published figure is known",
        _OURS,
    ),
    Source(
        "tap-dull",
        "This manual",
        "a dull or packed tap: twice the torque of a sharp one; no published figure is known",
        _OURS,
    ),
    Source(
        "feel-spread",
        "This manual",
        "thrust even along the radius, torque in proportion to it",
        _OURS,
    ),
    Source(
        "peck-practice",
        "Kennametal-Greenfield technical tips",
        "peck drilling, in a public reproduction",
        _READ,
    ),
    Source("peck-rule", "This manual", "how pecks shrink, and the step between rows", _OURS),
    Source(
        "peck-withdrawal",
        "This manual",
        "4 s to bring a drill out, clear its chips and go back in; nobody timed it",
        _OURS,
    ),
    Source(
        "pilot-practice",
        "Practice of the trade",
        "pilot hole for a large drill, as wide as its web or chisel edge",
        SourceStatus.COMMON_PRACTICE,
    ),
    Source("groover5-ex-22.1", _GROOVER5, "Example 22.1, Taylor tool life", _READ),
    Source("groover5-ex-23.4", _GROOVER5, "Example 23.4, tool life at two speeds", _READ),
    Source("groover5-table-22.2", _GROOVER5, "Table 22.2, n and C for turning", _READ),
    Source(
        "chase-4a",
        "Chase and Jacobs, Operations and Supply Chain Management",
        "chapter 4A, exhibit 4A.2 and the table of 80 %, in a public reproduction",
        _READ,
    ),
    Source(
        "stevenson-7s",
        "Stevenson, Operations Management",
        "Table 7S.1 and Example 7S.4, in public transcriptions",
        SourceStatus.SECOND_HAND,
    ),
    Source("wideman-learning", "Wideman", "Appendix 2, learning curve mathematics", _READ),
    Source("least-squares", "Least squares", "a straight line", SourceStatus.GEOMETRY),
    Source(
        "nist-t",
        "NIST/SEMATECH e-Handbook of Statistical Methods",
        "table of Student's t, in a public reproduction",
        _READ,
    ),
    Source(
        "work-measurement",
        "Slack, Chambers and Johnston, Operations Management, 5th ed., 2007",
        "p. 263, basic time and allowances; worked exercise of the University of Nairobi",
        _READ,
    ),
    Source(
        "learning-floor",
        "This manual",
        "nobody is expected to be faster than the standard",
        _OURS,
    ),
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
