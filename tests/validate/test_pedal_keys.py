"""A pedal's key never presses a button: a foot must not answer a hazard."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf import pipeline

Edited = Callable[..., dict[str, str]]
LAST = "preface: safety.md"


@pytest.mark.parametrize("key", ["Enter", "enter", "Space", "Spacebar", "Tab"])
@pytest.mark.parametrize("which", ["pedal_next", "pedal_back"])
def test_keys_that_press_a_button_are_refused(
    shop: Callable[..., Path], edited: Edited, key: str, which: str
) -> None:
    content = shop(edited("manual.yml", LAST, f"{LAST}\nkiosk:\n  {which}: {key}"))
    (found,) = [one for one in pipeline.check(content) if one.fails_check]
    assert (found.code, found.place.line, found.place.column) == ("F208", 11, 15)
    assert "no key for a pedal" in found.text
    assert "F13" in found.help[0]


def test_any_other_key_is_taken(shop: Callable[..., Path], edited: Edited) -> None:
    keys = "\nkiosk:\n  pedal_next: PageDown\n  pedal_back: F14"
    content = shop(edited("manual.yml", LAST, LAST + keys))
    assert [one for one in pipeline.check(content) if one.fails_check] == []
