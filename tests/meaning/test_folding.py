"""A text as comparisons read it: spaces and the spelling of links say nothing."""

from __future__ import annotations

import pytest

from benchleaf.meaning.folding import folded_text


@pytest.mark.parametrize(
    ("written", "folded"),
    [
        ("one  two\n three\tfour ", "one two three four"),
        ("see [[VG-0010]]", "see [[vg-0010]]"),
        ("see [[Job:VG-0010#Steps]]", "see [[vg-0010#steps]]"),
        ("see [[TOOLS:Drill-8]]", "see [[tool:drill-8]]"),
        ("an array [[1, 2]] stays", "an array [[1, 2]] stays"),
    ],
)
def test_what_says_the_same_is_written_the_same(written: str, folded: str) -> None:
    assert folded_text(written) == folded
    assert folded_text(folded) == folded
