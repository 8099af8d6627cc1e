"""Style sheets: layers, tokens, and one sheet for each class."""

from __future__ import annotations

import re

import styles
from benchleaf.html.lean import lean
from running import some

OLDER = {"steps.css", "search.css"}
"""Sheets that still lean on names and classes of others."""


def test_a_colour_is_named_once() -> None:
    whole = (styles.ASSETS / "benchleaf.css").read_text(encoding="utf-8")
    assert styles.colours(styles.sheets(), styles.tokens_of(whole)) == []


def test_every_rule_is_in_a_layer() -> None:
    assert styles.unlayered(styles.sheets()) == []


def test_a_class_leads_rules_in_one_sheet() -> None:
    read = {name: text for name, text in styles.sheets().items() if name not in OLDER}
    assert styles.led_twice(read) == {}


def test_nothing_leans_on_the_theme() -> None:
    read = {name: text for name, text in styles.sheets().items() if name not in OLDER}
    assert styles.theme_names(read) == []


WORDS = re.compile(r"[\w$]+|=>|&&|\|\||[<>=!]=+")
COMMENT = re.compile(r"/\*.*?\*/|(?<=[\s;{}])//[^\n]*", re.DOTALL)


def test_the_reader_of_sheets_sees_what_it_looks_for() -> None:
    bad = {"a.css": "@layer x { .bl-a { color: #123456; } }", "b.css": ".bl-a b, .bl-b { top: 0; }"}
    assert styles.colours(bad, "") == ["a.css: #123456"]
    assert styles.led_twice(bad) == {"bl-a": ["a.css", "b.css"]}
    assert styles.unlayered(bad) == ["b.css: .bl-a b, .bl-b"]
    assert styles.theme_names({"c.css": ".md-typeset p {}"}) == ["c.css: .md-typeset"]
    scoped = {"a.css": ".bl-a {}", "b.css": "html.bl-on .bl-a, .bl-b:has(.bl-a) {}"}
    assert styles.led_twice(scoped) == {}


def test_a_published_sheet_holds_the_same_rules() -> None:
    """Spaces and comments may go, signs may not: selectors, declarations, texts stay in order."""
    for name, text in some(styles.sheets().items()):
        short = lean(text, ".css")
        assert "".join(short.split()) == "".join(text.split()).replace(";}", "}"), name
        assert len(short) < len(text)
        for sign in (" - ", " and ", "@media ", "@layer "):
            assert short.count(sign) == " ".join(text.split()).count(sign), (name, sign)


def test_a_published_script_holds_the_same_words() -> None:
    """Each word, number and text of a script stays, in its order; only comments go."""
    for path in some(sorted(styles.ASSETS.glob("*.js"))):
        text = path.read_text(encoding="utf-8")
        short = lean(text, ".js")
        assert WORDS.findall(short) == WORDS.findall(COMMENT.sub("", text)), path.name
        assert len(short) < len(text)
