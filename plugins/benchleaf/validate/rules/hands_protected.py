"""V528: hands inside need a protection that suffices.

29 CFR 1910.147: (a)(2)(ii) leaves normal production out, and minor servicing on conditions (read
in two copies); (b) a push button is no energy isolating device (read as quoted); a plug under one's
own exclusive control (OSHA eTool, read; its paragraph (a)(2)(iii)(A) from memory). House rule: an
interlock alone does not suffice where the hand is on the driven part.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import HandsInside, InsideWork, Protection

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V528",
    "Hands inside are not protected well enough",
    why=(
        "29 CFR 1910.147(b): push buttons and other control-circuit devices, so an emergency stop "
        "too, are no energy isolating devices. (a)(2)(ii): loading in normal production is not "
        "covered; servicing in it is, where a guard is off or a body part is in the danger zone; "
        "minor, routine servicing that is part of production may be protected otherwise. House "
        "rule: where the hand is on the driven part itself (turning by hand, tool change), an "
        "interlock alone is too weak."
    ),
    instead=(
        "Cleaning and gauging: guard with interlock, own control of the start, or lock. Turning "
        "by hand and tool change: own control of the start, or lock. Servicing: lock, or own "
        "control of the start with `minor_servicing`. Own control is the isolator off, or the "
        "plug out, in reach and sight of the one whose hands are inside."
    ),
    bad=(
        Sample(
            """
            # An emergency stop keeps nothing from starting.
            - file: jobs/vg-0010.yml
              find: |2
                    stand: In front of the table, feet apart.
              put: |2
                    hands_inside:
                      doing: cleaning
                      protected_by: emergency stop
                      how: You alone work at this drill.
                    stand: In front of the table, feet apart.
            """,
            """
            content/jobs/vg-0010.yml:66:21: error V528 hands are inside for cleaning, and
                    the emergency stop isolates nothing: it acts on the control circuit
                what suffices for cleaning: guard with interlock, own control of the start, lock
            """,
        ),
        Sample(
            """
            # An interlock alone, with a hand on the chuck.
            - file: jobs/vg-0010.yml
              find: |2
                    stand: In front of the table, feet apart.
              put: |2
                    hands_inside:
                      doing: turning by hand
                      protected_by: guard with interlock
                      how: You alone work at this drill.
                    stand: In front of the table, feet apart.
            """,
            """
            content/jobs/vg-0010.yml:66:21: error V528 hands are inside for turning by hand,
                    and an open guard alone does not suffice for it
                what suffices for turning by hand: own control of the start, lock
            """,
        ),
        Sample(
            """
            # Servicing with no lock, and no reason why.
            - file: jobs/vg-0010.yml
              find: |2
                    stand: In front of the table, feet apart.
              put: |2
                    hands_inside:
                      doing: servicing
                      protected_by: own control of the start
                      how: You alone work at this drill.
                    stand: In front of the table, feet apart.
            """,
            """
            content/jobs/vg-0010.yml:66:21: warning V528 hands are inside for servicing, and
                    no lock is on, and no reason says why none is wanted
                what suffices for servicing: lock; or own control of the start, where
                    `minor_servicing` says why it is minor, routine and part of production
                where it does not fit this job: accept: [{code: V528, reason: ...}]
            """,
        ),
    ),
    good="""
        # The same work with a reason why it is minor.
        - file: jobs/vg-0010.yml
          find: |2
                stand: In front of the table, feet apart.
          put: |2
                hands_inside:
                  doing: servicing
                  protected_by: own control of the start
                  how: You alone work at this drill.
                  minor_servicing: The stop is set at every batch, in a minute, as part of drilling.
                stand: In front of the table, feet apart.
    """,
)

OWN_OR_LOCK = (Protection.OWN_CONTROL, Protection.LOCK)
_BY_INTERLOCK_TOO = (Protection.INTERLOCK, *OWN_OR_LOCK)
SUFFICES: dict[InsideWork, tuple[Protection, ...]] = {
    InsideWork.LOADING: tuple(Protection),
    InsideWork.CLEANING: _BY_INTERLOCK_TOO,
    InsideWork.GAUGING: _BY_INTERLOCK_TOO,
    InsideWork.TURNING_BY_HAND: OWN_OR_LOCK,
    InsideWork.TOOL_CHANGE: OWN_OR_LOCK,
    InsideWork.SERVICING: (Protection.LOCK,),
}
"""What keeps the machine from moving well enough, by what the hands do."""
_BUTTONS = (Protection.STOP_BUTTON, Protection.EMERGENCY_STOP)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each step whose hands are not protected well enough."""
    for number, step in enumerate(case.job.steps):
        if step.hands_inside is not None and not suffices(step.hands_inside):
            yield from _too_weak(case, number, step.hands_inside)


def suffices(hands: HandsInside) -> bool:
    """True where such work may be done behind such a protection."""
    minor = hands.doing is InsideWork.SERVICING and hands.minor_servicing is not None
    return hands.protected_by in SUFFICES[hands.doing] or (
        minor and hands.protected_by is Protection.OWN_CONTROL
    )


def _too_weak(case: JobCase, number: int, hands: HandsInside) -> Iterator[Finding]:
    path = ("steps", number, "hands_inside", "protected_by")
    text = f"hands are inside for {hands.doing.value}, and {_why(hands)}"
    enough = ", ".join(one.value for one in SUFFICES[hands.doing])
    help_ = [f"what suffices for {hands.doing.value}: {enough}"]
    if hands.doing is InsideWork.SERVICING:
        help_.append(
            "or own control of the start, where `minor_servicing` says why it is minor, routine "
            "and part of production"
        )
    if _is_error(hands):
        yield Finding(CODE.id, Severity.ERROR, case.place(*path), text, tuple(help_))
    else:
        yield from case.practice(CODE, path, text, "; ".join(help_))


def _why(hands: HandsInside) -> str:
    if hands.protected_by in _BUTTONS:
        return f"the {hands.protected_by.value} isolates nothing: it acts on the control circuit"
    if hands.protected_by is Protection.NOTHING:
        return "nothing keeps the machine from starting"
    if hands.protected_by is Protection.INTERLOCK:
        return "an open guard alone does not suffice for it"
    return "no lock is on, and no reason says why none is wanted"


def _is_error(hands: HandsInside) -> bool:
    """Where the published rule is plainly broken, or a driven part moves under the hand."""
    if hands.protected_by is Protection.INTERLOCK:
        return hands.doing is InsideWork.TURNING_BY_HAND
    return hands.protected_by in (*_BUTTONS, Protection.NOTHING)


RULE = JobRule(check, (CODE,))
