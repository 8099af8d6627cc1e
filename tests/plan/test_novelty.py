"""What is new for a learner: exactly what no proved job has, and a job to start from."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import read_once
from benchleaf.model import Person, Shop
from benchleaf.plan import novelty
from benchleaf.plan.novelty import HEADINGS, features
from running import examples

WORDS = {"tr-0110": frozenset({"burr", "quill"}), "tr-0120": frozenset({"burr", "stop-card"})}


@pytest.fixture(scope="module")
def demo_shop() -> Shop:
    return read_once.demo().shop


def learner(*proved: str) -> Person:
    return Person.model_validate(
        {
            "id": "op-01",
            "shift": "early",
            "can_do": [
                {"job": one, "revision": "1", "judged": "2026-03-02", "judged_by": "tr-01"}
                for one in proved
            ],
        }
    )


def test_for_a_beginner_everything_is_new(demo_shop: Shop) -> None:
    found = novelty(demo_shop, learner(), demo_shop.jobs["tr-0110"], WORDS)
    assert found.known == {}
    assert found.nearest is None
    assert set(found.new) >= {"machine", "material", "holding", "hazard", "kind of key point"}
    assert found.new["word"] == ("burr", "quill")


def test_after_the_first_hole_the_second_brings_little(demo_shop: Shop) -> None:
    found = novelty(demo_shop, learner("tr-0110"), demo_shop.jobs["tr-0120"], WORDS)
    assert found.nearest == "tr-0110"
    assert not {"machine", "material", "operation", "holding"} & set(found.new)
    assert "drill-8-5" in found.new["tool"]
    assert found.new["word"] == ("stop-card",)
    known = {one.title: one.known_from for one in found.steps}
    assert known["Start the spindle"] == "tr-0110"


def test_round_work_and_a_first_lockout_are_told(demo_shop: Shop) -> None:
    cross = novelty(demo_shop, learner("tr-0110"), demo_shop.jobs["tr-0220"], {})
    assert "round bar" in cross.new["shape of work"]
    belt = novelty(demo_shop, learner("tr-0110"), demo_shop.jobs["tr-0190"], {})
    assert "lockout" in belt.new


jobs = st.sampled_from(
    ["tr-0110", "tr-0120", "tr-0130", "tr-0190", "tr-0220", "tr-0310", "tr-0430", "tr-0550"]
)


@settings(max_examples=examples(40))
@given(jobs, st.lists(jobs, max_size=4, unique=True))
def test_new_and_known_are_the_jobs_features_once(
    demo_shop: Shop, job_id: str, proved: list[str]
) -> None:
    job = demo_shop.jobs[job_id]
    found = novelty(demo_shop, learner(*proved), job, WORDS)
    told = [(head, one) for part in (found.new, found.known) for head in part for one in part[head]]
    assert sorted(told) == sorted(set(features(demo_shop, job, WORDS)))
    met = {
        one
        for each in proved
        if each != job_id
        for one in features(demo_shop, demo_shop.jobs[each], WORDS)
    }
    assert not {(head, one) for head in found.new for one in found.new[head]} & met
    assert set(found.new) | set(found.known) <= set(HEADINGS)
    assert found.of == len(told)


def test_what_the_plan_will_have_taught_by_then_counts(demo_shop: Shop) -> None:
    found = novelty(demo_shop, learner(), demo_shop.jobs["tr-0120"], WORDS, ("tr-0110",))
    proved = novelty(demo_shop, learner("tr-0110"), demo_shop.jobs["tr-0120"], WORDS)
    assert (found.new, found.nearest) == (proved.new, "tr-0110")
    assert (found.by_then, proved.by_then) == (("tr-0110",), ())
