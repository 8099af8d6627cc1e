"""What the tests of plans share: a Monday, a shift, and situations made of a few words."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from benchleaf.model import Crew, CrewFacts, Job, Manual, Person, Shop
from benchleaf.plan import Situation

MONDAY = date(2026, 4, 6)
SHIFT = {"id": "early", "name": "Early shift", "starts": "06:00", "hours": "8 h"}

Make = Callable[..., Situation]


def shop_of(shop: Shop, needs: Mapping[str, tuple[str, ...]], teaching: dict[str, Any]) -> Shop:
    """Jobs alike but for their number and what must be known first."""
    like = shop.jobs["vg-0010"]
    jobs: dict[str, Job] = {
        job_id: like.model_copy(update={"id": job_id, "know_first": first})
        for job_id, first in needs.items()
    }
    rules = shop.manual.model_dump(mode="json", exclude_none=True) | {"teaching": teaching}
    return replace(shop, jobs=jobs, manual=Manual.model_validate(_as_text(rules)))


def _as_text(value: Any) -> Any:
    """Records are read from texts."""
    if isinstance(value, dict):
        return {key: _as_text(one) for key, one in value.items()}
    if isinstance(value, (list, tuple)):
        return [_as_text(one) for one in value]
    return value if isinstance(value, bool) or value is None else str(value)


def situation_of(
    small_shop: Shop,
    needs: Mapping[str, tuple[str, ...]],
    people: list[dict[str, Any]],
    *,
    crew: dict[str, Any] | None = None,
    teaching: dict[str, Any] | None = None,
    fingerprints: Mapping[str, str] | None = None,
    today: date = MONDAY,
) -> Situation:
    facts = {"shifts": [SHIFT], "trainers": [{"id": "tr-01", "shift": "early", "hours": "2 h"}]}
    found = [Person.model_validate(_as_text({"shift": "early", **one})) for one in people]
    shop = shop_of(small_shop, needs, teaching or {})
    return Situation(
        shop,
        Crew(
            CrewFacts.model_validate(_as_text({**facts, **(crew or {})})),
            {one.id: one for one in found},
        ),
        {job_id: (fingerprints or {}).get(job_id, "0" * 64) for job_id in needs},
        today,
    )
