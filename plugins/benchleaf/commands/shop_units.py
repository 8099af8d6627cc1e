"""The units of the shop that a command works in, and examples as such a shop writes them."""

from __future__ import annotations

import re
from pathlib import Path

from benchleaf.model import Units
from benchleaf.read import read_document


def units_here(content: Path) -> Units:
    """The units of the shop that this folder holds, if it holds one: an operation needs none."""
    file = content / "manual.yml"
    document = read_document(file, "manual", file.name)[0] if file.is_file() else None
    value = document.value if document else None
    said = value.get("units") if isinstance(value, dict) else None
    return Units.INCH if said == Units.INCH else Units.METRIC


def in_units(text: str, units: str) -> str:
    """A skeleton with the examples of its comments as a shop of these units writes them."""
    lines = text.split("\n")
    return "\n".join(lines if units != Units.INCH else map(_with_inches, lines))


def told_in_units(text: str, units: str) -> str:
    """The same for a text that is all comment, such as a line of `keys`."""
    return "\n".join(in_units(f"#{line}", units)[1:] for line in text.split("\n"))


def _with_inches(line: str) -> str:
    value, sign, comment = line.partition("#")
    for metric, inch in IN_INCHES:
        comment = re.sub(rf"(?<![\w.]){re.escape(metric)}(?!\w)", inch, comment)
    return value + sign + comment


IN_INCHES = (
    ("8.5 +0.1/-0 mm", "0.375 +0.004/-0 in"),
    ("sawn flat bar, 40 x 6 mm", "sawn flat bar, 1-1/2 x 1/4 in"),
    ("6.5 mm", "17/64 in"),
    ("8.5 mm", "3/8 in"),
    ("10 mm", "3/8 in"),
    ("6 mm", "1/4 in"),
    ("3 mm", "1/8 in"),
    ("2 mm", "0.08 in"),
    ("130 mm", "5 in"),
    ("16 mm", "5/8 in"),
    ("320 mm", "12.5 in"),
    ("1 to 13 mm", "0.04 to 0.5 in"),
    ("13 mm", "0.5 in"),
    ("0.12 mm/rev", "0.005 in/rev"),
    ("0.1 to 0.18 mm/rev", "0.004 to 0.007 in/rev"),
    ("24 to 30 m/min", "80 to 100 ft/min"),
    ("45 m/min", "150 ft/min"),
    ("12 N m", "9 lbf ft"),
    ("0.4 kg", "0.9 lb"),
    ("6 kN", "1350 lbf"),
    ("10 kN", "2250 lbf"),
    ("1.1 kW", "1.5 hp"),
    ("200 kPa", "29 psi"),
    ("15 mm", "5/8 in"),
    ("20 mm", "3/4 in"),
    ("60 mm", "2-1/2 in"),
    ("120 mm", "5 in"),
    ("4 mm", "5/32 in"),
    ("0.2 mm", "0.008 in"),
    ("0.15 mm/rev", "0.006 in/rev"),
    ("4 kN", "900 lbf"),
)
"""Examples of a metric shop, and what an inch shop would write; the first that fits counts."""
