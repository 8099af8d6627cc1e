"""Which jobs come before one on the route of its part."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

from benchleaf.compute.hole_route import jobs_before


def _shop(before: dict[str, str | None]) -> Any:
    return SimpleNamespace(
        jobs={one: SimpleNamespace(id=one, operation_before=two) for one, two in before.items()}
    )


def test_jobs_before_are_followed_to_the_first_one() -> None:
    shop = _shop({"a": None, "b": "a", "c": "b", "d": "c"})
    assert [one.id for one in jobs_before(shop, shop.jobs["d"])] == ["a", "b", "c"]
    assert jobs_before(shop, shop.jobs["a"]) == ()


def test_a_job_that_is_not_there_and_a_circle_end_it() -> None:
    shop = _shop({"a": "b", "b": "a", "c": "gone"})
    assert [one.id for one in jobs_before(shop, shop.jobs["a"])] == ["b"]
    assert jobs_before(shop, shop.jobs["c"]) == ()
