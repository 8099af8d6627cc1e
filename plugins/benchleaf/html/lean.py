"""Style sheets and scripts as published: without what only a reader of the source needs."""

from __future__ import annotations

import re

from rcssmin import cssmin
from rjsmin import jsmin

_ANY_WITHIN = re.compile(r"(?<=[\w)\]]) (?=:[a-z])")
"""The space of `a :is(b)`; within a layer `cssmin` would take it for that of a declaration."""


_ZERO = re.compile(r"(?<=[\s:,(/-])0(?=\.\d)")
"""The 0 before a decimal point."""


def lean(text: str, kind: str) -> str:
    """A file of ours, by the end of its name; of any other kind, as it is.

    >>> lean("/* why */ a,\\n b > i { margin: 0 calc(1px + 2px); }", ".css")
    'a,b>i{margin:0 calc(1px + 2px)}'
    >>> lean("@layer x { a :is(b, i) { top: 0; } }", ".css")
    '@layer x{a *:is(b,i){top:0}}'
    >>> lean("/* why */\\nif (a) {\\n  /** @type {B} */ (b).c(); // here\\n}\\n", ".js")
    'if(a){(b).c();}'
    """
    if kind == ".css":
        return str(cssmin(_ZERO.sub("", _ANY_WITHIN.sub(" *", text))))
    return str(jsmin(text)) if kind == ".js" else text
