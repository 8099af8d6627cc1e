"""Style sheets: layers, tokens, and one sheet for each class."""

from __future__ import annotations

import re

import styles
from benchleaf.html.lean import lean
from running import some


def test_a_colour_is_named_once() -> None:
    whole = (styles.ASSETS / "benchleaf.css").read_text(encoding="utf-8")
    assert styles.colours(styles.sheets(), styles.tokens_of(whole)) == []


def test_every_rule_is_in_a_layer() -> None:
    assert styles.unlayered(styles.sheets()) == []


def test_a_class_leads_rules_in_one_sheet() -> None:
    assert styles.led_twice(styles.sheets()) == {}


def test_nothing_leans_on_the_theme() -> None:
    assert styles.theme_names(styles.sheets()) == []


WORDS = re.compile(r"[\w$]+|=>|&&|\|\||[<>=!]=+")
ANY_WITHIN = re.compile(r"[\w)\]] \*?:(?=[a-z])")
"""`a :is(b)`, which is another thing than `a:is(b)`."""
TEXT = re.compile(r'"[^"]*"')
"""What is quoted: shown, or the name of a file; each sign of it stays."""
COMMENT = re.compile(r"/\*.*?\*/|(?<=[\s;{}])//[^\n]*", re.DOTALL)


def test_the_reader_of_sheets_sees_what_it_looks_for() -> None:
    bad = {"a.css": "@layer x { .bl-a { color: #123456; } }", "b.css": ".bl-a b, .bl-b { top: 0; }"}
    assert styles.colours(bad, "") == ["a.css: #123456"]
    assert styles.led_twice(bad) == {"bl-a": ["a.css", "b.css"]}
    assert styles.unlayered(bad) == ["b.css: .bl-a b, .bl-b"]
    assert styles.theme_names({"c.css": ".md-typeset p {}"}) == ["c.css: .md-typeset"]
    nested = {"a.css": "@layer x { .bl-a { .bl-b :is(p, i), .bl-c { top: 0; } } .bl-d {} }"}
    assert [one for one, _ in styles.rules(nested["a.css"])] == [
        ".bl-a .bl-b :is(p, i), .bl-a .bl-c", ".bl-d"
    ]  # fmt: skip
    scoped = {"a.css": ".bl-a {}", "b.css": "html.bl-on .bl-a, .bl-b:has(.bl-a) {}"}
    assert styles.led_twice(scoped) == {}


def test_a_published_sheet_holds_the_same_rules() -> None:
    """Spaces and comments may go, signs may not: selectors, declarations, texts stay in order."""
    for name, text in some(styles.sheets().items()):
        short = lean(text, ".css")
        bare = "".join(short.split()).replace("*:", ":")
        whole = re.sub(r"(?<![\w.])0(?=\.\d)", "", text)
        whole = re.sub(
            r'="([a-zA-Z_][\w-]*)"\]', r"=\1]", re.sub(r"::(before|after)", r":\1", whole)
        )
        assert bare == "".join(whole.split()).replace(";}", "}").replace("*:", ":"), name
        assert len(ANY_WITHIN.findall(short)) == len(ANY_WITHIN.findall(text)), name
        assert len(short) < len(text)
        assert TEXT.findall(short) == TEXT.findall(re.sub(r'="[a-zA-Z_][\w-]*"\]', "", text)), name
        for sign in (" - ", " and ", "@media ", "@layer "):
            assert short.count(sign) == " ".join(text.split()).count(sign), (name, sign)


def test_a_published_script_holds_the_same_words() -> None:
    """Each word, number and text of a script stays, in its order; only comments go."""
    for path in some(sorted(styles.ASSETS.glob("*.js"))):
        text = path.read_text(encoding="utf-8")
        short = lean(text, ".js")
        assert WORDS.findall(short) == WORDS.findall(COMMENT.sub("", text)), path.name
        assert len(short) < len(text)
