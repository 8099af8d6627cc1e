"""Photographs as people bring them, made fit for a page.

Each is turned upright, made smaller, and written anew from its pixels alone: what a camera adds
(the place, the time, names, a small picture of the whole) is left behind. Colours of another space
become sRGB. The same file gives the same bytes with the same release of the library.
"""

from __future__ import annotations

import warnings
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import lru_cache
from io import BytesIO
from mmap import ACCESS_READ, mmap
from pathlib import Path

from PIL import Image, ImageCms, ImageOps, ImageSequence

from benchleaf.diagnose import Finding, Place, Severity

_FORMATS = {".jpg": "JPEG", ".jpeg": "JPEG", ".png": "PNG", ".webp": "WEBP", ".gif": "GIF"}
_QUALITY = 82
"""Of JPEG and WebP, of 100: no difference seen at a kiosk, a quarter of a camera's bytes."""
_PLAIN = ("1", "L", "LA", "P", "RGB", "RGBA")
_KEPT = ("transparency", "duration", "loop", "background")
"""What of a file's own notes its pixels need: see-through colours, the pace of a moving picture."""


@dataclass(frozen=True, slots=True)
class Photograph:
    """A file made of pixels, and the copies of it that are published."""

    name: str
    """Its name in the content folder, for messages."""
    path: Path
    copies: tuple[tuple[str, int], ...]
    """Address and width in pixels of each."""


def prepared(photographs: Sequence[Photograph]) -> Iterator[tuple[str, bytes] | Finding]:
    """Address and bytes of every copy, or why a file cannot be published."""
    for one in photographs:
        try:
            stat = one.path.stat()
            widths = tuple(width for _, width in one.copies)
            made = _copies(one.path, widths, stat.st_mtime_ns, stat.st_size)
        except (OSError, ValueError, SyntaxError, Image.DecompressionBombError) as error:
            yield _unreadable(one.name, error)
            continue
        yield from ((address, data) for (address, _), data in zip(one.copies, made, strict=True))


@lru_cache(maxsize=256)
def _copies(path: Path, widths: tuple[int, ...], _changed: int, _bytes: int) -> tuple[bytes, ...]:
    """The copies of a file, kept while a preview runs and the file is the same."""
    kind = _FORMATS[path.suffix.lower()]
    with _opened(path) as opened:
        if getattr(opened, "n_frames", 1) > 1 and kind == "GIF":
            return tuple(_moving(opened) for _ in widths)
        opened.draft("RGB", (max(widths), max(widths)))  # a JPEG is read no larger than needed
        upright = _plain(_srgb(ImageOps.exif_transpose(opened)))
    return tuple(_written(_scaled(upright, width), kind) for width in widths)


Image.MAX_IMAGE_PIXELS = None
"""The rule about files that records name bounds the pixels, with a message of ours."""


@contextmanager
def _opened(path: Path) -> Iterator[Image.Image]:
    """The file, of a kind that a browser shows. Broken notes of a camera are no matter."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        with Image.open(path, formats=("JPEG", "PNG", "WEBP", "GIF")) as image:
            yield image


def upright_size(path: Path) -> tuple[int, int]:
    """Width and height in pixels, upright; 0 and 0 where the photograph is not whole."""
    try:
        with _opened(path) as opened:
            if opened.format == "GIF":
                for frame in ImageSequence.Iterator(opened):
                    frame.load()
            width, height = opened.size
            turned = opened.getexif().get(_ORIENTATION, 1) in _ON_ITS_SIDE
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError):
        return 0, 0
    if not _is_whole(path):
        return 0, 0
    return (height, width) if turned else (width, height)


_ORIENTATION, _ON_ITS_SIDE = 0x0112, (5, 6, 7, 8)
"""EXIF 2.32, tag 274, and its values for a picture that lies on its side."""
_LAST = {".jpg": b"\xff\xd9", ".jpeg": b"\xff\xd9", ".png": b"IEND\xaeB`\x82"}
"""What a whole file ends with: a copy that broke off does not hold it after its beginning."""


def _is_whole(path: Path) -> bool:
    """False where the end of the file is missing."""
    suffix = path.suffix.lower()
    with path.open("rb") as file, mmap(file.fileno(), 0, access=ACCESS_READ) as data:
        return _ends(suffix, data)


def _ends(suffix: str, data: mmap) -> bool:
    if suffix == ".webp":  # RIFF tells its own length (WebP container specification)
        return len(data) >= 8 + int.from_bytes(data[4:8], "little")
    if suffix not in _LAST:
        return True
    return data.rfind(_LAST[suffix]) > (_pixels_of_jpeg(data) if suffix.startswith(".j") else 0)


def _pixels_of_jpeg(data: mmap) -> int:
    """Where the pixels of a JPEG begin, after the camera's notes and their own small picture."""
    at = 2
    while at + 4 <= len(data) and data[at] == 0xFF:
        if data[at + 1] == 0xDA:  # start of scan (ISO/IEC 10918-1, table B.1)
            return at
        at += 2 + int.from_bytes(data[at + 2 : at + 4], "big")
    return len(data)


def _srgb(image: Image.Image) -> Image.Image:
    """The picture in the colours that every screen shows; as it is where its profile is broken."""
    profile = image.info.get("icc_profile")
    if not profile or image.mode not in ("RGB", "CMYK"):
        return image
    try:
        source = ImageCms.ImageCmsProfile(BytesIO(profile))
        target = ImageCms.createProfile("sRGB")
        turned = ImageCms.profileToProfile(image, source, target, outputMode="RGB")
    except ImageCms.PyCMSError:
        return image
    return turned or image


def _plain(image: Image.Image) -> Image.Image:
    """The pixels without the notes of the file, in a mode that every format here can hold."""
    if image.mode.startswith("I"):
        image = image.convert("I").point(lambda value: value / 256).convert("L")
    elif image.mode not in _PLAIN:
        image = image.convert("RGB")
    image.info = {key: image.info[key] for key in _KEPT if key in image.info}
    return image


def _scaled(image: Image.Image, width: int) -> Image.Image:
    if image.width <= width:
        return image
    size = (width, max(1, round(image.height * width / image.width)))
    if image.mode == "P":
        image = image.convert("RGBA" if "transparency" in image.info else "RGB")
    elif image.mode == "1":
        image = image.convert("L")
    return image.resize(size, Image.Resampling.LANCZOS)


def _written(image: Image.Image, kind: str) -> bytes:
    if kind == "JPEG" and image.mode not in ("L", "RGB"):
        image = image.convert("RGB")
    out = BytesIO()
    if kind in ("JPEG", "WEBP"):
        image.save(out, kind, quality=_QUALITY)
    else:
        image.save(out, kind, optimize=True)
    return out.getvalue()


def _moving(image: Image.Image) -> bytes:
    """A moving picture keeps its frames, its size and its pace, and loses its notes."""
    frames = [_plain(frame.copy()) for frame in ImageSequence.Iterator(image)]
    out = BytesIO()
    frames[0].save(out, "GIF", save_all=True, append_images=frames[1:], comment=b"")
    return out.getvalue()


def _unreadable(name: str, error: Exception) -> Finding:
    return Finding(
        "P708",
        Severity.ERROR,
        Place(name),
        f"'{name}' cannot be read to its end as a picture: {error}",
        ("save it again from the program that made it, or take the photograph anew",),
    )
