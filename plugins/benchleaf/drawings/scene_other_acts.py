"""The acts at a grinder, at the bench, and those that make a machine safe."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from . import scene_bench as bench
from . import scene_service as service
from .scene_drill import (
    At,
    DrillState,
    drill_words,
)
from .scene_drill_acts import drawn_section, front
from .scene_drill_acts import start as drill_start
from .scene_facts import Facts
from .scene_picture import SECOND, Picture
from .scene_wheel import WheelState, place_above, wheel_side, wheel_words


def _wheel(state: WheelState, words: str, rest: str = "", tongue: str = "") -> Picture:
    places = {
        "rest": ((140, 204), (60, 250)),
        "tongue": ((225, 120), (90, 60)),
        "hands": ((100, 190), (60, 130)),
        "isolator": ((SECOND + 68, 300), (SECOND + 24, 264)),
        "plug": ((SECOND + (152 if state.plug_in else 232), 336), (SECOND + 190, 280)),
        "start": ((SECOND + 104, 92), (SECOND + 20, 140)),
    }
    return Picture(wheel_side(state, rest, tongue), place_above(state), words, places)


def gap(facts: Facts, where: str) -> Picture | None:
    grinding = facts.machine.grinding
    if grinding is None or not facts.power_off:
        return None
    state = WheelState(at_rest="gauge" if where == "rest" else "", at_tongue=where == "tongue")
    gap = grinding.work_rest_gap if where == "rest" else grinding.tongue_gap
    size, named = facts.told(gap.value), "work rest" if where == "rest" else "tongue guard"
    words = (
        f"The step of the gap gauge is tried at the {named}: "
        f"the gap is {size} at most. {wheel_words(state)}"
    )
    return _wheel(state, words, size if where == "rest" else "", size if where == "tongue" else "")


def at_wheel(
    what: str, move: str, said: str, back: float = 0.0
) -> Callable[[Facts], Picture | None]:
    def drawn(facts: Facts) -> Picture | None:
        lies = what or ("pin" if facts.piece.is_round else "plate")
        state = WheelState("turning", True, True, stands="front", at_rest=lies, back=back,
                           moves=(move,) if move else ())  # fmt: skip
        return _wheel(state, f"{said} {wheel_words(state)}")

    return drawn


def dead_wheel(said: str, **given: object) -> Callable[[Facts], Picture | None]:
    def drawn(facts: Facts) -> Picture | None:
        if not facts.power_off:
            return None
        plug = facts.locked
        state = WheelState(plug_in=plug, locked=facts.locked, **given)  # type: ignore[arg-type]
        return _wheel(state, f"{said} {wheel_words(state)}")

    return drawn


# Making safe, and the bench


def safe(
    drawn: str,
    said: str,
    *,
    power_on: bool = False,
    turning: bool = False,
    locked: bool = False,
    moves: tuple[str, ...] = (),
    left: At = At.AWAY,
) -> Callable[[Facts], Picture | None]:
    def picture(facts: Facts) -> Picture | None:
        if facts.is_grinder:
            motion = "coasting" if turning else "still"
            plug = power_on or turning or not facts.plug_out
            wheel = WheelState(motion, power_on or turning, plug, locked=locked, stands="aside")
            return Picture(
                drawn or wheel_side(wheel), place_above(wheel), f"{said} {wheel_words(wheel)}"
            )
        state = DrillState(True, power_on, False, 0, left, At.AWAY, locked=locked, moves=moves)
        right = front(facts, state)
        return Picture(drawn or service.start_tried(), right, f"{said} {drill_words(state)}")

    return picture


def stop(facts: Facts) -> Picture | None:
    if facts.is_grinder:
        wheel = WheelState("coasting", True, True, stands="aside")
        return _wheel(
            wheel, f"Stop was pressed, and nobody touches the wheel. {wheel_words(wheel)}"
        )
    state = DrillState(True, True, True, 0, At.ON_STOP, At.LEVER)
    section, ink = drawn_section(facts, -9, stop=False, hole=0, turning=True)
    ink.round_way(section.middle, 96, 60, 9, 20, 200, 0.9)
    words = f"One finger presses stop, and the tool coasts above the work. {drill_words(state)}"
    return Picture(ink.joined(), front(facts, state), words, {})


def let_rest(facts: Facts) -> Picture | None:
    """A wheel without power that still coasts; locked where the step is a stage of lockout."""
    locked = facts.step.lockout is not None
    state = WheelState("coasting", plug_in=not facts.plug_out, locked=locked, stands="aside")
    return _wheel(state, f"Nobody touches the wheel. {wheel_words(state)}")


def in_vice(doing: str, said: str) -> Callable[[Facts], Picture | None]:
    return lambda facts: Picture(bench.in_bench_vice(doing, facts.piece), words=said)


def gauge(facts: Facts) -> Picture | None:
    size = facts.cutter.size if facts.cutter else facts.piece.hole
    if not size:
        return None
    thread = facts.cutter is not None and facts.cutter.kind == "tap"
    floor = facts.piece.floor
    if floor is None and not facts.through and facts.stop is not None:
        floor = facts.stop
    piece = replace(facts.piece, hole=size, floor=floor)
    said = facts.told(size)
    words = (
        f"The GO end of the plug gauge goes into the hole of {said}. Beside it the NO-GO end "
        "stands "
        "on "
        "the hole and does not go in."
    )
    return Picture(bench.gauged(piece, said, thread=thread), words=words)


def measure(facts: Facts) -> Picture | None:
    size = facts.cutter.size if facts.cutter else facts.piece.hole
    return Picture(bench.measured(replace(facts.piece, hole=size or 0), ""),
                   words="A caliper lies flat on both sides of the work, held with two hands."
                   )  # fmt: skip


def plain(drawn: str, said: str) -> Callable[[Facts], Picture | None]:
    return lambda _: Picture(drawn, words=said)


def belts(facts: Facts, doing: str, said: str) -> Picture | None:
    if not facts.locked:
        return None
    state = DrillState(True, False, False, locked=True, cover_open=doing == "move", has_work=False)
    return Picture(service.belts(doing), front(facts, state), f"{said} {drill_words(state)}")


def start(facts: Facts) -> Picture | None:
    """Start, at either machine."""
    if not facts.is_grinder:
        return drill_start(facts)
    wheel = WheelState("turning", True, True, stands="aside", moves=("start", "person"))
    return _wheel(wheel, f"Start is pressed with the shield down. {wheel_words(wheel)}")
