"""Which line of a hazard stands at a step, once its whole text was read."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.model import Hazard, Shop, Step, control_here, control_shown

CONTENT = Path(__file__).parents[2] / "content"


@pytest.fixture(scope="module")
def shop() -> Shop:
    return pipeline.load(CONTENT).shop


def hazard(shop: Shop, **changed: object) -> Hazard:
    """Of the demo, with other lines."""
    return shop.hazards["work-turns"].model_copy(update=changed)


def step(shop: Shop, name: str, job: str = "tr-0110") -> Step:
    return next(one for one in shop.jobs[job].steps if one.id == name)


@pytest.mark.parametrize(
    ("at", "hazard_id", "line"),
    [
        ("clamp-plate", "work-turns", "Push against the clamped work before each start."),
        ("drill-hole", "break-through", "Ease the feed lever as soon as it begins to go light."),
        ("clear-chips", "hot-sharp-chips", "Use the chip brush, never fingers."),
    ],
)
def test_it_is_the_line_whose_words_the_step_uses(
    shop: Shop, at: str, hazard_id: str, line: str
) -> None:
    assert control_here(shop.hazards[hazard_id], step(shop, at)) == line


def test_without_such_a_line_it_is_the_first_guard_else_the_first_thing_to_do(shop: Shop) -> None:
    far, floor = step(shop, "deburr-hole", "tr-0510"), shop.hazards["slippery-floor"]
    assert control_here(floor, far) is None
    assert control_shown(floor, far) == floor.controls.guard[0]
    bare = shop.hazards["work-turns"].controls.model_copy(update={"guard": ()})
    unguarded = hazard(shop, controls=bare, avoid=("Wear nothing loose.",))
    assert control_shown(unguarded) == "Wear nothing loose."


def test_whatever_is_shown_is_a_line_of_the_hazard_itself(shop: Shop) -> None:
    seen = 0
    for job in shop.jobs.values():
        for one in job.steps:
            for found in (shop.hazards[hazard_id] for hazard_id in one.hazards):
                kept = found.controls
                lines = {*found.avoid, *kept.design_out, *kept.guard, *kept.warn, *kept.procedure,
                         *kept.wear}  # fmt: skip
                assert control_shown(found, one) in lines
                seen += 1
    assert seen > 100
