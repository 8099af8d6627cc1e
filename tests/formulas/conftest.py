"""Shared by the formula tests: where the published tables lie, and how they are read."""

import csv
from collections.abc import Callable
from pathlib import Path

import pytest

WORKED = Path(__file__).parents[1] / "worked"


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
