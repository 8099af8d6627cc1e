"""A seeded sample of the corruptions of tests/corrupt.py; by night, and by that command, all."""

from __future__ import annotations

import pytest

import corrupt
from running import sample

SAMPLE = 6


def test_there_are_many_places_and_each_is_made_wrong_in_the_source() -> None:
    places = corrupt.corruptions()
    assert len(places) >= 60
    for one in places:
        assert one.old != one.new
        assert one.new in one.source()


def test_what_is_printed_is_right_before_it_is_corrupted() -> None:
    assert corrupt.caught(None) == ""


@pytest.mark.parametrize("one", sample(corrupt.corruptions(), SAMPLE, seed=12), ids=str)
def test_a_corruption_is_caught(one: corrupt.Corruption) -> None:
    assert corrupt.caught(one)
