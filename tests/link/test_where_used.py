"""References both ways."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.link import Use, Uses, where_used
from benchleaf.model import references


@pytest.fixture
def uses(shop: Callable[..., Path]) -> Uses:
    return where_used(pipeline.load(shop()).shop)


def test_a_use_by_a_field_names_the_record(uses: Uses) -> None:
    assert uses["machines", "bench-drill"] == (
        Use("jobs", "vg-0010"),
        Use("jobs", "vg-0020"),
        Use("onboarding", "first-days"),
    )
    assert uses["fluids", "soluble-oil"] == (Use("jobs", "vg-0010"),)


def test_a_use_in_a_step_names_the_step(uses: Uses) -> None:
    assert set(uses["tools", "plug-gauge-8"]) == {
        Use("jobs", "vg-0010"), Use("jobs", "vg-0010", "gauge"),
    }  # fmt: skip


def test_a_use_by_a_link_in_text_counts(uses: Uses) -> None:
    assert uses["terms", "quill"] == (Use("machines", "bench-drill"),)
    assert Use("jobs", "vg-0010") in uses["jobs", "vg-0020"]


def test_each_use_is_told_once(uses: Uses) -> None:
    for found in uses.values():
        assert len(set(found)) == len(found)


def test_a_record_that_nobody_uses_is_not_listed(uses: Uses) -> None:
    assert ("terms", "rack-plate") not in uses


def test_a_record_does_not_use_itself(
    shop: Callable[..., Path], edited: Callable[..., dict[str, str]]
) -> None:
    loaded = pipeline.load(
        shop(edited("terms.yml", "The plate that guides", "The [[term:rack-plate]] that guides"))
    )
    assert ("terms", "rack-plate") not in where_used(loaded.shop)


def test_no_reference_of_any_record_is_lost(shop: Callable[..., Path]) -> None:
    loaded = pipeline.load(shop())
    uses = where_used(loaded.shop)
    for kind, record_id, record in loaded.shop.every():
        for _, wanted_kind, wanted in references(record):
            users = {(use.kind, use.id) for use in uses[wanted_kind, wanted]}
            assert (kind, record_id) in users


def test_a_hazard_that_a_job_never_meets_is_no_use_of_it(
    shop: Callable[..., Path], edited: Callable[..., dict[str, str]]
) -> None:
    name = "jobs/vg-0020.yml"
    never = "not_met:\n  - hazard: work-turns\n    reason: Nothing turns here.\nif_wrong:"
    uses = where_used(pipeline.load(shop(edited(name, "if_wrong:", never))).shop)
    assert Use("jobs", "vg-0020") not in uses["hazards", "work-turns"]
