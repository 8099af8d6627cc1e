"""From the first hook to the last: the lock of a build, its own folder, and the swap."""

from __future__ import annotations

import errno
from pathlib import Path

from mkdocs.exceptions import PluginError

from benchleaf import publish
from benchleaf.write import BuildLock, BusyError

_NO_LOCKS = (errno.ENOLCK, errno.ENOTSUP, errno.ENOSYS)
"""Of a disk that knows none: a build goes on, and clears nothing that may be another one's."""


class Writing:
    """What one build may write. After the end there is nothing left of it."""

    def __init__(self) -> None:
        self._site: Path | None = None
        self._lock: BuildLock | None = None

    def take(self, site: Path) -> None:
        """Begin: the lock, and whatever a build that was cut off has left."""
        self.give_up()
        lock = publish.lock_of(site)
        try:
            lock.take()
        except BusyError:
            raise PluginError(
                f"Nothing is published: another build is writing {site.name}/ now. Wait until it is"
                " done, then build again."
            ) from None
        except OSError as error:
            if error.errno not in _NO_LOCKS:
                raise
        self._site, self._lock = site, lock
        if lock.is_held:
            publish.recover(site)

    def publish(self) -> str:
        """End well: the site that was built takes its place; the number of the copy."""
        assert self._site is not None
        try:
            number = publish.swap_in(self._site)
        except publish.NotOursError as error:
            raise PluginError(f"Nothing is published: {error}.") from None
        self.give_up()
        return number

    def give_up(self) -> None:
        """End, well or not: what is half built goes, and the next build may begin."""
        if self._site is not None:
            publish.discard(self._site)
            self._site = None
        if self._lock is not None:
            self._lock.let_go()
            self._lock = None
