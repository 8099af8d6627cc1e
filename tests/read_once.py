"""The demo and the small shop as several tests want them: read or made once a process.

Records are frozen, so that what one test does with them is nothing to the next.
"""

from __future__ import annotations

import shutil
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from benchleaf import pipeline
from registering import take_over

ROOT = Path(__file__).parents[1]
DEMO = ROOT / "content"


@cache
def demo() -> pipeline.Loaded:
    """The demo as it stands in the repository."""
    return pipeline.load(DEMO)


@pytest.fixture
def demo_read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """A command that reads the demo is given what is read already."""
    real = pipeline.load

    def load(content: Path, *given: object, **named: object) -> pipeline.Loaded:
        is_usual = content == DEMO and not given and not named
        return demo() if is_usual else real(content, *given, **named)  # type: ignore[arg-type]

    demo()
    monkeypatch.setattr(pipeline, "load", load)


@pytest.fixture(scope="session")
def small_shop_released(
    tmp_path_factory: pytest.TempPathFactory, base_shop: dict[str, str]
) -> Callable[[Path], Path]:
    """`small_shop_released(folder)` is the small shop, its revisions given by releases, there."""
    made = tmp_path_factory.mktemp("taken-over") / "content"
    for name, text in base_shop.items():
        path = made / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text.encode())
    take_over(made)

    def copy(folder: Path) -> Path:
        return Path(shutil.copytree(made, folder / "content"))

    return copy
