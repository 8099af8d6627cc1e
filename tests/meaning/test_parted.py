"""What changed is shown with as many digits as tell its two sides apart."""

from __future__ import annotations

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from test_edits import side

from benchleaf.compute.results import figure, rough
from benchleaf.meaning import About, MoveKind, Statement, changed, moves, statements, together
from benchleaf.meaning.kept import written
from benchleaf.meaning.parted import parted
from benchleaf.model import Retraining, Shop

VALUES = st.floats(0.01, 9000, allow_nan=False)


@given(VALUES, st.floats(-0.2, 0.2), st.integers(-3, 3))
def test_two_numbers_are_never_shown_alike(value: float, share: float, digits: int) -> None:
    other = value * (1 + share)
    assume(abs(other - value) > 1e-6)
    was, now = (rough(one, "N", -digits).text if digits < 0 else figure(one, "N", digits).text
                for one in (value, other))  # fmt: skip
    sides = parted(was, now, (value, value), (other, other))
    assert sides[0] != sides[1]
    assert sides == (was, now) or was == now, "what differs as shown is left as it is"
    for text, number in zip(sides, (value, other), strict=True):
        if was == now:
            assert float(text.removesuffix(" N")) == pytest.approx(number, rel=0.5)


def test_half_turns_and_ranges_are_told_in_numbers() -> None:
    assert parted("14 and a half turns", "14 and a half turns", (14.6, 14.6), (14.9, 14.9)) == (
        "14.6 turns", "14.9 turns",
    )  # fmt: skip
    same = ("24 to 30 m/min",) * 2
    assert parted(*same, (24.38, 30.0), (24.38, 30.4)) == (
        "24.4 to 30.0 m/min", "24.4 to 30.4 m/min",
    )  # fmt: skip


def test_no_lesson_of_the_demo_shows_a_row_with_equal_sides() -> None:
    demo, seen = side("demo"), 0
    for job_id, kept in demo.shop.changes.items():
        now = statements(demo.shop, demo.shop.jobs[job_id], demo.sheets[job_id])
        for entry in kept.changes:
            for row in changed(together(kept.since(entry.former) or ()), now, Retraining()):
                seen += bool(row.was)
                assert row.was != row.now or not row.was, (job_id, row.where)
    assert seen > 50


def rows(old: list[Statement], new: list[Statement]) -> list[tuple[str, str, str]]:
    shop: Shop = side("small").shop
    entries = written(moves(old, new), new, shop, shop)
    return [(one.where, one.was, one.now) for one in changed(entries, new, Retraining())]


def text(subject: str, words: str, about: About = About.ACT) -> Statement:
    return Statement(about, subject, words, words, subject, is_wording=True)


def test_what_reads_as_before_is_told_once() -> None:
    (row,) = rows([text("a", "Never open it.")], [text("a", "**Never** open it.")])
    assert row == ("a", "", "Never open it.")


def test_a_list_in_another_order_is_told_in_the_order_that_holds() -> None:
    old = [text(f"if_wrong/1/do/{n}", words) for n, words in enumerate("ABC", 1)]
    new = [text(f"if_wrong/1/do/{n}", words) for n, words in enumerate("ACB", 1)]
    (move,) = moves(old, new)
    assert (move.kind, move.one.words) == (MoveKind.MOVED, "C")
    assert [(was, now) for _, was, now in rows(old, new)] == [("", "A; C; B")]
