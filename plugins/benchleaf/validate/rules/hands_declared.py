"""V529: a step that shows hands at a part that can move declares them."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample
from benchleaf.model import HandsInside, InsideWork, KeyPath, LockoutStage, Step, stations_of

from ..case import JobCase
from ..rule import JobRule
from .hands_protected import OWN_OR_LOCK, SUFFICES, suffices
from .hands_words import (
    prepares,
    pressed_in,
    shows_gauging,
    shows_tool_change,
    shows_turning,
)

CODE = Code(
    "V529",
    "A step shows hands at a part that can move, and does not say what protects them",
    why=(
        "Hands at chuck, spindle or wheel want a stated protection (29 CFR 1910.147(a)(2)(ii), "
        "the note on minor servicing). An emergency stop is for an emergency: pressing it is no "
        "preparation for hands inside (1910.147(b))."
    ),
    instead=(
        "Add `hands_inside` with doing, protected_by and how. Looked for: chuck, spindle, rim or "
        "wheel turned by hand, a gauge at the wheel, a tool fitted in the chuck, the emergency "
        "stop pressed in before hands go in."
    ),
    bad=(
        Sample(
            """
            # A hand turns the chuck, and nothing says what protects it.
            - file: jobs/vg-0010.yml
              find: Push against the clamped plate before you go on.
              put: Push against the clamped plate, then turn the chuck by hand.
            """,
            """
            content/jobs/vg-0010.yml:59:16: warning V529 here a hand turns the driven part,
                    and step 'clamp' has no hands_inside
                declare it: hands_inside with doing, protected_by (own control of the start or
                    lock) and how
                where it does not fit this job: accept: [{code: V529, reason: ...}]
            """,
        ),
        Sample(
            """
            # An emergency stop as the preparation for cleaning.
            - file: jobs/vg-0010.yml
              find: Push against the clamped plate before you go on.
              put: Push against the plate. Press the emergency stop in, and brush the jaws clean.
            """,
            """
            content/jobs/vg-0010.yml:59:16: warning V529 here the emergency stop is the
                    preparation for hands inside, and step 'clamp' has no hands_inside
                declare it: hands_inside with doing, protected_by (an emergency stop is none:
                    guard with interlock or own control of the start or lock) and how
                where it does not fit this job: accept: [{code: V529, reason: ...}]
            """,
        ),
    ),
    good="""
        # The same, with what protects the hand.
        - file: jobs/vg-0010.yml
          find: Push against the clamped plate before you go on.
          put: Push against the clamped plate, then turn the chuck by hand.
        - file: jobs/vg-0010.yml
          find: |2
                stand: In front of the table, feet apart.
          put: |2
                hands_inside:
                  doing: turning by hand
                  protected_by: own control of the start
                  how: You alone work at this drill.
                stand: In front of the table, feet apart.
    """,
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each step whose hands are not declared; V528 tells of too weak a protection."""
    locked = _under_lock(case.job.steps)
    for number, step in enumerate(case.job.steps):
        hands = step.hands_inside
        is_told = hands is not None and not suffices(hands)
        if not is_told and number not in locked and not _declares(hands):
            yield from _undeclared(case, number, step)


def _under_lock(steps: tuple[Step, ...]) -> frozenset[int]:
    """The steps from the lock's going on to its coming off."""
    at = {step.lockout: number for number, step in enumerate(steps) if step.lockout is not None}
    first = at.get(LockoutStage.APPLY_LOCK)
    last = at.get(LockoutStage.REMOVE_LOCK)
    if first is None or last is None:
        return frozenset()
    return frozenset(range(first, last + 1))


def _declares(hands: HandsInside | None) -> bool:
    """Loading behind a guard does not cover hands at the driven part in the same step."""
    return hands is not None and (
        hands.doing is not InsideWork.LOADING or hands.protected_by in OWN_OR_LOCK
    )


def _undeclared(case: JobCase, number: int, step: Step) -> Iterator[Finding]:
    """One finding a step: at the first text that shows such work."""
    here = stations_of(case.shop, case.job.machine)
    at_wheel = any(one.grinding is not None for one in here)
    if not case.turns and not at_wheel:
        return
    said = dict(_texts(step))
    all_of_it = " ".join(f"{text}." for path, text in said.items() if path[0] != "right")
    for path, text in said.items():
        shown = _shown(text, all_of_it, at_wheel)
        if shown is None:
            continue
        work, protection = shown
        has = "has no hands_inside" if step.hands_inside is None else "speaks of loading only"
        yield from case.practice(
            CODE,
            ("steps", number, *path),
            f"{work}, and step '{step.id}' {has}",
            f"declare it: hands_inside with doing, protected_by ({protection}) and how",
        )
        return


def _shown(text: str, step_text: str, at_wheel: bool) -> tuple[str, str] | None:
    """What is shown, and what suffices for it."""
    if shows_turning(text, at_wheel):
        return "here a hand turns the driven part", _named(InsideWork.TURNING_BY_HAND)
    if shows_gauging(text, at_wheel):
        where = "the wheel" if at_wheel else "the tool"
        return f"here a gauge is held to {where}", _named(InsideWork.GAUGING)
    if shows_tool_change(text):
        return "here hands are at the chuck with a tool", _named(InsideWork.TOOL_CHANGE)
    if pressed_in(text) and prepares(step_text):
        return (
            "here the emergency stop is the preparation for hands inside",
            "an emergency stop is none: " + _named(InsideWork.CLEANING),
        )
    return None


def _named(work: InsideWork) -> str:
    return " or ".join(one.value for one in SUFFICES[work])


def _texts(step: Step) -> Iterator[tuple[KeyPath, str]]:
    yield ("title",), step.title
    for index, one in enumerate(step.key_points):
        yield ("key_points", index, "point"), one.point
    for index, check_ in enumerate(step.checks):
        yield ("checks", index, "how"), check_.how or ""
    for key in ("stand", "right", "trainer"):
        yield (key,), getattr(step, key) or ""
    if step.planted is not None:
        yield ("planted", "what"), step.planted.what


RULE = JobRule(check, (CODE,))
