"""V528 hands inside need a protection that suffices, V529 a step that shows hands declares them.

29 CFR 1910.147: (a)(2)(ii) leaves normal production out, and minor servicing on conditions (read
in two copies); (b) a push button is no energy isolating device (read as quoted); a plug under one's
own exclusive control (OSHA eTool, read; its paragraph (a)(2)(iii)(A) from memory). House rule: an
interlock alone does not suffice where the hand is on the driven part.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding, Severity
from benchleaf.model import HandsInside, InsideWork, LockoutStage, Protection, Step

from ..case import JobCase
from .hands_words import (
    prepares,
    pressed_in,
    shows_gauging,
    shows_tool_change,
    shows_turning,
)

Path = tuple[str | int, ...]

_OWN_OR_LOCK = (Protection.OWN_CONTROL, Protection.LOCK)
_BY_INTERLOCK_TOO = (Protection.INTERLOCK, *_OWN_OR_LOCK)
SUFFICES: dict[InsideWork, tuple[Protection, ...]] = {
    InsideWork.LOADING: tuple(Protection),
    InsideWork.CLEANING: _BY_INTERLOCK_TOO,
    InsideWork.GAUGING: _BY_INTERLOCK_TOO,
    InsideWork.TURNING_BY_HAND: _OWN_OR_LOCK,
    InsideWork.TOOL_CHANGE: _OWN_OR_LOCK,
    InsideWork.SERVICING: (Protection.LOCK,),
}
"""What keeps the machine from moving well enough, by what the hands do."""
_BUTTONS = (Protection.STOP_BUTTON, Protection.EMERGENCY_STOP)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each step whose hands are not protected, or not declared."""
    locked = _under_lock(case.job.steps)
    for number, step in enumerate(case.job.steps):
        if step.hands_inside is not None and not _suffices(step.hands_inside):
            yield from _too_weak(case, number, step.hands_inside)
        elif number not in locked and not _declares(step.hands_inside):
            yield from _undeclared(case, number, step)


def _under_lock(steps: tuple[Step, ...]) -> frozenset[int]:
    """The steps from the lock's going on to its coming off."""
    at = {step.lockout: number for number, step in enumerate(steps) if step.lockout is not None}
    first = at.get(LockoutStage.APPLY_LOCK)
    last = at.get(LockoutStage.REMOVE_LOCK)
    if first is None or last is None:
        return frozenset()
    return frozenset(range(first, last + 1))


def _suffices(hands: HandsInside) -> bool:
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
        yield Finding("V528", Severity.ERROR, case.place(*path), text, tuple(help_))
    else:
        yield from case.practice("V528", path, text, "; ".join(help_))


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


def _declares(hands: HandsInside | None) -> bool:
    """Loading behind a guard does not cover hands at the driven part in the same step."""
    return hands is not None and (
        hands.doing is not InsideWork.LOADING or hands.protected_by in _OWN_OR_LOCK
    )


def _undeclared(case: JobCase, number: int, step: Step) -> Iterator[Finding]:
    """One finding a step: at the first text that shows such work."""
    machine = case.machine
    if machine is None or not (machine.spindle_speeds or machine.grinding):
        return
    said = dict(_texts(step))
    all_of_it = " ".join(f"{text}." for path, text in said.items() if path[0] != "right")
    for path, text in said.items():
        shown = _shown(text, all_of_it, at_wheel=machine.grinding is not None)
        if shown is None:
            continue
        work, protection = shown
        has = "has no hands_inside" if step.hands_inside is None else "speaks of loading only"
        yield from case.practice(
            "V529",
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


def _texts(step: Step) -> Iterator[tuple[Path, str]]:
    yield ("title",), step.title
    for index, one in enumerate(step.key_points):
        yield ("key_points", index, "point"), one.point
    for index, check_ in enumerate(step.checks):
        yield ("checks", index, "how"), check_.how or ""
    for key in ("stand", "right", "trainer"):
        yield (key,), getattr(step, key) or ""
    if step.planted is not None:
        yield ("planted", "what"), step.planted.what
