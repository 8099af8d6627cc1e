"""The Markdown that people read about the tool, taken apart: prose, fenced blocks and examples."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[1]
GUIDE = ROOT / "plugins" / "benchleaf" / "guide"
README = ROOT / "README.md"
PAGES = sorted(GUIDE.glob("*.md"))

_FENCE = re.compile(r"^(?P<fence>```+)(?P<language>\w*)\n(?P<text>.*?)^(?P=fence)$", re.M | re.S)
_PICTURE = re.compile(r"!\[[^\]]*\]\([^)]*\)")
_LINK = re.compile(r"\[([^\]]*)\]\(([^)]*)\)")


@dataclass(frozen=True)
class Example:
    """A command that a page shows, and what it says is printed."""

    page: str
    line: int
    command: str
    printed: str
    """Nothing, where the page does not show it; `...` stands for any text."""

    def __str__(self) -> str:
        return f"{self.page}:{self.line}"


def blocks(text: str, language: str) -> list[tuple[int, str]]:
    """Line and text of each fenced block in that language."""
    return [
        (text.count("\n", 0, found.start("text")) + 1, found["text"])
        for found in _FENCE.finditer(text)
        if found["language"] == language
    ]


def examples(path: Path) -> Iterator[Example]:
    """Every `$ command` of a page, in order, with the lines below it."""
    for start, block in blocks(path.read_text(encoding="utf-8"), "console"):
        lines = block.splitlines()
        begins = [number for number, line in enumerate(lines) if line.startswith("$ ")]
        assert begins[:1] == [0], f"{path.name}:{start} begins with no command"
        for here, there in zip(begins, [*begins[1:], len(lines)], strict=True):
            below = "".join(f"{line}\n" for line in lines[here + 1 : there])
            yield Example(path.name, start + here, lines[here].removeprefix("$ "), below)


def prose(text: str) -> str:
    """A page without its code blocks, pictures and marks; links by their words, code as a word."""
    bare = _FENCE.sub("", _PICTURE.sub("", text))
    bare = re.sub(r"^(?: {4}\S.*\n)+", "", bare, flags=re.M)
    return re.sub(r"`[^`]+`", "Code", _LINK.sub(r"\1", bare)).replace("*", "")


def paragraphs(text: str) -> list[str]:
    """What is read as one: a paragraph, an entry of a list, a cell of a table, a heading."""
    lines = re.sub(r"^\s*(?:[-#]|\d+\.)+ ", "\n", prose(text), flags=re.M).replace("|", "\n\n")
    return [" ".join(one.split()) for one in re.split(r"\n\s*\n", lines) if one.strip(" -\n")]


def link_targets(text: str) -> list[str]:
    """Where the links and pictures of a page lead, code left out."""
    return [found[2] for found in _LINK.finditer(_FENCE.sub("", text))]
