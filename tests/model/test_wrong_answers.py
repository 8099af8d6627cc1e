"""What is offered as wrong is held against what keeps from harm, also in other words."""

from __future__ import annotations

import pytest

from benchleaf.model import says_the_same

SAME = [
    ("Wear your safety glasses.", "Safety glasses with side shields."),
    ("Wait for the spindle to be still.", "Wait until the spindle is still, then raise the guard."),
    ("Hang the key up.", "Keep hold of the key until it hangs on its hook."),
    ("Tie your hair back.", "Tie back long hair and put it under a cap."),
    ("Let nobody touch the buttons.", "Let nobody else touch the buttons while you are inside."),
    ("Put the guard down.", "The chuck guard is down, and the interlock keeps the spindle off."),
    ("Ease the feed lever.", "Ease the feed lever as soon as it begins to go light."),
    ("slow the chuck with a rag", "Never slow the chuck with a hand or a rag."),  # misread
    ("Clamp the [[term:work-stop]].", "Clamp the work stop."),
    ("GLOVES", "Gloves"),
    ("Press the emergency stop when it grabs", "If the drill grabs, press the emergency stop."),
    ("Keep every finger off the wheel.", "Keep every finger a hand's width from the wheel."),
]
OTHER = [
    ("Count the parts in the tote twice.", "Keep the floor clear of totes and chips."),
    ("Turn the tote round.", "Keep the floor round the drill clear of totes and chips."),
    ("Set the lamp lower over the work rest.", "The work rest is set 3 mm or less from the wheel."),
    ("Fill up the fluid tank.", "The table has a rim that takes the fluid back to the tank."),
    ("Read the drawing number aloud.", "Say the stop aloud to your trainer."),
    ("Wipe the feed lever dry.", "Ease the feed lever as soon as it begins to go light."),
    ("Put a new label on the tote.", "The label on the wheel shows its speed and stays on."),
    ("Gloves", "Safety glasses with side shields."),
    ("Start the timer.", "Look at the hook each time before you press start."),
]


@pytest.mark.parametrize(("answer", "line"), SAME)
def test_what_says_the_same_is_seen(answer: str, line: str) -> None:
    assert says_the_same(answer, line)


@pytest.mark.parametrize(("answer", "line"), OTHER)
def test_what_says_something_else_is_let_pass(answer: str, line: str) -> None:
    assert not says_the_same(answer, line)
