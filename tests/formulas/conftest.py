"""Shared by the formula tests: where the published tables lie, and how they are read."""

import csv
import os
import tempfile
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import settings

WORKED = Path(__file__).parents[1] / "worked"

# A folder of scratch files left in the repository would stop the next run: pytest warns of it
# where it is not in norecursedirs, and warnings are errors.
os.environ.setdefault("HYPOTHESIS_STORAGE_DIRECTORY", tempfile.gettempdir() + "/hypothesis")

# The same cases every run, and no clock: a slow machine must not fail a formula.
settings.register_profile("formulas", derandomize=True, deadline=None, database=None)
settings.load_profile("formulas")


def read_table(name: str) -> list[dict[str, str]]:
    """Read a published table; its first two lines say where it comes from.

    Lines are dropped by place, not by their "#", as a number drill's name starts with one too.
    """
    origin, status, *lines = (WORKED / name).read_text(encoding="utf-8").splitlines()
    assert origin.startswith("# origin: ")
    assert status.startswith("# status: ")
    return list(csv.DictReader(lines))


@pytest.fixture
def table() -> Callable[[str], list[dict[str, str]]]:
    return read_table
