"""What stands on the pocket card, so that one sheet holds it: what may be left out goes first.

Where what can injure does not fit by itself, nothing is left out, and the card takes two sheets.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from benchleaf.model import Job, KeyPoint, KeyPointKind

from .job_view import JobView

LINES = 83
"""Lines that the two halves of a card hold, A4 or Letter, by an estimate. A house rule."""
_LETTERS = 68
"""Letters in a line of half a sheet."""
_BESIDE_SYMBOL = 2
"""Lines that the symbol at the top costs, since the text runs beside it."""
_STOP = 3
"""Lines that *do not run* costs: its large letters, and the frame."""
_LESSER = (KeyPointKind.EASIER, KeyPointKind.MAKES_OR_BREAKS)
"""What is left out where the room is short, in this order; never a point that can injure."""


@dataclass(frozen=True, slots=True)
class CardStep:
    """One step as the card shows it."""

    number: int
    title: str
    hands: str
    """What protects hands inside, in words; empty where none go in, or where it was said."""
    protection: str
    same_as: int
    """The step where the same protection was told; 0 where it is told here."""
    points: tuple[tuple[str, bool], ...]
    """Each key point, and whether it can injure."""


@dataclass(frozen=True, slots=True)
class Card:
    """The card's lines beside those of every sheet."""

    wear: str
    take_off: str
    stop: str
    emergency: str
    steps: tuple[CardStep, ...]
    left_out: int
    """Key points that only the breakdown sheet has."""
    hand_on: str


def card(view: JobView, call: str, emergency: str, stopped: str = "") -> Card:
    """The card of a job, with as many key points as it holds.

    `emergency` is what the shop does in one: it stands there whole, where no button stops anything.
    `stopped` is what it says of a job that must not run.
    """
    job = view.job
    driven = [(one.of, one.controls) for one in view.made_safe if one.controls is not None]
    made = Card(
        "; ".join(_bare(one) for one in job.wear),
        " ".join(f"{_bare(first_sentence(one))}." for one in job.take_off),
        " ".join(f"{_whose(of)}{one.stop}" for of, one in driven),
        " ".join(f"{_whose(of)}{first_sentence(one.emergency_stop)}" for of, one in driven)
        or emergency,
        (),
        0,
        job.hand_on,
    )
    kept = [list(step.key_points) for step in job.steps]
    left_out = 0
    while not _fits(view, made, call, kept, stopped) and _leave_one_out(kept):
        left_out += 1
    if not _fits(view, made, call, kept, stopped):
        kept, left_out = [list(step.key_points) for step in job.steps], 0  # two sheets
    return replace(made, steps=tuple(_steps(job, kept)), left_out=left_out)


def _fits(view: JobView, made: Card, call: str, kept: list[list[KeyPoint]], stopped: str) -> bool:
    steps = sum(_height(one) for one in _steps(view.job, kept))
    return _around(view, made, call, stopped) + steps <= LINES


def _leave_one_out(kept: list[list[KeyPoint]]) -> bool:
    """Take the point of least worth from the step that has most left; False where none is."""
    for kind in _LESSER:
        steps = [one for one in kept if any(point.kind is kind for point in one)]
        if steps:
            fullest = max(steps, key=len)
            fullest.remove(next(one for one in reversed(fullest) if one.kind is kind))
            return True
    return False


def first_sentence(text: str) -> str:
    """The first sentence of a text.

    >>> first_sentence("Hit the red button. It is for an emergency.")
    'Hit the red button.'
    """
    return re.split(r"(?<=[.!?])\s", text, maxsplit=1)[0]


def _whose(of: str) -> str:
    return f"{of.removeprefix(', ')}: " if of else ""


def _bare(line: str) -> str:
    return line.rstrip(". ")


def _steps(job: Job, kept: list[list[KeyPoint]]) -> Iterator[CardStep]:
    told: dict[str, int] = {}
    for number, (step, points) in enumerate(zip(job.steps, kept, strict=True), 1):
        inside = step.hands_inside
        protection = str(inside.protected_by) if inside else ""
        first = told.setdefault(protection, number) if inside else number
        yield CardStep(
            number,
            step.title,
            inside.how if inside and first == number else "",
            protection,
            first if first != number else 0,
            tuple((one.point, one.kind is KeyPointKind.CAN_INJURE) for one in points),
        )


def _around(view: JobView, made: Card, call: str, stopped: str) -> int:
    """Lines of all but the steps."""
    values = sum(1 + len(one.to_set) + bool(one.where) for one in view.set_ups)
    if not view.may_run:  # in place of what is set
        values = _STOP + sum(_lines(one) for one in (*view.reasons_not_to_run, stopped))
    hazards = ("; ".join(one.link.words for one in each.messages) for each in view.hazards)
    texts = (
        f"Wear: {made.wear}. Off: {made.take_off}",
        f"Stop: {made.stop} Emergency: {made.emergency}",
        f"Handing on: {made.hand_on}",
        f"If anything is not right: {call}",
        *(f"WARNING {one}" for one in hazards),
    )
    return 1 + values + _BESIDE_SYMBOL + sum(_lines(one) for one in texts)


def _height(step: CardStep) -> int:
    hands = f"Before your hands go in ({step.protection}). {step.hands}" if step.protection else ""
    return _lines(step.title) + _lines(hands) + sum(_lines(point) for point, _ in step.points)


def _lines(text: str) -> int:
    bare = re.sub(r"\[\[(?:[^|\]]*\|)?([^\]]*)\]\]", r"\1", text)
    return -(-len(bare) // _LETTERS)
