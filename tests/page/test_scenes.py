"""Scenes of steps: true to their records, never showing what must not be, sound as SVG."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from math import radians, tan
from pathlib import Path
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf import pipeline
from benchleaf.compute import set_up_sheets
from benchleaf.drawings.ink import hatching
from benchleaf.drawings.part_plan import part_plan
from benchleaf.drawings.scene_drill import At, DrillState, drill_front
from benchleaf.drawings.scene_facts import Facts, facts_of
from benchleaf.drawings.scene_pairs import pair_of
from benchleaf.drawings.scene_picture import Scene
from benchleaf.drawings.scene_section import Cutter, Piece, Section, Setting
from benchleaf.drawings.scene_wheel import WheelState
from benchleaf.drawings.scenes import DRAWN, scene_of, scenes_of
from benchleaf.model import (
    Act,
    Job,
    Protection,
    Shop,
    SoNotSo,
    Step,
    why_no_scene,
)
from running import some

UNSEEN = {("tr-0530", "set-depth-stop")}
"""In the empty vice, to a figure that no record holds: told by the check, drawn by nobody."""


@pytest.fixture(scope="module")
def demo() -> Shop:
    return pipeline.load(Path(__file__).parents[2] / "content").shop


Drawn = list[tuple[Job, Step, Scene | None]]


@pytest.fixture(scope="module")
def every(demo: Shop) -> Drawn:
    """Every step of the demo with its scene."""
    sheets = {job.id: tuple(set_up_sheets(demo, job)) for job in demo.jobs.values()}
    return [
        (job, step, scene_of(demo, job, step, sheets[job.id]))
        for job in demo.jobs.values()
        for step in job.steps
    ]


def drawn(shop: Shop, job_id: str, step_id: str) -> tuple[Facts, Scene]:
    job = shop.jobs[job_id]
    step = next(one for one in job.steps if one.id == step_id)
    sheets = tuple(set_up_sheets(shop, job))
    scene = scene_of(shop, job, step, sheets)
    assert scene is not None
    return facts_of(shop, job, step, sheets), scene


def test_each_act_and_each_pair_is_drawn() -> None:
    assert set(DRAWN) == set(Act)
    pairs = {pair_of(one) for one in SoNotSo}
    assert len(pairs) == len(SoNotSo)


def test_every_step_of_the_demo_shows_a_picture_or_a_scene(every: Drawn) -> None:
    found = {
        (job.id, step.id) for job, step, scene in every if step.picture is None and scene is None
    }
    assert found == UNSEEN


def test_no_scene_contradicts_its_step(every: Drawn) -> None:
    """Spindle, guard and power are read off the words, and held against what the step declares."""
    for job, step, scene in every:
        inside = step.hands_inside
        if scene is None or inside is None:
            continue
        text = scene.text
        assert not re.search(r"spindle turns|wheel (?:turns|coasts)|guard is down", text) or (
            step.scene in (Act.EASE_BELTS, Act.MOVE_BELTS)
        ), (job.id, step.id, text)
        if inside.protected_by is not Protection.INTERLOCK and "isolator" in text:
            assert "isolator stands at O" in text, (job.id, step.id, text)


def test_what_runs_is_shown_guarded_with_both_hands_outside(every: Drawn) -> None:
    texts = [scene.text for _, _, scene in every if scene and "spindle turns" in scene.text]
    for text in some(texts):
        assert "The chuck guard is down, the isolator stands at I" in text
        assert "hand is at the work" not in text


@pytest.mark.parametrize(
    ("job", "step", "above"),
    [("tr-0120", "clamp-plate", 1), ("tr-0430", "clamp-stay", 3), ("tr-0510", "clamp-block", 6)],
)
def test_the_work_stands_as_far_above_the_jaws_as_the_job_says(
    demo: Shop, job: str, step: str, above: float
) -> None:
    """The job's own words: `stands 1 mm above them`; the scene reckons it from three records."""
    facts, _ = drawn(demo, job, step)
    assert facts.setting.jaw_top(facts.piece) == pytest.approx(above)
    holding = demo.jobs[job].holding
    assert holding is not None
    assert f"{above:g} mm" in holding.how


def test_the_point_at_the_stop_lies_through_the_work_by_the_allowance(demo: Shop) -> None:
    facts, scene = drawn(demo, "tr-0120", "drill-hole")
    section = Section(facts.piece, facts.setting, facts.cutter)
    point = 8.5 / 2 / tan(radians(118 / 2))
    assert facts.stop == pytest.approx(6 + point + 2, abs=0.06), "thickness, point, overtravel"
    thin = [
        one for one in re.findall(r'd="(M[^"]+)"[^>]*dasharray="9 5"', scene.svg) if "H" not in one
    ]
    tips = [max(float(y) for y in re.findall(r"[ML][-\d.]+ ([-\d.]+)", one)) for one in thin]
    assert max(tips) == pytest.approx(section.y(6 + point + 2), abs=0.6)
    assert "10.6 mm from first touch" in scene.text


def test_a_cone_is_measured_from_the_mouth_that_it_touches_first(demo: Shop) -> None:
    facts, scene = drawn(demo, "tr-0430", "sink-hole")
    assert facts.touch == pytest.approx(6.5 / 2), "90 degrees: as deep as half of the hole is wide"
    assert facts.travel == pytest.approx((13.44 - 6.5) / 2, abs=0.06)
    assert facts.stop == pytest.approx(13.44 / 2, abs=0.06)
    assert "3.5 mm from first touch" in scene.text


def test_a_larger_drill_touches_down_beside_its_pilot_hole(demo: Shop) -> None:
    job = demo.jobs["tr-0520"]
    sheets = tuple(set_up_sheets(demo, job))
    cut = next(one for one in job.steps if one.scene is Act.CUT)
    assert facts_of(demo, job, cut, sheets).piece.hole == 5


@given(
    size=st.floats(2, 20), angle=st.floats(60, 140), depth=st.floats(0, 40), high=st.floats(3, 40),
    share=st.floats(0, 1),
)  # fmt: skip
def test_the_hole_is_as_wide_as_the_drill_where_it_has_been(
    size: float, angle: float, depth: float, high: float, share: float
) -> None:
    section = Section(Piece(high, 4 * size), Setting("none"), Cutter("drill", size, angle))
    y = share * high
    above = max(0.0, depth - y)
    wanted = min(size / 2, above * tan(radians(angle) / 2))
    assert section.hole_radius(depth, y) == pytest.approx(wanted, abs=1e-6)


def test_what_no_record_gives_is_drawn_to_fit_and_said_so(demo: Shop) -> None:
    facts, scene = drawn(demo, "tr-0120", "drill-hole")
    assert scene.note == "Drawn to fit: tool length."
    tools = {key: one.model_copy(update={"height": None}) for key, one in demo.tools.items()}
    bare = replace(demo, tools=tools)
    _, without = drawn(bare, "tr-0120", "drill-hole")
    assert without.note == "Drawn to fit: tool length, parallels, jaws."
    assert "to scale" not in without.text
    assert facts.setting.jaws == 35


def test_what_must_not_be_run_is_not_drawn(demo: Shop) -> None:
    job = demo.jobs["tr-0120"]
    step = next(one for one in job.steps if one.scene is Act.CUT)
    weak = demo.machines["pillar-drill"].model_copy(
        update={"drill_capacity": demo.tools["drill-5"].size}
    )
    shop = replace(demo, machines={**demo.machines, "pillar-drill": weak})
    sheets = tuple(set_up_sheets(shop, job))
    assert not all(one.may_run for one in sheets)
    assert scene_of(shop, job, step, sheets) is None


@pytest.mark.parametrize(
    "state",
    [
        lambda: DrillState(False, True, True),
        lambda: DrillState(True, False, True),
        lambda: DrillState(True, True, True, right=At.WORK),
        lambda: DrillState(True, True, True, right=At.BRUSH),
        lambda: DrillState(True, True, False, right=At.KEY),
        lambda: DrillState(False, True, False, key_in_chuck=True),
        lambda: DrillState(True, True, True, cover_open=True),
        lambda: DrillState(True, True, True, locked=True),
        lambda: WheelState("turning", True, True, guard_open=True),
        lambda: WheelState("turning", True, True, shield_down=False),
        lambda: WheelState("turning", False, True),
        lambda: WheelState("coasting", at_rest="gauge"),
        lambda: WheelState(at_rest="gauge", plug_in=True),
        lambda: WheelState(at_tongue=True, power_on=True),
        lambda: WheelState(hand_on_wheel=True, plug_in=True),
        lambda: WheelState("turning", True, True, locked=True),
    ],
)
def test_a_state_that_must_never_be_cannot_be_drawn(state: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match=r"hand|spindle|wheel|key"):
        state()


def test_an_act_stands_only_where_it_fits(demo: Shop) -> None:
    drill, grinder = demo.machines["pillar-drill"], demo.machines["bench-grinder"]
    cut = next(one for one in demo.jobs["tr-0120"].steps if one.scene is Act.CUT)
    assert why_no_scene(cut, drill) == ""
    assert why_no_scene(cut, grinder) == "it belongs to a drill"
    assert "set_up" in why_no_scene(cut.model_copy(update={"set_up": None}), drill)
    brush = cut.model_copy(update={"scene": Act.CLEAR_CHIPS})
    assert "hands_inside" in why_no_scene(brush, drill)
    clear = next(one for one in demo.jobs["tr-0120"].steps if one.scene is Act.CLEAR_CHIPS)
    assert "lets hands inside" in why_no_scene(clear.model_copy(update={"scene": Act.START}), drill)


def test_scenes_are_sound_small_and_share_what_is_the_same(demo: Shop) -> None:
    for job in demo.jobs.values():
        found = scenes_of(demo, job, set_up_sheets(demo, job))
        pairs = [one for step in found.pairs for one in step if one]
        scenes = [one.svg for one in found.scenes if one]
        whole = f"<div>{found.lines}{''.join(scenes)}{''.join(pairs)}</div>"
        tree = ElementTree.fromstring(whole)
        ids = [one.attrib["id"] for one in tree.iter() if "id" in one.attrib]
        assert len(ids) == len(set(ids))
        assert {one.attrib["href"][1:] for one in tree.iter("use")} <= set(ids)
        assert len(whole) < 50_000, job.id
        assert not re.search(r'(?:fill|stroke)="#|rgb\(|style=', whole)
        for pair in pairs:
            assert "<text" not in pair
        for svg in tree.findall("svg[@class='bl-drawing']"):
            _letters_inside(svg)
            points = [one.attrib["data-point"] for one in svg.iter() if "data-point" in one.attrib]
            assert len(points) == len(set(points))


def _letters_inside(svg: ElementTree.Element) -> None:
    wide, high = (float(one) for one in svg.attrib["viewBox"].split()[2:])
    assert svg.attrib["role"] == "img"
    assert len(svg.attrib["aria-label"]) > 20
    for text in svg.iter("text"):
        words, x = text.text or "", float(text.attrib["x"])
        assert re.fullmatch(r"⌀?[\d./ -]+ ?(?:mm|in)?(?: \(.*\))?|\d", words), "figures, no words"
        assert 0 <= x <= wide
        assert 20 <= float(text.attrib["y"]) <= high


def test_a_pair_crosses_the_second_picture_only() -> None:
    for kind in SoNotSo:
        svg = ElementTree.fromstring(pair_of(kind))
        first, second = svg.findall("svg")
        (bar,) = (one for one in svg.findall("path") if one.attrib.get("class") == "bl-not")
        xs = [float(one) for one in re.findall(r"[ML]([\d.]+)", bar.attrib["d"])]
        left = float(second.attrib["x"])
        assert float(first.attrib["x"]) + float(first.attrib["width"]) < left <= min(xs)
        assert max(xs) <= left + float(second.attrib["width"])
        assert svg.attrib["aria-label"].count("Not so, crossed out") == 1


def test_the_lever_stands_on_the_side_of_the_record() -> None:
    state = DrillState(True, True, True, left=At.BESIDE_STOP, right=At.LEVER)
    right, left = drill_front(state), drill_front(state, lever_right=False)
    assert right != left
    assert left.startswith('<g transform="translate(276 0) scale(-1 1)">')


def test_the_drawing_of_the_part_is_strong_where_the_job_cuts(demo: Shop) -> None:
    part = demo.parts["trw-204"]
    plans = {one: part_plan(part, one) for one in ("fixing-holes", "pivot-hole", "corners-broken")}
    assert len(set(plans.values())) == 3
    scale = (720 - 48) / 120
    svg = ElementTree.fromstring(plans["pivot-hole"])
    (strong,) = (one for one in svg.iter("circle") if "bl-m" in one.attrib.get("class", "").split())
    assert float(strong.attrib["cx"]) == pytest.approx(24 + 60 * scale, abs=0.1)
    assert float(strong.attrib["r"]) == pytest.approx(8.5 / 2 * scale, abs=0.1)
    assert "hole of 8.5 mm, 60 mm from the datum end" in svg.attrib["aria-label"]
    assert part_plan(part, "blank") == ""


CORNERS = st.lists(st.tuples(st.floats(0, 300), st.floats(0, 300)), min_size=3, max_size=3)


@given(st.floats(4, 30), st.floats(0, 179), CORNERS)
def test_hatching_stays_inside_what_is_cut(
    gap: float, angle: float, corners: list[tuple[float, float]]
) -> None:
    low_x, high_x = min(x for x, _ in corners), max(x for x, _ in corners)
    low_y, high_y = min(y for _, y in corners), max(y for _, y in corners)
    for line in hatching(corners, gap, angle):
        numbers = [float(one) for one in re.findall(r"-?[\d.]+", line)]
        for x, y in zip(numbers[::2], numbers[1::2], strict=True):
            assert low_x - 0.1 <= x <= high_x + 0.1
            assert low_y - 0.1 <= y <= high_y + 0.1
