"""A plain symbol of a machine, tool, material or part, for lists: what it looks like, no words."""

from __future__ import annotations

from html import escape

from markupsafe import Markup

from benchleaf.model import (
    Looks,
    Machine,
    Material,
    Metal,
    Part,
    Tool,
    ToolKind,
    by_words,
    machine_looks,
)

from .outlines import OUTLINES

Drawable = Machine | Tool | Material | Part
"""Records that have a symbol."""

_TOOLS = {
    ToolKind.DRILL: Looks.TWIST_DRILL,
    ToolKind.COUNTERSINK: Looks.COUNTERSINK,
    ToolKind.REAMER: Looks.REAMER,
    ToolKind.TAP: Looks.TAP,
    ToolKind.COUNTERBORE: Looks.COUNTERBORE,
    ToolKind.GRINDING_WHEEL: Looks.GRINDING_WHEEL,
}
_METALS = {
    Metal.STEEL: Looks.STEEL,
    Metal.ALUMINIUM: Looks.ALUMINIUM,
    Metal.BRASS: Looks.BRASS,
    Metal.CAST_IRON: Looks.CAST_IRON,
}


def looks_of(record: Drawable) -> Looks:
    """What a record is drawn as: what it says itself, else its kind, else its words."""
    if isinstance(record, Machine):
        return machine_looks(record)
    if isinstance(record, Tool):
        said = by_words("tools", record.name, record.id.replace("-", " "))
        return record.drawn_as or _TOOLS.get(record.kind) or said or Looks.OTHER_TOOL
    if isinstance(record, Material):
        said = by_words("materials", record.name, record.id.replace("-", " "))
        return (_METALS[record.metal] if record.metal else None) or said or Looks.STEEL
    said = by_words("parts", record.name, *(one.looks_like for one in record.states))
    return record.drawn_as or said or Looks.BLOCK


def drawn(record: Drawable, words: bool = False) -> Markup:
    """The symbol of a record. `words` where no name stands beside it: then it is read aloud."""
    name = f"{looks_of(record).value}: {record.name}" if words else ""
    return symbol_as(looks_of(record), name)


def symbol_as(looks: Looks, name: str = "") -> Markup:
    """One outline as an element for a page; without a name it is for the eye alone."""
    said = f'role="img" aria-label="{escape(name)}"' if name else 'aria-hidden="true"'
    return Markup(
        f'<svg class="bl-sign" viewBox="0 0 96 96" width="96" height="96" {said} fill="none"'
        f' stroke="currentColor" stroke-width="4.5" stroke-linejoin="miter">'
        f"{OUTLINES[looks]}</svg>"
    )
