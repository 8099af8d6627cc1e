"""The pocket card: worn, stop, hands inside and handing on, and what goes where room is short."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from planned import words

from benchleaf.link import sheet_address

Site = Callable[..., Any]
Edited = Callable[..., dict[str, str]]
JOB = "vg-0010"
AT_STEP_2 = "    right: A steady hiss"


@pytest.fixture
def card(site: Site) -> Callable[..., str]:
    """`card({...})` is the text of the card of VG-0010 with these files instead."""

    def text(files: dict[str, str] | None = None) -> str:
        return words(site(files, edition="full").html(sheet_address(JOB, "card")))

    return text


def inside(how: str, protection: str = "guard with interlock") -> str:
    return (
        f"    hands_inside:\n      doing: loading\n      protected_by: {protection}\n"
        f"      how: {how}\n"
    )


def points(count: int, kind: str) -> str:
    """So many key points of two lines each."""
    line = "Look at the {} of the plate, and then look once more at the other side of it."
    return "".join(
        f"      - point: {line.format(n)}\n        reason: It shows.\n        kind: {kind}\n"
        for n in range(count)
    )


def test_worn_stop_and_handing_on_are_on_the_card(site: Site, card: Callable[..., str]) -> None:
    controls = site().loaded.shop.machines["bench-drill"].controls
    text = card()
    for wanted in (
        "Wear: Safety glasses with side shields. Off: Gloves, rings and watch.",
        f"Stop: {controls.stop}",
        f"Emergency: {controls.emergency_stop.split('. ')[0].rstrip('.')}.",
        "Handing on: Lay the plates in the tote",
        "If anything is not right:",
    ):
        assert wanted in text


def test_what_protects_hands_inside_is_told_in_full_once_and_named_again(
    card: Callable[..., str], edited: Edited
) -> None:
    files = edited(
        f"jobs/{JOB}.yml",
        "    stand: In front", f"{inside('Raise the guard.')}    stand: In front",
        AT_STEP_2, f"{inside('The guard is up.')}{AT_STEP_2}",
        "  - id: gauge\n", f"  - id: gauge\n{inside('Turn it off.', 'own control of the start')}",
    )  # fmt: skip
    text = card(files)
    one, two, three = (text[text.index(at) :] for at in ("1. Clamp", "2. Drill", "3. Gauge"))
    assert one.startswith(
        "1. Clamp the plate Before your hands go in (guard with interlock). Raise the guard."
    )
    assert two.startswith(
        "2. Drill the hole Before your hands go in: guard with interlock, as at step 1."
    )
    assert "Before your hands go in (own control of the start). Turn it off." in three


@pytest.mark.parametrize("kind", ["makes it easier", "makes or breaks the job"])
def test_points_of_lesser_worth_go_first_and_the_card_says_so(
    card: Callable[..., str], edited: Edited, kind: str
) -> None:
    here = "        reason: The drill grabs as its point comes through.\n        kind: can injure\n"
    assert "more key point" not in card()
    text = card(edited(f"jobs/{JOB}.yml", here, here + points(40, kind)))
    left_out = int(text.split("breakdown sheet has ")[1].split()[0])
    shown = text.count("and then look once more")
    assert 0 < shown < 40
    other = 1 if kind == "makes or breaks the job" else 0  # the one easier point goes before
    assert left_out == 40 - shown + other
    for injury in ("Ease the lever when", "Hang the chuck key", "Press stop, wait"):
        assert injury in text


def test_a_point_that_can_injure_is_never_left_out(
    card: Callable[..., str], edited: Edited
) -> None:
    here = "        reason: The drill grabs as its point comes through.\n        kind: can injure\n"
    text = card(edited(f"jobs/{JOB}.yml", here, here + points(60, "can injure")))
    assert text.count("and then look once more") == 60
    # it takes a second sheet then, and leaves nothing out
    assert "more key point" not in text
    assert "Let fluid run on the drill." in text
