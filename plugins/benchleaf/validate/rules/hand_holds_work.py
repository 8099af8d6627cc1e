"""V508: a hand is never a way of holding work."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import StationKind, stations_of

from ..case import JobCase
from ..rule import JobRule
from .wording import says, told, words

CODE = Code(
    "V508",
    "A hand holds the work",
    why="Work that turns takes the hand with it. A hand is never a way of holding work.",
    instead="Name vice, clamps, a fixture or a positive stop, and keep hands away.",
    bad=(
        Sample(
            """
            # The holding itself is a hand.
            - file: jobs/vg-0010.yml
              find: "how: The plate lies on parallels in the drill vice, long edges in the jaws."
              put: "how: Hold the plate down with your left hand."
            """,
            """
            content/jobs/vg-0010.yml:23:8: error V508 the holding is done by a hand
                work that turns takes the hand with it: name vice, clamps, fixture or stop
            """,
        ),
        Sample(
            """
            # Pliers are held by a hand.
            - file: jobs/vg-0010.yml
              find: "how: The plate lies on parallels in the drill vice, long edges in the jaws."
              put: "how: The plate lies on parallels, gripped with locking pliers."
            """,
            """
            content/jobs/vg-0010.yml:23:8: error V508 the holding is done by a hand
                work that turns takes the hand with it: name vice, clamps, fixture or stop
            """,
        ),
        Sample(
            """
            # A key point asks a hand to hold the work under the drill.
            - file: jobs/vg-0010.yml
              find: "point: Ease the lever when it begins to go light."
              put: "point: Hold the plate with your left hand while you drill, and ease it."
            """,
            """
            content/jobs/vg-0010.yml:78:16: warning V508 here a hand holds the work while
                    the tool cuts
                hold it with vice, clamps, fixture or stop, and keep hands away
                where it does not fit this job: accept: [{code: V508, reason: ...}]
            """,
        ),
    ),
    good="""
        # The hand is forbidden, or steadies nothing that is cut.
        - file: jobs/vg-0010.yml
          find: "how: The plate lies on parallels in the drill vice, long edges in the jaws."
          put: "how: The plate lies in the drill vice. Never hold it with a hand."
    """,
)

# A hand wheel, a left-hand clamp and a handle are no hands.
_HAND = words(r"(?<!-)hands?(?!-| ?wheel)|fingers?|fists?")
_HOLD = words(r"hold|holds|holding|held|grips?|gripped|stead(?:y|ies|ied)|press|presses|pressed")
_WORK = words(r"plates?|work|workpiece|parts?|pieces?|bars?|tubes?|blocks?|pins?|brackets?")
_CUT = r"(?:drill|ream|tap|countersink|counterbore|cut|turn)(?:s|ing)?"
_TOOL = r"(?:drill|reamer|tap|countersink|counterbore|spindle|cutter|tool)"
_BODY = words(
    r"(?<!-)hands?(?!-| ?wheel)|fingers?|fists?|thumbs?|palms?|knees?|elbows?|"
    r"(?:left|right|your) arm"
)
_KEEP = words(
    r"hold|holds|holding|held|grips?|gripped|stead(?:y|ies|ied)|press|presses|pressed|keeps?|kept"
)
_IN_A_HAND = words(r"pliers|hand[- ]vices?|mole grips?|pin vices?")
_PERSON = words(
    r"(?:operator|helper|mate|colleague|learner|trainer|somebody|someone|you) "
    r"(?:holds?|keeps?|stead(?:y|ies)|grips?|press(?:es)?)"
)
_AWAY = words(
    r"(?:keeps?|kept|hold|held) (?:your |both |the |all )*(?:hands?|fingers?|arms?|thumbs?)"
    r"[^.,;]{0,20}\b(?:away|clear|off|out|back|behind)"
)
"""Hands that are kept away hold nothing."""
_TIGHTEN = words(r"tighten\w*|wind\w*|until (?:it|the vice|the jaws)")
_CUTTING = words(
    rf"while (?:you |it )?{_CUT}|while the {_TOOL} {_CUT}|as (?:you|it) {_CUT}|against the {_TOOL}"
)

_RAM_COMES = words(
    r"(?:until|till|while|when|as) the ram|under the ram|"
    r"(?:while|when|as) you (?:pull|press|push|bring|work) (?:the |it |down)"
)
_AT_THE_LEVER = words(
    r"(?:hold|holds|holding|held|grips?|keeps?|kept|press|hands?|fingers?) (?:\w+ ){0,3}?"
    r"(?:lever|handle|knob)|(?:lever|handle|knob) (?:\w+ ){0,2}?(?:held|with)"
)


def check(case: JobCase) -> Iterator[Finding]:
    """Findings about words of holdings, and about points while the tool cuts."""
    for path, held in case.holdings:
        for key in ("how", "bolted_down"):
            if not _by_a_body(getattr(held, key)):
                continue
            yield Finding(
                CODE.id,
                Severity.ERROR,
                case.place(*path, key),
                "the holding is done by a hand",
                ("work that turns takes the hand with it: name vice, clamps, fixture or stop",),
            )
    if case.drills:
        yield from _in_steps(case, _while_cutting, "while the tool cuts")
    if any(one.kind is StationKind.HAND_PRESS for one in stations_of(case.shop, case.job.machine)):
        yield from _in_steps(case, _under_a_ram, "under the ram")


def _by_a_body(text: str) -> bool:
    """Whether a hand, or what a hand holds, is what holds; not the hand that tightens a vice."""
    text = _AWAY.sub("", text)
    by_hand = told(text, _BODY, _KEEP) or told(text, _IN_A_HAND)
    return by_hand or (told(text, _PERSON) and not says(text, _TIGHTEN))


def _in_steps(case: JobCase, asks: Callable[[str], bool], when: str) -> Iterator[Finding]:
    for number, step in enumerate(case.job.steps):
        for index, point in enumerate(step.key_points):
            if asks(point.point):
                yield from case.practice(
                    CODE,
                    ("steps", number, "key_points", index, "point"),
                    f"here a hand holds the work {when}",
                    "hold it with vice, clamps, fixture or stop, and keep hands away",
                )


def _while_cutting(text: str) -> bool:
    return told(text, _HAND, _HOLD, _WORK, _CUTTING)


def _under_a_ram(text: str) -> bool:
    """A hand at the work as the ram comes down; a hand that holds the lever is where it should."""
    text = _AWAY.sub("", text)
    return told(text, _HAND, _KEEP, _RAM_COMES) and not says(text, _AT_THE_LEVER)


RULE = JobRule(check, (CODE,))
