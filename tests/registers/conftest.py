"""The small shop in a repository, taken over."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from repository import Repository


@pytest.fixture
def repo(small_shop_released: Callable[[Path], Path], tmp_path: Path) -> Repository:
    made = Repository(small_shop_released(tmp_path).parent)
    made.git("init", "-q", "-b", "main")
    made.commit("First")
    return made
