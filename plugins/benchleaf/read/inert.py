"""Drawings and sheets that only show: an SVG that runs and fetches nothing, a PDF that is one.

An SVG is shown as a picture, where no browser runs its scripts; but it may be opened by itself, and
then they run. So every element and attribute that runs, fetches or leads away is refused.
"""

from __future__ import annotations

import re
from pathlib import Path
from xml.parsers import expat

_RUNS = frozenset(
    ("script", "foreignobject", "iframe", "embed", "object", "audio", "video", "handler",
     "listener", "link", "meta", "base", "discard")
)  # fmt: skip
_LEADS = frozenset(("href", "src", "data", "action", "formaction", "ping"))
_HERE = re.compile(r"\s*(?:#|data:image/(?:png|jpeg|gif|webp)[;,])", re.IGNORECASE)
_STYLE = re.compile(
    r"url\(\s*['\"]?(?!\s*(?:#|data:image/(?:png|jpeg|gif|webp)[;,]))|@import|image-set",
    re.IGNORECASE,
)
_SETS = ("animate", "set", "animatetransform", "animatemotion")


class _UnsafeError(Exception):
    """Why a drawing is not shown."""


def unsafe(path: Path) -> str:
    """What a file does besides showing itself; empty for nothing."""
    data = path.read_bytes()
    if path.suffix.lower() == ".pdf":
        return "" if b"%PDF-" in data[:1024] else "is called .pdf and is none"
    return _in_drawing(data)


def _in_drawing(data: bytes) -> str:
    parser = expat.ParserCreate()
    inside: list[str] = []
    parser.StartElementHandler = lambda name, given: _element(name, given, inside)
    parser.EndElementHandler = lambda _: inside.pop()
    parser.CharacterDataHandler = lambda text: _text(text, inside)
    parser.EntityDeclHandler = lambda *_: _refuse("declares an entity")
    parser.ProcessingInstructionHandler = lambda *_: _refuse("holds an instruction for a program")
    parser.buffer_text = True
    try:
        parser.Parse(data, True)
    except _UnsafeError as error:
        return str(error)
    except (expat.ExpatError, ValueError, LookupError):
        return ""  # no picture, which the rule about files that records name tells
    return ""


def _refuse(why: str) -> None:
    raise _UnsafeError(why)


def _local(name: str) -> str:
    return name.rpartition(":")[2].lower()


def _element(name: str, given: dict[str, str], inside: list[str]) -> None:
    tag = _local(name)
    inside.append(tag)
    if tag in _RUNS:
        _refuse(f"holds <{name}>, which runs or fetches something")
    for key, value in given.items():
        attribute = _local(key)
        if attribute.startswith("on"):
            _refuse(f"runs something by '{key}'")
        if attribute in _LEADS and not _HERE.match(value):
            _refuse(f"leads to '{value[:40]}'")
        if key.lower().startswith("xmlns") and "xhtml" in value.lower():
            _refuse("holds a page of its own")
        if tag in _SETS and attribute == "attributename" and _local(value.strip()) in _LEADS:
            _refuse(f"sets '{value}' by itself")
        if _STYLE.search(_plain(value)):
            _refuse(f"fetches something by '{key}'")


def _text(text: str, inside: list[str]) -> None:
    if "style" in inside and _STYLE.search(_plain(text)):
        _refuse("fetches something by its style")


def _plain(style: str) -> str:
    r"""A style without what hides a word of it: comments, and letters written as `\75`."""
    bare = re.sub(r"/\*.*?\*/", "", style, flags=re.DOTALL)
    return re.sub(
        r"\\([0-9a-fA-F]{1,6})\s?", lambda one: chr(min(int(one[1], 16), 0x10FFFF)), bare
    ).replace("\\", "")
