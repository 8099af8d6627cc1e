"""The registers held to another revision of the repository: entries are only ever added.

A file by itself cannot tell that it was written anew from its first line to its last. The commit
from which a branch went apart can.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path, PurePosixPath

from benchleaf.diagnose import Finding, Place, Severity
from benchleaf.read import CHANGED_FOLDER, Repository, document_of, read_text, repository_of

from .changed_kept import TALLY
from .holds import HOLDS

GROWING = ("addresses.yml", "revisions.yml", "history.yml")
LISTS = "onboarding"
_FORWARDS = "forwards.yml"
_ENTRY = re.compile(r"\s+- ")
_LINK = re.compile(r', link: "[0-9a-f]{16}"(?=\}$)|(?<=\S) [0-9a-f]{16}$')
"""What taking a shop over adds to an entry."""
_COUNT = re.compile(r"^(\w+): \{count: (\d+)", re.MULTILINE)
NAMED_AT_MOST = 3


def against(content: Path, reference: str) -> tuple[Finding, ...]:
    """What the registers lack of what they held where this branch and `reference` went apart.

    Raises `RevisionError` where the repository does not know it.
    """
    repository = repository_of(content)
    repository.commit(reference)
    base = repository.merge_base(reference)
    return (*_lost(repository, base, content), *_lists(repository, base, content))


def _lost(repository: Repository, base: str, content: Path) -> Iterator[Finding]:
    inside = PurePosixPath(content.resolve().relative_to(repository.top.resolve()).as_posix())
    kept = tuple(
        f"{folder}/{PurePosixPath(one).name}"
        for folder in (CHANGED_FOLDER, HOLDS)
        for one in repository.names(base, inside / folder)
    )
    for name in (*GROWING, TALLY, _FORWARDS, *kept):
        before = repository.text_at(base, inside / name)
        if before is None:
            continue
        place, commit = Place(f"{content.name}/{name}"), repository.short(base)
        now, _ = read_text(content / name, place.file)
        if now is None:
            if not (content / name).exists():
                yield _told(place, f"it is gone, and {commit} holds it", commit)
            continue  # that it cannot be read is told already
        why = _less(name, before, now)
        if why:
            yield _told(place, why, commit)


_STATE = ("revision", "effective", "approved_by")


def _lists(repository: Repository, base: str, content: Path) -> Iterator[Finding]:
    """Onboarding lists that say something else under the revision that they had."""
    inside = PurePosixPath(content.resolve().relative_to(repository.top.resolve()).as_posix())
    for name in repository.names(base, inside / LISTS):
        path = content / LISTS / PurePosixPath(name).name
        before = _value(repository.text_at(base, PurePosixPath(name)))
        now = _value(read_text(path, path.name)[0] if path.is_file() else None)
        if not before or not now or before.get("revision") != now.get("revision"):
            continue
        moved = [key for key in {**before, **now} if before.get(key) != now.get(key)]
        if set(moved) - {*_STATE}:
            yield Finding(
                "A615",
                Severity.ERROR,
                Place(f"{content.name}/{LISTS}/{path.name}"),
                f"this list changed since {repository.short(base)}, and its revision is still"
                f" {now.get('revision')}: {', '.join(sorted(moved))}",
                ("advance its revision, with the day and the role that approves it",),
            )


def _value(text: str | None) -> dict[str, object]:
    document = document_of(text, LISTS, LISTS)[0] if text is not None else None
    return document.value if document and isinstance(document.value, dict) else {}


def _less(name: str, before: str, now: str) -> str:
    """What the text of a register lacks; empty where it only grew."""
    if name == TALLY:
        counts = {key: int(count) for key, count in _COUNT.findall(now)}
        less = [key for key, count in _COUNT.findall(before) if counts.get(key, 0) < int(count)]
        return f"it counts less of {' and '.join(less)}" if less else ""
    if name == _FORWARDS:
        return ""  # written by hand, and each of its addresses is held by the register (A601)
    if name not in GROWING:
        return "" if now.startswith(before.rstrip("\n")) else "what it held was altered"
    there = set(_entries(now))
    lost = [one for one in _entries(before) if one not in there]
    some = "; ".join(one[:60] for one in lost[:NAMED_AT_MOST])
    more = f"; and {len(lost) - NAMED_AT_MOST} more" if len(lost) > NAMED_AT_MOST else ""
    return f"gone or altered: {some}{more}" if lost else ""


def _entries(text: str) -> list[str]:
    """The entries as they read with no link, so that a shop may be taken over in between."""
    return [_LINK.sub("", one.strip()) for one in text.splitlines() if _ENTRY.match(one)]


def _told(place: Place, why: str, commit: str) -> Finding:
    return Finding(
        "A614",
        Severity.ERROR,
        place,
        f"this register lost what it held at {commit}: {why}",
        (
            f"restore it: git checkout {commit} -- {place.file}",
            "then run the command that adds to it",
        ),
    )
