"""Builds the demo under each maintained engine of the MkDocs 1.x kind, and compares every byte.

Run by hand and in CI, in the environment of the tests: `python tests/engines.py`. It makes one
environment for each fork in a temporary folder, with the same packages as this one save the engine
itself, and asks a package index for them; so it is no part of `pytest`. It exits 1 where a file
differs. `--keep FOLDER` leaves environments and sites there, and uses the environments again.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
import venv
from collections.abc import Iterator
from dataclasses import dataclass
from importlib.metadata import distributions
from pathlib import Path

ROOT = Path(__file__).parents[1]
EDITIONS = {"kiosk": "site", "full": "site-full"}
"""Each edition, and the name of the folder it builds to."""
OURS = ("benchleaf", "mkdocs")
"""Not taken over from this environment: our own package, and the engine that is replaced."""
MADE_ON = "1796000000"
"""One day for all builds, in seconds since 1970; every page carries the day it was made."""


@dataclass(frozen=True)
class Engine:
    """A site engine: its package, and the module that runs it."""

    package: str
    module: str


MKDOCS = Engine("mkdocs", "mkdocs")
FORKS = (Engine("mkdocs-ng==1.8.0", "mkdocs"), Engine("properdocs==1.6.7", "properdocs"))
"""Both keep the plugins of MkDocs 1.x alive (their own pages, read in November 2026)."""


def files(site: Path) -> dict[str, bytes]:
    """Every file of a site by its name below it."""
    paths = (path for path in sorted(site.rglob("*")) if path.is_file())
    return {path.relative_to(site).as_posix(): path.read_bytes() for path in paths}


def differences(one: dict[str, bytes], other: dict[str, bytes]) -> Iterator[str]:
    """What differs between two sites, a line a file.

    >>> list(differences({"a": b"1", "b": b"2"}, {"b": b"3", "c": b"4"}))
    ['a is missing', 'b differs', 'c is new']
    """
    for name in sorted({*one, *other}):
        if name not in other:
            yield f"{name} is missing"
        elif name not in one:
            yield f"{name} is new"
        elif one[name] != other[name]:
            yield f"{name} differs"


def pinned() -> str:
    """The packages of this environment at their versions, as pip's constraints."""
    found = {one.metadata["Name"].lower(): one.version for one in distributions()}
    lines = (f"{name}=={version}" for name, version in sorted(found.items()) if name not in OURS)
    return "\n".join(lines) + "\n"


def environment(folder: Path, engine: Engine) -> str:
    """The interpreter of an environment with the package and that engine in place of MkDocs."""
    python = folder / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    if not python.exists():
        venv.create(folder, with_pip=True)
        (folder / "constraints.txt").write_text(pinned(), encoding="utf-8")
        pip = (str(python), "-m", "pip")
        _run(*pip, "install", "--quiet", "-c", str(folder / "constraints.txt"), str(ROOT))
        _run(*pip, "uninstall", "--quiet", "--yes", "mkdocs")
        _run(*pip, "install", "--quiet", "-c", str(folder / "constraints.txt"), engine.package)
    return str(python)


def build(python: str, engine: Engine, site: Path, edition: str) -> dict[str, bytes]:
    """One edition of the demo as that engine builds it."""
    _run(
        python, "-m", engine.module, "build", "--quiet", "--strict",
        "--config-file", str(ROOT / "mkdocs.yml"), "--site-dir", str(site / "site"),
        BENCHLEAF_EDITION=edition,
    )  # fmt: skip
    made = files(site / EDITIONS[edition])
    if "index.html" not in made:
        raise SystemExit(f"{engine.package} built no {edition} edition")
    return made


def _run(*command: str, **environment: str) -> None:
    """Run a command to its end; what it prints is shown where it fails only."""
    known = {**os.environ, "SOURCE_DATE_EPOCH": MADE_ON, "NO_MKDOCS_2_WARNING": "1", **environment}
    ran = subprocess.run(command, env=known, capture_output=True, text=True, check=False)
    if ran.returncode:
        raise SystemExit(f"{' '.join(command)}\n{ran.stdout}{ran.stderr}")


def compare(folder: Path) -> int:
    """Build both editions under every engine below `folder`; how many files differ."""
    wrong = 0
    wanted = {
        edition: build(sys.executable, MKDOCS, folder / "mkdocs", edition) for edition in EDITIONS
    }
    for engine in FORKS:
        name = engine.package.partition("==")[0]
        python = environment(folder / f"{name}-environment", engine)
        for edition, site in wanted.items():
            found = list(differences(site, build(python, engine, folder / name, edition)))
            print(f"{engine.package}, {edition} edition: {len(site)} files, {len(found)} differ")
            print("".join(f"    {line}\n" for line in found[:20]), end="", flush=True)
            wrong += len(found)
    return wrong


def main() -> int:
    """Compare, in a temporary folder or one that is kept."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").split("\n")[0])
    parser.add_argument("--keep", type=Path, metavar="FOLDER")
    keep = parser.parse_args().keep
    if keep is not None:
        return int(compare(keep.resolve()) > 0)
    with tempfile.TemporaryDirectory() as folder:
        return int(compare(Path(folder)) > 0)


if __name__ == "__main__":
    raise SystemExit(main())
