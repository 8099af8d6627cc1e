"""V403: every picture and sheet that a record names is there and can be read."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding, Place, Severity, suggestion
from benchleaf.model import Record, Shop, files
from benchleaf.read import PICTURE_TYPES

from ..places import Places


def check(
    shop: Shop, places: Places, kind: str, record_id: str, record: Record
) -> Iterator[Finding]:
    """A finding for each file that is missing, and for each picture without a size."""
    for path, folder, name in files(record):
        problem = _problem(shop, folder, name)
        if problem:
            yield _finding(shop, folder, name, problem, places.of(kind, record_id, path))


def _problem(shop: Shop, folder: str, name: str) -> str | None:
    if folder == "sheets":
        return None if name in shop.sheets else "is not there"
    if name not in shop.pictures:
        return "is not there, or is no picture"
    return None if shop.pictures[name].width else "cannot be read as a picture"


def _finding(shop: Shop, folder: str, name: str, problem: str, place: Place) -> Finding:
    known = shop.sheets if folder == "sheets" else shop.pictures
    help_lines = suggestion(name, known, what=f"in {folder}")
    if name in known:
        help_lines = (
            "save it again from the program that made it",
            'an SVG begins with <svg xmlns="http://www.w3.org/2000/svg" width="" height="">',
        )
    elif folder == "pictures":
        help_lines += (f"pictures end in {', '.join(PICTURE_TYPES)}",)
    return Finding(
        "V403",
        Severity.ERROR,
        place,
        f"'{name}' below content/{folder}/ {problem}",
        help_lines,
    )
