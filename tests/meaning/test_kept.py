"""The record of what revisions changed: written at a release, read back, put together."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from test_edits import edited, side

from benchleaf import pipeline
from benchleaf.meaning import Changed, Consequence, changed, statements, together
from benchleaf.model import ChangedRevision, ChangedStatement, JobChanges, Shop
from registering import append_changed

JOB = "vg-0010"
STEP = "jobs/vg-0010"


def after(*edits: dict[str, Any]) -> Shop:
    shop = side("small").shop
    for one in edits:
        shop = edited(shop, one)
    return shop


def release(folder: Path, was: Shop, now: Shop, number: int, **more: Any) -> JobChanges:
    """Both jobs released as the revision `number`, and what stands in the file then."""
    numbers = dict.fromkeys(now.jobs, str(number))
    former = dict.fromkeys(was.jobs, str(number - 1))
    append_changed(folder, was, now, numbers, former=former, **more)
    return pipeline.load(folder).shop.changes[JOB]


def rows(kept: JobChanges, since: str, now: Shop) -> tuple[Changed, ...]:
    job = now.jobs[JOB]
    meaning = statements(now, job, ())
    return changed(together(kept.since(since) or ()), meaning, now.manual.retraining)


def stand(words: str) -> dict[str, Any]:
    return {"record": STEP, "set": {"steps/clamp/stand": words}}


def first_step(shop: Shop) -> str:
    return shop.jobs[JOB].steps[0].id


@pytest.fixture
def folder(shop: Callable[..., Path]) -> Path:
    return shop()


def point(text: str) -> dict[str, Any]:
    one = {"point": text, "reason": "It jams otherwise.", "kind": "can injure"}
    return {"record": STEP, "add": {f"steps/{first_step(side('small').shop)}/key_points": one}}


def test_what_is_written_is_read_back_as_it_was(folder: Path) -> None:
    was, now = after(), after(point('Say: "stop", # and wait — 5 µm.'))
    kept = release(folder, was, now, 2)
    (row,) = rows(kept, "1", now)
    assert (row.kind, row.now, row.why, row.is_grave) == (
        "new", 'Say: "stop", # and wait — 5 µm.', "It jams otherwise.", True,
    )  # fmt: skip
    assert row.where.startswith("step '")
    assert row.where.endswith(f"key point {len(now.jobs[JOB].steps[0].key_points)}")


def test_a_file_only_grows_and_a_revision_is_entered_once(folder: Path) -> None:
    one, two = after(point("One.")), after(point("One."), point("Two."))
    release(folder, after(), one, 2)
    path = folder / "changed" / f"{JOB}.yml"
    first = path.read_text(encoding="utf-8")
    assert append_changed(folder, after(), two, {JOB: "2"}, former={JOB: "1"}) == {}
    release(folder, one, two, 3)
    assert path.read_text(encoding="utf-8").startswith(first)
    assert path.read_text(encoding="utf-8") != first
    assert not any("changed" in one.place.file for one in pipeline.load(folder).findings)


def test_somebody_taught_long_ago_is_taught_first_was_and_last_now(folder: Path) -> None:
    shops = [after(), after(point("One.")), after(point("Two.")), after(point("Three."))]
    for number, (was, now) in enumerate(itertools.pairwise(shops), 2):
        kept = release(folder, was, now, number)
    assert [one.now for one in rows(kept, "1", shops[-1])] == ["Three."]
    assert [(one.was, one.now) for one in rows(kept, "2", shops[-1])] == [("One.", "Three.")]
    assert rows(kept, "4", shops[-1]) == ()
    assert kept.since("0") is None


def test_what_is_as_it_was_drops_out(folder: Path) -> None:
    shops = [after(), after(point("One.")), after()]
    for number, (was, now) in enumerate(itertools.pairwise(shops), 2):
        kept = release(folder, was, now, number)
    assert rows(kept, "1", shops[-1]) == ()
    assert [one.kind for one in rows(kept, "2", shops[-1])] == ["gone"]


def test_a_gap_is_not_passed_over() -> None:
    entries = (ChangedRevision(revision="2", former="1"), ChangedRevision(revision="4", former="3"))
    kept = JobChanges(job=JOB, changes=entries)
    assert kept.since("1") is None
    assert kept.since("3") == entries[1:]


def test_a_declared_change_of_wording_is_left_out_and_an_undeclared_one_is_told(
    folder: Path,
) -> None:
    was = after()
    title = was.jobs[JOB].steps[0].key_points[0].point
    path = f"steps/{first_step(was)}/key_points/1/point"
    now = after({"record": STEP, "set": {path: f"Please {title[:1].lower()}{title[1:]}"}})
    undeclared = release(folder, was, now, 2)
    (row,) = rows(undeclared, "1", now)
    assert row.is_reworded
    assert row.verdict.what is Consequence.TEACH
    (folder / "changed" / f"{JOB}.yml").unlink()
    declared = release(folder, was, now, 2, wording_only=(JOB,))
    assert rows(declared, "1", now) == ()


def test_steps_in_another_order_are_told_as_moved_by_their_titles(folder: Path) -> None:
    was = after()
    places = list(range(1, len(was.jobs[JOB].steps) + 1))
    order = {"steps": [places[1], places[0], *places[2:]]}
    now = after({"record": STEP, "order": order})
    (row,) = rows(release(folder, was, now, 2), "1", now)
    assert row.kind == "moved"
    assert row.now.startswith(was.jobs[JOB].steps[1].title)


def test_a_new_hazard_is_told_once_with_its_consequence(folder: Path) -> None:
    was = after()
    spare = next(one for one in was.hazards if one not in str(was.jobs["vg-0020"]))
    now = after({"record": STEP, "add": {"hazards": spare}})
    found = rows(release(folder, was, now, 2), "1", now)
    title = was.hazards[spare].title
    assert sum(title in one.now for one in found) <= 1


def test_ten_small_steps_of_a_figure_are_judged_as_one() -> None:
    entries = [
        ChangedRevision(revision=str(n + 1), former=str(n), statements=(_figure(n),))
        for n in range(1, 11)
    ]
    (one,) = together(entries)
    assert (one.was, one.now, one.was_numbers, one.now_numbers) == (
        "100 N", "110 N", (100.0,), (110.0,),
    )  # fmt: skip
    (row,) = changed((one,), (), side("small").shop.manual.retraining)
    assert row.verdict.what is Consequence.TEACH
    (small,) = changed(entries[0].statements, (), side("small").shop.manual.retraining)
    assert small.verdict.what is Consequence.TELL


def _figure(n: int) -> ChangedStatement:
    return ChangedStatement.model_validate(
        {
            "what": "a reckoned figure", "place": "set_ups/a/thrust", "where": "set-up 'A', thrust",
            "was": f"{99 + n} N", "now": f"{100 + n} N",
            "was_numbers": [99.0 + n], "now_numbers": [100.0 + n],
        }
    )  # fmt: skip


def test_a_kind_that_went_at_one_key_point_is_not_put_back_at_another(folder: Path) -> None:
    """Else nobody taught before would hear which key point can injure now."""
    kinds = [{"record": STEP, "set": {f"steps/clamp/key_points/{number}/kind": kind}}
             for number, kind in ((1, "can injure"), (2, "makes or breaks the job"))]  # fmt: skip
    shops = [after(), after(kinds[0]), after(*kinds)]
    for number, (was, now) in enumerate(itertools.pairwise(shops), 2):
        kept = release(folder, was, now, number)
    found = {one.where.rpartition(", ")[0]: (one.was, one.now)
             for one in rows(kept, "1", shops[-1])}  # fmt: skip
    injures, breaks = "can injure", "makes or breaks the job"
    assert found == {
        "step 'Clamp the plate', key point 1": (breaks, injures),
        "step 'Clamp the plate', key point 2": (injures, breaks),
    }
