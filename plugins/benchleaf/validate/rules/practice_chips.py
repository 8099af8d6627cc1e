"""V502 chips by brush, V504 what the fluid is for, V506 good, bad and missing parts told apart.

V502: shop rules of universities (NCSU ISE, LSU). V504: the purposes are published (Bingham, US
Bureau of Standards; Machinery's Handbook 31), that somebody says one is a house rule, as V506 is.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding

from ..case import JobCase
from .wording import in_one_point, says, told, words

_CHIPS = words(r"chips?|swarf|turnings")
_BRUSH = words(r"brush(?:es|ed)?|vacuum|chip rake")
_CLEAR = words(r"clear|wipe|pick|sweep|remove|push|pull|take")
_HAND = words(r"fingers?|hands?|palm|rag")
_PURPOSE = words(
    r"cool(?:s|ed|ing|er)?|heat(?:s|ed|ing)?|hot|warm|burns?|burnt|blue|smokes?|temper|"
    r"wash(?:es|ed)?|flush(?:es|ed)?|carr(?:y|ies|ied)|rinse[sd]?|float(?:s|ed)?|"
    r"(?:way|lifts?|brings?|comes?|gets?|push(?:es)?|drives?|floats?) (?:\w+ ){0,3}out|"
    r"chips? (?:\w+ ){0,2}(?:out|pack|weld|stick|jam|clog|cling)|pack(?:s|ed)?|"
    r"lubricat\w+|friction|rub(?:s|bing)?|torque|squeals?|"
    r"weld(?:s|ed|ing)?|built-up|builds? up|stick(?:s|ing)?|smears?|cling(?:s)?|crumbs?|"
    r"size|oversize|too (?:large|wide|big|small)|finish(?:es)?|smooth|rough|torn|tears?|shines?|"
    r"score[sd]?|chatters?|dull(?:s|ed)?|blunt(?:s|ed)?"
)
"""What a fluid is for, or what happens where it fails."""
_IN_USE = words(
    r"fluid|oil|oiled|coolant|lubricant|cutting paste|"
    r"(?:drill|cut|ream|tap|run)s? dry|dry (?:lips?|drill|edges?|hole|tap|reamer|cut)"
)
_PUT_AWAY = words(r"close|shut|turn off|mop|floor|spilt|spill|skin|sleeves?|level|top up")
"""Of the fluid too, but not of what it does at the cut."""
_ONE_WAY = words(
    r"(?:same|one) (?:way|face|end|side|edge)|way (?:round|up)|facing|face (?:up|down)|"
    r"up and to the \w+"
)
_PIECE = r"(?:ones?|pieces?|parts?|plates?|pins?|blocks?|brackets?|stays?|tubes?|bars?|angles?)"
_COUNTED = words(
    rf"count(?:s|ed|ing)?|tally|number of (?:\w+ )?{_PIECE}|{_PIECE} on the (?:\w+ )?card"
)
_PLACE = words(
    r"(?:empty|free|bare|open) (?:place|slot|hole|peg|pocket|seat)s?|"
    r"(?:slotted|drilled|pegged) (?:tray|board|holder|rack|block)|pegs?|slots?|"
    r"place for (?:each|every)|own place"
)
_BAD_APART = words(
    rf"(?:red|reject|scrap) (?:bin|tote|box|tray)|(?:bad|doubtful|rejected|spoiled) {_PIECE}"
)
_APART = (_ONE_WAY, _COUNTED, _PLACE, _BAD_APART)


def check(case: JobCase) -> Iterator[Finding]:
    """Findings about chips, fluid and the finished part."""
    job = case.job
    yield from _by_hand(case)
    if case.drills:
        yield from _no_brush(case)
    if job.fluid is not None:
        yield from _fluid(case)
    if job.part is not None and job.tray is None and not _tells_apart(job.hand_on):
        yield from case.practice(
            "V506",
            ("hand_on",),
            "nothing says how the next operation tells good, bad and missing parts apart",
            "say it: a count, an empty place, a slotted, drilled or pegged holder, a red bin for "
            "bad ones, or all one way up",
        )


def _tells_apart(hand_on: str) -> bool:
    """A tray tells by its own key."""
    return any(says(hand_on, one) for one in _APART)


def _by_hand(case: JobCase) -> Iterator[Finding]:
    for number, step in enumerate(case.job.steps):
        for index, point in enumerate(step.key_points):
            if told(point.point, _CHIPS, _CLEAR, _HAND) and not says(point.point, _BRUSH):
                yield from case.practice(
                    "V502",
                    ("steps", number, "key_points", index, "point"),
                    "this clears chips by hand",
                    "use a brush, with the spindle stopped",
                )


def _no_brush(case: JobCase) -> Iterator[Finding]:
    if not any(in_one_point(step, _CHIPS, _BRUSH) for step in case.job.steps):
        yield from case.practice(
            "V502",
            ("steps",),
            "no step says that chips are cleared with a brush",
            "add it where the chips are cleared (looked for: chips and brush in one point)",
        )


def _fluid(case: JobCase) -> Iterator[Finding]:
    """One point that speaks of the fluid in use gives a purpose, in itself or in its reason."""
    for step in case.job.steps:
        for one in step.key_points:
            text = f"{one.point} {one.reason}"
            if says(text, _IN_USE, _PURPOSE) and not says(one.point, _PUT_AWAY):
                return
    yield from case.practice(
        "V504",
        ("fluid",),
        "no point that speaks of the fluid says what it is for",
        "give one true reason there: heat, metal that welds to the lip, size, finish, chips out, "
        "or the tap's lubrication",
    )
