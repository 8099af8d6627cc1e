"""The former site stays whole until the new one is finished: built beside it, then swapped in.

One build at a time writes a site, in a folder of its own. Only a manual that was built here, or an
empty folder, is ever replaced.
"""

from __future__ import annotations

import os
from pathlib import Path

from benchleaf.write import (
    BuildLock,
    clear_folder,
    exchanged,
    make_folder,
    rename_folder,
    synced,
    write_text,
)

from .seal import seal

MARK = "assets/benchleaf/manual.txt"
"""A site that holds it is one that we built, and may be replaced."""
_FORMER_MARK = "assets/benchleaf/benchleaf.css"
"""In every site that was built before there was a mark."""
_SAID = "This folder is a manual that Benchleaf built. The next build replaces all that is in it.\n"


class NotOursError(Exception):
    """The folder that a site is to replace holds something else."""


def lock_of(site: Path) -> BuildLock:
    """The lock that a build of this site takes first."""
    return BuildLock(site.with_name(f".{site.name}-building.lock"))


def staging_folder(site: Path) -> Path:
    """The folder to build in: a hidden sibling, on the same disk, so that a swap is a rename."""
    return site.with_name(f".{site.name}-building-{os.getpid()}")


def _former(site: Path) -> Path:
    return site.with_name(f".{site.name}-former")


def may_replace(site: Path) -> bool:
    """True for a site that we built, an empty folder, or none."""
    if not site.exists():
        return not site.is_symlink()
    if not site.is_dir() or (site / ".git").exists():
        return False
    return is_ours(site) or not any(site.iterdir())


def is_ours(site: Path) -> bool:
    """True for a site that we built."""
    return any((site / name).is_file() for name in (MARK, _FORMER_MARK))


def recover(site: Path) -> None:
    """Put the former site back where a swap was cut off half-way, and clear leftovers.

    Only while the lock is held: what is left of builds is nobody's then.
    """
    former = _former(site)
    if former.exists() and not site.exists():
        rename_folder(former, site)
    clear_folder(former)
    for left in site.parent.glob(f".{_escaped(site.name)}-building*"):
        if left.is_dir():
            clear_folder(left)


def _escaped(name: str) -> str:
    return "".join(f"[{one}]" if one in "*?[" else one for one in name)


def swap_in(site: Path) -> str:
    """Seal the site just built and put it in place of the former one; the number of the copy.

    Where that fails, the former one stays in its place.
    """
    built, former = staging_folder(site), _former(site)
    if not built.is_dir():
        raise FileNotFoundError(2, "nothing was built", str(built))
    if not may_replace(site):
        raise NotOursError(f"{site} holds files, and is no manual that was built")
    make_folder((built / MARK).parent)
    write_text(built / MARK, _SAID, sync=False)
    number = seal(built)
    synced(built)
    if site.exists():
        if exchanged(built, site):
            clear_folder(built)  # which is the former site now
            return number
        rename_folder(site, former)
    try:
        rename_folder(built, site)
    except OSError:  # a page held open on Windows
        if former.exists():
            rename_folder(former, site)
        raise
    clear_folder(former)
    return number


def discard(site: Path) -> None:
    """Remove a build that failed."""
    clear_folder(staging_folder(site))
