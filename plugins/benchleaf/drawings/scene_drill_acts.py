"""The acts at a drill: each puts the section beside the machine from the front."""

from __future__ import annotations

from dataclasses import replace
from math import radians, tan

from . import scene_bench as bench
from . import scene_service as service
from .hands import FIST, PINCH
from .ink import FINE, THIN, Ink, Point, short, trace
from .scene_drill import (
    At,
    DrillState,
    chuck_close,
    drill_front,
    drill_words,
)
from .scene_facts import Facts
from .scene_picture import SECOND, Picture
from .scene_section import Cutter, Section


def section_of(facts: Facts) -> Section:
    return Section(facts.piece, facts.setting, facts.cutter)


def front(facts: Facts, state: DrillState) -> str:
    side = facts.machine.lever_at
    return drill_front(state, lever_right=side is None or side.value == "right")


def _drill_places(
    facts: Facts, section: Section | None, depth: float, *, shut: bool = False
) -> dict[str, tuple[Point, Point]]:
    """Places in the usual picture of two panels."""
    mirror = facts.machine.lever_at is not None and facts.machine.lever_at.value == "left"

    def front(x: float, y: float) -> Point:
        return SECOND + (276 - x if mirror else x), y

    places = {
        "isolator": (front(36, 232), front(24, 280)),
        "key": (front(198, 238), front(236, 280)),
        "lever": (front(236, 100), front(246, 180)),
        "guard": (front(88, 250), front(60, 286)) if shut else (front(80, 124), front(28, 150)),
        "start": (front(78, 62), front(20, 24)),
    }
    if section is not None:
        places["tip"] = (
            (section.middle, section.y(depth) - 1),
            (section.middle + 34, section.y(section.piece.high) + 34),
        )
        places["work"] = ((section.x(-section.piece.wide / 2) + 12, section.y(0) + 8), (52, 110))
        if facts.stop is not None:
            places["stop"] = ((398, section.y(facts.stop) + 4), (418, section.y(facts.stop) + 62))
    return places


def drawn_section(
    facts: Facts,
    depth: float,
    *,
    stop: bool,
    hole: float | None = None,
    turning: bool = False,
) -> tuple[Section, Ink]:
    """The section with its sizes."""
    section, ink = section_of(facts), Ink()
    reached = depth if hole is None else hole
    section.draw_holding(ink)
    section.draw_piece(ink, reached)
    if turning:
        ink.line(f"M{short(section.middle - 120)} 0V{short(section.top - 14)}h240V0", THIN)
        ink.line(f"M{short(section.middle - 108)} {short(section.top - 30)}l20 -50", 1.4)
    section.draw_cutter(ink, depth)
    if facts.cutter and stop and facts.stop is not None:
        section.end_position(ink, facts.stop)
        section.depth_size(ink, facts.stop, facts.told(facts.stop - facts.touch, 1), facts.touch)
    return section, ink


def _sizes(facts: Facts, section: Section, ink: Ink, depth: float) -> None:
    section.thickness(ink, facts.told(facts.piece.high))
    if facts.cutter:
        section.width_of_tool(ink, depth, f"⌀{facts.told(facts.cutter.size)}")


def cut(facts: Facts) -> Picture | None:
    if facts.cutter is None or (facts.stop is None and facts.cutter.kind != "reamer"):
        return None
    point = facts.cutter.point
    depth = facts.piece.high + 0.6 * point if facts.through else facts.stop or 0.0
    if facts.cutter.kind == "reamer":
        depth = facts.piece.high + 2
    section, ink = drawn_section(facts, depth, stop=True, turning=True)
    _sizes(facts, section, ink, depth)
    half = facts.cutter.size / 2 * section.scale
    ink.round_way(section.middle, 96, half + 26, 9, 20, 200, 0.9)
    ink.way(((section.middle - half - 74, 30), (section.middle - half - 74, 104)))
    if facts.cutter.kind == "drill" and facts.piece.high:
        for side in (-1, 1):
            _curl(ink, section.middle + side * (half + 16), section.y(0) - 12, side)
    state = DrillState(True, True, True, 0.6, At.BESIDE_STOP, At.LEVER, moves=("quill down",))
    verb = {"drill": "drill", "reamer": "reamer", "countersink": "countersink"}.get(
        facts.cutter.kind, "tool"
    )
    end = "comes through the work" if facts.through else "has reached its depth"
    words = (
        f"The {verb} {end}, cut open to scale. {_stop_words(facts)}One hand is on the feed lever, "
        "the other "
        f"beside the stop button. {drill_words(state)}"
    )
    places = _drill_places(facts, section, depth, shut=True)
    return Picture(ink.joined(), front(facts, state), words, places)


def _curl(ink: Ink, x: float, y: float, side: int) -> None:
    """One chip, rolled up."""
    ink.line(
        f"M{short(x - side * 12)} {short(y + 10)}q{8 * side} -2 {10 * side} -10t{-6 * side} -14"
        f" {-8 * side} 6 {7 * side} 4", FINE,
    )  # fmt: skip


def check_set_up(facts: Facts) -> Picture | None:
    section, ink = drawn_section(facts, -9, stop=True, hole=0)
    _sizes(facts, section, ink, -9)
    state = DrillState(False, not facts.power_off, False, 0.05)
    words = (
        f"The tool stands above the work in its holding, cut open to scale. "
        f"{_stop_words(facts)}{drill_words(state)}"
    )
    return Picture(ink.joined(), front(facts, state), words, _drill_places(facts, section, -9))


def _stop_words(facts: Facts) -> str:
    if facts.stop is None or facts.cutter is None:
        return ""
    size = facts.told(facts.travel or 0, 1)
    return f"Thin lines show where the depth stop ends its way, {size} from first touch. "


def first_touch(facts: Facts) -> Picture | None:
    if facts.cutter is None:
        return None
    depth = facts.touch
    if not depth:  # a hole that is there already would not be touched: beside it
        facts = replace(facts, piece=replace(facts.piece, hole=0.0))
    section, ink = drawn_section(facts, depth, stop=True)
    _sizes(facts, section, ink, depth)
    ink.way(((section.middle - 70, 60), (section.middle - 70, 130)))
    state = DrillState(
        False, not facts.power_off, False, 0.45, At.AWAY, At.LEVER, moves=("quill down",)
    )
    words = (
        f"The still tool just touches the work, cut open to scale. {_stop_words(facts)}"
        f"One hand is on the feed lever. {drill_words(state)}"
    )
    return Picture(ink.joined(), front(facts, state), words, _drill_places(facts, section, depth))


def clamp(facts: Facts) -> Picture | None:
    section, ink = section_of(facts), Ink()
    section.draw_holding(ink)
    section.draw_piece(ink, 0)
    section.thickness(ink, facts.told(facts.piece.high))
    ink.way(((section.middle, 70), (section.middle, section.top - 10)))
    if facts.setting.kind == "vice":
        y = section.y(facts.piece.high + facts.setting.bed * 0.5)
        right = section.x(facts.piece.wide / 2 + 14)
        ink.line(
            f"M{short(right)} {short(y)}h26m0 -30v60",
            6,
        )
        ink.way(((right + 70, y + 48), (right + 8, y + 48)), 0.9)
    state = DrillState(False, not facts.power_off, False, 0, At.WORK, At.VICE)
    places = _drill_places(facts, section, 0)
    del places["lever"], places["start"], places["tip"]
    places.pop("stop", None)
    held = {"vice": "between the jaws of the vice", "V-block": "in the V-block under its strap",
            "fixture": "on the rests of the fixture"}.get(
        facts.setting.kind, "in its holding")  # fmt: skip
    words = (
        f"The work lies {held}, cut open to scale, and is tightened. One hand is at the work, the "
        f"other tightens. {drill_words(state)}"
    )
    return Picture(ink.joined(), front(facts, state), words, places)


def fit_tool(facts: Facts) -> Picture | None:
    kind = facts.cutter.kind if facts.cutter else "drill"
    state = DrillState(False, False, False, 0, At.AWAY, At.KEY, key_in_chuck=True, has_tool=True,
                       has_work=False)  # fmt: skip
    if not facts.power_off:
        return None
    words = (
        "The tool goes up into the open chuck, and a hand turns the chuck key in it. "
        f"{drill_words(state)}"
    )
    return Picture(chuck_close(kind, goes_in=True), front(facts, state), words,
                   {"isolator": _drill_places(facts, None, 0)["isolator"],
                    "key": ((300, 118), (376, 214)), "tip": ((220, 386), (300, 380))})  # fmt: skip


def empty(facts: Facts) -> Picture | None:
    if not facts.power_off:
        return None
    state = DrillState(False, False, False, 0, At.AWAY, At.KEY, key_in_chuck=True, has_work=False)
    words = (
        "The tool comes down out of the chuck, and a hand turns the chuck key in it. "
        f"{drill_words(state)}"
    )
    return Picture(chuck_close("drill", goes_in=False), front(facts, state), words,
                   {"isolator": _drill_places(facts, None, 0)["isolator"],
                    "key": ((300, 118), (376, 214))})  # fmt: skip


def start(facts: Facts) -> Picture | None:
    section, ink = drawn_section(facts, -9, stop=True, hole=0, turning=True)
    _sizes(facts, section, ink, -9)
    if facts.cutter:
        ink.round_way(
            section.middle, 96, facts.cutter.size / 2 * section.scale + 26, 9, 20, 200, 0.9
        )
    state = DrillState(True, True, True, 0, At.ON_START, At.LEVER, moves=("guard",))
    words = (
        "The tool turns above the work, cut open to scale. One finger presses start, the other "
        "hand "
        f"is on the feed lever, and no hand is inside. {drill_words(state)}"
    )
    places = _drill_places(facts, section, -9, shut=True)
    return Picture(ink.joined(), front(facts, state), words, places)


def clear(facts: Facts, by: str = "brush") -> Picture | None:
    state = DrillState(False, not facts.power_off, False, 0, At.AWAY,
                       At.BRUSH if by == "brush" else At.AWAY, moves=("guard",))  # fmt: skip
    with_what = "A brush takes" if by == "brush" else "The nozzle of a vacuum cleaner takes"
    words = f"{with_what} the chips away, and no finger touches them. {drill_words(state)}"
    places = _drill_places(facts, None, 0)
    places["brush"] = ((228, 244), (200, 170)) if by == "brush" else ((228, 262), (180, 190))
    del places["lever"], places["start"]
    return Picture(service.cleaning(by), front(facts, state), words, places)


def turn_work(facts: Facts) -> Picture | None:
    state = DrillState(False, not facts.power_off, False, 0, At.WORK, At.WORK)
    words = f"Both hands turn the work end for end; a dot marks its datum end. {drill_words(state)}"
    drawn = bench.turned(facts.length, facts.piece.wide, facts.holes)
    places = _drill_places(facts, None, 0)
    del places["lever"], places["start"]
    return Picture(drawn, front(facts, state), words, places)


def tap(facts: Facts, depth: float, *, guide: bool, way: str, said: str) -> Picture | None:
    if facts.cutter is None or facts.cutter.kind != "tap" or not facts.power_off:
        return None
    section = Section(facts.piece, facts.setting, replace(facts.cutter, stick_out=20 + 14))
    ink = Ink()
    section.draw_holding(ink)
    section.draw_piece(ink, depth)
    section.draw_cutter(ink, depth, chuck=False)
    m, y = section.middle, section.y(depth - 34) + 6
    if guide:
        ink.shape(f"M{short(m - 10)} 0V{short(y - 40)}H{short(m - 5)}L{short(m)} {short(y - 4)}"
                  f"L{short(m + 5)} {short(y - 40)}H{short(m + 10)}V0Z", FINE)  # fmt: skip
        ink.shape(
            f"M{short(m - 34)} 0h68v18l-16 16h-36l-16 -16Z",
            FINE,
        )
    ink.moves = True
    ink.box(m - 24, y - 6, 48, 22, FINE)
    ink.line(
        f"M{short(m - 130)} {short(y + 5)}h106m48 0h106",
        8,
    )
    ink.moves = False
    ink.at(m + 122, y + 6, FIST, -24, 0.85)
    ink.mirrored(m - 122, y + 6, FIST, -24, 0.85)
    if way in ("in", "both"):
        ink.round_way(m, y + 40, 70, 12, 20, 160, 0.8)
    if way in ("out", "both"):
        ink.round_way(m, y - 24, 70, 12, 340, 200, 0.8)
    state = DrillState(False, False, False, 0.2 if guide else 0.0, has_tool=guide)
    words = f"{said}, cut open to scale. Both hands turn the wrench. {drill_words(state)}"
    places = {
        "tip": ((m, section.y(depth)), (m + 60, section.y(section.piece.high) + 30)),
        "isolator": _drill_places(facts, None, 0)["isolator"],
    }
    return Picture(ink.joined(), front(facts, state), words, places)


def set_guide(facts: Facts) -> Picture | None:
    if not facts.power_off or not facts.piece.hole:
        return None
    guided = replace(facts, cutter=Cutter("guide", 10, 60), stop=None)
    depth = facts.piece.hole / 2 / tan(radians(30))
    section, ink = drawn_section(guided, depth, stop=False)
    ink.way(((section.middle - 70, 60), (section.middle - 70, 130)))
    state = DrillState(False, False, False, 0.45, At.AWAY, At.LEVER, moves=("quill down",))
    words = (
        "The point of the tap guide, in the chuck, goes down into the middle of the hole, cut open "
        f"to scale. {drill_words(state)}"
    )
    return Picture(ink.joined(), front(facts, state), words, _drill_places(guided, section, depth))


def prove(facts: Facts) -> Picture | None:
    if facts.cutter is None or facts.stop is None or facts.cutter.kind != "countersink":
        return None
    section, ink = section_of(facts), Ink()
    section.draw_holding(ink)
    section.draw_piece(ink, facts.stop)
    shank, head = facts.piece.hole / 2 - 0.2, facts.cutter.radius(facts.stop) - 0.2
    deep = head - shank
    ink.moves = True
    places = [(-head, 0.15), (head, 0.15), (shank, deep), (shank, facts.piece.high + 4),
              (-shank, facts.piece.high + 4), (-shank, deep)]  # fmt: skip
    ink.shape(trace([(section.x(x), section.y(y)) for x, y in places], closed=True), FINE)
    ink.moves = False
    ink.at(section.x(head) - 6, section.top - 6, PINCH, -18, 0.9)
    ink.way(((section.middle, 80), (section.middle, section.top - 26)))
    state = DrillState(False, not facts.power_off, False, 0, At.AWAY, At.WORK)
    words = f"The screw itself lies in its seat, cut open to scale. {drill_words(state)}"
    return Picture(ink.joined(), front(facts, state), words, {})
