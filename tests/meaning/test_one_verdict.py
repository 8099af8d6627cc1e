"""Comparison, check, timetable and a learner's page say one and the same of any edit."""

from __future__ import annotations

import copy
import itertools
from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from pydantic import ValidationError
from test_edits import TABLE, edited, side, with_sheets
from test_meaning_properties import OTHERS, PLACES, at, plain, put

from benchleaf.diagnose import Place
from benchleaf.diff import EffectKind, Side, compare
from benchleaf.diff.taught_otherwise import taught_otherwise
from benchleaf.meaning import (
    Changed,
    Consequence,
    changed,
    gravest_of,
    meant,
    moves,
    statements,
    together,
)
from benchleaf.meaning.kept import group_of, move_of, now_token, token_of, was_token
from benchleaf.model import (
    ChangedRevision,
    Crew,
    CrewFacts,
    JobChanges,
    Person,
    Shop,
    class_of,
)
from benchleaf.plan import Situation, State, Timetable, timetable
from benchleaf.registers import Registry, check_revisions, new_entries
from running import examples

NOTHING = Consequence.NOTHING
QUICK = settings(
    max_examples=examples(60),
    suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow],
)
SMALL = [one for one in TABLE if one["in"] == "small"]
VALUES = {what.value: what for what in Consequence}


def with_leaf(shop: Shop, place: tuple[str, str, tuple[str | int, ...]], other: str) -> Shop:
    """One value of a record changed, where the record stays valid."""
    kind, record_id, path = place
    values = plain(shop.of_kind(kind)[record_id])
    new = f"{at(values, path)}{other}" if other.startswith(" ") else other
    made: Any = class_of(kind).model_validate(put(values, path, new))
    return replace(shop, **{kind: {**shop.of_kind(kind), record_id: made}})  # type: ignore[arg-type]


WORDS = (" Mind this.", " Not so.", *OTHERS)
LEAVES = st.tuples(st.sampled_from(range(len(PLACES))), st.sampled_from(WORDS))
EDITS = st.one_of(LEAVES, st.sampled_from(range(len(SMALL))))
"""An edit of the table, or another value at any place of the small shop, by their numbers."""


def states_of(edits: list[Any]) -> list[Side]:
    """The small shop, and what it becomes by edits one after another."""
    shops = [side("small").shop]
    for one in edits:
        try:
            new = (edited(shops[-1], SMALL[one]) if isinstance(one, int)
                   else with_leaf(shops[-1], PLACES[one[0]], one[1]))  # fmt: skip
            with_sheets(new)
        except (ValidationError, KeyError, IndexError, StopIteration, AssertionError):
            assume(False)
        shops.append(new)
    return [with_sheets(advanced(shop, number)) for number, shop in enumerate(shops, 1)]


def advanced(shop: Shop, revision: int) -> Shop:
    """The shop with every job at one revision."""
    jobs = {
        one: job.model_copy(update={"revision": str(revision)}) for one, job in shop.jobs.items()
    }
    return replace(shop, jobs=jobs)


def kept(states: list[Side]) -> Mapping[str, JobChanges]:
    """What a release writes down between each state and the next."""
    found: dict[str, tuple[ChangedRevision, ...]] = {}
    for number, (old, new) in enumerate(itertools.pairwise(states), 1):
        for one in taught_otherwise(old, new):
            entry = ChangedRevision(
                revision=str(number + 1), former=str(number), statements=one.entries()
            )
            found[one.job] = (*found.get(one.job, ()), entry)
    return {job_id: JobChanges(job=job_id, changes=entries) for job_id, entries in found.items()}


def compared(old: Side, new: Side) -> dict[str, Consequence]:
    """What the comparison says of each job whose meaning moved."""
    found = compare(old, new)
    effects = [one for change in found.changes for one in change.effects]
    alike = [one for one in effects if one.kind is EffectKind.FIGURE and one.before == one.after]
    assert alike == [], "a figure that moved is shown as it was"
    return {one.id: one.consequence for one in found.jobs
            if one.old_fingerprint != one.new_fingerprint}  # fmt: skip


def registered(old: Side) -> Registry:
    prints = {one: meant(old.shop, job, old.sheets[one]).fingerprint
              for one, job in old.shop.jobs.items()}  # fmt: skip
    return Registry.of(new_entries(old.shop, prints, Registry({}), ()))


def checked(old: Side, new: Side) -> dict[str, Consequence]:
    """What `check` says where the revision was left as it was: the gravest stands first."""
    shop = replace(new.shop, jobs={
        one: job.model_copy(update={"revision": old.shop.jobs[one].revision})
        for one, job in new.shop.jobs.items()
    })  # fmt: skip
    prints = {one: meant(shop, job, new.sheets[one]).fingerprint for one, job in shop.jobs.items()}
    place = Place("x")
    found = check_revisions(shop, prints, registered(old), lambda *_: place, "revisions.yml")
    lines = {one.text.split()[0].lower(): one.help for one in found if one.code == "A604"}
    return {job_id: VALUES[help_[0].partition(": ")[0]] for job_id, help_ in lines.items()}


def planned(old: Side, new: Side, changes: Mapping[str, JobChanges]) -> Timetable:
    """A crew of two: one proved the old state of each job, one is in the middle of it."""
    registry = registered(old)
    proved = [{"job": one, "revision": "1", "judged": "2026-03-02", "judged_by": "tr-01",
               "fingerprint": registry.by_job[one][0].fingerprint}
              for one in new.shop.jobs]  # fmt: skip
    learning = [{"job": one, "round": "2", "revision": "1"} for one in new.shop.jobs]
    shift = {"id": "early", "name": "Early", "starts": "06:00", "hours": "8 h"}
    facts = {"shifts": [shift], "trainers": [{"id": "tr-01", "shift": "early", "hours": "2 h"}]}
    people = (
        Person.model_validate({"id": "op-01", "shift": "early", "can_do": proved}),
        Person.model_validate({"id": "op-02", "shift": "early", "learning": learning}),
    )
    shop = replace(new.shop, changes=changes)
    prints = {one: meant(shop, job, new.sheets[one]).fingerprint for one, job in shop.jobs.items()}
    crew = Crew(CrewFacts.model_validate(facts), {one.id: one for one in people})
    said = {one: {"1": registry.by_job[one][0].said or ""} | registry.said_at(one)
            for one in shop.jobs}  # fmt: skip
    return timetable(Situation(shop, crew, prints, date(2026, 4, 6), said=said))


def told(plan: Timetable, staff: str) -> dict[str, Consequence]:
    return {
        job.id: standing.since.verdict.what
        for job in plan.situation.shop.jobs.values()
        if (standing := plan.standings[staff, job.id]).since and standing.since.verdict
    }


def taught(plan: Timetable, staff: str) -> dict[str, Consequence]:
    """The gravest of what the learner's page lists."""
    found = {}
    for job in plan.situation.shop.jobs.values():
        since = plan.standings[staff, job.id].since
        if since is not None:
            assert since.changed is not None
            found[job.id] = gravest_of([one.verdict for one in since.changed]).what
    return found


def lesson_rows(plan: Timetable, staff: str) -> list[Changed]:
    found = (one.since for (person, _), one in plan.standings.items() if person == staff)
    return [row for since in found if since for row in since.changed or ()]


@QUICK
@given(st.lists(EDITS, min_size=1, max_size=1))
def test_all_four_say_the_same_of_one_edit(edits: list[Any]) -> None:
    agree(edits)


@QUICK
@given(st.lists(EDITS, min_size=2, max_size=4))
def test_all_four_say_the_same_of_several_revisions_since_somebody_was_taught(
    edits: list[Any],
) -> None:
    agree(edits)


def agree(edits: list[Any]) -> None:
    states = states_of(edits)
    old, new = states[0], states[-1]
    what = compared(old, new)
    plan = planned(old, new, kept(states))
    assert checked(old, new) == what, "check and comparison"
    assert told(plan, "op-01") == what, "timetable and comparison"
    assert told(plan, "op-02") == what, "somebody in the middle of it and comparison"
    assert taught(plan, "op-01") == what, "the lesson and comparison"
    for row in lesson_rows(plan, "op-01"):
        assert row.was != row.now or not row.was, "a row with equal sides tells nothing"
    for job_id in new.shop.jobs:
        state = plan.standings["op-01", job_id].state
        stops = what.get(job_id, NOTHING).stops_a_run
        assert state is (State.TEACH_AGAIN if stops else State.CAN_DO)


@QUICK
@given(st.lists(EDITS, min_size=2, max_size=4))
def test_entries_put_together_are_the_difference_of_first_and_last(edits: list[Any]) -> None:
    """What a list lost and what it got; which of them stand in pairs is no matter."""
    states = states_of(edits)
    for job_id, changes in kept(states).items():
        ends = [statements(one.shop, one.shop.jobs[job_id], one.sheets[job_id])
                for one in (states[0], states[-1])]  # fmt: skip
        direct = [one for one in moves(*ends) if one.kind != "moved"]
        entries = [one for one in together(changes.since("1") or ()) if not one.moved]
        was = [one.before for one in direct if one.before is not None]
        now = [one.after for one in direct if one.after is not None]
        listed = [Counter((group_of(one.place), value) for one in entries
                          if (value := token(one)) is not None)
                  for token in (was_token, now_token)]  # fmt: skip
        found = [Counter((one.group, token_of(one)) for one in side_) for side_ in (was, now)]
        # A kind of key point that went and came elsewhere stands on both sides.
        kinds = {one: count for one, count in (listed[0] & listed[1]).items()
                 if one[0].endswith("/kind")}  # fmt: skip
        assert [side_ - Counter(kinds) for side_ in listed] == [
            side_ - (side_ & Counter(kinds)) for side_ in found
        ]


def test_what_is_written_is_judged_like_the_move_itself() -> None:
    old = side("small")
    seen = 0
    for edit in SMALL:
        new = with_sheets(edited(old.shop, copy.deepcopy(edit)))
        rule = new.shop.manual.retraining
        for one in taught_otherwise(old, new):
            entries = one.entries()
            assert [move_of(entry).kind for entry in entries] == [each.kind for each in one.moves]
            rows = changed(entries, one.meaning, rule)
            seen += len(rows)
            assert bool(rows) is bool(one.moves)
    assert seen > 100
