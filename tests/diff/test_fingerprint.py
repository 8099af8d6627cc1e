"""The fingerprint of a job changes with its meaning, and with nothing else."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from benchleaf.compute import set_up_sheets
from benchleaf.meaning import fingerprint
from benchleaf.model import Shop
from benchleaf.pipeline import load
from running import some

SHOP = Path(__file__).parents[1] / "shop"


@pytest.fixture(scope="module")
def shop() -> Shop:
    return load(SHOP).shop


def of(shop: Shop, job_id: str) -> str:
    job = shop.jobs[job_id]
    return fingerprint(shop, job, set_up_sheets(shop, job))


def test_it_is_a_sha_256_in_hexadecimal(shop: Shop) -> None:
    for job_id in some(shop.jobs):
        assert len(of(shop, job_id)) == 64
        assert int(of(shop, job_id), 16)


def test_jobs_differ(shop: Shop) -> None:
    assert len(shop.jobs) > 1
    assert len({of(shop, job_id) for job_id in shop.jobs}) == len(shop.jobs)


def changed(shop: Shop, job_id: str, **fields: object) -> Shop:
    jobs = {**shop.jobs, job_id: shop.jobs[job_id].model_copy(update=fields)}
    return replace(shop, jobs=jobs)


def test_a_change_of_revision_facts_or_line_breaks_keeps_it(shop: Shop) -> None:
    job_id = next(iter(shop.jobs))
    spaced = shop.jobs[job_id].makes.replace(" ", "\n  ", 1)
    for fields in ({"change_note": "Other."}, {"approved_by": "other"}, {"makes": spaced}):
        assert of(changed(shop, job_id, **fields), job_id) == of(shop, job_id)


def test_a_change_of_words_changes_it(shop: Shop) -> None:
    job_id = next(iter(shop.jobs))
    assert of(changed(shop, job_id, hand_on="Other."), job_id) != of(shop, job_id)


def test_a_change_in_a_shared_record_changes_it(shop: Shop) -> None:
    job_id, job = next(iter(shop.jobs.items()))
    machine = shop.machines[job.machine].model_copy(update={"where": "elsewhere"})
    other = replace(shop, machines={**shop.machines, machine.id: machine})
    assert of(other, job_id) != of(shop, job_id)
