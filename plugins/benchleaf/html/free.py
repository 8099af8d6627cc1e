"""Free pages: Markdown beside the records, with the same links by id."""

from __future__ import annotations

import html
import re
from collections.abc import Callable, Iterator
from pathlib import Path

from benchleaf.link import relative
from benchleaf.model.textlinks import TEXT_LINK

from .values import Link

_CODE = re.compile(
    r"^(?P<fence>`{3,}|~{3,})[^\n]*\n.*?(?:^(?P=fence)[`~]*[ \t]*$|\Z)"
    r"|(?<!`)(?P<ticks>`+)(?!`)(?:(?!\n\s*\n).)+?(?<!`)(?P=ticks)(?!`)",
    re.DOTALL | re.MULTILINE,
)
"""Fenced blocks, to the end where one is left open, and code within a line."""
_MARKUP = re.compile(r"[\\`*_{}\[\]!]")
_HEADING = re.compile(r"^#\s+(.+?)\s*#*$", re.MULTILINE)


def free_pages(folder: Path) -> Iterator[Link]:
    """A link to each Markdown page below `folder`, by its first heading, in name order."""
    for path in sorted(folder.rglob("*.md")):
        name = path.relative_to(folder).with_suffix(".html").as_posix()
        heading = _HEADING.search(path.read_text(encoding="utf-8", errors="replace"))
        yield Link(name, heading[1] if heading else path.stem.replace("-", " ").capitalize())


def with_links(markdown: str, here: str, target: Callable[[str], tuple[str, str]]) -> str:
    """Markdown with `[[TR-0140]]` made into ordinary links; code is left alone.

    `target` gives address and words of what stands between the brackets.
    """

    def linked(match: re.Match[str]) -> str:
        address, words = target(match[1])
        return f"[{_as_text(words)}]({relative(address, here)})" if address else match[0]

    done, end = [], 0
    for code in _CODE.finditer(markdown):
        done += [TEXT_LINK.sub(linked, markdown[end : code.start()]), code[0]]
        end = code.end()
    return "".join((*done, TEXT_LINK.sub(linked, markdown[end:])))


def _as_text(words: str) -> str:
    """A record's own words between Markdown: no sign in them is markup."""
    return _MARKUP.sub(r"\\\g<0>", html.escape(words, quote=False))


def links_in(markdown: str) -> Iterator[tuple[int, int, str]]:
    """Column, line and text of each `[[link]]` that `with_links` would make."""
    blanked = _CODE.sub(lambda match: re.sub(r"[^\n]", " ", match[0]), markdown)
    for match in TEXT_LINK.finditer(blanked):
        line = blanked.count("\n", 0, match.start()) + 1
        yield match.start() - blanked.rfind("\n", 0, match.start()), line, match[0]
