"""The one border of a content folder: every file that is there, before any is opened.

What lies below `pages/` is published by the engine as it is, whoever put it there; what lies
elsewhere is read. So each file is of a kind that is known in its place, a plain file, inside the
folder also where links lead, no larger than it needs to be, and named for every system.
"""

from __future__ import annotations

import os
import stat
import unicodedata
from collections.abc import Iterator
from pathlib import Path

from benchleaf.diagnose import Finding, Place, Severity

from .inert import unsafe
from .pictures import PICTURE_TYPES, READ_AT_MOST
from .text_file import hidden_sign

FILES_AT_MOST = 50_000
LONGEST_NAME, LONGEST_PATH = 100, 180
"""In letters: most systems hold 255 bytes, and some 260 letters with all that stands before."""
_SHEETS = (".pdf", ".txt", ".png", ".jpg", ".jpeg", ".gif", ".webp")
_KINDS: dict[str, tuple[tuple[str, ...], int]] = {
    "pages": ((".md", *PICTURE_TYPES, ".pdf", ".txt", ".css", ".woff2"), READ_AT_MOST),
    "pictures": (PICTURE_TYPES, READ_AT_MOST),
    "sheets": (_SHEETS, READ_AT_MOST),
}
"""What each folder of files may hold, and how many bytes of each at most."""
_DEVICES = frozenset(
    ("con", "prn", "aux", "nul", *(f"{one}{n}" for one in ("com", "lpt") for n in range(1, 10)))
)
"""Names that are devices on Windows, whatever follows a dot."""
_NOT_EVERYWHERE = frozenset('<>:"|?*\\')
_CREW = ("crew.yml", "people")
CHECKED = (".svg", ".pdf")


def at_border(content: Path) -> Iterator[Finding]:
    """Everything below a content folder that may not come in, in the order of names."""
    root = content.resolve()
    troubles: list[OSError] = []
    count = 0
    for folder, folders, names in os.walk(content, onerror=troubles.append):
        folders[:] = sorted(one for one in folders if not one.startswith("."))
        kept = sorted(one for one in names if not one.startswith("."))
        here = Path(folder)
        yield from _alike(here, [*folders, *kept], content)
        for name in (*folders, *kept):
            count += 1
            yield from _at(here / name, content, root)
        if count > FILES_AT_MOST:
            text = f"more than {FILES_AT_MOST:,} files lie below this folder"
            cure = "look where they come from: a manual has some thousands"
            yield Finding("R121", Severity.ERROR, Place(content.name), text, (cure,))
            return
    for error in troubles:
        yield _unlisted(error, content)


def _at(path: Path, content: Path, root: Path) -> Iterator[Finding]:
    name = _named(path, content)
    inside = path.relative_to(content)
    yield from _bad_name(path.name, inside, name)
    try:
        mode = path.stat().st_mode
        aim = path.resolve()
    except (OSError, RuntimeError):
        mode, aim = path.lstat().st_mode, path
    if path.is_symlink() and not aim.is_relative_to(root):
        if inside.parts[0] in _KINDS:  # of records it is told with the record
            yield _unfit(
                name, "leads out of the content folder by a link", "put the file here itself"
            )
        return
    if not stat.S_ISDIR(mode):
        yield from _file(path, inside, name, mode)


def _file(path: Path, inside: Path, name: str, mode: int) -> Iterator[Finding]:
    """One file, wherever it lies: its kind, its size, and what it does."""
    kinds, most = _KINDS.get(inside.parts[0], ((), 0))
    suffix = path.suffix.lower()
    if inside.name in _CREW or _CREW[1] in inside.parts[:-1]:
        cure = "people's data lie outside, in the crew folder"
        yield _unfit(name, "is named as a file about people is", cure)
    elif not kinds or len(inside.parts) == 1:
        return  # told by the reader of records: it is not read
    elif not stat.S_ISREG(mode):
        yield _unfit(name, "is no plain file", "take it away")
    elif suffix not in kinds:
        why = f"is of a kind that is not published from {inside.parts[0]}/"
        yield _unfit(name, why, f"take it away; there may be: {', '.join(kinds)}")
    elif path.stat().st_size > most:
        size = f"{path.stat().st_size:,}"
        yield _unfit(name, f"is {size} bytes long", f"at most {most:,}: save it smaller")
    elif suffix in CHECKED and (why := unsafe(path)):
        cure = "save it again as a plain drawing, with no scripts, links or files of others"
        cure = cure if suffix == ".svg" else "put the PDF here, or name the file by what it is"
        yield Finding("R120", Severity.ERROR, Place(name), f"this file {why}", (cure,))


def _bad_name(written: str, inside: Path, name: str) -> Iterator[Finding]:
    """Names that another system would not hold, or would show as another one."""
    why = ""
    stem = written.split(".")[0].lower()
    if stem in _DEVICES:
        why, cure = f"'{stem}' is a device on Windows, and no file there", "call it otherwise"
    elif hidden_sign(written):
        why, cure = f"it holds the invisible sign {hidden_sign(written)}", "take it out"
    elif any(one in _NOT_EVERYWHERE for one in written) or written.endswith((" ", ".")):
        why, cure = "it holds a sign that Windows does not allow", "use letters, digits and hyphens"
    elif unicodedata.normalize("NFC", written) != written:
        why, cure = "its letters and their marks are apart", "type the name again"
    elif len(written) > LONGEST_NAME or len(str(inside)) > LONGEST_PATH:
        why, cure = (
            f"it is {len(written)} letters long",
            f"at most {LONGEST_NAME}, {LONGEST_PATH} with its folders",
        )
    if why:
        text = f"this name does not work everywhere: {why}"
        yield Finding("R119", Severity.ERROR, Place(name), text, (cure,))


def _alike(folder: Path, names: list[str], content: Path) -> Iterator[Finding]:
    """Two names that are one where capitals do not count."""
    known: dict[str, str] = {}
    for name in names:
        folded = unicodedata.normalize("NFC", name).casefold()
        if folded in known:
            text = f"this name does not work everywhere: beside it lies '{known[folded]}'"
            cure = "on many systems capitals do not count: call one of them otherwise"
            yield Finding(
                "R119", Severity.ERROR, Place(_named(folder / name, content)), text, (cure,)
            )
        known.setdefault(folded, name)


def _unlisted(error: OSError, content: Path) -> Finding:
    path = Path(error.filename or content)
    place = Place(_named(path, content) if path != content else content.name)
    text = f"this folder cannot be read: {error.strerror}"
    return Finding("R101", Severity.ERROR, place, text, ("check that you may list it",))


def _unfit(name: str, why: str, cure: str) -> Finding:
    return Finding("R118", Severity.ERROR, Place(name), f"this file {why}", (cure,))


def _named(path: Path, content: Path) -> str:
    return f"{content.name}/{path.relative_to(content).as_posix()}".encode(
        errors="replace"
    ).decode()
