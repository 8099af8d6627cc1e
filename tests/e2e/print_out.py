"""A printed page as it comes out of the printer: its text, its ink, its letters."""

from __future__ import annotations

import math
from dataclasses import dataclass
from pathlib import Path

import pypdfium2 as pdfium
import pypdfium2.raw as raw
from playwright.sync_api import Page

from paper import choose

FORMATS = {"A4": (595, 842), "Letter": (612, 792)}
"""Width and height in points."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """One side of paper."""

    text: str
    """Its letters without any space: where words part is not written in a PDF."""
    size: tuple[int, int]
    """Width and height in points."""
    colour: int
    """The greatest difference between red, green and blue of any dot, of 255."""
    largest: float
    """Height of its largest letters in points."""


def squeezed(text: str) -> str:
    """A text without any space."""
    return "".join(text.split())


def printed(page: Page, path: Path, paper: str = "A4") -> list[Sheet]:
    """Print the page as it stands, in a shop that has chosen this paper."""
    choose(page, paper)
    page.pdf(path=path, prefer_css_page_size=True)
    document = pdfium.PdfDocument(path)
    try:
        return [_sheet(one) for one in document]
    finally:
        document.close()


def _sheet(page: pdfium.PdfPage) -> Sheet:
    text = page.get_textpage()
    words = squeezed(text.get_text_range())
    sizes = (_height(text, number) for number in range(text.count_chars()))
    width, height = page.get_size()
    return Sheet(words, (round(width), round(height)), _colour(page), max(sizes, default=0.0))


def _height(text: pdfium.PdfTextPage, number: int) -> float:
    matrix = raw.FS_MATRIX()
    raw.FPDFText_GetMatrix(text, number, matrix)
    return float(raw.FPDFText_GetFontSize(text, number) * math.hypot(matrix.c, matrix.d))


def _colour(page: pdfium.PdfPage) -> int:
    bitmap = page.render(scale=0.5, rev_byteorder=False)
    data, step = bytes(bitmap.buffer), bitmap.n_channels
    dots = set(zip(data[0::step], data[1::step], data[2::step], strict=False))
    return max(max(dot) - min(dot) for dot in dots)
