"""Findings of the small shop with one thing changed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.diagnose import Finding


@pytest.fixture
def found(shop: Callable[..., Path]) -> Callable[..., tuple[Finding, ...]]:
    """`found({...})` is every finding of the shop with these files; files are merged."""

    def check(*files: dict[str, str | None]) -> tuple[Finding, ...]:
        merged: dict[str, str | None] = {}
        for each in files:
            merged |= each
        return pipeline.check(shop(merged))

    return check
