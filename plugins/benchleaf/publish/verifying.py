"""A copy of a site held to its list of sums: what was altered, is missing, or is extra."""

from __future__ import annotations

import hashlib
import os
import re
import stat
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from benchleaf.diagnose import Finding, Place, Severity, in_order

from .seal import SEAL, number_of
from .staging import is_ours

_LINE = re.compile(r"([0-9a-f]{64})  (.+)")
OF_SYSTEMS = frozenset((".DS_Store", "Thumbs.db", "desktop.ini"))
"""What a system lays into any folder that is looked at; no page knows of it."""


@dataclass(frozen=True, slots=True)
class Verified:
    """What was found about a copy."""

    findings: tuple[Finding, ...]
    number: str
    """The number of the copy; empty where it has no list of sums."""
    files: int
    """How many files the list names."""
    passed_over: tuple[str, ...] = ()
    """Files of the system, which were not looked into."""


def verify(site: Path) -> Verified | None:
    """Every file of a copy held to its list; None for a folder that is no manual.

    Links are never followed, and nothing but a plain file is opened.
    """
    listed = _read(site / SEAL)
    sums, wrong = _sums(listed) if isinstance(listed, bytes) else ({}, [])
    if not is_ours(site) and (wrong or not sums):
        return None
    if isinstance(listed, str):
        return Verified((_unsealed(listed),), "", 0)
    if not sums:
        return Verified((_unsealed("it lists no file"), *wrong), number_of(listed), 0)
    findings = wrong
    there = set(_names(site)) - {SEAL}
    ours = {name for name in there - set(sums) if name.rpartition("/")[2] in OF_SYSTEMS}
    findings += [_missing(name) for name in sums.keys() - there]
    findings += [_extra(name) for name in there - set(sums) - ours]
    findings += _altered(site, {name: sums[name] for name in sums.keys() & there})
    return Verified(tuple(in_order(findings)), number_of(listed), len(sums), tuple(sorted(ours)))


def _read(path: Path) -> bytes | str:
    """The bytes of a plain file, or why it cannot be read."""
    try:
        if not stat.S_ISREG(path.lstat().st_mode):
            return "it is a link, or no file"
        return path.read_bytes()
    except OSError as error:
        return "it is missing" if isinstance(error, FileNotFoundError) else str(error.strerror)


def _sums(listed: bytes) -> tuple[dict[str, str], list[Finding]]:
    """The sum of each file that the list names; findings about lines that are none."""
    sums: dict[str, str] = {}
    wrong: list[Finding] = []
    lines = listed.decode("utf-8", "backslashreplace").split("\n")
    for number, line in enumerate(lines[:-1] if not lines[-1] else lines, 1):
        found = _LINE.fullmatch(line)
        if not found or not _is_inside(found[2]) or found[2] in sums:
            text = "this line is no sum and name of a file, or names one twice"
            wrong.append(Finding("P712", Severity.ERROR, Place(SEAL, number), text))
        else:
            sums[found[2]] = found[1]
    return sums, wrong


def _is_inside(name: str) -> bool:
    path = PurePosixPath(name)
    return not path.is_absolute() and ".." not in path.parts and "\\" not in name


def _names(site: Path) -> Iterator[str]:
    """Every file below a folder, and every link, whatever it leads to."""
    for folder, folders, files in os.walk(site):
        links = [one for one in folders if Path(folder, one).is_symlink()]
        for name in (*files, *links):
            yield Path(folder, name).relative_to(site).as_posix()


def _altered(site: Path, sums: Mapping[str, str]) -> Iterator[Finding]:
    for name, expected in sums.items():
        try:
            if not stat.S_ISREG((site / name).lstat().st_mode):
                yield _not_as_built(name, "it is a link, or no file")
                continue
            with (site / name).open("rb") as file:
                found = hashlib.file_digest(file, "sha256").hexdigest()
        except OSError as error:
            yield _not_as_built(name, f"it cannot be read: {error.strerror}")
            continue
        if found != expected:
            yield _not_as_built(name, "it does not hold what was built")


def _not_as_built(name: str, why: str) -> Finding:
    return Finding("P709", Severity.ERROR, Place(name), f"altered: {why}")


def _missing(name: str) -> Finding:
    return Finding("P710", Severity.ERROR, Place(name), "missing: it was built, and is not here")


def _extra(name: str) -> Finding:
    shown = name.encode("unicode_escape").decode() if not name.isprintable() else name
    return Finding("P711", Severity.ERROR, Place(shown), "extra: it was not built")


def _unsealed(why: str) -> Finding:
    text = f"the list of sums cannot be used, so that nothing is known of this copy: {why}"
    return Finding("P712", Severity.ERROR, Place(SEAL), text)
