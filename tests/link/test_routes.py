"""The jobs on one part in the order in which it meets them, also where a route is odd."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.link import routes

Order = Callable[..., dict[str, list[str]]]
RECORD = "part: vg-r1\ntakes: drilled\nleaves: deburred\n"
PART = (
    "part:\n  number: {}\n  name: Rack plate\n  drawing: VG-R1 sheet 1\n"
    "  material: mild-steel\n  stock: sawn flat bar, 40 x 6 mm\n"
)


@pytest.fixture
def order(shop: Callable[..., Path], base_shop: dict[str, str]) -> Order:
    """`order({"a": "VG-R1"}, "a>b")` is the route of each part: ids of jobs in order.

    Jobs are given with their part, or none; `a>b` hands on from a to b in both records, `a>.b`
    only in that of a, `a.>b` only in that of b.
    """

    def make(jobs: dict[str, str | None], *links: str) -> dict[str, list[str]]:
        before, after = {}, {}
        for link in links:
            one, other = link.replace(".", "").split(">")
            if ".>" not in link:
                after[one] = other
            if ">." not in link:
                before[other] = one
        files: dict[str, str | None] = {"jobs/vg-0010.yml": None, "jobs/vg-0020.yml": None}
        files["parts/vg-r1.yml"] = None
        for job_id, part in jobs.items():
            text = base_shop["jobs/vg-0020.yml"].replace("know_first:\n  - VG-0010\n", "")
            text = text.replace("id: VG-0020", f"id: {job_id}")
            text = text.replace(RECORD, PART.format(part) if part else "")
            text = text.replace(
                "operation_before: VG-0010\n",
                (f"operation_before: {before[job_id]}\n" if job_id in before else "")
                + (f"operation_after: {after[job_id]}\n" if job_id in after else ""),
            )
            files[f"jobs/{job_id}.yml"] = text
        found = routes(pipeline.load(shop(files)).shop)
        return {route.id: [job.id for job in route.jobs] for route in found}

    return make


def same_part(*jobs: str) -> dict[str, str | None]:
    return dict.fromkeys(jobs, "P1")


@pytest.mark.parametrize(
    ("jobs", "links", "expected"),
    [
        (("a",), (), ["a"]),
        (("a", "b", "c"), ("a>b", "b>c"), ["a", "b", "c"]),
        (("a", "b", "c"), ("c>b", "b>a"), ["c", "b", "a"]),
        (("a", "b", "c", "d"), ("b>a", "d>c"), ["b", "a", "d", "c"]),
        (("a", "b", "c"), ("c>b",), ["a", "c", "b"]),
        (("a", "b", "c"), (), ["a", "b", "c"]),
    ],
    ids=["one job", "in order", "backwards", "two routes", "a job by itself", "no route"],
)
def test_the_order_of_a_route(
    order: Order, jobs: tuple[str, ...], links: tuple[str, ...], expected: list[str]
) -> None:
    assert order(same_part(*jobs), *links) == {"p1": expected}


@pytest.mark.parametrize(
    "links",
    [
        ("a>b", "b>a"),
        ("a>b", "b>c", "c>a"),
        ("a>a",),
        ("a>.b", "c>.b"),
        ("a.>b", "a.>c"),
        ("a>.nowhere",),
        ("nowhere.>a",),
        ("a>b", "b>c", "c>.a"),
    ],
)
def test_an_odd_route_ends_and_loses_no_job(order: Order, links: tuple[str, ...]) -> None:
    (found,) = order(same_part("a", "b", "c"), *links).values()
    assert sorted(found) == ["a", "b", "c"]


def test_a_ring_begins_at_its_first_job_and_goes_round_once(order: Order) -> None:
    assert order(same_part("a", "b", "c"), "a>c", "c>b", "b>a") == {"p1": ["a", "c", "b"]}


def test_a_route_keeps_to_its_part(order: Order) -> None:
    """A pin is drilled, the bracket that takes it next is another part."""
    jobs = {"a": "P1", "b": "P2", "c": "P1", "d": None}
    assert order(jobs, "a>b", "b>c") == {"p1": ["a", "c"], "p2": ["b"]}


def test_a_job_on_no_part_is_on_no_route(order: Order) -> None:
    assert order({"a": None}) == {}


def test_one_part_number_is_one_part_however_it_is_written(order: Order) -> None:
    assert order({"a": "TRW 204/B", "b": "trw-204-b"}) == {"trw-204-b": ["a", "b"]}


def test_parts_stand_in_the_order_of_their_ids(order: Order) -> None:
    assert list(order({"a": "P9", "b": "P1", "c": "A5"})) == ["a5", "p1", "p9"]
