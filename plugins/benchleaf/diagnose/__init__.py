"""Findings as values (code, severity, place, text, help) and their printers. A leaf."""

from .code import Code
from .codes import CODES
from .finding import Finding, Place, Related, Severity, in_order
from .nearest import nearest, suggestion
from .printers import as_text, report, summary

__all__ = [
    "CODES",
    "Code",
    "Finding",
    "Place",
    "Related",
    "Severity",
    "as_text",
    "in_order",
    "nearest",
    "report",
    "suggestion",
    "summary",
]
