"""Findings as values (code, severity, place, text, help), what a code is, printers. A leaf."""

from .code import Code, Sample
from .codes import CODES, make_known
from .finding import Finding, Place, Related, Severity, in_order, seen_from
from .nearest import LIST_AT_MOST, nearest, suggestion
from .printers import FORMS, SHOWN_AT_MOST, as_text, report, summary

__all__ = [
    "CODES",
    "FORMS",
    "LIST_AT_MOST",
    "SHOWN_AT_MOST",
    "Code",
    "Finding",
    "Place",
    "Related",
    "Sample",
    "Severity",
    "as_text",
    "in_order",
    "make_known",
    "nearest",
    "report",
    "seen_from",
    "suggestion",
    "summary",
]
