"""Two folders change their names in one step, where the system can: neither is ever absent."""

from __future__ import annotations

import ctypes
import os
import sys
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

_HERE = -100
"""AT_FDCWD of Linux: a path is seen from the present folder."""
_EXCHANGE = 2
"""RENAME_EXCHANGE of Linux (renameat2, since Linux 3.15 and glibc 2.28)."""


def exchanged(one: Path, other: Path) -> bool:
    """Exchange the names of two folders; False where this system or disk cannot, in one step."""
    call = _library_call("renameat2")
    if call is None:
        return False
    done = call(_HERE, os.fsencode(one), _HERE, os.fsencode(other), _EXCHANGE)
    return done == 0


def rename_folder(one: Path, other: Path) -> None:
    """Give a folder another name, on the same disk; where that fails, it has the one it had."""
    one.rename(other)


def synced(folder: Path) -> None:
    """Bring everything on the disk of a folder to it, where the system has a call for that."""
    call = _library_call("syncfs")
    if call is None:
        return
    with suppress(OSError):
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            call(descriptor)
        finally:
            os.close(descriptor)


def _library_call(name: str) -> Callable[..., int] | None:
    if sys.platform != "linux":
        return None
    try:
        call: Callable[..., int] = getattr(ctypes.CDLL(None, use_errno=True), name)
    except (OSError, AttributeError):
        return None
    return call
