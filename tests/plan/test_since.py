"""What changed since somebody was taught: told to them, short where it is known, and once."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from made_crews import Make

from benchleaf.meaning import page_fingerprint
from benchleaf.model import ChangedRevision, ChangedStatement, JobChanges, LessonRule
from benchleaf.plan import LessonKind, Signed, Situation, State, timetable
from benchleaf.plan.lessons import lesson_minutes

NOW = "a" * 64


def entry(**more: Any) -> ChangedStatement:
    one = {
        "what": "a key point", "place": "steps/clamp/key_points/1/point",
        "where": "step 'Clamp', key point 1, point", "was": "Pull it.", "now": "Push it.",
    }  # fmt: skip
    return ChangedStatement.model_validate({**one, **more})


def with_changes(made: Situation, *entries: ChangedStatement, former: str = "1") -> Situation:
    """The same, where revision 2 of job `a` changed these."""
    one = ChangedRevision(revision="2", former=former, statements=entries)
    shop = replace(made.shop, changes={"a": JobChanges(job="a", changes=(one,))})
    return replace(made, shop=shop)


def learning(situation: Make, revision: int | None, reached: int = 2) -> Situation:
    record: dict[str, Any] = {"job": "a", "round": reached}
    if revision is not None:
        record["revision"] = revision
    made = situation({"a": ()}, [{"id": "op-01", "learning": [record]}], fingerprints={"a": NOW})
    assert made.shop.jobs["a"].revision == "2"
    return made


def why(made: Situation) -> str:
    found = made.standing(made.crew.people["op-01"], made.shop.jobs["a"])
    assert found.state is State.LEARNING
    return found.why


def test_somebody_in_the_middle_is_told_what_changed_since_they_were_taught(
    situation: Make,
) -> None:
    said = why(with_changes(learning(situation, 1), entry()))
    assert "on revision 1; now 2: teach again before next run: another key point" in said
    assert "Pull it. → Push it." in said


@pytest.mark.parametrize(
    ("revision", "reached", "said"),
    [
        (2, 2, "round 2 reached"),
        (None, 2, "round 2 reached; the revision they were taught is not recorded"),
        (None, 0, "round 0 reached"),
        (0, 2, "round 2 reached on revision 0; now 2: what changed since revision 0 is not"
               " recorded"),
    ],
)  # fmt: skip
def test_what_is_not_known_is_said_once_and_what_is_the_same_is_not(
    situation: Make, revision: int | None, reached: int, said: str
) -> None:
    assert why(with_changes(learning(situation, revision, reached), entry())) == said


RULE = LessonRule.model_validate(
    {"get_ready_minutes": "10", "step_minutes": "3", "key_point_minutes": "1",
     "round_step_minutes": "2"}
)  # fmt: skip


def test_what_changed_is_taught_in_less_time_than_the_whole(situation: Make) -> None:
    made = with_changes(learning(situation, 1), entry(place="machines/x/where"))
    job = made.shop.jobs["a"]
    since = made.since(job, "1")
    whole, _ = lesson_minutes(job, LessonKind.AGAIN, RULE)
    short, working = lesson_minutes(job, LessonKind.AGAIN, RULE, 0, since)
    assert (short, working) == (11, "10 + 1 other thing × 1 = 11 min")
    assert short < whole
    step = job.steps[0].id
    there = with_changes(made, entry(place=f"steps/{step}/key_points/1/point"))
    at_step, _ = lesson_minutes(job, LessonKind.AGAIN, RULE, 0, there.since(job, "1"))
    assert at_step == 10 + 3 + 2


def test_where_it_is_not_known_the_whole_is_taught_again(situation: Make) -> None:
    made = learning(situation, 1)
    job = made.shop.jobs["a"]
    whole, _ = lesson_minutes(job, LessonKind.AGAIN, RULE)
    assert lesson_minutes(job, LessonKind.AGAIN, RULE, 0, made.since(job, "1"))[0] == whole
    many = with_changes(made, *(entry(now=f"Push {n}.", place=f"tools/{n}/limits/1")
                                for n in range(200)))  # fmt: skip
    assert lesson_minutes(job, LessonKind.AGAIN, RULE, 0, many.since(job, "1"))[0] == whole


def test_somebody_in_the_middle_is_taught_the_change_before_they_go_on(situation: Make) -> None:
    plain = learning(situation, 2)
    (usual,) = timetable(plain).lessons
    (longer,) = timetable(with_changes(learning(situation, 1), entry())).lessons
    assert longer.kind is LessonKind.GO_ON
    assert longer.minutes > usual.minutes
    assert longer.working.startswith("what changed ")


@pytest.mark.parametrize(
    ("record", "state"),
    [
        ({"fingerprint": page_fingerprint("# Safety\n\nStop first.")[:8]}, Signed.HOLDS),
        ({"fingerprint": page_fingerprint("**Safety** stop\nfirst")[:8]}, Signed.HOLDS),
        ({"fingerprint": page_fingerprint("# Safety\n\nStop last.")[:8]}, Signed.AGAIN),
        ({}, Signed.UNKNOWN),
        (None, Signed.NEVER),
    ],
)
def test_a_signed_preface_holds_until_its_words_change(
    situation: Make, record: dict[str, str] | None, state: Signed
) -> None:
    signed = [{"page": "safety.md", "signed": "2026-03-02", **record}] if record is not None else []
    made = situation({"a": ()}, [{"id": "op-01", "signed": signed}])
    shop = replace(made.shop, page_texts={"safety.md": "# Safety\n\nStop first."})
    (one,) = timetable(replace(made, shop=shop)).signings
    assert (one.page, one.state) == ("safety.md", state)
    assert timetable(made).lessons == ()  # a page calls nobody back to a job


def test_a_free_page_is_told_to_those_who_signed_it_and_to_nobody_else(situation: Make) -> None:
    old = {"page": "more.md", "signed": "2026-03-02", "fingerprint": page_fingerprint("Old.")[:8]}
    people = [{"id": "op-01", "signed": [old]}, {"id": "op-02"}]
    made = situation({"a": ()}, people)
    shop = replace(made.shop, page_texts={"more.md": "New."}, pages=("more.md",))
    found = [(one.person.id, one.page, one.state) for one in timetable(replace(made, shop=shop))
             .signings if one.page == "more.md"]  # fmt: skip
    assert found == [("op-01", "more.md", Signed.TELL)]


def proved(situation: Make, *told: dict[str, str], **more: Any) -> Situation:
    """Somebody signed off on revision 1 long ago, and what they were taught since."""
    record = {"job": "a", "revision": "1", "judged": "2026-02-02", "judged_by": "tr-01",
              "told": list(told), **more}  # fmt: skip
    made = situation({"a": ()}, [{"id": "op-01", "can_do": [record]}], fingerprints={"a": NOW})
    return with_changes(made, entry())


TOLD = {"revision": "2", "day": "2026-04-03", "by": "tr-01"}


def test_one_record_makes_the_sign_off_count_again(situation: Make) -> None:
    stale = timetable(proved(situation))
    assert stale.standings["op-01", "a"].state is State.TEACH_AGAIN
    assert [one.kind for one in stale.lessons] == [LessonKind.AGAIN]
    plan = timetable(proved(situation, TOLD))
    standing = plan.standings["op-01", "a"]
    assert standing.state is State.CAN_DO
    assert standing.why.endswith("taught what changed up to revision 2 on 2026-04-03")
    assert plan.lessons == ()
    assert plan.schedule.follow_ups["op-01", "a"].checks == 1


@pytest.mark.parametrize("told", [{**TOLD, "day": "2026-02-01"}, {**TOLD, "revision": "1"}])
def test_what_was_taught_before_the_proof_or_of_no_later_revision_counts_for_nothing(
    situation: Make, told: dict[str, str]
) -> None:
    found = timetable(proved(situation, told)).standings["op-01", "a"]
    assert found.state is State.TEACH_AGAIN


def test_checks_that_still_go_on_are_not_cut_short_by_a_talk(situation: Make) -> None:
    plan = timetable(proved(situation, TOLD, judged="2026-04-02"))
    assert plan.schedule.follow_ups["op-01", "a"].checks == 16


def test_each_round_counts_by_its_own_revision(situation: Make) -> None:
    rounds = [{"round": 1, "revision": "1"}, {"round": 2, "revision": "2"}]

    def said(**more: Any) -> str:
        record = {"job": "a", "round": 2, "rounds": rounds, **more}
        made = situation({"a": ()}, [{"id": "op-01", "learning": [record]}])
        return why(with_changes(made, entry()))

    assert "round 2 reached on revision 1; now 2" in said()
    assert said(told=[TOLD]) == "round 2 reached"
    assert "not recorded" in said(rounds=rounds[1:])
