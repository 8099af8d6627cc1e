"""Style sheets and scripts as published: without what only a reader of the source needs."""

from __future__ import annotations

import re

_PIECE = re.compile(
    r"""(?P<text>"[^"]*"|'[^']*')|/\*.*?\*/|(?P<space>\s+)|(?P<sign>[{};,>])""", re.DOTALL
)
_COMMENT = re.compile(r"^[ \t]*/\*.*?\*/[ \t]*\n", re.DOTALL | re.MULTILINE)
"""A comment that has its lines for itself."""
_SPACE = re.compile(r"^[ \t]+|\n(?=\n)", re.MULTILINE)


def lean(text: str, kind: str) -> str:
    """A file of ours, by the end of its name; of any other kind, as it is."""
    return {".css": lean_sheet, ".js": lean_script}.get(kind, str)(text)


def lean_sheet(css: str) -> str:
    """The sheet without comments and without spaces that mean nothing; texts stay as they are.

    >>> lean_sheet('/* why */ a,\\n b > i { content: " : "; margin: 0 calc(1px + 2px); }')
    'a,b>i{content:" : ";margin:0 calc(1px + 2px)}'
    """
    texts: list[str] = []

    def piece(match: re.Match[str]) -> str:
        if match["text"]:
            texts.append(match["text"])
            return f"\0{len(texts) - 1}\0"
        return match["sign"] or " "

    bare = re.sub(r" +", " ", _PIECE.sub(piece, css))
    bare = re.sub(r" ?([{};,>]) ?", r"\1", bare)
    bare = re.sub(r"(?<=[\w-]): (?=[^{}]*[;}])", ":", bare).replace(";}", "}").strip()
    return re.sub("\0(\\d+)\0", lambda match: texts[int(match[1])], bare)


def lean_script(script: str) -> str:
    """The script line by line as it was, without comments that stand alone and without indents.

    A text over several lines would lose its own spaces: such a script stays as it is.

    >>> lean_script('/* why */\\nif (a) {\\n  b(); /* here */\\n}\\n')
    'if (a) {\\nb(); /* here */\\n}\\n'
    """
    if any(line.count("`") % 2 for line in script.splitlines()):
        return script
    return _SPACE.sub("", _COMMENT.sub("", script))
