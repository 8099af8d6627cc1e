"""A shop of as many jobs as a test asks for, and crews for it."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest
from made_crews import Make, situation_of

from benchleaf import pipeline
from benchleaf.compute import SetUpSheet, set_up_sheets
from benchleaf.model import Job, Shop


@pytest.fixture(scope="session")
def small_shop() -> Shop:
    return pipeline.load(Path(__file__).parents[1] / "shop").shop


@pytest.fixture(scope="session")
def situation(small_shop: Shop) -> Make:
    """`situation({"a": (), "b": ("a",)}, people, crew={...})`: jobs, people, facts of the crew."""

    return partial(situation_of, small_shop)


@pytest.fixture(scope="session")
def reckoned(small_shop: Shop) -> Callable[[Job], tuple[SetUpSheet, ...]]:
    return lambda job: set_up_sheets(small_shop, job)
