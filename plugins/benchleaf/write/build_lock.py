"""One build at a time for each site: the second one says so, and touches nothing.

The system lets go of the lock when a process ends, however it ends: none is ever left over.
"""

from __future__ import annotations

import os
import sys
from contextlib import suppress
from pathlib import Path

if sys.platform == "win32":
    import msvcrt
else:
    import fcntl


class BusyError(OSError):
    """Another process holds the lock."""


class BuildLock:
    """A lock on a file beside a site, which is taken away with the lock."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._descriptor: int | None = None

    @property
    def is_held(self) -> bool:
        """True from `take` to `let_go`."""
        return self._descriptor is not None

    def take(self) -> None:
        """Take the lock, or raise `BusyError`; an `OSError` where no file can be made there."""
        while self._descriptor is None:
            self._path.parent.mkdir(parents=True, exist_ok=True)
            found = os.open(self._path, os.O_RDWR | os.O_CREAT, 0o666)
            try:
                _lock(found)
                # Whoever had it may have taken the file away while this one waited at the door.
                if self._is_there(found):
                    self._descriptor = found
            finally:
                if self._descriptor is None:
                    os.close(found)

    def _is_there(self, descriptor: int) -> bool:
        try:
            return os.path.samestat(os.fstat(descriptor), self._path.stat())
        except FileNotFoundError:
            return False

    def let_go(self) -> None:
        """Give the lock back; nothing where it is not held."""
        if self._descriptor is None:
            return
        held, self._descriptor = self._descriptor, None
        if sys.platform == "win32":  # which removes no file that is open
            os.close(held)
            with suppress(OSError):
                self._path.unlink()
        else:
            with suppress(OSError):
                self._path.unlink()
            os.close(held)


def _lock(descriptor: int) -> None:
    try:
        if sys.platform == "win32":
            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
        else:
            fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except (BlockingIOError, PermissionError) as error:
        raise BusyError(error.errno, "another build is writing here") from error
