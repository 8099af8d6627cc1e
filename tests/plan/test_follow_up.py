"""Checks that taper off by the rule, and the learner's curve that holds them on."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from made_crews import MONDAY, SHIFT

from benchleaf.compute.practice import (
    Curve,
    NoCurve,
    NoStandard,
    Standard,
    curve_of,
    standard_of,
)
from benchleaf.formulas.learning_curve import unit_time_s
from benchleaf.model import FollowUpRule, Job, PieceRate, Shift, Shop, TimedPiece
from benchleaf.plan import FollowUp, Pace
from benchleaf.plan.follow_up import MOST_DAYS, follow_up
from running import examples

SHIFT_RECORD = Shift.model_validate(SHIFT)
RULE = FollowUpRule()


def plan_of(pace: Pace | None = None, rule: FollowUpRule = RULE) -> FollowUp:
    return follow_up(rule, SHIFT_RECORD, (), MONDAY, pace, "times")


def pace_of(first: float, percent: float, standard: float, done: int = 1) -> Pace:
    return Pace(Curve(first, percent, None, ((done, 1.0),)), standard, done)


def test_the_usual_rule_by_hand() -> None:
    """Four checks on the first day, two a day for two, one a day for five, then three in steps."""
    found = plan_of()
    assert [(one.number, len(one.times)) for one in found.days] == [
        (1, 4), (2, 2), (3, 2), (4, 1), (5, 1), (6, 1), (7, 1), (8, 1), (13, 1), (18, 1), (23, 1),
    ]  # fmt: skip
    assert found.days[0].day == MONDAY + timedelta(days=1)
    assert [f"{one:%H:%M}" for one in found.days[0].times] == ["07:00", "09:00", "11:00", "13:00"]
    assert found.checks == 16
    assert "not computed, missing times" in found.note


def test_checks_never_grow_by_the_usual_rule() -> None:
    found = plan_of()
    assert all(len(a.times) >= len(b.times) for a, b in pairwise(found.days))
    gaps = [b.number - a.number for a, b in pairwise(found.days)]
    assert gaps == sorted(gaps)


def test_no_check_on_a_day_off() -> None:
    closed = {MONDAY + timedelta(days=1), MONDAY + timedelta(days=2)}
    found = follow_up(RULE, SHIFT_RECORD, closed, MONDAY, None, "times")
    days = [one.day for one in found.days]
    assert all(day.weekday() < 5 and day not in closed for day in days)
    assert days[0] == MONDAY + timedelta(days=3)


def test_a_slow_learner_is_looked_at_every_day_until_the_standard_is_near() -> None:
    pace = pace_of(4000, 88, 1200)
    found = plan_of(pace)
    by_number = {one.number: one for one in found.days}
    slow = [
        one.number for one in found.days
        if one.first_piece and pace.curve.expected_s(one.first_piece) > 1200 * 1.1
    ]  # fmt: skip
    assert len(slow) > 9
    assert slow == list(range(1, max(slow) + 1))
    assert by_number[9].why == "still slower than the basic time"
    assert f"after {max(slow)} working days" in found.note


def test_a_quick_learner_has_the_rule_alone() -> None:
    found = plan_of(pace_of(100, 90, 100))
    assert [one.number for one in found.days] == [one.number for one in plan_of().days]
    assert "the rule alone decides" in found.note


def test_a_learner_who_never_gets_there_is_told() -> None:
    assert "Look for what holds them back" in plan_of(pace_of(900, 99.9, 100)).note


rules = st.builds(
    lambda stages, every, then: FollowUpRule.model_validate(
        {"stages": [{"days": d, "checks": c} for d, c in stages],
         "then_every_days": every, "then_checks": then}
    ),
    st.lists(st.tuples(st.integers(1, 6), st.integers(1, 6)), min_size=1, max_size=4),
    st.integers(2, 10),
    st.integers(0, 4),
)  # fmt: skip


@settings(max_examples=examples(40))
@given(rules, st.none() | st.builds(pace_of, st.floats(50, 3000), st.floats(70, 99),
                                    st.floats(60, 900)))  # fmt: skip
def test_the_rule_is_kept_and_the_curve_only_adds(rule: FollowUpRule, pace: Pace | None) -> None:
    found = plan_of(pace, rule)
    alone = {one.number: len(one.times) for one in plan_of(None, rule).days}
    with_curve = {one.number: len(one.times) for one in found.days}
    assert alone.items() <= with_curve.items()
    assert all(checks == 1 for number, checks in with_curve.items() if number not in alone)
    assert max(set(with_curve) - set(alone), default=0) <= MOST_DAYS
    for one in found.days:
        assert len(set(one.times)) == len(one.times)
        assert all(each.date() == one.day and 6 <= each.hour < 14 for each in one.times)


def timed(*pieces: tuple[int, str]) -> tuple[TimedPiece, ...]:
    return tuple(TimedPiece.model_validate({"piece": n, "time": t}) for n, t in pieces)


def test_a_curve_from_three_pieces_is_fitted() -> None:
    curve = curve_of(timed((4, "64 s"), (1, "100 s"), (2, "80 s")), 90)
    assert isinstance(curve, Curve)
    assert curve.learning_percent == pytest.approx(80)
    assert curve.fit is not None
    assert curve.piece_at(51.3) == 8


def test_below_three_pieces_the_shops_percentage_stands_in() -> None:
    curve = curve_of(timed((2, "80 s")), 80)
    assert isinstance(curve, Curve)
    assert curve.expected_s(2) == pytest.approx(80)
    assert curve.first_s == pytest.approx(100)
    assert curve.band(4) is None


@pytest.mark.parametrize(
    ("pieces", "percent", "missing"),
    [
        ((), 80, "times of this learner's pieces"),
        (((1, "9 s"), (2, "8 s")), None, "times of 3 pieces"),
        (((1, "9 s"), (1, "8 s"), (1, "7 s")), None, "times of 3 pieces"),
        (((1, "8 s"), (2, "9 s"), (3, "12 s")), 80, "only 51 to 100 % is used"),
    ],
)
def test_what_is_missing_for_a_curve_is_named(
    pieces: tuple[tuple[int, str], ...], percent: float | None, missing: str
) -> None:
    found = curve_of(timed(*pieces), percent)
    assert isinstance(found, NoCurve)
    assert missing in found.missing


def rated(shop: Shop, *elements: dict[str, str], **more: object) -> Job:
    rate = PieceRate.model_validate({"elements": elements, "source": "a test", **more})
    return shop.jobs["vg-0010"].model_copy(update={"piece_rate": rate})


def test_a_standard_by_hand(small_shop: Shop, reckoned: Callable[[Job], Any]) -> None:
    """20 s, twice the time under feed, and a tenth of 50 s; then 14 percent."""
    job = rated(
        small_shop, {"what": "clamp", "time": "20 s"},
        {"what": "drill", "set_up": "guide-hole", "times_a_piece": "2"},
        {"what": "gauge", "time": "50 s", "times_a_piece": "0.1"},
        allowances=[{"what": "rest", "percent": "9"}, {"what": "waits", "percent": "5"}],
    )  # fmt: skip
    sheets = reckoned(job)
    found = standard_of(job, sheets)
    assert isinstance(found, Standard)
    under_feed = sheets[0].found.time
    assert found.basic_s == pytest.approx(20 + 2 * under_feed + 5)
    assert found.standard_s == pytest.approx(1.14 * found.basic_s)
    assert found.pieces_an_hour == pytest.approx(3600 / found.standard_s)


def test_without_a_rate_there_is_no_standard(small_shop: Shop) -> None:
    found = standard_of(small_shop.jobs["vg-0010"], ())
    assert found == NoStandard("the job's piece_rate")


def test_a_time_that_is_not_reckoned_is_named(small_shop: Shop) -> None:
    job = rated(small_shop, {"what": "drill", "set_up": "guide-hole"})
    found = standard_of(job, ())
    assert isinstance(found, NoStandard)
    assert "set-up 'guide-hole'" in found.missing


def test_the_curve_is_the_unit_model() -> None:
    curve = curve_of(timed((1, "100 s")), 75)
    assert isinstance(curve, Curve)
    assert curve.expected_s(6) == unit_time_s(100, 75, 6)
