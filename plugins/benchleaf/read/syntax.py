"""What the YAML parser says, in the words of somebody who edits a breakdown."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from benchleaf.diagnose import Finding, Place, Related, Severity


@dataclass(frozen=True, slots=True)
class _Slip:
    """One kind of slip: what the parser says of it, our headline, and the usual cure."""

    said: str
    headline: str
    cure: str
    at_start: bool = False
    """True where the slip is where the thing began, not where the parser noticed."""


_SLIPS = (
    _Slip(
        "mapping values are not allowed",
        "a ': ' stands where no key can be",
        "a text that holds ': ' is quoted; or check this line's indentation",
    ),
    _Slip(
        "did not find expected key",
        "this line fits no key of the record above it",
        "keys of one record start in one column; quote a text that starts with *, [ or a quote",
    ),
    _Slip(
        "did not find expected '-'",
        "this line fits no entry of the list above it",
        "list items start in one column, each with '- '",
    ),
    _Slip(
        "could not find expected ':'",
        "this line has no ': ' after its key",
        "write 'key: value', or start a list item with '- '",
        at_start=True,
    ),
    _Slip(
        "cannot start any token",
        "a value starts with a sign that YAML keeps for itself",
        "quote a text that starts with @, ` or %",
    ),
    _Slip(
        "did not find expected alphabetic or numeric",
        "a value starts with * or &, which YAML keeps for itself",
        'quote the text: "*so*"',
    ),
    _Slip(
        "unexpected end of stream",
        "a quote is opened here and never closed",
        "close the quote; inside quotes write '' for one single quote",
        at_start=True,
    ),
    _Slip(
        "did not find expected ',' or",
        "a [ or { is opened here and never closed",
        "close it, or quote the text",
        at_start=True,
    ),
    _Slip(
        "did not find expected <document start>",
        "this line does not belong to the record above it",
        "check its indentation, and that the line above is finished",
    ),
    _Slip(
        "nesting depth",
        "brackets are nested too deep here",
        "no record needs such depth: check the brackets",
    ),
)


_STARTS = (
    (re.compile(r"(?:- |: )\[\["), 'a text that starts with [[ is quoted: "[[TR-0110]] ..."'),
    (
        re.compile(r"(?:- |: )([\"']).*\1\s*\S"),
        "a text that starts with a quote ends at the next one: quote the whole with the other sort",
    ),
)
"""How a line begins that people write, and YAML reads otherwise."""


def syntax_finding(error: Exception, name: str, lines: Sequence[str]) -> Finding:
    """The finding for an error of the parser; `lines` are the file's."""
    said = str(getattr(error, "problem", None) or error).strip()
    slip = next((one for one in _SLIPS if one.said in said), None)
    noticed = _place(getattr(error, "problem_mark", None), name)
    began = _place(getattr(error, "context_mark", None), name)
    place = (began if slip and slip.at_start else None) or noticed or began or Place(name, 1, 1)
    related = (Related(noticed, "noticed here"),) if noticed and noticed != place else ()
    line = lines[place.line - 1] if 0 < place.line <= len(lines) else ""
    before = lines[place.line - 2] if 1 < place.line <= len(lines) + 1 else ""
    hint = next((cure for sign, cure in _STARTS if sign.search(line) or sign.search(before)), None)
    unknown = ("look at this line and the one above it", f"the parser says: {said}")
    return Finding(
        "R104" if "nesting depth" in said else "R107",
        Severity.ERROR,
        place,
        slip.headline if slip else "the YAML cannot be understood here",
        (*((hint,) if hint else ()), *((slip.cure,) if slip else unknown)),
        related,
    )


def _place(mark: object, name: str) -> Place | None:
    line, column = getattr(mark, "line", None), getattr(mark, "column", None)
    return Place(name, line + 1, column + 1) if line is not None and column is not None else None
