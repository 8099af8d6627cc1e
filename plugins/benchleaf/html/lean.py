"""Style sheets and scripts as published: without what only a reader of the source needs."""

from __future__ import annotations

import re

from rcssmin import cssmin
from rjsmin import jsmin

_ANY_WITHIN = re.compile(r"(?<=[\w)\]]) (?=:[a-z])")
"""The space of `a :is(b)`; within a layer `cssmin` would take it for that of a declaration."""


_ZERO = re.compile(r"(?<=[\s:,(/-])0(?=\.\d)")
"""The 0 before a decimal point."""
_ROOMY = re.compile(
    r"""("[^"]*")|(?<=[\w)%>"]) (?:([~/]) (?=[\w(."-])|(\*) (?=\.?\d|(?:var|min|max)\())"""
)
"""Spaces around a sign that needs none: `a ~ b`, `1 / 2`, `2 * 3` in brackets; a text stays."""
_PSEUDO = re.compile(r"::(?=(?:before|after)\b)")
"""Of these two one colon is enough."""
_QUOTED = re.compile(r'="([a-zA-Z_][\w-]*)"(?=\])')
"""The value of an attribute that is a plain name."""


def lean(text: str, kind: str) -> str:
    """A file of ours, by the end of its name; of any other kind, as it is.

    >>> lean("/* why */ a,\\n b > i { margin: 0 calc(1px + 2px); }", ".css")
    'a,b>i{margin:0 calc(1px + 2px)}'
    >>> lean("@layer x { a :is(b, i) { top: 0; } }", ".css")
    '@layer x{a *:is(b,i){top:0}}'
    >>> lean('a ~ i[a="b"]::after { width: calc(2 * 3px); content: "1 / 2"; }', ".css")
    'a~i[a=b]:after{width:calc(2*3px);content:"1 / 2"}'
    >>> lean("/* why */\\nif (a) {\\n  /** @type {B} */ (b).c(); // here\\n}\\n", ".js")
    'if(a){(b).c();}'
    """
    if kind == ".css":
        short = str(cssmin(_ZERO.sub("", _ANY_WITHIN.sub(" *", text))))
        return _ROOMY.sub(r"\1\2\3", _QUOTED.sub(r"=\1", _PSEUDO.sub(":", short)))
    return str(jsmin(text)) if kind == ".js" else text
