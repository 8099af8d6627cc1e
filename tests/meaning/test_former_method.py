"""Entries of the former method hold for what they registered: the new one calls nobody back."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from benchleaf import pipeline
from benchleaf.meaning import METHOD
from registering import register_revisions

Shop = Callable[..., Path]
Edited = Callable[..., dict[str, str]]
MACHINE = "machines/bench-drill.yml"
FORMER = Path(__file__).parent / "former-method.yml"


def files(*each: dict[str, str]) -> dict[str, str]:
    found = {"revisions.yml": FORMER.read_text(encoding="utf-8")}
    for one in each:
        found |= one
    return found


def codes(content: Path) -> list[str]:
    return [one.code for one in pipeline.load(content).findings if one.code in ("A604", "A605")]


def test_a_job_that_is_as_it_was_registered_is_unchanged(shop: Shop) -> None:
    loaded = pipeline.load(shop(files()))
    entries = [one for found in loaded.revisions.by_job.values() for one in found]
    assert {one.method for one in entries} == {1}
    assert not [one for one in loaded.findings if one.code in ("A604", "A605")]
    for job in loaded.shop.jobs.values():
        now = loaded.fingerprints[job.id]
        assert now not in {one.fingerprint for one in entries}
        assert {now, entries[0].fingerprint} & loaded.revisions.alike(job, now)


def test_a_job_that_changed_since_is_told(shop: Shop, edited: Edited) -> None:
    moved = edited(MACHINE, "under the window", "beside the saw")
    assert codes(shop(files(moved))) == ["A604", "A604"]


def test_registering_takes_the_entries_over_and_keeps_them(shop: Shop, edited: Edited) -> None:
    content = shop(files())
    assert register_revisions(content) == ((), 2)
    loaded = pipeline.load(content)
    for job_id in loaded.shop.jobs:
        *before, last = (one.method for one in loaded.revisions.by_job[job_id])
        assert (set(before), last) == ({1}, METHOD)
    assert register_revisions(content) == ((), 0)
    plate = content / MACHINE
    plate.write_text(
        plate.read_text(encoding="utf-8").replace("motor_power: 1.5 kW", "motor_power: 2.2 kW"),
        encoding="utf-8",
    )
    assert codes(content) == []


def test_a_register_without_what_was_said_still_tells_that_it_changed(
    shop: Shop, edited: Edited
) -> None:
    moved = edited(MACHINE, "under the window", "beside the saw")
    found = [one for one in pipeline.load(shop(files(moved))).findings if one.code == "A604"]
    assert all("must be taught" in one.help[-1] for one in found)


def test_wording_is_declared_on_an_entry_of_the_former_method(shop: Shop, edited: Edited) -> None:
    job = "jobs/vg-0010.yml"
    moved = edited(job, "A plate that lies crooked", "A plate that sits crooked")
    content = shop(files(moved))
    assert codes(content) == ["A604"]
    assert register_revisions(content, {"vg-0010"}) == ((), 2)
    assert codes(content) == []
    assert pipeline.load(content).revisions.by_job["vg-0010"][-1].wording_only


def test_more_than_wording_is_refused_on_an_entry_of_the_former_method(
    shop: Shop, edited: Edited
) -> None:
    moved = edited("jobs/vg-0010.yml", "thickness: 6 mm", "thickness: 7 mm")
    content = shop(files(moved))
    (left,), added = register_revisions(content, {"vg-0010"})
    assert (left.code, added) == ("A604", 1)  # the other job is taken over
