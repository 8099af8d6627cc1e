"""Stop 7: the built HTML is read once more: every link and anchor, and nothing outward.

Regular expressions, not a parser: a page costs under a millisecond, and the pages are our own
templates' or the theme's.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import unquote

from benchleaf.diagnose import Finding, Place, Severity, nearest

_INSIDE = r"""(?:[^<>"']|"[^"]*"|'[^']*')*"""
_PIECE = re.compile(
    rf"<!--.*?-->|(<script\b{_INSIDE}>).*?</script\s*>|(<style\b{_INSIDE}>)(.*?)</style\s*>"
    rf"|(<[a-z]{_INSIDE}>)",
    re.DOTALL | re.IGNORECASE,
)
_ATTRIBUTE = re.compile(r"""\s([\w:-]+)\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s"'>]+))""")
_POINTING = frozenset(("href", "src", "poster", "data", "action", "formaction", "xlink:href"))
_SCHEME = re.compile(r"^(?:[a-zA-Z][a-zA-Z0-9+.-]*:|//)")
_CSS_ADDRESS = re.compile(r"(?:url\(|@import)\s*['\"]?\s*((?:https?:)?//[^'\")\s]+)", re.IGNORECASE)
_REFRESH = re.compile(r"^\s*[\d.]+\s*[;,]\s*url\s*=\s*['\"]?([^'\"]+)", re.IGNORECASE)
"""A page that sends its reader on, which no content security policy stops."""
_ALLOWED_SCHEMES = ("data:",)


@dataclass(frozen=True, slots=True)
class _Page:
    """What one page holds and points to."""

    name: str
    ids: frozenset[str]
    twice: tuple[str, ...]
    targets: tuple[str, ...]


def crawl(
    site: Path, promised: Collection[str] = (), outward: Collection[str] = ()
) -> Iterator[Finding]:
    """Findings about every page below `site`, and about each promised address it must hold.

    `outward` are the only addresses outside the disk that a page may link to.
    """
    allowed = frozenset(outward)
    files = {path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file()}
    pages = {name: _read(site, name) for name in sorted(files) if name.endswith(".html")}
    for page in pages.values():
        yield from (_twice(page.name, anchor) for anchor in page.twice)
        for target in page.targets:
            if target not in allowed:
                yield from _target(page, target, files, pages)
    for name in sorted(files):
        if name.endswith(".css"):
            yield from _style_sheet(site, name)
    yield from (_broken(one) for one in promised if not _is_there(one, pages))


def _is_there(address: str, pages: Mapping[str, _Page]) -> bool:
    page, _, anchor = address.partition("#")
    return page in pages and (not anchor or anchor in pages[page].ids)


def _broken(address: str) -> Finding:
    return Finding(
        "P705",
        Severity.ERROR,
        Place(address.partition("#")[0]),
        f"the published address '{address}' is not in the built site",
        ("give its place that id again: an own template or plugin may have left it out",),
    )


def _read(site: Path, name: str) -> _Page:
    text = (site / name).read_text(encoding="utf-8")
    ids: list[str] = []
    targets: list[str] = []
    for script, style, sheet, tag in _PIECE.findall(text):
        targets += _CSS_ADDRESS.findall(sheet)
        for key, value in _attributes(script or style or tag):
            if key == "id":
                ids.append(value)
            else:
                targets += _targets_of(key, value)
    counted = set(ids)
    twice = (
        tuple(one for one in sorted(counted) if ids.count(one) > 1)
        if (len(counted) < len(ids))
        else ()
    )
    return _Page(name, frozenset(counted), twice, tuple(dict.fromkeys(targets)))


def _attributes(tag: str) -> Iterator[tuple[str, str]]:
    for key, double, single, bare in _ATTRIBUTE.findall(tag):
        yield key.lower(), (double or single or bare).replace("&amp;", "&").strip()


def _targets_of(key: str, value: str) -> list[str]:
    """The addresses in the value of an attribute."""
    if key in _POINTING:
        return [value]
    if key == "srcset" and not value.startswith("data:"):
        return [one.split()[0] for one in value.split(",") if one.strip()]
    if key == "content":
        return _REFRESH.findall(value)
    return _CSS_ADDRESS.findall(value) if key == "style" else []


def _target(
    page: _Page, target: str, files: set[str], pages: dict[str, _Page]
) -> Iterator[Finding]:
    if target.lower().startswith(_ALLOWED_SCHEMES):
        return
    if _SCHEME.match(target):
        yield _outward(page.name, target)
        return
    path, _, anchor = target.partition("#")
    wanted = _resolved(page.name, unquote(path.partition("?")[0]))
    if wanted not in files:
        yield _no_file(page.name, target, wanted, files)
    elif anchor and wanted in pages and unquote(anchor) not in pages[wanted].ids:
        yield _no_anchor(page.name, target, unquote(anchor), pages[wanted])


def _resolved(here: str, path: str) -> str:
    if not path:
        return here
    joined = posixpath.normpath(posixpath.join(posixpath.dirname(here), path))
    return joined


def _style_sheet(site: Path, name: str) -> Iterator[Finding]:
    text = (site / name).read_text(encoding="utf-8", errors="replace")
    for address in dict.fromkeys(_CSS_ADDRESS.findall(text)):
        yield _outward(name, address)


def _no_file(page: str, target: str, wanted: str, files: set[str]) -> Finding:
    near = nearest(wanted, files)
    hint = (f"did you mean '{near}'?",) if near else ()
    return Finding("P701", Severity.ERROR, Place(page), f"'{target}' leads to no file", hint)


def _no_anchor(page: str, target: str, anchor: str, goal: _Page) -> Finding:
    near = nearest(anchor, goal.ids)
    hint = (f"did you mean '#{near}'?",) if near else ()
    text = f"'{target}' leads to no place on {goal.name}"
    return Finding("P702", Severity.ERROR, Place(page), text, hint)


def _outward(page: str, target: str) -> Finding:
    return Finding(
        "P703",
        Severity.ERROR,
        Place(page),
        f"'{target}' leads outside the disk",
        ("name the source in plain text, or ship the file",),
    )


def _twice(page: str, anchor: str) -> Finding:
    return Finding("P704", Severity.ERROR, Place(page), f"the anchor '{anchor}' stands twice")
