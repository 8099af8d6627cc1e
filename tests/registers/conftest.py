"""The small shop in a repository, taken over."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from repository import Repository

from registering import take_over


@pytest.fixture
def repo(shop: Callable[..., Path]) -> Repository:
    content = shop()
    take_over(content)
    made = Repository(content.parent)
    made.git("init", "-q", "-b", "main")
    made.commit("First")
    return made
