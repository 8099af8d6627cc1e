"""What tests of the step view share: going into it, and straight to a step."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

from visitor import to_touch

Visit = Callable[..., Any]
JOB = "tr-0110"
NOW = ".bl-now"


def count(page: Any) -> str:
    words: str = page.locator(".bl-bottom__count").inner_text()
    return words


def enter(visitor: Any, demo: Path, job_id: str = JOB) -> Any:
    page = visitor.open(demo, f"jobs/{job_id}.html")
    page.locator(".bl-learn__start").tap()
    page.locator(".bl-bottom").wait_for()
    return page


def read_hazards(page: Any) -> bool:
    """Touch what must be touched, and go on past the rest; True where there was something."""
    if not page.locator(f"{NOW}.bl-shut").count():
        return False
    button = to_touch(page)
    is_asked = button.count() and button.first.is_visible()  # at the last of their parts
    (button if is_asked else page.locator("[data-do='next']")).first.tap()
    return True


def to_step(page: Any, number: int, *, fresh: bool = False) -> None:
    """Straight to a step as if all before it had been read, or nothing in a sitting that begins.

    That one comes there by touch is shown once, on three screens, by the whole job.
    """
    page.evaluate(
        """([number, fresh]) => { const follow = window.benchleafFollow, state = follow.state;
             state.at = follow.screens.indexOf(follow.steps[number - 1]);
             if (fresh) Object.assign(state, {told: {}, read: {}});
             else follow.screens.slice(0, state.at).forEach(follow.markRead);
             follow.show(); }""",
        [number, fresh],
    )
    assert count(page).split(",")[0] == f"Step {number} of 7"


def choose_round(page: Any, number: int) -> None:
    """The showing is 0, as it does not count."""
    page.locator("[data-do='rounds']").tap()
    page.locator(".bl-extra .bl-choice").nth(number).tap()
