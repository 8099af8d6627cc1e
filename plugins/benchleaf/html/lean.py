"""Style sheets and scripts as published: without what only a reader of the source needs."""

from __future__ import annotations

from rcssmin import cssmin
from rjsmin import jsmin


def lean(text: str, kind: str) -> str:
    """A file of ours, by the end of its name; of any other kind, as it is.

    >>> lean("/* why */ a,\\n b > i { margin: 0 calc(1px + 2px); }", ".css")
    'a,b>i{margin:0 calc(1px + 2px)}'
    >>> lean("/* why */\\nif (a) {\\n  /** @type {B} */ (b).c(); // here\\n}\\n", ".js")
    'if(a){(b).c();}'
    """
    make = {".css": cssmin, ".js": jsmin}.get(kind)
    return str(make(text)) if make else text
