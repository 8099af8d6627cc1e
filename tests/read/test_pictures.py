"""Pictures and sheets: their size on the screen, and files that are no picture."""

from __future__ import annotations

import struct
import zlib
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from benchleaf.diagnose import Finding
from benchleaf.model import PictureFile
from benchleaf.read import PICTURE_TYPES, read_pictures, read_sheets

Found = Callable[..., tuple[Finding, ...]]
Edited = Callable[..., dict[str, str]]
NS = 'xmlns="http://www.w3.org/2000/svg"'
SVG = f'<svg {NS} width="240" height="120" viewBox="0 0 240 120"><title>T</title></svg>'
JOB = "jobs/vg-0010.yml"


def png(width: int, height: int) -> bytes:
    """The smallest whole PNG of a size: black, eight bits of grey."""
    rows = zlib.compress((b"\0" + b"\0" * width) * height)
    chunks = ((b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)), (b"IDAT", rows),
              (b"IEND", b""))  # fmt: skip
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        for kind, data in chunks
    )


def size(folder: Path, name: str, data: bytes | str) -> tuple[int, int, int] | None:
    (folder / name).parent.mkdir(parents=True, exist_ok=True)
    (folder / name).write_bytes(data.encode() if isinstance(data, str) else data)
    return read_pictures(folder).get(name)


@pytest.mark.parametrize(
    ("name", "data", "expected"),
    [
        ("a.svg", SVG, (240, 120)),
        ("A.SVG", SVG, (240, 120)),
        ("deep/down/a.svg", SVG, (240, 120)),
        ("a.svg", f'<?xml version="1.0"?>\n{SVG}', (240, 120)),
        ("a.svg", SVG.replace('"240"', '"240px"'), (240, 120)),
        ("a.svg", SVG.replace('"240"', '"239.6"'), (240, 120)),
        ("a.png", png(30, 20), (30, 20)),
        ("a.PNG", png(30, 20), (30, 20)),
    ],
)
def test_width_height_and_bytes(
    tmp_path: Path, name: str, data: bytes | str, expected: tuple[int, int]
) -> None:
    count = len(data.encode() if isinstance(data, str) else data)
    assert size(tmp_path, name, data) == (*expected, count)


@pytest.mark.parametrize(
    ("name", "data"),
    [
        ("a.svg", SVG.replace(NS, "")),
        ("a.svg", ""),
        ("a.svg", "no picture"),
        ("a.svg", SVG.replace("</svg>", "")[:60]),
        ("a.svg", f'<svg {NS} viewBox="0 0 240 120"></svg>'),
        ("a.svg", SVG.replace('"240"', '""')),
        ("a.svg", SVG.replace('"240"', '"wide"')),
        ("a.svg", SVG.replace('"240"', '"0"')),
        ("a.svg", SVG.replace('"240"', '"-240"')),
        ("a.png", b""),
        ("a.png", "a text"),
        ("a.png", b"\x89PNG\r\n\x1a\n"),
        ("a.png", png(30, 20)[:18]),
        ("a.jpg", b"\xff\xd8\xff\xe0\x00"),
        ("a.gif", b"GIF89a"),
        ("a.webp", b"RIFF\x00\x00\x00\x00WEBP"),
    ],
)
def test_a_file_that_is_no_picture_has_no_size(
    tmp_path: Path, name: str, data: bytes | str
) -> None:
    found = size(tmp_path, name, data)
    assert found is not None
    assert found[:2] == (0, 0)


@pytest.mark.parametrize("name", ["notes.txt", "a.pdf", "a.tiff", "png", "a.svg.bak"])
def test_other_files_are_no_pictures(tmp_path: Path, name: str) -> None:
    assert size(tmp_path, name, SVG) is None


def test_no_folder_no_pictures(tmp_path: Path) -> None:
    assert read_pictures(tmp_path / "nowhere") == {}
    assert read_sheets(tmp_path / "nowhere") == {}


def test_sheets_are_any_files_with_their_bytes(tmp_path: Path) -> None:
    (tmp_path / "more").mkdir()
    (tmp_path / "oil.pdf").write_bytes(b"%PDF")
    (tmp_path / "more" / "oil.txt").write_bytes(b"")
    assert read_sheets(tmp_path) == {"more/oil.txt": 0, "oil.pdf": 4}


heads = st.sampled_from(
    [
        b"",
        b"\x89PNG\r\n\x1a\n",
        b"\xff\xd8\xff",
        b"GIF89a",
        b"RIFF",
        b"<svg ",
        SVG.encode(),
        b"II*\0",
    ]
)


@given(heads, st.binary(max_size=60), st.sampled_from(PICTURE_TYPES))
@example(f"<svg {NS}>".encode(), b"</svg>", ".svg")
@example(f'<svg {NS} width="1e999" height="1">'.encode(), b"</svg>", ".svg")
@example(f'<svg {NS} width="nan" height="1">'.encode(), b"</svg>", ".svg")
@example(f'<svg {NS} width="100%" height="1">'.encode(), b"</svg>", ".svg")
@example(f'<svg {NS} width="1" height="1">'.encode(), b"\xff</svg>", ".svg")
def test_no_file_whatever_is_in_it_ends_the_reading(
    tmp_path_factory: pytest.TempPathFactory, head: bytes, rest: bytes, ending: str
) -> None:
    folder = tmp_path_factory.mktemp("pictures")
    found = size(folder, f"a{ending}", head + rest)
    assert found is not None
    assert found[2] == len(head + rest)
    assert (found[0] == 0) == (found[1] == 0)
    assert found[0] >= 0


# V403, as an editor meets it


def test_v403_a_picture_that_is_there_is_no_finding(found: Found, edited: Edited) -> None:
    files = {"pictures/UP.PNG": "x", "pictures/deep/down.svg": SVG}
    named = edited(JOB, "file: clamped-plate.svg", "file: deep/down.svg")
    assert found(files, named) == ()


@pytest.mark.parametrize(
    ("file", "extra", "says"),
    [
        ("clamped-plat.svg", {}, "is not there"),
        ("Clamped-plate.svg", {}, "is not there"),
        ("../pictures/clamped-plate.svg", {}, "is not there"),
        ("../terms.yml", {}, "is not there"),
        ("/etc/hostname", {}, "is not there"),
        ("pictures/clamped-plate.svg", {}, "is not there"),
        ("../../outside.svg", {"../outside.svg": SVG}, "is not there"),
        ("empty.svg", {"pictures/empty.svg": ""}, "cannot be read as a picture"),
        ("empty.png", {"pictures/empty.png": ""}, "cannot be read as a picture"),
        ("text.png", {"pictures/text.png": "a text"}, "cannot be read as a picture"),
        ("bare.svg", {"pictures/bare.svg": SVG.replace(NS, "")}, "cannot be read as a picture"),
        ("notes.txt", {}, "is not there, or is no picture"),
    ],
)
def test_v403_a_picture_that_cannot_be_shown(
    found: Found, edited: Edited, file: str, extra: dict[str, str], says: str
) -> None:
    (finding,) = found(edited(JOB, "file: clamped-plate.svg", f"file: {file}"), extra)
    assert finding.code == "V403"
    assert finding.blocks_publishing
    assert finding.place.file == "content/jobs/vg-0010.yml"
    assert says in finding.text
    assert finding.help


def test_v403_the_nearest_picture_is_offered(found: Found, edited: Edited) -> None:
    (finding,) = found(edited(JOB, "file: clamped-plate.svg", "file: clamped-plat.svg"))
    assert any("clamped-plate.svg" in line for line in finding.help)


@pytest.mark.parametrize(
    ("file", "is_there"),
    [("oil.pdf", True), ("more/oil.txt", True), ("Oil.pdf", False), ("../manual.yml", False)],
)
def test_v403_a_safety_data_sheet(found: Found, edited: Edited, file: str, is_there: bool) -> None:
    sheets = {"sheets/oil.pdf": "%PDF-1.7", "sheets/more/oil.txt": "A sheet."}
    named = edited("fluids/soluble-oil.yml", "safety_data_sheet:",
                   f"safety_data_sheet_file: {file}\nsafety_data_sheet:")  # fmt: skip
    assert [one.code for one in found(sheets, named)] == ([] if is_there else ["V403"])


def test_a_hundred_million_pixels_are_the_most() -> None:
    """So much is named in the message; one row more is not taken into memory."""
    assert not PictureFile(10_000, 10_000, 1).is_too_large
    assert PictureFile(10_000, 10_001, 1).is_too_large
