"""One file written whole, or left as it was: a full disk or a cut in between loses nothing.

The new bytes go into a file beside, are brought to the disk, and take the name in one step. What
fails is told as an `OSError` that names the file.
"""

from __future__ import annotations

import errno
import os
import shutil
import stat
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

_NEW = 0o666
"""Rights of a new file, before the user's own mask."""
_BINARY = getattr(os, "O_BINARY", 0)


class OutsideError(OSError):
    """A link leads out of the folder in which is written."""

    def __init__(self, path: Path, aim: Path, root: Path) -> None:
        super().__init__(
            errno.EPERM, f"leads to {aim}, outside of {root}: nothing is written there", str(path)
        )


def write_text(path: Path, text: str, *, within: Path | None = None, sync: bool = True) -> None:
    """Write a text as UTF-8 with line feeds; see `write_bytes`."""
    write_bytes(path, text.encode("utf-8"), within=within, sync=sync)


def write_bytes(path: Path, data: bytes, *, within: Path | None = None, sync: bool = True) -> None:
    """Write a file whole; one that is there keeps its rights, and stays where this fails.

    `within` is the folder that no link may lead out of: by default the one in which the file
    stands. `sync` is left out in a folder that takes its place as a whole later.
    """
    aim = target_of(path, within)
    with told_of(path):
        made = laid_beside(aim, data, sync=sync)
        try:
            os.replace(made, aim)
        except OSError:
            made.unlink(missing_ok=True)
            raise
        if sync:
            sync_folder(aim.parent)


def target_of(path: Path, within: Path | None = None) -> Path:
    """The file that a path leads to, after links; an error where that is outside."""
    root = (within or path.parent).resolve()
    with told_of(path):
        try:
            aim = path.resolve()
        except RuntimeError:  # a ring of links, before Python 3.13
            raise OSError(errno.ELOOP, os.strerror(errno.ELOOP)) from None
        if aim.is_symlink():  # a ring, later
            raise OSError(errno.ELOOP, os.strerror(errno.ELOOP))
    if not aim.is_relative_to(root):
        raise OutsideError(path, aim, root)
    return aim


@contextmanager
def told_of(path: Path) -> Iterator[None]:
    """Whatever fails names the file, not the one beside it, nor none at all."""
    try:
        yield
    except OSError as error:
        if isinstance(error, OutsideError):
            raise
        raise type(error)(error.errno, error.strerror or str(error), str(path)) from error


def beside(aim: Path) -> Path:
    """The name of the file that is to take the place of another one. Hidden, so never read."""
    short = aim.name.encode()[:200].decode(errors="ignore")
    return aim.with_name(f".{short}.{os.getpid()}.new")


def laid_beside(aim: Path, data: bytes, *, sync: bool = True) -> Path:
    """Write the new bytes beside a file, with its rights; the path written. It is not yet there."""
    made = beside(aim)
    try:
        rights = stat.S_IMODE(aim.stat().st_mode)
    except FileNotFoundError:
        rights = None
    try:
        with suppress(FileNotFoundError):  # of a process of that number that was ended
            made.unlink()
        descriptor = os.open(made, os.O_WRONLY | os.O_CREAT | os.O_EXCL | _BINARY, _NEW)
        with os.fdopen(descriptor, "wb") as file:
            file.write(data)
            file.flush()
            if sync:
                os.fsync(file.fileno())
        if rights is not None:
            made.chmod(rights)
    except BaseException:
        with suppress(OSError):
            made.unlink(missing_ok=True)
        raise
    return made


def sync_folder(folder: Path) -> None:
    """Bring a folder's list of names to the disk, where the system can."""
    with suppress(OSError):  # Windows opens no folder; some disks sync none
        descriptor = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(descriptor)
        finally:
            os.close(descriptor)


def make_folder(folder: Path) -> None:
    """Make a folder, and those above it; one that is there is left."""
    folder.mkdir(parents=True, exist_ok=True)


def remove(path: Path) -> None:
    """Take a file away; one that is gone is gone."""
    path.unlink(missing_ok=True)


def clear_folder(folder: Path) -> None:
    """Take a folder away with all it holds, as far as that can be done."""
    if folder.is_symlink():
        folder.unlink()
    shutil.rmtree(folder, ignore_errors=True)
