"""Set-up sheets of the small shop."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.compute import SetUpSheet, set_up_sheets


@pytest.fixture
def sheet(shop: Callable[..., Path]) -> Callable[..., SetUpSheet]:
    """`sheet({...})` is the one set-up of job VG-0010, with the files named instead."""

    def reckon(files: dict[str, str] | None = None) -> SetUpSheet:
        loaded = pipeline.load(shop(files))
        (one,) = set_up_sheets(loaded.shop, loaded.shop.jobs["vg-0010"])
        return one

    return reckon
