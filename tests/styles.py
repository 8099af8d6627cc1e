"""Reads our style sheets: what rules there are, where a colour is named, which sheet has a class.

Usage: python tests/styles.py
Prints what `tests/contract/test_styles.py` holds at none.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Mapping
from pathlib import Path

ASSETS = Path(__file__).parents[1] / "plugins" / "benchleaf" / "html" / "assets"
TOKENS_END = "/* Elements */"
"""Before it, in the first sheet, every colour is named; after it and elsewhere none is."""
THEME = re.compile(r"\.md-[\w-]+|--md-[\w-]+")
"""Names that are the theme's. They stand only where its own style is put right."""
ON_THEME = frozenset({"free.css"})
_COLOUR = re.compile(
    r"#[0-9a-fA-F]{3,8}\b|\b(?:rgba?|hsla?|oklch|lab|color-mix)\(|(?<=[:\s,(])(?:white|black|red|"
    r"green|blue|yellow|orange|gr[ae]y|silver|navy)(?=[\s,;)}])"
)
_PART = re.compile(r"[{};]")
_COMMA = re.compile(r",(?![^(]*\))")
_STRING = re.compile(r'"[^"]*"')


def sheets() -> dict[str, str]:
    """Name -> text of every sheet, without comments."""
    return {
        path.name: re.sub(r"/\*.*?\*/", "", path.read_text(encoding="utf-8"), flags=re.DOTALL)
        for path in sorted(ASSETS.glob("*.css"))
    }


def rules(text: str) -> Iterator[tuple[str, str]]:
    """Selector and declarations of each rule, whatever stands around it; a nested one whole."""
    around: list[str] = []
    own = start = 0
    for found in _PART.finditer(text):
        words, start = text[start : found.start()].strip(), found.end()
        if found.group() == "{":
            around.append(words)
            own = found.end()
        elif found.group() == "}":
            head = around.pop()
            body = text[own : found.start()].strip()
            if own and head and not head.startswith("@"):
                outer = " ".join(one for one in around if not one.startswith("@"))
                parts = [f"{outer} {one.strip()}".strip() for one in _COMMA.split(head)]
                yield ", ".join(parts), body
            own = 0


def colours(read: Mapping[str, str], tokens: str) -> list[str]:
    """Every literal colour outside of the tokens, with its sheet."""
    return [
        f"{name}: {found}"
        for name, text in read.items()
        for found in _COLOUR.findall(_STRING.sub("", text.replace(tokens, "")))
    ]


def tokens_of(whole: str) -> str:
    """The text of the tokens, without comments, as `sheets` hands it on."""
    head = whole[: whole.index(TOKENS_END)]
    return re.sub(r"/\*.*?\*/", "", head, flags=re.DOTALL)


def leading(selector: str) -> set[str]:
    """The first class of each part of a selector: it says whose rule this is.

    `.bl-paper .bl-set` is a rule of the paper, and `html.bl-stepping .bl-set` one of a view as a
    whole, which leads nothing here.
    """
    found = set()
    for part in _COMMA.split(selector):
        if not re.match(r"\s*(?:html|body)[.:]", part):
            bare = re.sub(r":(?:not|has)\((?:[^()]|\([^()]*\))*\)", "", part)
            found |= set(re.findall(r"\.(bl-[\w-]+)", bare)[:1])
    return found


def led_twice(read: Mapping[str, str]) -> dict[str, list[str]]:
    """Class -> the sheets in which it leads a rule, where there is more than one."""
    where: dict[str, set[str]] = defaultdict(set)
    for name, text in read.items():
        for selector, _ in rules(text):
            for one in leading(selector):
                where[one].add(name)
    return {one: sorted(names) for one, names in sorted(where.items()) if len(names) > 1}


def theme_names(read: Mapping[str, str]) -> list[str]:
    """Every name of the theme's outside of the sheet that puts its style right."""
    return [
        f"{name}: {found}"
        for name, text in read.items()
        if name not in ON_THEME
        for found in THEME.findall(text)
    ]


def unlayered(read: Mapping[str, str]) -> list[str]:
    """Sheets with a rule outside of every layer: it would win over all of ours."""
    found = []
    for name, text in read.items():
        depth, start = 0, 0
        for place, sign in enumerate(text):
            if sign == "{":
                depth += 1
                if depth == 1:
                    head = text[start:place].strip()
                    layered = head.startswith(("@layer", "@font-face"))
                    if not layered and not (head == "@media print" and "paper-" in name):
                        found.append(f"{name}: {head}")
            elif sign == "}":
                depth -= 1
                start = place + 1
            elif sign == ";" and depth == 0:
                start = place + 1
    return found


def main() -> None:
    """Print the counts."""
    read = sheets()
    whole = (ASSETS / "benchleaf.css").read_text(encoding="utf-8")
    for words, found in (
        ("colours outside of the tokens", colours(read, tokens_of(whole))),
        ("names of the theme", theme_names(read)),
        ("rules outside of every layer", unlayered(read)),
        ("classes that lead rules in more than one sheet", list(led_twice(read).items())),
    ):
        print(f"{len(found):4} {words}")
        for one in found[:60]:
            print("      ", one)


if __name__ == "__main__":
    main()
