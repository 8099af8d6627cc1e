"""Files that records may name: pictures with their size, safety data sheets, free pages."""

from __future__ import annotations

from pathlib import Path

import imagesize

from .photographs import upright_size
from .text_file import read_text

PICTURE_TYPES = (".svg", ".png", ".jpg", ".jpeg", ".gif", ".webp")
"""What every browser shows from disk."""


READ_AT_MOST = 40_000_000
"""Bytes of a picture or a sheet."""


def read_pictures(folder: Path) -> dict[str, tuple[int, int, int]]:
    """Name below `folder` -> width, height and bytes; a picture that cannot be read has size 0."""
    return {
        path.relative_to(folder).as_posix(): (*_size(path), path.stat().st_size)
        for path in _files(folder)
        if path.suffix.lower() in PICTURE_TYPES
    }


def read_sheets(folder: Path) -> dict[str, int]:
    """Name below `folder` -> bytes."""
    return {path.relative_to(folder).as_posix(): path.stat().st_size for path in _files(folder)}


def read_pages(folder: Path) -> dict[str, str | None]:
    """Names below `folder` of the Markdown pages, with the text of each that can be read."""
    return {
        name: read_text(path, name)[0]
        for path in _files(folder)
        if path.suffix == ".md" and (name := path.relative_to(folder).as_posix())
    }


def _files(folder: Path) -> list[Path]:
    """Plain files, by name; what is too large to be one of ours is told at the border."""
    found = (path for path in folder.rglob("*") if path.is_file())
    return sorted(path for path in found if path.stat().st_size <= READ_AT_MOST)


def _size(path: Path) -> tuple[int, int]:
    """Width and height in CSS pixels, upright; 0 and 0 where the file is no whole picture."""
    if path.suffix.lower() == ".svg" and b"http://www.w3.org/2000/svg" not in path.read_bytes():
        return 0, 0  # without its namespace a browser shows no picture
    if path.suffix.lower() != ".svg":
        return upright_size(path)
    try:
        width, height = imagesize.get(path)
    except (OSError, ValueError, SyntaxError):  # SyntaxError: an SVG that is no XML
        return 0, 0
    return (round(width), round(height)) if width > 0 and height > 0 else (0, 0)
