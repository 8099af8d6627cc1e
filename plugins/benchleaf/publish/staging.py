"""The former site stays whole until the new one is finished: built beside it, then swapped in."""

from __future__ import annotations

import shutil
from pathlib import Path


def staging_folder(site: Path) -> Path:
    """The folder to build in: a hidden sibling, on the same disk, so that a swap is a rename."""
    return site.with_name(f".{site.name}-building")


def _former(site: Path) -> Path:
    return site.with_name(f".{site.name}-former")


def recover(site: Path) -> None:
    """Put the former site back where a swap was cut off half-way, and clear leftovers."""
    former = _former(site)
    if former.exists() and not site.exists():
        former.rename(site)
    shutil.rmtree(former, ignore_errors=True)
    discard(site)


def swap_in(site: Path) -> None:
    """Replace the former site with the one just built; where that fails, it stays in its place."""
    built, former = staging_folder(site), _former(site)
    if not built.is_dir():
        raise FileNotFoundError(f"nothing was built in {built}")
    if site.exists():
        site.rename(former)
    try:
        built.rename(site)
    except OSError:  # a page held open on Windows
        if former.exists():
            former.rename(site)
        raise
    shutil.rmtree(former, ignore_errors=True)


def discard(site: Path) -> None:
    """Remove a build that failed."""
    shutil.rmtree(staging_folder(site), ignore_errors=True)
