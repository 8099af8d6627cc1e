"""Figures as running text says them: `9.4 mm`, `5/16 in`, `0.15 mm for each turn`, `#7`, M8, H7."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from benchleaf.formulas import drill_sizes
from benchleaf.formulas.quantities import KINDS
from benchleaf.formulas.threads import thread


@dataclass(frozen=True, slots=True)
class Said:
    """One figure in a sentence, told in the base unit of its kind."""

    kind: str
    """A kind of quantity, or `thread`, `class`, `turns`."""
    low: float
    high: float
    start: int
    end: int
    text: str
    place: float = 0.0
    """What one of the last digit written is worth; 0 for a fraction or a name, which are exact."""
    name: str = ""
    """The full name of a thread or class, whose low and high are 0; or a drill's own name."""

    @property
    def is_inch(self) -> bool:
        """True where it was told in inches, feet or pounds, or as a drill of an inch list."""
        return is_inch(self.text)


def is_inch(written: str) -> bool:
    """True for inches, feet and pounds, and for a drill of an inch list by its name.

    >>> is_inch("1/4 in"), is_inch("#7"), is_inch("F"), is_inch("8.5 mm")
    (True, True, True, False)
    """
    return len(written) == 1 or _INCH.search(written) is not None


_INCH = re.compile(r"\b(?:in|inch|inches|lbf|hp)\b|/min\b(?<=ft/min)|[\"#]|\bnumber\b|\bletter\b")
_NUMBER = r"(?:\d+[ -]\d+/\d+|\d+/\d+|\d+(?:\.\d+)?|\.\d+)"
_NOT_IN_A_NUMBER = r"(?<![\w./#-])"
_TURN = r"\s*(?:/|a |per |each |every |for (?:each|every|one) |in (?:one|each) )(?:full )?"
_EACH_TURN = rf"{_TURN}(?:turn|rev|revolution)\b"
_EACH_MINUTE = r"\s*(?:/|a |per |each |every )(?:min|minute)\b"
_AFTER_INCH = (
    "across|deep|thick|wide|high|long|drill|hole|reamer|above|below|beyond|past|from|before|short|"
    "of|and|or|for|with|tap|to|on|at most|at least|after|until"
)
_AN_INCH = (
    rf"(?:inch(?:es)?\b|in(?=[/.,;:)]|$|\s+(?:{_AFTER_INCH})\b|{_EACH_TURN}|{_EACH_MINUTE})|\")"
)
_MM = r"(?:mm\b|millimet(?:re|er)s?\b)"

_UNITS: tuple[tuple[str, str, float], ...] = (
    ("feed", rf"{_MM}{_EACH_TURN}", 1),
    ("feed", rf"{_AN_INCH}{_EACH_TURN}", KINDS["feed"].units["in/rev"]),
    ("feed rate", rf"{_MM}{_EACH_MINUTE}", 1),
    ("feed rate", rf"{_AN_INCH}{_EACH_MINUTE}", KINDS["feed rate"].units["in/min"]),
    ("spindle speed", r"(?:rpm|rev/min|r/min|(?:turns|revolutions) (?:a|per|each) minute)\b", 1),
    ("cutting speed", r"m/min\b", 1),
    ("cutting speed", r"ft/min\b", KINDS["cutting speed"].units["ft/min"]),
    ("torque", r"(?:N m|Nm|newton[ -]met(?:re|er)s?)\b", 1),
    ("torque", r"lbf ft\b", KINDS["torque"].units["lbf ft"]),
    ("torque", r"lbf in\b", KINDS["torque"].units["lbf in"]),
    ("force", r"(?:N|newtons?)\b", 1),
    ("force", r"kN\b", 1000),
    ("force", r"kgf\b", KINDS["force"].units["kgf"]),
    ("force", r"lbf\b", KINDS["force"].units["lbf"]),
    ("power", r"kW\b", 1),
    ("power", r"hp\b", KINDS["power"].units["hp"]),
    ("angle", r"(?:deg\b|degrees?\b|°)", 1),
    ("turns", r"(?:and a half )?(?:full )?turns?\b", 1),
    ("length", _MM, 1),
    ("length", _AN_INCH, KINDS["length"].units["in"]),
)
"""Kind, spelling, and how many base units one is; the longer spellings before their beginnings."""

_QUANTITY = re.compile(
    rf"{_NOT_IN_A_NUMBER}(?P<low>{_NUMBER})(?:\s*(?:to|-|–)\s*(?P<high>{_NUMBER}))?[\s-]*(?:"
    + "|".join(f"(?P<u{at}>{spelling})" for at, (_, spelling, _) in enumerate(_UNITS))
    + ")"
)
_THREAD = re.compile(
    r"(?<![\w.-])(?:M\d+(?:\.\d+)?(?:\s?[x×]\s?\d+(?:\.\d+)?)?|(?:\d+/\d+|#\d+)-\d+(?:\s?UN[CF])?)"
    r"(?![\w/-]|\.\d)"
)
_CLASS = re.compile(r"(?<![\w.-])(?:JS|[D-HKMNP])(?:[5-9]|1[0-3])(?![\w/-])")
_DRILL = re.compile(
    r"(?<![\w.-])(?:#\s?(?P<hash>\d{1,2})(?![\w/-])|number (?P<number>\d{1,2})(?= drill)|"
    r"letter (?P<letter>[A-Z])\b|(?P<bare>[B-HJ-Z])(?= (?:twist |stub )?drill\b))"
)


def figures_said(sentence: str) -> tuple[Said, ...]:
    """Every figure of a sentence that has a unit or a name of its own, in order.

    >>> [(one.kind, one.low) for one in figures_said("Fit the #7 drill, and feed 0.1 mm a turn.")]
    [('length', 5.1054), ('feed', 0.1)]
    """
    found: list[Said] = []
    taken: list[tuple[int, int]] = []
    for pattern, read in _READERS:
        for match in pattern.finditer(sentence):
            if any(match.start() < end and start < match.end() for start, end in taken):
                continue
            one = read(match)
            if one is not None:
                taken.append(match.span())
                found.append(one)
    return tuple(sorted(found, key=lambda one: one.start))


def _thread(match: re.Match[str]) -> Said | None:
    try:
        name = thread(match[0]).name
    except ValueError:
        return None
    return Said("thread", 0, 0, *match.span(), match[0], name=name)


def _class(match: re.Match[str]) -> Said:
    return Said("class", 0, 0, *match.span(), match[0], name=match[0])


def _drill(match: re.Match[str]) -> Said | None:
    number = match["hash"] or match["number"]
    name = f"#{number}" if number else match["letter"] or match["bare"]
    if not drill_sizes.is_known(name):
        return None
    size = drill_sizes.diameter_mm(name)
    written = match[0] if number or match["letter"] else f"letter {name}"
    return Said("length", size, size, *match.span(), written, name=name)


def _quantity(match: re.Match[str]) -> Said | None:
    kind, _, factor = next(_UNITS[at] for at in range(len(_UNITS)) if match[f"u{at}"] is not None)
    try:
        ends = tuple(_number(match[end]) for end in ("low", "high") if match[end])
    except ZeroDivisionError:
        return None
    half = 0.5 if kind == "turns" and "half" in match[0] else 0.0
    low, high = ends[0] * factor + half, ends[-1] * factor + half
    if high < low:
        return None
    place = 0.0 if "/" in match["low"] else 10.0 ** -len(match["low"].partition(".")[2]) * factor
    return Said(kind, low, high, *match.span(), match[0].strip(), place)


def _number(text: str) -> float:
    return sum(_part(part) for part in re.split(r"[ -]", text))


def _part(text: str) -> float:
    top, slash, bottom = text.partition("/")
    return int(top) / int(bottom) if slash else float(text)


_READERS: tuple[tuple[re.Pattern[str], Callable[[re.Match[str]], Said | None]], ...] = (
    (_THREAD, _thread),
    (_DRILL, _drill),
    (_QUANTITY, _quantity),
    (_CLASS, _class),
)


def has_figure(text: str) -> bool:
    """False for most texts: no digit, and no drill by its letter."""
    if _DIGIT.search(text):
        return True
    return " drill" in text and _BY_LETTER.search(text) is not None


_DIGIT = re.compile(r"\d")
_BY_LETTER = re.compile(r"\bletter [A-Z] drill\b|\b[B-HJ-Z] (?:twist |stub )?drill\b")
