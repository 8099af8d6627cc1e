"""The end of every page: its own address to copy, and a symbol that leads a scanner to it."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

from benchleaf.link import kind_of
from benchleaf.model import Manual, Shop

from .symbol import symbol
from .values import PlannedPage, Rendered
from .writer import Writer

READ_FROM_MM = 300
"""How far a scanner or a phone is held from a screen or a sheet: our choice, about arm's length."""
_WITH_AN_ID = ("job", "machine", "material", "tool", "fluid", "hazard", "part", "onboarding")
"""Kinds of page whose id the search finds, so that a scanner can type it."""


def scanned(manual: Manual, address: str) -> str:
    """What a scanner reads for a page: its address on the shop's server, else its id, else nothing.

    A path on a disk is never encoded: a phone could not open it.
    """
    if manual.server:
        return manual.server + address
    if kind_of(address) in _WITH_AN_ID:
        return address.removesuffix(".html").rpartition("/")[2].upper()
    return ""


def foot(writer: Writer, manual: Manual, address: str) -> str:
    """The HTML at the end of a page."""
    text = scanned(manual, address)
    drawn = symbol(text, READ_FROM_MM, f"Symbol for a scanner: {text}") if text else None
    return writer.write("foot.html.jinja", address, symbol=drawn, server=manual.server or "")


def with_foot(page: PlannedPage, writer: Writer, shop: Shop) -> PlannedPage:
    """The page with its foot."""
    return replace(page, render=partial(_rendered, page, writer, shop.manual))


def _rendered(page: PlannedPage, writer: Writer, manual: Manual) -> Rendered:
    made = page.render()
    return replace(made, html=made.html + foot(writer, manual, page.address))
