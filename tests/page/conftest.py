"""The small shop as a planned site."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from planned import Planned

from benchleaf import pipeline


@pytest.fixture
def site(shop: Callable[..., Path]) -> Callable[..., Planned]:
    """`site({"jobs/vg-0010.yml": text})` plans the small shop with these files instead."""

    def plan(
        files: Mapping[str, str | None] | None = None,
        *,
        edition: str = "kiosk",
        overrides: tuple[Path, ...] = (),
    ) -> Planned:
        loaded = pipeline.load(shop(files))
        return Planned(loaded, pipeline.plan_site(loaded, overrides, edition=edition))

    return plan


@pytest.fixture
def many_jobs(base_shop: dict[str, str]) -> Callable[[int], dict[str, str]]:
    """`many_jobs(7)` is files of so many more jobs on the machine, VG-0101 and on."""

    def more(count: int) -> dict[str, str]:
        text = base_shop["jobs/vg-0020.yml"].replace("operation_before: VG-0010\n", "")
        return {
            f"jobs/vg-{number}.yml": text.replace("id: VG-0020", f"id: VG-{number}")
            for number in (f"{100 + n:04d}" for n in range(1, count + 1))
        }

    return more
