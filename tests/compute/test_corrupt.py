"""A seeded sample of the corruptions of tests/corrupt.py; all of them run by that command."""

from __future__ import annotations

import random

import pytest

import corrupt

SAMPLE = 8


def test_there_are_many_places_and_each_is_made_wrong_in_the_source() -> None:
    places = corrupt.corruptions()
    assert len(places) >= 60
    for one in places:
        assert one.old != one.new
        assert one.new in one.source()


def test_what_is_printed_is_right_before_it_is_corrupted() -> None:
    assert corrupt.caught(None) == ""


@pytest.mark.parametrize("one", random.Random(12).sample(corrupt.corruptions(), SAMPLE), ids=str)
def test_a_corruption_is_caught(one: corrupt.Corruption) -> None:
    assert corrupt.caught(one)
