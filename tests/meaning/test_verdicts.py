"""The table of verdicts: it has a line for everything, and a shop may override what it says."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

import pytest

from benchleaf.meaning import About, Consequence, Move, MoveKind, Statement, gravest_of, verdict
from benchleaf.meaning.verdicts import TABLE
from benchleaf.model import Retraining

NOBODY, TEACH, TELL, NOTHING = Consequence
USUAL = Retraining()
KNACKS = "key points that make it easier"
WAS = Statement(About.ACT, "steps/clamp/stand", "a", "At the left.", "step 'Clamp', stand")


def move(kind: MoveKind, about: About, **now: object) -> Move:
    before = replace(WAS, about=about)
    after = replace(before, value="b", words="At the right.", **now)  # type: ignore[arg-type]
    return Move(
        kind,
        None if kind is MoveKind.NEW else before,
        None if kind is MoveKind.GONE else after,
    )


def numbers(about: About, before: float, after: float) -> Move:
    one = replace(WAS, about=about, numbers=(before, before))
    return Move(MoveKind.OTHER, one, replace(one, value="b", numbers=(after, after)))


@pytest.mark.parametrize(("kind", "about"), list(product(MoveKind, About)))
def test_every_move_has_a_verdict_that_names_the_statement(kind: MoveKind, about: About) -> None:
    found = verdict(move(kind, about), USUAL)
    assert found.what is not NOTHING
    assert "step 'Clamp', stand" in found.why
    assert "\n" not in found.why
    assert found.source


def test_only_a_newly_broken_limit_lets_nobody_run() -> None:
    grave = {(kind, about) for kind, about in product(MoveKind, About)
             if verdict(move(kind, about), USUAL).what is NOBODY}  # fmt: skip
    assert grave == {(MoveKind.NEW, About.LIMIT)}


def test_every_line_of_the_table_can_be_reached() -> None:
    for n, line in enumerate(TABLE):
        asked = set(product(line.abouts, line.kinds))
        before = {one for other in TABLE[:n] for one in product(other.abouts, other.kinds)}
        assert asked - before, line


@pytest.mark.parametrize(
    ("before", "after", "what"),
    [(100.0, 104.9, TELL), (100.0, 95.1, TELL), (100.0, 105.1, TEACH), (0.0, 1.0, TEACH)],
)
def test_a_figure_is_judged_by_how_far_it_moved(
    before: float, after: float, what: Consequence
) -> None:
    assert verdict(numbers(About.FIGURE, before, after), USUAL).what is what


def test_a_rating_is_told_when_raised_and_taught_when_lowered() -> None:
    assert verdict(numbers(About.RATING, 3, 4), USUAL).what is TELL
    assert verdict(numbers(About.RATING, 4, 3), USUAL).what is TEACH


@pytest.mark.parametrize(
    ("settings", "about", "kind", "what"),
    [
        ({"teach_again_for": ["other names"]}, About.NAME, MoveKind.OTHER, TEACH),
        ({"teach_again_for": ["added help texts"]}, About.HELP, MoveKind.NEW, TEACH),
        ({"tell_only_for": ["part and stock"]}, About.PART, MoveKind.OTHER, TELL),
        ({"tell_only_for": [KNACKS]}, About.EASIER, MoveKind.GONE, TELL),
        ({"tell_only_for": [KNACKS]}, About.REASON, MoveKind.OTHER, TEACH),
        ({"tell_only_for": ["what to do when something goes wrong"]}, About.TROUBLE,
         MoveKind.OTHER, TELL),
    ],
)  # fmt: skip
def test_a_shop_overrides_a_line(
    settings: dict[str, list[str]], about: About, kind: MoveKind, what: Consequence
) -> None:
    rule = Retraining.model_validate(settings)
    assert verdict(move(kind, about), USUAL).what is not what or about is About.REASON
    assert verdict(move(kind, about), rule).what is what


def test_of_a_point_that_was_a_knack_and_can_injure_now_the_graver_counts() -> None:
    rule = Retraining.model_validate({"tell_only_for": [KNACKS]})
    one = Move(
        MoveKind.OTHER, replace(WAS, about=About.EASIER), replace(WAS, about=About.KEY_POINT)
    )
    assert verdict(one, rule).what is TEACH


def test_wording_is_nothing_only_where_it_is_declared_and_says_the_same() -> None:
    said = replace(WAS, value="Push the plate down hard.", is_wording=True)
    other = replace(said, value="Push the plate hard down.")
    turned = replace(said, value="Never push the plate down hard.")
    harm = replace(other, is_wording=False)
    for after, declared, what in (
        (other, False, TEACH),
        (turned, True, TEACH),
        (harm, True, TEACH),
        (other, True, NOTHING),
    ):
        found = verdict(Move(MoveKind.OTHER, said, after), USUAL, is_declared=declared)
        assert found.what is what


def test_the_gravest_of_no_verdict_is_nothing() -> None:
    assert gravest_of(()).what is NOTHING
