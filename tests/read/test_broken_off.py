"""A photograph that broke off on its way is told from a whole one by its own bytes."""

from __future__ import annotations

from mmap import ACCESS_READ, mmap
from pathlib import Path

import pytest

from benchleaf.read import photographs

BEGIN, SCAN, END = b"\xff\xd8", b"\xff\xda\x00\x04\x00\x00", b"\xff\xd9"


def part(mark: int, inside: bytes) -> bytes:
    """A part of a JPEG: its mark, its length with the two bytes that tell it, what it holds."""
    return bytes([0xFF, mark]) + (len(inside) + 2).to_bytes(2, "big") + inside


NOTES = part(0xE1, b"Exif\x00\x00" + BEGIN + b"a small picture of its own" + END)
TABLE = part(0xDB, bytes(300))


@pytest.mark.parametrize(
    ("name", "data", "is_whole"),
    [
        ("a.jpg", BEGIN + NOTES + TABLE + SCAN + b"pixels" + END, True),
        ("a.jpeg", BEGIN + TABLE + SCAN + b"pixels" + END + b"\x00\x00", True),
        ("a.jpg", BEGIN + NOTES + TABLE + SCAN + b"pix", False),
        ("a.jpg", BEGIN + TABLE + NOTES, False),
        ("a.JPG", BEGIN + SCAN + END, True),
        ("a.jpg", BEGIN + NOTES + SCAN[:4], False),
        ("a.png", b"\x89PNG....IEND\xaeB`\x82", True),
        ("a.png", b"\x89PNG....IEN", False),
        ("a.webp", b"RIFF\x06\x00\x00\x00WEBPVP", True),
        ("a.webp", b"RIFF\x06\x00\x00\x00WEBPV", False),
        ("a.gif", b"GIF89a", True),
    ],
)
def test_the_end_of_the_file_is_looked_for_after_its_pixels_begin(
    tmp_path: Path, name: str, data: bytes, is_whole: bool
) -> None:
    path = tmp_path / name
    path.write_bytes(data)
    assert photographs._is_whole(path) is is_whole


@pytest.mark.parametrize("parts", [(), (NOTES,), (TABLE, NOTES), (NOTES, TABLE, TABLE)])
def test_pixels_begin_at_the_scan(tmp_path: Path, parts: tuple[bytes, ...]) -> None:
    before = BEGIN + b"".join(parts)
    path = tmp_path / "a.jpg"
    path.write_bytes(before + SCAN + b"pixels" + END)
    with path.open("rb") as file, mmap(file.fileno(), 0, access=ACCESS_READ) as data:
        assert photographs._pixels_of_jpeg(data) == len(before)
