"""V506: the next operation can tell good, bad and missing parts apart. A house rule."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample

from ..case import JobCase
from ..rule import JobRule
from .wording import says, words

CODE = Code(
    "V506",
    "Nothing says how the next operation tells good, bad and missing apart",
    why=(
        "House rule. A bad part among good ones is found at the next machine, or in the "
        "customer's hands; a missing one is found by nobody."
    ),
    instead=(
        "Say in `hand_on` or `tray` what shows it: a count on the card, an empty place, a "
        "slotted, drilled or pegged holder, a red bin for what is bad, or all parts one way up."
    ),
    bad=(
        Sample(
            """
            # Nothing is said by which a bad or a missing plate shows.
            - file: jobs/vg-0010.yml
              find: Lay the plates in the tote, all with the same face to the lamp, for
              put: Lay the plates in the tote for
            """,
            """
            content/jobs/vg-0010.yml:104:10: warning V506 nothing says how the next
                    operation tells good, bad and missing parts apart
                say it: a count, an empty place, a slotted, drilled or pegged holder, a red bin
                    for bad ones, or all one way up
                where it does not fit this job: accept: [{code: V506, reason: ...}]
            """,
        ),
    ),
    good="""
        # An empty place shows a missing plate.
        - file: jobs/vg-0010.yml
          find: Lay the plates in the tote, all with the same face to the lamp, for
          put: Stand the plates in the tray, where an empty slot shows one that is missing, for
    """,
)

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
    """A finding where neither `hand_on` nor a tray tells."""
    job = case.job
    if job.part is not None and job.tray is None and not _tells_apart(job.hand_on):
        yield from case.practice(
            CODE,
            ("hand_on",),
            "nothing says how the next operation tells good, bad and missing parts apart",
            "say it: a count, an empty place, a slotted, drilled or pegged holder, a red bin for "
            "bad ones, or all one way up",
        )


def _tells_apart(hand_on: str) -> bool:
    """A tray tells by its own key."""
    return any(says(hand_on, one) for one in _APART)


RULE = JobRule(check, (CODE,))
