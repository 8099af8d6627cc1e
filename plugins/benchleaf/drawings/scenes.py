"""The scene of a step: what the hand does, drawn from the records, with the same in words.

One function an act puts panels side by side; each panel is drawn from a state that refuses what
must never be shown. No scene is better than a wrong one: where a record lacks what an act needs, or
the set-up must not be run, there is none.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType

from markupsafe import Markup

from benchleaf.compute import SetUpSheet
from benchleaf.model import Act, Job, Shop, SoNotSo, Step, why_no_scene

from . import scene_bench as bench
from . import scene_drill_acts as drill
from . import scene_other_acts as other
from . import scene_service as service
from .hands import FIST, FLAT, PINCH, POINTING
from .ink import Ink
from .scene_drill import (
    DRILL_BODY,
    DRILL_TABLE,
)
from .scene_facts import Facts, facts_of
from .scene_pairs import PAIR_CHUCK, PAIR_WHEEL, pair_of
from .scene_picture import SECOND, Picture, Scene, add_balloons, as_svg
from .scene_wheel import WHEEL_STAND
from .scene_words import SAID


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
    add_balloons(ink, step, picture)
    fitted = facts.fitted if "scale" in picture.words else ()
    text = picture.words.replace(" to scale", "") if fitted else picture.words
    note = f"Drawn to fit: {', '.join(fitted)}." if fitted else ""
    return Scene(as_svg(ink.joined(), picture.width, text), text, note)


DRAWN: Mapping[Act, Callable[[Facts], Picture | None]] = MappingProxyType(
    {
        Act.CHECK_SET_UP: drill.check_set_up,
        Act.FIT_TOOL: drill.fit_tool,
        Act.EMPTY_MACHINE: drill.empty,
        Act.CLAMP: drill.clamp,
        Act.FIRST_TOUCH: drill.first_touch,
        Act.START: other.start,
        Act.CUT: drill.cut,
        Act.CLEAR_CHIPS: drill.clear,
        Act.CLEAR_BY_VACUUM: lambda facts: drill.clear(facts, "vacuum"),
        Act.TURN_WORK: drill.turn_work,
        Act.GAUGE: other.gauge,
        Act.MEASURE: other.measure,
        Act.DEBURR: other.in_vice("countersink", SAID[Act.DEBURR]),
        Act.FILE: other.in_vice("file", SAID[Act.FILE]),
        Act.CLEAN_HOLE: other.in_vice("brush", SAID[Act.CLEAN_HOLE]),
        Act.PROVE_SEAT: drill.prove,
        Act.SET_GUIDE: drill.set_guide,
        Act.START_TAP: lambda facts: drill.tap(
            facts, 3, guide=True, way="in", said=SAID[Act.START_TAP]
        ),
        Act.CUT_THREAD: lambda facts: drill.tap(
            facts, 9, guide=False, way="both", said=SAID[Act.CUT_THREAD]
        ),
        Act.WIND_OUT: lambda facts: drill.tap(
            facts, 5, guide=False, way="out", said=SAID[Act.WIND_OUT]
        ),
        Act.STOP: other.stop,
        Act.SWITCH_OFF: other.safe(
            service.isolator("off"), SAID[Act.SWITCH_OFF], moves=("isolator",)
        ),
        Act.LOCK: other.safe(service.isolator("lock"), SAID[Act.LOCK], locked=True),
        Act.UNLOCK: other.safe(service.isolator("unlock"), SAID[Act.UNLOCK]),
        Act.TRY_START: other.safe(service.start_tried(), SAID[Act.TRY_START], locked=True),
        Act.EASE_BELTS: lambda facts: other.belts(facts, "ease", SAID[Act.EASE_BELTS]),
        Act.MOVE_BELTS: lambda facts: other.belts(facts, "move", SAID[Act.MOVE_BELTS]),
        Act.TELL_PEOPLE: other.plain(service.people("tell"), SAID[Act.TELL_PEOPLE]),
        Act.CLEAR_PEOPLE: other.plain(service.people("clear"), SAID[Act.CLEAR_PEOPLE]),
        Act.READ_CARD: other.plain(bench.card("read"), SAID[Act.READ_CARD]),
        Act.SIGN_CARD: other.plain(bench.card("sign"), SAID[Act.SIGN_CARD]),
        Act.BRUSH_DOWN: other.plain(service.cleaning("brush"), SAID[Act.BRUSH_DOWN]),
        Act.VACUUM: other.plain(service.cleaning("vacuum"), SAID[Act.VACUUM]),
        Act.WIPE: other.plain(service.cleaning("wipe"), SAID[Act.WIPE]),
        Act.MOP: other.plain(service.cleaning("mop"), SAID[Act.MOP]),
        Act.LET_REST: other.let_rest,
        Act.CHECK_REST_GAP: lambda facts: other.gap(facts, "rest"),
        Act.CHECK_TONGUE_GAP: lambda facts: other.gap(facts, "tongue"),
        Act.LOOK_OVER: other.plain(bench.looked_at(), SAID[Act.LOOK_OVER]),
        Act.TURN_WHEEL_BY_HAND: other.dead_wheel(SAID[Act.TURN_WHEEL_BY_HAND], hand_on_wheel=True),
        Act.REST_WORK: other.at_wheel("", "", SAID[Act.REST_WORK], 1.0),
        Act.GRIND: other.at_wheel("", "work", SAID[Act.GRIND]),
        Act.ROLL: other.at_wheel("pin", "roll", SAID[Act.ROLL]),
        Act.DRAW_BACK: other.at_wheel("", "work back", SAID[Act.DRAW_BACK], 1.0),
        Act.DRESS: other.at_wheel("dresser", "", SAID[Act.DRESS]),
        Act.SET_GAPS: other.dead_wheel(SAID[Act.SET_GAPS], moves=("rest", "rest in", "tongue")),
        Act.OPEN_REST: other.dead_wheel(SAID[Act.OPEN_REST], moves=("rest",)),
        Act.WHEEL_OFF: other.dead_wheel(
            SAID[Act.WHEEL_OFF], guard_open=True, has_wheel=False, shield_down=False
        ),
        Act.WHEEL_ON: other.dead_wheel(SAID[Act.WHEEL_ON], guard_open=True, shield_down=False),
        Act.READ_LABEL: other.plain(bench.wheel_at_bench("label"), SAID[Act.READ_LABEL]),
        Act.LOOK_AT_WHEEL: other.plain(bench.wheel_at_bench("look"), SAID[Act.LOOK_AT_WHEEL]),
        Act.HANG_WHEEL: other.plain(bench.wheel_at_bench("hang"), SAID[Act.HANG_WHEEL]),
        Act.TAP_WHEEL: other.plain(bench.wheel_at_bench("tap"), SAID[Act.TAP_WHEEL]),
        Act.TAG_WHEEL: other.plain(bench.wheel_at_bench("tag"), SAID[Act.TAG_WHEEL]),
    }
)
"""Each act with what draws it; a test sees that none is left out."""


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
    lines = (
        '<svg class="bl-shared" width="0" height="0" aria-hidden="true">'
        f"<defs>{shared}</defs></svg>"
    )
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
        drill.section_of(facts_of(shop, job, step, sheets)).draw_holding(ink)
        yield ink.joined()
