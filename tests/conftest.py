"""The small shop that most tests build on, and expected output that is kept in files.

`shop` writes a complete, valid content folder and hands back its path; a test names only the
files it wants otherwise. The files themselves are in tests/shop/.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.compute import SetUpSheet, set_up_sheets
from benchleaf.diagnose import Finding
from benchleaf.registers.address_register import BESIDE

pytest_plugins = ("running", "loops", "kept", "read_once")

SHOP = Path(__file__).parent / "shop"


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--update-golden",
        action="store_true",
        help="write what was printed over the expected files, to be read before it is kept",
    )


def write_shop(content: Path, files: Mapping[str, str | None]) -> Path:
    """Write a content folder; a file whose text is None is left out."""
    for name, text in files.items():
        path = content / name
        path.parent.mkdir(parents=True, exist_ok=True)
        if text is not None:
            path.write_bytes(text.encode())
    return content


@pytest.fixture(scope="session")
def base_shop() -> dict[str, str]:
    """Every file of the small shop: name below content/ and text.

    Without the register of revisions, which would object to every edit that a test makes.
    """
    return {
        path.relative_to(SHOP).as_posix(): path.read_text(encoding="utf-8").replace(BESIDE, "")
        for path in sorted(SHOP.rglob("*"))
        if path.is_file() and path.name != "revisions.yml"
    }


@pytest.fixture
def shop(tmp_path: Path, base_shop: dict[str, str]) -> Callable[..., Path]:
    """`shop({"jobs/vg-0010.yml": text})` writes the small shop with that file instead.

    None takes a file out. Each call writes a folder of its own, always called `content`.
    """
    made = 0

    def make(files: Mapping[str, str | None] | None = None) -> Path:
        nonlocal made
        made += 1
        return write_shop(tmp_path / f"shop-{made}" / "content", {**base_shop, **(files or {})})

    return make


@pytest.fixture(scope="session")
def edited(base_shop: dict[str, str]) -> Callable[..., dict[str, str]]:
    """`edited("manual.yml", "old", "new")` is that file of the small shop with one change.

    Further pairs may follow. The old text must stand in the file exactly once, so that a change
    of the shop cannot quietly turn a test into one that tests nothing.
    """

    def edit(name: str, *pairs: str) -> dict[str, str]:
        text = base_shop[name]
        for old, new in zip(pairs[::2], pairs[1::2], strict=True):
            assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {name}"
            text = text.replace(old, new)
        return {name: text}

    return edit


@pytest.fixture
def found(shop: Callable[..., Path]) -> Callable[..., tuple[Finding, ...]]:
    """`found({...}, {...})` is every finding of the small shop with these files."""

    def check(*files: Mapping[str, str | None]) -> tuple[Finding, ...]:
        merged = {name: text for each in files for name, text in each.items()}
        return pipeline.check(shop(merged))

    return check


@pytest.fixture
def sheet(shop: Callable[..., Path]) -> Callable[..., SetUpSheet]:
    """`sheet({...})` is the one set-up of job VG-0010, with the files named instead."""

    def reckon(files: Mapping[str, str | None] | None = None) -> SetUpSheet:
        loaded = pipeline.load(shop(files))
        (one,) = set_up_sheets(loaded.shop, loaded.shop.jobs["vg-0010"])
        return one

    return reckon


@pytest.fixture
def golden(request: pytest.FixtureRequest) -> Callable[[Path, str], None]:
    """`golden(path, text)` compares with the file, or writes it under --update-golden."""
    update: bool = request.config.getoption("--update-golden")

    def compare(path: Path, text: str) -> None:
        if update:
            path.write_text(text, encoding="utf-8")
        assert path.is_file(), f"{path} is missing; --update-golden writes it, then read it"
        assert text == path.read_text(encoding="utf-8")

    return compare
