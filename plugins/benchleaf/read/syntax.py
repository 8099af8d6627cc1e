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
    (
        re.compile(r"(?:- |: )\[\["),
        "a text starts with [[ and is not in quotes",
        'write it in quotes: "[[TR-0110]] ..."',
    ),
    (
        re.compile(r"(?:- |: )([\"']).*\1\s*\S"),
        "a text starts with a quote, and goes on after the next one",
        "a quote at the start ends the text at the next: quote the whole with the other sort",
    ),
)
"""How a line begins that people write, and YAML reads otherwise: the headline and the cure."""
_KEY = re.compile(r"(\s*(?:- )*)([\w-]+)(: )(.*)")
"""Indentation, key and value of a line."""


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
    start = next((one for one in _STARTS if one[0].search(line) or one[0].search(before)), None)
    if slip is _SLIPS[0]:
        headline, cures = _colon(line, before, place)
    elif start is not None:
        headline, cures = start[1], (start[2],)
    elif slip is not None:
        headline, cures = slip.headline, (slip.cure,)
    else:
        headline = "the YAML cannot be understood here"
        cures = ("look at this line and the one above it", f"the parser says: {said}")
    return Finding(
        "R104" if "nesting depth" in said else "R107",
        Severity.ERROR,
        place,
        headline,
        cures,
        related,
    )


def _colon(line: str, before: str, noticed: Place) -> tuple[str, tuple[str, ...]]:
    """A colon where no key can be: in a text that is not quoted, or in a line too far in."""
    found, above = _KEY.match(line), _KEY.match(before)
    if found is None:
        return _SLIPS[0].headline, (_SLIPS[0].cure,)
    indent, key, _, value = found.groups()
    if noticed.column > found.start(3) + 1:  # the second colon of the line
        inside = value.replace('"', "'")
        return (
            f"the text of '{key}' holds ': ', which begins a key",
            (f'write the text in quotes: {key}: "{inside}"',),
        )
    column = len(above[1]) + 1 if above else None
    where = f"; '{above[2]}' above it stands in column {column}" if above else ""
    return (
        f"'{key}' begins in column {len(indent) + 1}{where}",
        ("keys of one record start in one column: move the line", _SLIPS[0].cure),
    )


def _place(mark: object, name: str) -> Place | None:
    line, column = getattr(mark, "line", None), getattr(mark, "column", None)
    return Place(name, line + 1, column + 1) if line is not None and column is not None else None
