"""Square symbols for a scanner (ISO/IEC 18004), sized for the distance they are read from."""

from __future__ import annotations

from dataclasses import dataclass

import segno
from markupsafe import Markup

QUIET_ZONE = 4
"""Empty modules on each side (ISO/IEC 18004; read in two summaries, not in the standard)."""
DISTANCE_TO_WIDTH = 10
"""Reading distance over the symbol's width: common practice of the trade, not in the standard."""
LEAST_MODULE_MM = 4 * 25.4 / 300
"""Four dots of a 300 dpi printer, about 0.34 mm: the least module that its inventor advises
(DENSO WAVE, qrcode.com, read)."""


@dataclass(frozen=True, slots=True)
class Symbol:
    """A symbol ready for a page."""

    text: str
    """What a scanner reads."""
    module_mm: float
    """Width of one module on paper."""
    width_mm: float
    """Width with the quiet zone."""
    svg: Markup


def symbol(text: str, distance_mm: float, label: str) -> Symbol:
    """The symbol for `text`, to be read from `distance_mm` away; correction level M (about 15 %).

    The width without the quiet zone is a tenth of the distance, or what the least module asks.
    """
    code = segno.make(text, error="m", micro=False, boost_error=False)
    modules = code.symbol_size(border=0)[0]
    module_mm = max(distance_mm / DISTANCE_TO_WIDTH / modules, LEAST_MODULE_MM)
    width = round(module_mm * (modules + 2 * QUIET_ZONE), 1)
    drawn = code.svg_inline(
        border=QUIET_ZONE,
        omitsize=True,
        dark="#000",
        light="#fff",
        svgclass="bl-symbol",
        lineclass=None,
        title=label,
        desc=f"A scanner reads {text}",
    )
    size = f'<svg width="{width}mm" height="{width}mm" role="img" '
    return Symbol(text, module_mm, width, Markup(drawn.replace("<svg ", size, 1)))
