"""Printed pages as a reader of paper meets them: read, drawn, and their symbols decoded."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pypdfium2
import zxingcpp

MM_PER_INCH = 25.4


@dataclass(frozen=True)
class Sheet:
    """One page of paper."""

    text: str
    width_mm: float
    height_mm: float
    is_grey: bool = False
    symbols: tuple[tuple[str, float], ...] = ()
    """What each symbol says, and its width in mm without the quiet zone."""


_CHOOSE = """paper => new Promise(done => {
  const link = document.querySelector("link[href*='/paper-']");
  const href = link.href.replace(/paper-\\w+/, "paper-" + paper);
  if (href === link.href) return done();
  link.addEventListener("load", done);
  link.href = href;
})"""


def choose(page: Any, paper: str) -> None:
    """Give the page the style sheet of a shop that prints on that paper."""
    page.evaluate(_CHOOSE, paper.lower())


def sheets(pdf: Path, *, drawn: bool) -> tuple[Sheet, ...]:
    """Every page of a PDF file; its colours and symbols only if it is drawn, which takes long."""
    with pypdfium2.PdfDocument(pdf) as document:
        return tuple(_sheets(document, drawn))


def _sheets(document: Any, drawn: bool) -> Iterator[Sheet]:
    for page in document:
        width, height = (points / 72 * MM_PER_INCH for points in page.get_size())
        text = " ".join(page.get_textpage().get_text_range().split())
        seen = (_is_grey(page), tuple(_symbols(page))) if drawn else ()
        yield Sheet(text, width, height, *seen)


def _is_grey(page: Any) -> bool:
    bitmap = page.render(scale=40 / 72)
    data, wide = bytes(bitmap.buffer), bitmap.n_channels
    return data[0::wide] == data[1::wide] == data[2::wide]


def _symbols(page: Any, dpi: int = 300) -> Iterator[tuple[str, float]]:
    bitmap = page.render(scale=dpi / 72, grayscale=True)
    rows = memoryview(bytes(bitmap.buffer)).cast("B", shape=(bitmap.height, bitmap.stride))
    wanted: Any = zxingcpp.BarcodeFormat.QRCode
    for found in zxingcpp.read_barcodes(rows, formats=wanted):
        corners = found.position
        yield found.text, (corners.top_right.x - corners.top_left.x) / dpi * MM_PER_INCH
