"""Which job comes before and after another, by the states that they take and leave."""

from __future__ import annotations

import pytest

from benchleaf.model import Job
from benchleaf.model.handing_on import handed_on

POINT = {"point": "P", "reason": "R", "kind": "can injure"}


def job(job_id: str, takes: str, leaves: str, part: str = "p", **more: str) -> Job:
    values = {
        "id": job_id, "title": "T", "revision": "1", "effective": "2026-03-02", "makes": "M",
        "approved_by": "engineer", "change_note": "C", "matters": "W", "machine": "drill",
        "wear": ["glasses"], "take_off": ["gloves"], "part": part, "hand_on": "H",
        "steps": [{"id": "s", "title": "T", "key_points": [POINT]}],
        "if_wrong": [{"sign": "S", "do": ["stop"]}], **more,
    }  # fmt: skip
    values |= {"takes": takes} if takes else {}
    return Job.model_validate(values | ({"leaves": leaves} if leaves else {}))


def ways(*jobs: Job) -> dict[str, tuple[str | None, str | None]]:
    found = handed_on({one.id: one for one in jobs})
    return {one.id: (one.operation_before, one.operation_after) for one in found.values()}


def test_a_job_hands_on_to_the_one_that_takes_what_it_leaves() -> None:
    found = ways(job("c", "b", "c"), job("a", "o", "a"), job("b", "a", "b"))
    assert found == {"a": (None, "b"), "b": ("a", "c"), "c": ("b", None)}


def test_what_a_job_says_itself_stays() -> None:
    found = ways(job("a", "o", "a", operation_after="z"), job("b", "a", "b"))
    assert found["a"] == (None, "z")
    assert found["b"] == (None, None), "a hands on to z, as it says"


@pytest.mark.parametrize("named", ["a", "b"])
def test_of_two_that_leave_the_same_state_the_one_that_is_named(named: str) -> None:
    found = ways(job("a", "o", "x"), job("b", "o", "x"), job("c", "x", "y", operation_before=named))
    assert found["c"] == (named, None)
    other = "b" if named == "a" else "a"
    assert (found[named], found[other]) == ((None, "c"), (None, None))


def test_where_two_leave_the_same_state_nothing_is_guessed() -> None:
    found = ways(job("a", "o", "x"), job("b", "o", "x"), job("c", "x", "y"))
    assert set(found.values()) == {(None, None)}


def test_where_two_take_the_same_state_nothing_is_guessed() -> None:
    found = ways(job("a", "o", "x"), job("b", "x", "y"), job("c", "x", "z"))
    assert set(found.values()) == {(None, None)}


def test_states_of_another_part_do_not_count() -> None:
    found = ways(job("a", "o", "x"), job("b", "x", "y", part="q"))
    assert set(found.values()) == {(None, None)}


def test_a_job_that_leaves_what_it_takes_is_not_its_own_neighbour() -> None:
    assert ways(job("a", "x", "x")) == {"a": (None, None)}


def test_references_of_a_job_tell_the_neighbour_that_was_found() -> None:
    first = job("a", "o", "x")
    assert first.marked, "found once, before the neighbour was known"
    found = handed_on({"a": first, "b": job("b", "x", "y")})["a"]
    assert ("operation_after",) in {one.path for one in found.marked}
