"""Findings as values (code, severity, place, text, help) and their printers. A leaf."""

from .code import Code
from .codes import CODES
from .finding import Finding, Place, Related, Severity, in_order, seen_from
from .nearest import nearest, suggestion
from .printers import FORMS, as_text, report, summary

__all__ = [
    "CODES",
    "FORMS",
    "Code",
    "Finding",
    "Place",
    "Related",
    "Severity",
    "as_text",
    "in_order",
    "nearest",
    "report",
    "seen_from",
    "suggestion",
    "summary",
]
