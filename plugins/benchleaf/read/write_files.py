"""Files that belong together are written all, or none."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path


def written_whole(texts: Mapping[Path, str]) -> tuple[Path, ...]:
    """Write new files; where one cannot be written, take back those that were, and raise."""
    made: list[Path] = []
    try:
        for path, text in texts.items():
            missing = [one for one in (path.parent, *path.parent.parents) if not one.exists()]
            for one in reversed(missing):
                one.mkdir()
                made.append(one)
            with path.open("x", encoding="utf-8", newline="\n") as file:
                made.append(path)
                file.write(text)
    except OSError:
        for one in reversed(made):
            one.rmdir() if one.is_dir() else one.unlink()
        raise
    return tuple(texts)
