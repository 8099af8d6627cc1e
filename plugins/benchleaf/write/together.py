"""Several files written all, or none: what a cut leaves half done, the next run finishes.

Every new text is laid beside its file first. Then a journal says which take their places and which
files go: from there on all will be done. `finish` does it, now or at the next run, and may be cut
off as often as it will.
"""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from .whole import (
    laid_beside,
    make_folder,
    sync_folder,
    target_of,
    told_of,
    write_bytes,
)

JOURNAL = ".half-written.json"
"""Hidden, so that nobody takes it for content."""

Texts = Mapping[Path, str | bytes | None]
"""The text of each file; None for one that is to go."""


def write_together(root: Path, texts: Texts) -> None:
    """Write and remove files below `root`: all of them, or none where one cannot be written."""
    finish(root)
    _sweep(root)
    laid: list[tuple[Path, Path, bytes]] = []
    gone: list[Path] = []
    made_folders: list[Path] = []
    try:
        for path, text in texts.items():
            aim = target_of(path, root)
            if text is None:
                gone.append(aim)
                continue
            made_folders += _folders_for(aim)
            data = text.encode("utf-8") if isinstance(text, str) else text
            with told_of(path):
                laid.append((aim, laid_beside(aim, data), data))
        _commit(root, laid, gone)
    except BaseException:
        for _, made, _ in laid:
            with suppress(OSError):
                made.unlink(missing_ok=True)
        for folder in reversed(made_folders):
            with suppress(OSError):
                folder.rmdir()
        raise
    finish(root)


def _commit(root: Path, laid: list[tuple[Path, Path, bytes]], gone: list[Path]) -> None:
    base = root.resolve()
    journal = {
        "write": [
            {
                "file": aim.relative_to(base).as_posix(),
                "from": made.name,
                "sha256": hashlib.sha256(data).hexdigest(),
            }
            for aim, made, data in laid
        ],
        "remove": [aim.relative_to(base).as_posix() for aim in gone],
    }
    for folder in {made.parent for _, made, _ in laid}:
        sync_folder(folder)
    write_bytes(root / JOURNAL, json.dumps(journal, indent=1).encode(), within=root)


def finish(root: Path) -> bool:
    """Finish what was cut off below `root`; True where there was something to finish."""
    path = root / JOURNAL
    if not path.is_file():
        return False
    try:
        journal = json.loads(path.read_bytes())
        writes = [(str(one["file"]), str(one["from"]), one["sha256"]) for one in journal["write"]]
        removes = [str(one) for one in journal["remove"]]
    except FileNotFoundError:  # another run has just finished
        return False
    except (ValueError, KeyError, TypeError, RecursionError):
        return False  # written by somebody else: the journal itself is always whole
    folders = {root.resolve()}
    for name, made, digest in writes:
        aim = target_of(root / name, root)
        folders.add(aim.parent)
        with told_of(root / name):
            _take_place(aim, made, digest)
    for name in removes:
        aim = target_of(root / name, root)
        folders.add(aim.parent)
        with told_of(root / name):
            aim.unlink(missing_ok=True)
    for folder in folders:
        sync_folder(folder)
    path.unlink(missing_ok=True)
    return True


def _sweep(root: Path) -> None:
    """Take away what runs that were ended left beside files: no journal promises any of it."""
    if os.name != "posix":  # elsewhere nobody can be asked whether a process is there without harm
        return
    for path in root.rglob(".*.new"):
        number = path.name.split(".")[-2]
        if number.isdigit() and not _is_running(int(number)):
            with suppress(OSError):
                path.unlink()


def _is_running(process: int) -> bool:
    try:
        os.kill(process, 0)
    except (ProcessLookupError, OverflowError):
        return False
    except PermissionError:
        return True
    return True


def _take_place(aim: Path, made: str, digest: object) -> None:
    """Rename the file laid beside. It may be in its place already: another run may finish too."""
    new = aim.with_name(os.path.basename(made))
    is_ours = new.name.startswith(".") and new.name.endswith(".new")
    if is_ours and _digest(new) == digest:
        with suppress(FileNotFoundError):
            os.replace(new, aim)


def _digest(path: Path) -> str | None:
    try:
        return hashlib.sha256(path.read_bytes()).hexdigest()
    except OSError:
        return None


def _folders_for(aim: Path) -> list[Path]:
    """Make the folders that a file needs; those made."""
    missing = [one for one in aim.parents if not one.exists()]
    with told_of(aim.parent):
        make_folder(aim.parent)
    return missing[::-1]


def write_new(texts: Mapping[Path, str]) -> tuple[Path, ...]:
    """Write files that are not there yet; where one cannot be written, none is left, and raise."""
    made: list[Path] = []
    try:
        for path, text in texts.items():
            made += _folders_for(path)
            with told_of(path):
                if path.is_symlink() or path.exists():
                    raise FileExistsError(17, "is there already", str(path))
            write_bytes(path, text.encode("utf-8"))
            made.append(path)
    except BaseException:
        for one in reversed(made):
            with suppress(OSError):
                one.rmdir() if one.is_dir() else one.unlink()
        raise
    return tuple(texts)
