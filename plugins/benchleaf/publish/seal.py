"""The seal of a built site: one stamp on all that a page is made of, and the sums of every file.

The stamp lets a copy judge itself in the browser (`html/assets/early.js`): each page knows it, and
how many parts it has; each script and style sheet of ours says it at its very end. The sums let
`benchleaf verify` tell any other damage. Both follow from the bytes alone.
"""

from __future__ import annotations

import hashlib
import re
from pathlib import Path

from benchleaf.write import write_bytes

SEAL = "seal.txt"
"""Sums and names of all other files, by name, as `sha256sum --check` reads them, too."""
_OURS = "assets/benchleaf/"
_PLACE = b'data-seal=""'
"""Where a page says its stamp and parts; a page of a preview is left without."""
_STAMP_SIGNS = 6
_NUMBER_GROUPS = 5
_NOT_PARSED = re.compile(
    rb"<!--.*?-->|<(template|noscript|script|style|title|textarea|select|iframe|xmp|noembed|noframes)"
    rb"""\b.*?</\1\s*>|="[^"<]*<[^"]*"|='[^'<]*<[^']*'""",
    re.DOTALL,
)
"""What a browser does not take for elements of the page: also a sign < in an attribute."""
_PART = re.compile(rb"<(?:section|h[1-6]|li|p|dt|dd|figure|img)[\s>]")
"""The same elements are counted in `early.js`. No browser leaves one of them out."""


def seal(site: Path) -> str:
    """Seal a site that is ready to be published; the number of the copy.

    All other files must have been written. The same bytes get the same seal.
    """
    names = sorted(_names(site))
    sums = {name: _sum((site / name).read_bytes()) for name in names}
    stamp = _sum(_listed(sums))[:_STAMP_SIGNS]
    for name in names:
        if name.endswith((".html", ".js", ".css")):
            data = (site / name).read_bytes()
            sealed = _sealed(name, data, stamp)
            if sealed != data:
                write_bytes(site / name, sealed, sync=False)
                sums[name] = _sum(sealed)
    listed = _listed(sums)
    write_bytes(site / SEAL, listed, sync=False)
    return number_of(listed)


def number_of(listed: bytes) -> str:
    """The one number of a copy, from the bytes of its list of sums.

    >>> number_of(b"")
    'e3b0 c442 98fc 1c14 9afb'
    """
    found = _sum(listed)
    return " ".join(found[at : at + 4] for at in range(0, 4 * _NUMBER_GROUPS, 4))


def _names(site: Path) -> list[str]:
    found = (path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file())
    return [name for name in found if name != SEAL]


def _sum(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def _listed(sums: dict[str, str]) -> bytes:
    return "".join(f"{found}  {name}\n" for name, found in sums.items()).encode()


def _sealed(name: str, data: bytes, stamp: str) -> bytes:
    """A page, script or style sheet with the stamp; any other file as it is."""
    if name.endswith(".html"):
        return data.replace(_PLACE, f'data-seal="{stamp} {parts_of(data)}"'.encode(), 1)
    if not name.startswith(_OURS):
        return data
    stem, _, kind = name.removeprefix(_OURS).rpartition(".")
    said = re.sub(r"\W", "_", stem, flags=re.ASCII)
    if kind == "css":
        return data + f"html{{--s-{said}:{stamp}}}".encode()
    # A declaration is known before the first line runs: only a script that is cut does not make it
    return data + f"\nfunction benchleaf_{said}_{stamp}(){{}}\n".encode()


def parts_of(page: bytes) -> int:
    """How many sections, headings, paragraphs, items and pictures a browser finds, at least.

    >>> parts_of(b"<h1>A</h1><p>b<!-- <p>c --><template><p>d</p></template><pre>e</pre>")
    2
    """
    return len(_PART.findall(_NOT_PARSED.sub(b"", page.lower())))
