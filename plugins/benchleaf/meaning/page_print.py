"""The fingerprint of a free page: of its words alone, so that how it is set never counts."""

from __future__ import annotations

import hashlib
import re

from .moves import Move, MoveKind
from .statement import About, Statement

_WORD = re.compile(r"\w+(?:['’.,/:-]\w+)*|[<>=≤≥±%°+]")


def page_fingerprint(text: str) -> str:
    """64 digits of the words of a page; marks, line breaks and capitals never count."""
    words = " ".join(_WORD.findall(text)).lower()
    return hashlib.sha256(words.encode()).hexdigest()


def page_move(page: str, *, is_preface: bool) -> Move:
    """That a page says something else now, to be judged like any statement."""
    about = About.PREFACE if is_preface else About.PAGE
    one = Statement(about, f"pages/{page}", "", "", page)
    return Move(MoveKind.OTHER, one, one)
