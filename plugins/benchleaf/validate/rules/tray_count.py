"""V534: a number in `hand_on` that the tray's rows and places contradict."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchleaf.diagnose import Finding

from ..case import JobCase

_WORDS = {
    "ten": 10,
    "twelve": 12,
    "fifteen": 15,
    "sixteen": 16,
    "eighteen": 18,
    "twenty": 20,
    "twenty-four": 24,
    "twenty-five": 25,
    "thirty": 30,
    "forty": 40,
}
"""Smaller numbers stand in too many other phrases of a floor to be counted in words."""
_NUMBER = rf"(?P<number>\d+|{'|'.join(sorted(_WORDS, key=len, reverse=True))})"
_PIECES = (
    r"(?:pieces?|parts?|plates?|pins?|blocks?|brackets?|stays?|tubes?|bars?|bushes|angles?|legs?|"
    r"hinges?|castings?)"
)
_HOLDER = r"(?:tray|board|tote|rack|box)"
_PLACES = r"(?:slots|places|pegs|drilled\s+holes)"
_HOLDS = (
    # "no more than 20 in a tray", "up to 20 plates", "20 pins at most"
    rf"\b(?:no\s+more\s+than|not\s+more\s+than|never\s+more\s+than|at\s+most|up\s+to|just|exactly)\s+"
    rf"{_NUMBER}(?:\s+{_PIECES})?\s*(?:(?:in|on|to|into|onto|per)\s+(?:a|the|each|one|every)\s+"
    rf"(?:\w+\s+)?{_HOLDER}\b|[,.](?!\d)|;|$|\band\b)",
    rf"\b(?:no\s+more\s+than|at\s+most|up\s+to|just|exactly)\s+{_NUMBER}\s+{_PIECES}\b",
    rf"\b{_NUMBER}\s+(?:{_PIECES}\s+)?(?:go\s+|fit\s+|lie\s+|stand\s+)?(?:in|on|to|into|onto|per)\s+"
    rf"(?:a|the|each|one|every)\s+(?:(?:full|slotted|drilled|pegged)\s+)?{_HOLDER}\b",
    rf"\b{_HOLDER}\s+(?:holds?|takes?|carries|of|has|with)\s+{_NUMBER}(?:\s+(?:{_PIECES}|{_PLACES})|"
    r"\s*(?:[,.](?!\d)|;|$|\band\b))",
    rf"\b(?:all|the|its)\s+{_NUMBER}\s+{_PLACES}\b",
)
_PATTERNS = tuple(re.compile(pattern, re.IGNORECASE) for pattern in _HOLDS)
_REJECTS = re.compile(r"\b(?:red|reject|scrap|bad)\b", re.IGNORECASE)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding where the text says another number than the drawn tray holds."""
    tray = case.job.tray
    if tray is None:
        return
    said = sorted(number for number in numbers_said(case.job.hand_on) if number != tray.holds)
    if said:
        yield from case.practice(
            "V534",
            ("hand_on",),
            f"hand_on says {said[0]}; the {tray.kind.value} holds {tray.rows} x {tray.in_a_row} = "
            f"{tray.holds}",
            "make the two agree: the tray is drawn from rows and in_a_row",
        )


def numbers_said(text: str) -> set[int]:
    """How many pieces a text says go into one tray, board or tote."""
    found = set()
    for sentence in re.split(r"(?<=[.!?])\s+", text):
        for pattern in _PATTERNS:
            for match in pattern.finditer(sentence):
                if not _REJECTS.search(sentence[: match.end()]):
                    written = match["number"].lower()
                    found.add(_WORDS[written] if written in _WORDS else int(written))
    return found
