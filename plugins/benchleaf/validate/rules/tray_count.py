"""V534: a number in `hand_on` that the tray's rows and places contradict."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V534",
    "The text and the tray say different numbers",
    why="A tray shows a missing part by its empty place only while both say how many there are.",
    instead="Make the number in `hand_on` and the tray's rows and places agree.",
    bad=(
        Sample(
            """
            # Twenty are spoken of, eighteen fit.
            - file: jobs/vg-0010.yml
              find: Lay the plates in the tote, all with the same face to the lamp, for
              put: Stand no more than 20 in a tray, bad ones in the red bin, for
            - file: jobs/vg-0010.yml
              find: |
                operation_after: VG-0020
              put: |
                operation_after: VG-0020
                tray:
                  kind: slotted tray
                  rows: 2
                  in_a_row: 9
                  length: 40 mm
                  width: 6 mm
                  gap: 6 mm
                  tells: An empty slot shows a missing plate.
            """,
            """
            content/jobs/vg-0010.yml:112:10: warning V534 hand_on says 20; the slotted tray
                    holds 2 x 9 = 18
                make the two agree: the tray is drawn from rows and in_a_row
                where it does not fit this job: accept: [{code: V534, reason: ...}]
            """,
        ),
    ),
    good="""
        # Both say twenty.
        - file: jobs/vg-0010.yml
          find: Lay the plates in the tote, all with the same face to the lamp, for
          put: Stand no more than 20 in a tray, bad ones in the red bin, for
        - file: jobs/vg-0010.yml
          find: |
            operation_after: VG-0020
          put: |
            operation_after: VG-0020
            tray:
              kind: slotted tray
              rows: 2
              in_a_row: 10
              length: 40 mm
              width: 6 mm
              gap: 6 mm
              tells: An empty slot shows a missing plate.
    """,
)

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
            CODE,
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


RULE = JobRule(check, (CODE,))
