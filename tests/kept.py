"""What was looked at once and is as it was: a digest of each text, a line each in tests/golden/.

For much that nobody writes down by hand: what pages are given, what formulas give. Where a key is
named, compare its text before and after; both stand below the folder that the failure names, by
their digests. `--update-golden` keeps what is new.
"""

from __future__ import annotations

import hashlib
import tempfile
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from filelock import FileLock

GOLDEN = Path(__file__).parent / "golden"
WRITTEN = Path(tempfile.gettempdir(), "benchleaf-kept")
Kept = Callable[[str, Mapping[str, str]], None]


def digests(name: str) -> dict[str, str]:
    """Key and digest, as the file has them."""
    path = GOLDEN / f"{name}.txt"
    text = path.read_text(encoding="utf-8") if path.is_file() else ""
    return dict(line.rsplit(" ", 1) for line in text.splitlines())


def digest(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()[:12]


def write_out(name: str, key: str, text: str) -> Path:
    folder = WRITTEN / name / "".join(one if one.isalnum() else "-" for one in key)[:120]
    folder.mkdir(parents=True, exist_ok=True)
    (folder / f"{digest(text)}.txt").write_text(text, encoding="utf-8")
    return folder


def update(name: str, texts: Mapping[str, str]) -> None:
    """Keep these; others of the file stay."""
    path = GOLDEN / f"{name}.txt"
    with FileLock(Path(tempfile.gettempdir(), f"benchleaf-kept-{name.replace('/', '-')}.lock")):
        found = digests(name) | {key: digest(text) for key, text in texts.items()}
        path.parent.mkdir(exist_ok=True)
        lines = (f"{key} {one}\n" for key, one in sorted(found.items()))
        path.write_text("".join(lines), encoding="utf-8")


@pytest.fixture
def kept(request: pytest.FixtureRequest) -> Kept:
    """`kept("formulas", {"drilling.thrust_n": text})` compares each with its digest in the file."""

    def compare(name: str, texts: Mapping[str, str]) -> None:
        if request.config.getoption("--update-golden"):
            update(name, texts)
        known = digests(name)
        moved = {key: write_out(name, key, text) for key, text in texts.items()
                 if known.get(key) != digest(text)}  # fmt: skip
        assert moved == {}

    return compare
