"""Photographs: upright, smaller, and nothing of what a camera wrote beside the pixels."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageCms
from PIL.PngImagePlugin import PngInfo

from benchleaf.diagnose import Finding
from benchleaf.model import PictureFile, copies
from benchleaf.read import Photograph, prepared, read_pictures

SECRET = "WHO AND WHERE 7342"
EXIF_ARTIST, EXIF_GPS, EXIF_ORIENTATION = 0x013B, 0x8825, 0x0112
UPRIGHT = {1: (0, 0), 3: (1, 1), 6: (1, 0), 8: (0, 1)}
"""The corner (right, lower) of an upright picture to which each orientation turns the file's first
corner (EXIF 2.32, tag 274: 3 is half a turn, 6 a quarter clockwise, 8 a quarter back)."""


def photo(path: Path, size: tuple[int, int], orientation: int = 1, mode: str = "RGB") -> Path:
    """A grey picture with a dark first corner, and the notes of a camera."""
    image = Image.new(mode, size, 200 if mode == "L" else (200, 200, 200))
    dark = (size[0] // 4, size[1] // 4)
    image.paste(20 if mode == "L" else (20, 20, 20), (0, 0, *dark))
    exif = Image.Exif()
    exif[EXIF_ORIENTATION], exif[EXIF_ARTIST] = orientation, SECRET
    exif.get_ifd(EXIF_GPS)[1] = SECRET
    notes = PngInfo()
    notes.add_text("Author", SECRET)
    notes.add_itxt("XML:com.adobe.xmp", f"<x>{SECRET}</x>")
    kind = path.suffix.lower()
    if kind in (".jpg", ".jpeg"):
        image.save(path, exif=exif, comment=SECRET.encode(), xmp=f"<x>{SECRET}</x>".encode())
    elif kind == ".png":
        image.save(path, exif=exif, pnginfo=notes)
    elif kind == ".webp":
        image.save(path, exif=exif, xmp=f"<x>{SECRET}</x>".encode())
    else:
        image.save(path, comment=SECRET.encode())
    return path


def published(path: Path) -> dict[str, Image.Image]:
    """The copies of one file below its folder, as a site would get them."""
    found = read_pictures(path.parent)[path.name]
    made = copies(path.name, PictureFile(*found))
    one = Photograph(path.name, path, tuple((each.address, each.width) for each in made))
    opened: dict[str, Image.Image] = {}
    for each in prepared([one]):
        assert not isinstance(each, Finding), each
        assert SECRET.encode() not in each[1]
        opened[each[0]] = Image.open(BytesIO(each[1]))
        opened[each[0]].load()
    return opened


@pytest.mark.parametrize("name", ["a.jpg", "a.JPEG", "a.png", "a.webp", "a.gif"])
def test_nothing_of_the_camera_is_published(tmp_path: Path, name: str) -> None:
    path = photo(tmp_path / name, (1000, 700))
    assert SECRET.encode() in path.read_bytes()  # else this test could not fail
    for image in published(path).values():
        assert not image.getexif()
        assert not {"exif", "xmp", "comment", "XML:com.adobe.xmp"} & set(image.info)


@pytest.mark.parametrize("orientation", sorted(UPRIGHT))
@pytest.mark.parametrize("name", ["a.jpg", "a.png", "a.webp"])
def test_each_copy_stands_upright(tmp_path: Path, name: str, orientation: int) -> None:
    path = photo(tmp_path / name, (800, 400), orientation)
    wide = orientation in (1, 3)
    assert read_pictures(tmp_path)[name][:2] == ((800, 400) if wide else (400, 800))
    right, low = UPRIGHT[orientation]
    for image in published(path).values():
        assert (image.width > image.height) == wide
        seen = image.convert("L").getpixel(
            (right * (image.width - 1) or 1, low * (image.height - 1) or 1)
        )
        assert isinstance(seen, int)
        assert seen < 60


def test_a_large_photograph_has_copies_and_none_is_enlarged(tmp_path: Path) -> None:
    large = {
        key: one.width for key, one in published(photo(tmp_path / "a.jpg", (4000, 3000))).items()
    }
    assert large == {"pictures-480/a.jpg": 480, "pictures-960/a.jpg": 960, "pictures/a.jpg": 1600}
    small = {
        key: one.width for key, one in published(photo(tmp_path / "b.jpg", (300, 200))).items()
    }
    assert small == {"pictures/b.jpg": 300}
    middle = {
        key: one.width for key, one in published(photo(tmp_path / "c.jpg", (960, 640))).items()
    }
    assert middle == {"pictures-480/c.jpg": 480, "pictures/c.jpg": 960}


@given(width=st.integers(1, 9000), height=st.integers(1, 9000))
def test_copies_grow_and_the_last_keeps_the_address(width: int, height: int) -> None:
    made = copies("vice.jpg", PictureFile(width, height, 1))
    widths = [one.width for one in made]
    assert widths == sorted(set(widths))
    assert widths[-1] == min(width, 1600)
    assert made[-1].address == "pictures/vice.jpg"
    assert len({one.address for one in made}) == len(made)


def test_colours_of_another_space_become_srgb(tmp_path: Path) -> None:
    lab = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    Image.new("RGB", (600, 400), (180, 40, 40)).save(tmp_path / "a.jpg", icc_profile=lab)
    for image in published(tmp_path / "a.jpg").values():
        assert "icc_profile" not in image.info
        pixel = image.getpixel((10, 10))
        assert isinstance(pixel, tuple)
        assert pixel == pytest.approx((180, 40, 40), abs=6)


@pytest.mark.parametrize("mode", ["L", "1", "P", "RGBA", "LA", "I;16"])
def test_every_kind_of_png_is_published(tmp_path: Path, mode: str) -> None:
    Image.new(mode, (1200, 900)).save(tmp_path / "a.png")
    assert {one.width for one in published(tmp_path / "a.png").values()} == {480, 960, 1200}


def test_a_photograph_for_print_becomes_one_for_the_screen(tmp_path: Path) -> None:
    Image.new("CMYK", (600, 400), (0, 200, 200, 0)).save(tmp_path / "a.jpg")
    assert {one.mode for one in published(tmp_path / "a.jpg").values()} == {"RGB"}


def test_a_moving_picture_keeps_its_frames(tmp_path: Path) -> None:
    first, *rest = [Image.new("L", (600, 400), grey) for grey in (0, 128, 255)]
    first.save(tmp_path / "a.gif", save_all=True, append_images=rest, duration=200,
               comment=SECRET.encode())  # fmt: skip
    for image in published(tmp_path / "a.gif").values():
        assert getattr(image, "n_frames", 1) == 3


@pytest.mark.parametrize("name", ["a.jpg", "a.png", "a.gif", "a.webp"])
@pytest.mark.parametrize("part", [0.3, 0.6, 0.95])
def test_a_copy_that_broke_off_is_told_by_check(tmp_path: Path, name: str, part: float) -> None:
    path = photo(tmp_path / name, (900, 600))
    assert read_pictures(tmp_path)[name][0] == 900
    data = path.read_bytes()
    path.write_bytes(data[: int(len(data) * part)])
    assert read_pictures(tmp_path)[name][0] == 0


def test_a_file_that_is_whole_outside_and_broken_inside_is_named(tmp_path: Path) -> None:
    path = photo(tmp_path / "a.png", (900, 600))
    data = bytearray(path.read_bytes())
    middle = data.index(b"IDAT") + 8
    data[middle : middle + 40] = bytes(40)
    path.write_bytes(data)
    one = Photograph("content/pictures/a.png", path, (("pictures/a.png", 900),))
    (found,) = prepared([one])
    assert isinstance(found, Finding)
    assert found.code == "P708"
    assert found.blocks_publishing
    assert "content/pictures/a.png" in found.text


def test_the_same_file_gives_the_same_bytes(tmp_path: Path) -> None:
    first = photo(tmp_path / "a.jpg", (2000, 1500))
    second = photo(tmp_path / "b.jpg", (2000, 1500))
    sizes = (("x", 480), ("y", 1600))
    one, two = Photograph("a", first, sizes), Photograph("b", second, sizes)
    assert list(prepared([one])) == list(prepared([two]))
