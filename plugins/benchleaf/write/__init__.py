"""The one way by which the tool writes: a file is whole or as it was, a set of files all or none.

A leaf: it knows no record and no page. Nothing outside of this folder opens a file to write, makes
a folder, moves or removes anything.
"""

from .build_lock import BuildLock, BusyError
from .swapping import exchanged, rename_folder, synced
from .together import JOURNAL, Texts, finish, write_new, write_together
from .whole import OutsideError, clear_folder, make_folder, remove, write_bytes, write_text

__all__ = [
    "JOURNAL",
    "BuildLock",
    "BusyError",
    "OutsideError",
    "Texts",
    "clear_folder",
    "exchanged",
    "finish",
    "make_folder",
    "remove",
    "rename_folder",
    "synced",
    "write_bytes",
    "write_new",
    "write_text",
    "write_together",
]
