"""V801: an important step that is too long for one screen of the kiosk, by an estimate.

The screen is the upright kiosk of 1080 by 1920 at the first size of text; the step view shows
such a step in parts. Heights are those of the style sheet (`steps.css`) at its closest, widths of
letters those of its typeface. Measured in a browser over the demo, the estimate of the 20 longest
steps is 0 to 14 % above the true height; none is too long there, and it names none.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import Check, Hazard, Job, KeyPoint, Shop, Step, control_shown

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V801",
    "A step does not fit one screen of the kiosk",
    why="The step view shows it in parts, and a learner sees none of them beside the others.",
    instead="Shorten its texts, or split the step in two.",
    bad=(
        Sample(
            """
            # Fourteen key points in one step.
            - file: jobs/vg-0010.yml
              find: |2
                      - point: Push against the clamped plate before you go on.
              put: |2
                      - point: Wipe jaw and parallel 1 clean, with a dry brush and never your hand.
                        reason: A chip under the plate at place 1 tilts it, and the hole leans too.
                        kind: makes or breaks the job
                      - point: Wipe jaw and parallel 2 clean, with a dry brush and never your hand.
                        reason: A chip under the plate at place 2 tilts it, and the hole leans too.
                        kind: makes or breaks the job
                      - point: Wipe jaw and parallel 3 clean, with a dry brush and never your hand.
                        reason: A chip under the plate at place 3 tilts it, and the hole leans too.
                        kind: makes or breaks the job
                      - point: Wipe jaw and parallel 4 clean, with a dry brush and never your hand.
                        reason: A chip under the plate at place 4 tilts it, and the hole leans too.
                        kind: makes or breaks the job
                      - point: Wipe jaw and parallel 5 clean, with a dry brush and never your hand.
                        reason: A chip under the plate at place 5 tilts it, and the hole leans too.
                        kind: makes or breaks the job
                      - point: Wipe jaw and parallel 6 clean, with a dry brush and never your hand.
                        reason: A chip under the plate at place 6 tilts it, and the hole leans too.
                        kind: makes or breaks the job
                      - point: Wipe jaw and parallel 7 clean, with a dry brush and never your hand.
                        reason: A chip under the plate at place 7 tilts it, and the hole leans too.
                        kind: makes or breaks the job
                      - point: Wipe jaw and parallel 8 clean, with a dry brush and never your hand.
                        reason: A chip under the plate at place 8 tilts it, and the hole leans too.
                        kind: makes or breaks the job
                      - point: Wipe jaw and parallel 9 clean, with a dry brush and never your hand.
                        reason: A chip under the plate at place 9 tilts it, and the hole leans too.
                        kind: makes or breaks the job
                      - point: Wipe jaw and parallel 10 clean, with a dry brush and never your hand.
                        reason: A chip under the plate at place 10 tilts it, and the hole leans too.
                        kind: makes or breaks the job
                      - point: Wipe jaw and parallel 11 clean, with a dry brush and never your hand.
                        reason: A chip under the plate at place 11 tilts it, and the hole leans too.
                        kind: makes or breaks the job
                      - point: Wipe jaw and parallel 12 clean, with a dry brush and never your hand.
                        reason: A chip under the plate at place 12 tilts it, and the hole leans too.
                        kind: makes or breaks the job
                      - point: Push against the clamped plate before you go on.
            """,
            """
            content/jobs/vg-0010.yml:53:5: note V801 step 'clamp' is 1.18 times as high as a
                    kiosk's screen: 14 key points, 0 checks
                the step view shows it in parts; shorten the texts, or split the step in two
            content/jobs/vg-0010.yml:71:9: warning V516 the step 'clamp' has 14 key points
                at most 5: split the step, or leave out what meets none of the tests
                where it does not fit this job: accept: [{code: V516, reason: ...}]
            """,
        ),
    ),
    good="""
        # Five key points fit.
        - file: jobs/vg-0010.yml
          find: |2
                  - point: Push against the clamped plate before you go on.
          put: |2
                  - point: Wipe jaw and parallel 1 clean, with a dry brush and never your hand.
                    reason: A chip under the plate at place 1 tilts it, and the hole leans too.
                    kind: makes or breaks the job
                  - point: Wipe jaw and parallel 2 clean, with a dry brush and never your hand.
                    reason: A chip under the plate at place 2 tilts it, and the hole leans too.
                    kind: makes or breaks the job
                  - point: Wipe jaw and parallel 3 clean, with a dry brush and never your hand.
                    reason: A chip under the plate at place 3 tilts it, and the hole leans too.
                    kind: makes or breaks the job
                  - point: Push against the clamped plate before you go on.
    """,
)

ROOM_PX = 1705
"""Between the upper bar of cells and the lower bar: the title in its tooth, and the step."""
_POINT_LETTERS, _TEXT_LETTERS, _TITLE_LETTERS, _STRIP_LETTERS = 70, 96, 26, 72
"""Letters in a line of a key point, of other text, of the title, of the strip of hazards."""
_POINT_LINE_PX, _TEXT_LINE_PX, _TITLE_LINE_PX, _STRIP_LINE_PX = 33, 29, 49, 28
_PICTURE_PX, _SET_UP_PX, _TOOTH_PX = 400, 103, 107
_BOX_PX = 13
"""Frame, padding and margin of a box."""


def check(case: JobCase) -> Iterator[Finding]:
    """A note for each step of a job that does not fit."""
    for number, step in enumerate(case.job.steps):
        height = height_px(case.shop, case.job, step)
        if height > ROOM_PX and not case.accepts(CODE, ("steps", number)):
            yield Finding(
                CODE.id,
                Severity.NOTE,
                case.place("steps", number),
                f"step '{step.id}' is {height / ROOM_PX:.2f} times as high as a kiosk's screen: "
                f"{len(step.key_points)} key points, {len(step.checks)} checks",
                ("the step view shows it in parts; shorten the texts, or split the step in two",),
            )


def height_px(shop: Shop, job: Job, step: Step) -> float:
    """The least height of a step on the screen, in pixels."""
    hazards = [shop.hazards[one] for one in step.hazards if one in shop.hazards]
    is_drawn = any(one.id == step.set_up for one in job.set_ups)
    return (
        max(_TOOTH_PX, _lines(step.title, _TITLE_LETTERS) * _TITLE_LINE_PX + 27)
        + sum(_hazard(one, step) for one in hazards)
        + (_hands(step.hands_inside.how) if step.hands_inside else 0)
        + (_text(step.stand, 16) + 13 if step.stand else 0)
        + (_text(step.station, 16) + 13 if step.station else 0)
        + (_TEXT_LINE_PX + 13 if step.lockout else 0)
        + (_PICTURE_PX if step.picture or is_drawn else 0)
        + (_SET_UP_PX if is_drawn else 0)
        + sum(_point(one) for one in step.key_points)
        + (_text(step.right, 18) + _BOX_PX if step.right else 0)
        + sum(_check(one) for one in step.checks)
    )


def _hazard(hazard: Hazard, step: Step) -> float:
    """Its line in the strip: its name and what keeps it away here."""
    line = f"{hazard.title}. {control_shown(hazard, step)}"
    return _lines(line, _STRIP_LETTERS) * _STRIP_LINE_PX + 6


def _hands(text: str) -> float:
    return ceil((len(text) + 25) / _POINT_LETTERS) * _POINT_LINE_PX + 14


def _lines(text: str, letters: int) -> int:
    return ceil(len(text) / letters)


def _text(text: str, label: int = 0) -> float:
    return ceil((len(text) + label) / _TEXT_LETTERS) * _TEXT_LINE_PX


def _point(point: KeyPoint) -> float:
    reason = ceil((len(point.kind) + len(point.reason) + 12) / _TEXT_LETTERS) * 29
    return _lines(point.point, _POINT_LETTERS) * _POINT_LINE_PX + reason + _BOX_PX


def _check(check: Check) -> float:
    lines = _text(check.what, 8) + (_text(check.how) if check.how else 0)
    limits = 46 if check.limits or check.size else 0
    return lines + limits + (_TEXT_LINE_PX if check.gauge else 0) + _BOX_PX


RULE = JobRule(check, (CODE,))
