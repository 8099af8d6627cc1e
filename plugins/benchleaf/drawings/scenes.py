"""The scene of a step: what the hand does, drawn from the records, with the same in words.

One function an act puts panels side by side; each panel is drawn from a state that refuses what
must never be shown. No scene is better than a wrong one: where a record lacks what an act needs, or
the set-up must not be run, there is none.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from html import escape
from math import radians, tan
from types import MappingProxyType

from markupsafe import Markup

from benchleaf.compute import SetUpSheet
from benchleaf.model import Act, Job, Shop, SoNotSo, Step, why_no_scene

from . import scene_bench as bench
from . import scene_service as service
from .hands import FIST, FLAT, PINCH, POINTING
from .ink import FINE, THIN, Ink, Point, short, trace
from .scene_drill import (
    DRILL_BODY,
    DRILL_TABLE,
    At,
    DrillState,
    chuck_close,
    drill_front,
    drill_words,
)
from .scene_facts import Facts, facts_of
from .scene_pairs import PAIR_CHUCK, PAIR_WHEEL, pair_of
from .scene_section import Cutter, Section
from .scene_wheel import WHEEL_STAND, WheelState, place_above, wheel_side, wheel_words

HEIGHT = 420.0
SECOND = 446.0
"""Where the panel at the right begins."""


@dataclass(slots=True)
class Picture:
    """A scene while it is put together."""

    left: str
    right: str = ""
    words: str = ""
    places: Mapping[str, tuple[Point, Point]] = field(default_factory=dict)
    """What a balloon may point to: the place, and the middle of its ring."""

    @property
    def width(self) -> float:
        """Of the view box."""
        return 720.0 if self.right else 440.0


@dataclass(frozen=True, slots=True)
class Scene:
    """A scene ready for a page."""

    svg: Markup
    text: str
    """What it shows, in words."""
    note: str
    """What is drawn to fit, since no record gives it; empty where all is given."""


def scene_of(
    shop: Shop,
    job: Job,
    step: Step,
    sheets: Sequence[SetUpSheet],
) -> Scene | None:
    """The scene of a step; None where it has none, or none that would be true."""
    if step.scene is None or any(not one.may_run for one in sheets):
        return None
    if why_no_scene(step, shop.machines[step.station or job.machine]):
        return None
    facts = facts_of(shop, job, step, sheets)
    picture = DRAWN[step.scene](facts)
    if picture is None:
        return None
    ink = Ink()
    ink.parts.append(picture.left)
    if picture.right:
        ink.at(SECOND, 0, picture.right)
    _balloons(ink, step, picture)
    fitted = facts.fitted if "scale" in picture.words else ()
    text = picture.words.replace(" to scale", "") if fitted else picture.words
    note = f"Drawn to fit: {', '.join(fitted)}." if fitted else ""
    return Scene(_svg(ink.joined(), picture.width, text), text, note)


def _svg(drawn: str, width: float, text: str) -> Markup:
    return Markup(
        f'<svg class="bl-drawing" viewBox="0 0 {width:g} {HEIGHT:g}" width="{width:g}"'
        f' height="{HEIGHT:g}" role="img" aria-label="{escape(text)}" fill="none"'
        f' stroke="currentColor" stroke-width="4">{drawn}</svg>'
    )


# Balloons

_NAMED = (
    ("fluid", r"\bfluid|\bvalve|\boil\b"),
    ("isolator", r"isolator"),
    ("key", r"\bkey\b"),
    ("brush", r"\bbrush|nozzle|vacuum"),
    ("lever", r"(?<!cam )(?<!tension )\blever\b|\bease\b|\bpull\b"),
    ("stop", r"depth stop|move the stop|the stop on|scale"),
    ("tip", r"\bpoint\b|first touch|break-through|comes? through|goes light"),
    ("start", r"press start|from the left"),
    ("guard", r"\bguard\b"),
    ("rest", r"work rest|\brest\b"),
    ("tongue", r"tongue"),
    ("plug", r"\bplug\b"),
    ("hands", r"hold the|finger|hand's width"),
    ("work", r"plate|block|pin\b|stay|casting|work\b"),
)


def _balloons(ink: Ink, step: Step, picture: Picture) -> None:
    """A ring for each key point whose place the scene knows; each place once."""
    free = dict(picture.places)
    for number, point in enumerate(step.key_points, 1):
        names = [name for name, words in _NAMED if re.search(words, point.point, re.IGNORECASE)]
        # what is said of the fluid is no other thing's point
        name = next((one for one in names if one in free), None) if "fluid" not in names else None
        if name is not None:
            place, ring = free.pop(name)
            ink.balloon(number, ring[0], ring[1], place)


# The drill


def _section(facts: Facts) -> Section:
    return Section(facts.piece, facts.setting, facts.cutter)


def _front(facts: Facts, state: DrillState) -> str:
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


def _drawn_section(facts: Facts, depth: float, *, stop: bool, lifted: float = 0.0, hole: float | None = None,
                   turning: bool = False) -> tuple[Section, Ink]:  # fmt: skip
    """The section with its sizes."""
    section, ink = _section(facts), Ink()
    reached = depth if hole is None else hole
    section.draw_holding(ink)
    section.draw_piece(ink, reached, lifted)
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


def _cut(facts: Facts) -> Picture | None:
    if facts.cutter is None or (facts.stop is None and facts.cutter.kind != "reamer"):
        return None
    point = facts.cutter.point
    depth = facts.piece.high + 0.6 * point if facts.through else facts.stop or 0.0
    if facts.cutter.kind == "reamer":
        depth = facts.piece.high + 2
    section, ink = _drawn_section(facts, depth, stop=True, turning=True)
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
        f"The {verb} {end}, cut open to scale. {_stop_words(facts)}One hand is on the feed lever, the other "
        f"beside the stop button. {drill_words(state)}"
    )
    places = _drill_places(facts, section, depth, shut=True)
    return Picture(ink.joined(), _front(facts, state), words, places)


def _curl(ink: Ink, x: float, y: float, side: int) -> None:
    """One chip, rolled up."""
    ink.line(
        f"M{short(x - side * 12)} {short(y + 10)}q{8 * side} -2 {10 * side} -10t{-6 * side} -14"
        f" {-8 * side} 6 {7 * side} 4", FINE,
    )  # fmt: skip


def _check_set_up(facts: Facts) -> Picture | None:
    section, ink = _drawn_section(facts, -9, stop=True, hole=0)
    _sizes(facts, section, ink, -9)
    state = DrillState(False, not facts.power_off, False, 0.05)
    words = (
        f"The tool stands above the work in its holding, cut open to scale. "
        f"{_stop_words(facts)}{drill_words(state)}"
    )
    return Picture(ink.joined(), _front(facts, state), words, _drill_places(facts, section, -9))


def _stop_words(facts: Facts) -> str:
    if facts.stop is None or facts.cutter is None:
        return ""
    return f"Thin lines show where the depth stop ends its way, {facts.told(facts.travel or 0, 1)} from first touch. "


def _first_touch(facts: Facts) -> Picture | None:
    if facts.cutter is None:
        return None
    depth = facts.touch
    if not depth:  # a hole that is there already would not be touched: beside it
        facts = replace(facts, piece=replace(facts.piece, hole=0.0))
    section, ink = _drawn_section(facts, depth, stop=True)
    _sizes(facts, section, ink, depth)
    ink.way(((section.middle - 70, 60), (section.middle - 70, 130)))
    state = DrillState(
        False, not facts.power_off, False, 0.45, At.AWAY, At.LEVER, moves=("quill down",)
    )
    words = (
        f"The still tool just touches the work, cut open to scale. {_stop_words(facts)}"
        f"One hand is on the feed lever. {drill_words(state)}"
    )
    return Picture(ink.joined(), _front(facts, state), words, _drill_places(facts, section, depth))


def _clamp(facts: Facts) -> Picture | None:
    section, ink = _section(facts), Ink()
    section.draw_holding(ink)
    section.draw_piece(ink, 0)
    section.thickness(ink, facts.told(facts.piece.high))
    ink.way(((section.middle, 70), (section.middle, section.top - 10)))
    if facts.setting.kind == "vice":
        y = section.y(facts.piece.high + facts.setting.bed * 0.5)
        right = section.x(facts.piece.wide / 2 + 14)
        ink.line(
            f"M{short(right)} {short(y)}H{short(right + 26)}M{short(right + 26)} {short(y - 30)}v60",
            6,
        )
        ink.way(((right + 70, y + 48), (right + 8, y + 48)), 0.9)
    state = DrillState(False, not facts.power_off, False, 0, At.WORK, At.VICE)
    places = _drill_places(facts, section, 0)
    del places["lever"], places["start"], places["tip"]
    places.pop("stop", None)
    held = {"vice": "between the jaws of the vice", "V-block": "in the V-block under its strap",
            "fixture": "on the rests of the fixture"}.get(facts.setting.kind, "in its holding")  # fmt: skip
    words = (
        f"The work lies {held}, cut open to scale, and is tightened. One hand is at the work, the "
        f"other tightens. {drill_words(state)}"
    )
    return Picture(ink.joined(), _front(facts, state), words, places)


def _fit_tool(facts: Facts) -> Picture | None:
    kind = facts.cutter.kind if facts.cutter else "drill"
    state = DrillState(False, False, False, 0, At.AWAY, At.KEY, key_in_chuck=True, has_tool=True,
                       has_work=False)  # fmt: skip
    if not facts.power_off:
        return None
    words = (
        "The tool goes up into the open chuck, and a hand turns the chuck key in it. "
        f"{drill_words(state)}"
    )
    return Picture(chuck_close(kind, goes_in=True), _front(facts, state), words,
                   {"isolator": _drill_places(facts, None, 0)["isolator"],
                    "key": ((300, 118), (376, 214)), "tip": ((220, 386), (300, 380))})  # fmt: skip


def _empty(facts: Facts) -> Picture | None:
    if not facts.power_off:
        return None
    state = DrillState(False, False, False, 0, At.AWAY, At.KEY, key_in_chuck=True, has_work=False)
    words = (
        "The tool comes down out of the chuck, and a hand turns the chuck key in it. "
        f"{drill_words(state)}"
    )
    return Picture(chuck_close("drill", goes_in=False), _front(facts, state), words,
                   {"isolator": _drill_places(facts, None, 0)["isolator"],
                    "key": ((300, 118), (376, 214))})  # fmt: skip


def _start(facts: Facts) -> Picture | None:
    if facts.is_grinder:
        wheel = WheelState("turning", True, True, stands="aside", moves=("start", "person"))
        words = f"Start is pressed with the shield down. {wheel_words(wheel)}"
        return _wheel(wheel, words)
    section, ink = _drawn_section(facts, -9, stop=True, hole=0, turning=True)
    _sizes(facts, section, ink, -9)
    if facts.cutter:
        ink.round_way(
            section.middle, 96, facts.cutter.size / 2 * section.scale + 26, 9, 20, 200, 0.9
        )
    state = DrillState(True, True, True, 0, At.ON_START, At.LEVER, moves=("guard",))
    words = (
        "The tool turns above the work, cut open to scale. One finger presses start, the other hand "
        f"is on the feed lever, and no hand is inside. {drill_words(state)}"
    )
    places = _drill_places(facts, section, -9, shut=True)
    return Picture(ink.joined(), _front(facts, state), words, places)


def _clear(facts: Facts, by: str = "brush") -> Picture | None:
    state = DrillState(False, not facts.power_off, False, 0, At.AWAY,
                       At.BRUSH if by == "brush" else At.AWAY, moves=("guard",))  # fmt: skip
    with_what = "A brush takes" if by == "brush" else "The nozzle of a vacuum cleaner takes"
    words = f"{with_what} the chips away, and no finger touches them. {drill_words(state)}"
    places = _drill_places(facts, None, 0)
    places["brush"] = ((228, 244), (200, 170)) if by == "brush" else ((228, 262), (180, 190))
    del places["lever"], places["start"]
    return Picture(service.cleaning(by), _front(facts, state), words, places)


def _turn_work(facts: Facts) -> Picture | None:
    state = DrillState(False, not facts.power_off, False, 0, At.WORK, At.WORK)
    words = f"Both hands turn the work end for end; a dot marks its datum end. {drill_words(state)}"
    drawn = bench.turned(facts.length, facts.piece.wide, facts.holes)
    places = _drill_places(facts, None, 0)
    del places["lever"], places["start"]
    return Picture(drawn, _front(facts, state), words, places)


def _tap(facts: Facts, depth: float, *, guide: bool, way: str, said: str) -> Picture | None:
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
            f"M{short(m - 34)} 0H{short(m + 34)}V18L{short(m + 18)} 34H{short(m - 18)}L{short(m - 34)} 18Z",
            FINE,
        )
    ink.moves = True
    ink.box(m - 24, y - 6, 48, 22, FINE)
    ink.line(
        f"M{short(m - 130)} {short(y + 5)}H{short(m - 24)}M{short(m + 24)} {short(y + 5)}H{short(m + 130)}",
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
    return Picture(ink.joined(), _front(facts, state), words, places)


def _set_guide(facts: Facts) -> Picture | None:
    if not facts.power_off or not facts.piece.hole:
        return None
    guided = replace(facts, cutter=Cutter("guide", 10, 60), stop=None)
    depth = facts.piece.hole / 2 / tan(radians(30))
    section, ink = _drawn_section(guided, depth, stop=False)
    ink.way(((section.middle - 70, 60), (section.middle - 70, 130)))
    state = DrillState(False, False, False, 0.45, At.AWAY, At.LEVER, moves=("quill down",))
    words = (
        "The point of the tap guide, in the chuck, goes down into the middle of the hole, cut open "
        f"to scale. {drill_words(state)}"
    )
    return Picture(ink.joined(), _front(facts, state), words, _drill_places(guided, section, depth))


def _prove(facts: Facts) -> Picture | None:
    if facts.cutter is None or facts.stop is None or facts.cutter.kind != "countersink":
        return None
    section, ink = _section(facts), Ink()
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
    return Picture(ink.joined(), _front(facts, state), words, {})


# The grinder


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


def _gap(facts: Facts, where: str) -> Picture | None:
    grinding = facts.machine.grinding
    if grinding is None or not facts.power_off:
        return None
    state = WheelState(at_rest="gauge" if where == "rest" else "", at_tongue=where == "tongue")
    gap = grinding.work_rest_gap if where == "rest" else grinding.tongue_gap
    size = facts.told(gap.value)
    words = (
        f"The step of the gap gauge is tried at the {'work rest' if where == 'rest' else 'tongue guard'}: "
        f"the gap is {size} at most. {wheel_words(state)}"
    )
    return _wheel(state, words, size if where == "rest" else "", size if where == "tongue" else "")


def _at_wheel(
    what: str, move: str, said: str, back: float = 0.0
) -> Callable[[Facts], Picture | None]:
    def drawn(facts: Facts) -> Picture | None:
        lies = what or ("pin" if facts.piece.is_round else "plate")
        state = WheelState("turning", True, True, stands="front", at_rest=lies, back=back,
                           moves=(move,) if move else ())  # fmt: skip
        return _wheel(state, f"{said} {wheel_words(state)}")

    return drawn


def _dead_wheel(said: str, **given: object) -> Callable[[Facts], Picture | None]:
    def drawn(facts: Facts) -> Picture | None:
        if not facts.power_off:
            return None
        plug = facts.locked
        state = WheelState(plug_in=plug, locked=facts.locked, **given)  # type: ignore[arg-type]
        return _wheel(state, f"{said} {wheel_words(state)}")

    return drawn


# Making safe, and the bench


def _safe(drawn: str, said: str, *, power_on: bool = False, turning: bool = False, locked: bool = False,
          moves: tuple[str, ...] = (), left: At = At.AWAY) -> Callable[[Facts], Picture | None]:  # fmt: skip
    def picture(facts: Facts) -> Picture | None:
        if facts.is_grinder:
            motion = "coasting" if turning else "still"
            plug = power_on or turning or not facts.plug_out
            wheel = WheelState(motion, power_on or turning, plug, locked=locked, stands="aside")
            return Picture(
                drawn or wheel_side(wheel), place_above(wheel), f"{said} {wheel_words(wheel)}"
            )
        state = DrillState(True, power_on, False, 0, left, At.AWAY, locked=locked, moves=moves)
        right = _front(facts, state)
        return Picture(drawn or service.start_tried(), right, f"{said} {drill_words(state)}")

    return picture


def _stop(facts: Facts) -> Picture | None:
    if facts.is_grinder:
        wheel = WheelState("coasting", True, True, stands="aside")
        return _wheel(
            wheel, f"Stop was pressed, and nobody touches the wheel. {wheel_words(wheel)}"
        )
    state = DrillState(True, True, True, 0, At.ON_STOP, At.LEVER)
    section, ink = _drawn_section(facts, -9, stop=False, hole=0, turning=True)
    ink.round_way(section.middle, 96, 60, 9, 20, 200, 0.9)
    words = f"One finger presses stop, and the tool coasts above the work. {drill_words(state)}"
    return Picture(ink.joined(), _front(facts, state), words, {})


def _bench(doing: str, said: str) -> Callable[[Facts], Picture | None]:
    return lambda facts: Picture(bench.in_bench_vice(doing, facts.piece), words=said)


def _gauge(facts: Facts) -> Picture | None:
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
        f"The GO end of the plug gauge goes into the hole of {said}. Beside it the NO-GO end stands on "
        "the hole and does not go in."
    )
    return Picture(bench.gauged(piece, said, thread=thread), words=words)


def _measure(facts: Facts) -> Picture | None:
    size = facts.cutter.size if facts.cutter else facts.piece.hole
    return Picture(bench.measured(replace(facts.piece, hole=size or 0), ""),
                   words="A caliper lies flat on both sides of the work, held with two hands.")  # fmt: skip


def _plain(drawn: str, said: str) -> Callable[[Facts], Picture | None]:
    return lambda _: Picture(drawn, words=said)


DRAWN: Mapping[Act, Callable[[Facts], Picture | None]] = MappingProxyType(
    {
        Act.CHECK_SET_UP: _check_set_up,
        Act.FIT_TOOL: _fit_tool,
        Act.EMPTY_MACHINE: _empty,
        Act.CLAMP: _clamp,
        Act.FIRST_TOUCH: _first_touch,
        Act.START: _start,
        Act.CUT: _cut,
        Act.CLEAR_CHIPS: _clear,
        Act.CLEAR_BY_VACUUM: lambda facts: _clear(facts, "vacuum"),
        Act.TURN_WORK: _turn_work,
        Act.GAUGE: _gauge,
        Act.MEASURE: _measure,
        Act.DEBURR: _bench("countersink", "The work is in the bench vice. A hand turns the countersink at the mouth of its hole."),
        Act.FILE: _bench("file", "The work is in the bench vice. A file goes over its edge, with a hand at each end."),
        Act.CLEAN_HOLE: _bench("brush", "The work is in the bench vice. A bottle brush goes down through its hole."),
        Act.PROVE_SEAT: _prove,
        Act.SET_GUIDE: _set_guide,
        Act.START_TAP: lambda facts: _tap(facts, 3, guide=True, way="in", said="The tap takes its first turns under the guide"),
        Act.CUT_THREAD: lambda facts: _tap(facts, 9, guide=False, way="both", said="The tap goes down, forward and back"),
        Act.WIND_OUT: lambda facts: _tap(facts, 5, guide=False, way="out", said="The tap is turned back out"),
        Act.STOP: _stop,
        Act.SWITCH_OFF: _safe(service.isolator("off"), "A hand turns the isolator to O.", moves=("isolator",)),
        Act.LOCK: _safe(service.isolator("lock"), "A hand puts a lock and a tag on the isolator.", locked=True),
        Act.UNLOCK: _safe(service.isolator("unlock"), "A hand takes the lock off, and the handle stays at O."),
        Act.TRY_START: _safe(service.start_tried(), "A finger presses start, and nothing turns.", locked=True),
        Act.EASE_BELTS: lambda facts: _belts(facts, "ease", "A hand lets the tension lever come round slowly, with the belt cover shut."),
        Act.MOVE_BELTS: lambda facts: _belts(facts, "move", "A palm on its flat side moves the belt to the next step; its former place is dashed."),
        Act.TELL_PEOPLE: _plain(service.people("tell"), "One person at the machine tells everybody who stands round it."),
        Act.CLEAR_PEOPLE: _plain(service.people("clear"), "Everybody but the one at the machine goes away from it, beyond a line."),
        Act.READ_CARD: _plain(bench.card("read"), "A finger goes along the lines of a card."),
        Act.SIGN_CARD: _plain(bench.card("sign"), "A hand signs a card whose lines are ticked."),
        Act.BRUSH_DOWN: _plain(service.cleaning("brush"), "A brush takes chips off the vice, away from the hand."),
        Act.VACUUM: _plain(service.cleaning("vacuum"), "The nozzle of a vacuum cleaner takes up the chips."),
        Act.WIPE: _plain(service.cleaning("wipe"), "A hand draws a wipe over the bare metal."),
        Act.MOP: _plain(service.cleaning("mop"), "The floor is mopped; a wet-floor sign stands beside it."),
        Act.CHECK_REST_GAP: lambda facts: _gap(facts, "rest"),
        Act.CHECK_TONGUE_GAP: lambda facts: _gap(facts, "tongue"),
        Act.LOOK_OVER: _plain(bench.looked_at(), "A hand tries a bolt of the guard; the cable is whole."),
        Act.TURN_WHEEL_BY_HAND: _dead_wheel("A flat hand turns the wheel upwards.", hand_on_wheel=True),
        Act.REST_WORK: _at_wheel("", "", "The work lies flat on the work rest, clear of the wheel, with both hands at its far end.", 1.0),
        Act.GRIND: _at_wheel("", "work", "The work lies flat on the work rest and touches the rim, with both hands at its far end."),
        Act.ROLL: _at_wheel("pin", "roll", "The pin lies flat on the work rest and is rolled against the rim, with both hands on its holder."),
        Act.DRAW_BACK: _at_wheel("", "work back", "The work is drawn straight back from the wheel.", 1.0),
        Act.DRESS: _at_wheel("dresser", "", "The dresser hooks over the work rest and touches the rim, held in both hands."),
        Act.SET_GAPS: _dead_wheel("Work rest and tongue guard are moved in towards the wheel.", moves=("rest", "rest in", "tongue")),
        Act.OPEN_REST: _dead_wheel("The work rest is moved back from the wheel.", moves=("rest",)),
        Act.WHEEL_OFF: _dead_wheel("The guard is open, and the old wheel comes off.", guard_open=True, has_wheel=False, shield_down=False),
        Act.WHEEL_ON: _dead_wheel("The guard is open, and the new wheel is on the spindle.", guard_open=True, shield_down=False),
        Act.READ_LABEL: _plain(bench.wheel_at_bench("label"), "A finger on the label of the wheel."),
        Act.LOOK_AT_WHEEL: _plain(bench.wheel_at_bench("look"), "A hand turns the wheel under a lamp."),
        Act.HANG_WHEEL: _plain(bench.wheel_at_bench("hang"), "The wheel hangs by its bore on a rod, clear of the floor."),
        Act.TAP_WHEEL: _plain(bench.wheel_at_bench("tap"), "The wheel hangs on a rod. A mallet taps its side at one of four marked places, left and right of the upright line."),
        Act.TAG_WHEEL: _plain(bench.wheel_at_bench("tag"), "A hand hangs a tag on the wheel."),
    }
)  # fmt: skip
"""Each act with what draws it; a test sees that none is left out."""


def _belts(facts: Facts, doing: str, said: str) -> Picture | None:
    if not facts.locked:
        return None
    state = DrillState(True, False, False, locked=True, cover_open=doing == "move", has_work=False)
    return Picture(service.belts(doing), _front(facts, state), f"{said} {drill_words(state)}")


Pairs = tuple[tuple[Markup | None, ...], ...]


@dataclass(frozen=True, slots=True)
class JobScenes:
    """The scenes of a job, with the pairs of its key points."""

    scenes: tuple[Scene | None, ...]
    """Of each step without a picture, in order; None where it has none that would be true."""
    pairs: Pairs
    """Of each step, for each of its key points."""
    lines: Markup
    """The lines that several of them share: they stand once on the page."""


def scenes_of(shop: Shop, job: Job, sheets: Sequence[SetUpSheet]) -> JobScenes:
    """Everything that is drawn for the steps of a job."""
    holdings = tuple(dict.fromkeys(_holdings(shop, job, sheets)))
    found: dict[str, str] = {}

    def once(svg: Markup) -> Markup:
        text = str(svg)
        for shape in (*SHARED, *holdings):
            if len(shape) > 150 and shape in text:
                name = found.setdefault(shape, f"scene--{len(found) + 1}")
                text = text.replace(shape, f'<use href="#{name}"/>')
        return Markup(text)

    scenes, pairs = [], []
    for step in job.steps:
        scene = None if step.picture else scene_of(shop, job, step, sheets)
        scenes.append(replace(scene, svg=once(scene.svg)) if scene else None)
        grinds = shop.machines[step.station or job.machine].grinding is not None
        told: set[SoNotSo | None] = {None}  # a pair is shown once in a step
        drawn: list[Markup | None] = []
        for one in step.key_points:
            is_new = one.so not in told
            told.add(one.so)
            new = one.so if is_new else None
            drawn.append(once(pair_of(new, at_grinder=grinds)) if new else None)
        pairs.append(tuple(drawn))
    shared = "".join(f'<g id="{name}">{shape}</g>' for shape, name in found.items())
    lines = f'<svg class="bl-shared" width="0" height="0" aria-hidden="true"><defs>{shared}</defs></svg>'
    return JobScenes(tuple(scenes), tuple(pairs), Markup(lines if shared else ""))


SHARED = (
    FIST, POINTING, PINCH, FLAT, DRILL_BODY, DRILL_TABLE, WHEEL_STAND, PAIR_CHUCK, PAIR_WHEEL,
)  # fmt: skip
"""Lines that are the same in many scenes."""


def _holdings(shop: Shop, job: Job, sheets: Sequence[SetUpSheet]) -> Iterator[str]:
    """The holding of each set-up, which stands still through all steps."""
    if job.holding is None:
        return
    for step in job.steps:
        ink = Ink()
        _section(facts_of(shop, job, step, sheets)).draw_holding(ink)
        yield ink.joined()
