"""The cadence of checks: it tapers, results move it, and nobody talks it shorter than it is."""

from __future__ import annotations

from datetime import date, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st
from made_crews import MONDAY, SHIFT, Make

from benchleaf.model import FollowUpRule, Shift
from benchleaf.plan import FollowUp, timetable
from benchleaf.plan.cadence import Looked, Miss, Place, cadence_of, walked
from benchleaf.plan.follow_up import Record, follow_up
from running import examples

SHIFT_RECORD = Shift.model_validate(SHIFT)
RULE = FollowUpRule()


def looks(*days: tuple[int, int, Miss]) -> tuple[Looked, ...]:
    """So many checks so many days after the first one, with what came of each."""
    return tuple(
        Looked(MONDAY + timedelta(days=day), miss) for day, count, miss in days
        for _ in range(count)
    )  # fmt: skip


def after(*days: tuple[int, int, Miss]) -> Place:
    return walked(cadence_of(RULE), looks(*days))


def checks_left(place: Place) -> list[tuple[int, int, int]]:
    return list(place.to_come())


def plan_after(today: date, *days: tuple[int, int, Miss]) -> FollowUp:
    record = Record(today, looks(*days))
    return follow_up(RULE, SHIFT_RECORD, (), MONDAY - timedelta(days=3), None, "", record=record)


def test_a_stage_is_over_when_its_checks_are_made() -> None:
    """Two of the first day's four, then none for a week: the other two still come first."""
    place = after((0, 2, Miss.NONE))
    assert (place.at, place.checks_done) == (0, 2)
    found = plan_after(MONDAY + timedelta(days=7), (0, 2, Miss.NONE))
    assert [(one.day - MONDAY, len(one.times)) for one in found.days[:2]] == [
        (timedelta(days=7), 2), (timedelta(days=8), 2),
    ]  # fmt: skip
    assert found.overdue == MONDAY + timedelta(days=1)


def test_nothing_missed_makes_the_next_stage_half_as_long() -> None:
    place = after((0, 4, Miss.NONE))
    assert (place.at, place.is_half) == (1, True)
    assert checks_left(place)[:2] == [(1, 2, 1), (2, 1, 1)]
    place = after((0, 4, Miss.NONE), (1, 2, Miss.NONE))
    assert (place.at, place.days(2)) == (2, 3)


def test_a_miss_goes_one_stage_back_and_nothing_is_halved_any_more() -> None:
    place = after((0, 4, Miss.NONE), (1, 2, Miss.NONE), (2, 1, Miss.SOME))
    assert (place.at, place.is_half) == (1, False)
    assert [one.says for one in place.turns][-1].startswith("something missed: back to 2 checks")
    again = after((0, 4, Miss.NONE), (1, 2, Miss.NONE), (2, 1, Miss.SOME), (3, 2, Miss.NONE),
                  (4, 2, Miss.NONE))  # fmt: skip
    assert (again.at, again.days(2)) == (2, 5)


def test_a_grave_miss_begins_again_from_the_first_stage() -> None:
    place = after((0, 4, Miss.NONE), (1, 2, Miss.NONE), (2, 1, Miss.GRAVE))
    assert (place.at, place.days_done) == (0, 0)
    found = plan_after(MONDAY + timedelta(days=2), (0, 4, Miss.NONE), (2, 1, Miss.GRAVE))
    assert (found.days[0].day, len(found.days[0].times)) == (MONDAY + timedelta(days=3), 4)


def test_who_could_do_it_before_has_one_check_and_after_a_miss_a_week() -> None:
    begin = cadence_of(RULE, again=True)
    assert [checks for _, checks, _ in begin.to_come()] == [1]
    missed = walked(begin, looks((0, 1, Miss.SOME)))
    assert [checks for _, checks, _ in missed.to_come()] == [1] * 6
    assert walked(begin, looks((0, 1, Miss.NONE))).is_over


many = st.lists(
    st.tuples(st.integers(0, 4), st.integers(1, 6), st.sampled_from(list(Miss))), max_size=12
)


@settings(max_examples=examples(60))
@given(many, st.booleans())
def test_more_checks_in_a_day_hurry_nothing_and_a_miss_never_shortens(
    steps: list[tuple[int, int, Miss]], again: bool
) -> None:
    day, made = 0, list[tuple[int, int, Miss]]()
    for gap, count, miss in steps:
        day += gap
        made.append((day, count, miss))
    begin = cadence_of(RULE, again=again)
    before, place = Place(begin.stages, begin.at, begun=begin.begun), begin
    for number in range(len(made)):
        before, place = place, walked(begin, looks(*made[: number + 1]))
        left, former = (sum(c for _, c, _ in one.to_come()) for one in (place, before))
        if made[number][2] is not Miss.NONE:
            assert left >= former
            assert not place.is_over
        assert place.at <= before.at + 1 or made[number][0] != made[number - 1][0]
    gaps = [gap for _, _, gap in place.to_come()]
    assert gaps == sorted(gaps)


def missed_once(situation: Make, **check: object) -> FollowUp:
    """The follow-up of somebody of the small shop with one check on record."""
    person = {
        "id": "op-1",
        "can_do": [{
            "job": "a", "revision": "1", "judged": (MONDAY - timedelta(days=3)).isoformat(),
            "judged_by": "tr-01", "fingerprint": "0" * 8,
            "checks": [{"day": MONDAY.isoformat(), "by": "tr-01", **check}],
        }],
    }  # fmt: skip
    plan = timetable(situation({"a": ()}, [person], today=MONDAY + timedelta(days=1)))
    return plan.schedule.follow_ups["op-1", "a"]


def test_a_missed_key_point_stands_on_top_of_the_next_check(situation: Make) -> None:
    fluid = {"step": "drill", "point": "let fluid run"}
    found = missed_once(situation, result="missed", missed=[fluid])
    [row] = found.revisit
    assert row.says == "step 2, Drill the hole: Let fluid run on the drill." or row.point
    assert row.point == "Let fluid run on the drill."
    assert row.reason
    assert found.place.turns[0].says.startswith("something missed")


def test_what_can_injure_or_is_unknown_counts_as_grave(situation: Make) -> None:
    for missed in ({"step": "drill", "point": "Hang the chuck key"}, {"step": "drill"},
                   {"step": "drill", "point": "words that are nowhere"}):  # fmt: skip
        found = missed_once(situation, result="missed", missed=[missed])
        assert found.place.turns[0].says.startswith("a grave miss")


def test_who_was_stopped_proves_it_again(situation: Make) -> None:
    person = {
        "id": "op-1",
        "can_do": [{"job": "a", "revision": "1", "judged": "2026-04-03", "judged_by": "tr-01",
                    "fingerprint": "0" * 8,
                    "checks": [{"day": "2026-04-06", "by": "tr-01", "result": "stopped"}]}],
    }  # fmt: skip
    plan = timetable(situation({"a": ()}, [person], today=date(2026, 4, 6)))
    standing = plan.standings["op-1", "a"]
    assert standing.state == "check again"
    assert "stopped the work" in standing.why
    assert plan.planned("op-1", "a") is not None
