"""Every scalar stays the text that was written; what it means is the field's affair."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.diagnose import Place
from benchleaf.read import Mapping, Scalar, child, parse, plain
from benchleaf.read.text_file import hidden_sign


def value_of(written: str) -> object:
    tree, findings = parse(f"key: {written}\n", "one.yml")
    assert findings == ()
    assert tree is not None
    read = plain(tree)
    assert isinstance(read, dict)
    return read["key"]


@pytest.mark.parametrize(
    "written",
    [
        "3:1", "1:30", "190:20:30", "010", "0x1F", "0b11", "1_000", "on", "off", "yes", "no", "Y",
        "true", "False", "1e3", "1.5e+3", "6.8523015e+5", ".5", "+12", "-0", ".inf", "-.INF",
        ".nan", "2026-03-09", "2026-03-09 10:00:00", "=", "1/4 in", "C#7", "118 deg",
    ],
)  # fmt: skip
def test_what_yaml_would_make_a_number_date_or_boolean_stays_text(written: str) -> None:
    assert value_of(written) == written


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ('"#7"', "#7"),
        ("'#7'", "#7"),
        ('"010"', "010"),
        ("''", ""),
        ('""', ""),
        ('"~"', "~"),
        ("'null'", "null"),
        ("'it''s'", "it's"),
        (r'"8 \u00b0"', "8 °"),
        (r'"a\tb"', "a\tb"),
    ],
)
def test_a_quoted_value_is_what_stands_between_the_quotes(written: str, meant: str) -> None:
    assert value_of(written) == meant


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        (">-\n  one\n  two\n", "one two"),
        ("|\n  one\n  two\n", "one\ntwo\n"),
        ("one\n  two\n", "one two"),
        (">-\n  # not a comment\n", "# not a comment"),
    ],
)
def test_text_over_several_lines_is_folded_as_yaml_says(written: str, meant: str) -> None:
    assert value_of(written) == meant


@pytest.mark.parametrize("written", ["", "~", "null", "Null", "NULL", "# a comment"])
def test_nothing_is_not_the_same_as_quoted_emptiness(written: str) -> None:
    tree, findings = parse(f"key: {written}\n", "one.yml")
    assert [finding.code for finding in findings] == ["R112"]
    assert tree is not None
    nothing = child(tree, "key")
    assert isinstance(nothing, Scalar)
    assert nothing.empty
    assert plain(tree) == {"key": None}


def test_a_bare_number_drill_is_explained() -> None:
    _, (finding,) = parse("id: drill\nsize: #7\n", "tools/drill.yml")
    assert (finding.code, finding.place) == ("R112", Place("tools/drill.yml", 2, 6))
    assert any("'#7'" in line and "comment" in line for line in finding.help)
    assert any('"#7"' in line for line in finding.help)


def test_a_comment_after_a_bare_number_drill_is_not_taken_for_its_name() -> None:
    _, (finding,) = parse("size: #7 # for the tap\n", "one.yml")
    assert 'write it in quotes: "#7"' in finding.help


def test_a_bare_number_drill_in_a_list_is_explained_too() -> None:
    _, (finding,) = parse("sizes:\n  - #7\n  - '#8'\n", "one.yml")
    assert (finding.code, finding.place.line) == ("R112", 2)
    assert any('"#7"' in line for line in finding.help)


def test_keys_stay_text_too() -> None:
    tree, findings = parse("on: a\n010: b\n3:1: c\nnull: d\n", "one.yml")
    assert findings == ()
    assert tree is not None
    assert plain(tree) == {"on": "a", "010": "b", "3:1": "c", "null": "d"}


QUOTABLE = st.text(
    st.characters(exclude_categories=["Cc", "Cs", "Zl", "Zp"], exclude_characters='"\\\ufeff')
)


@given(QUOTABLE.filter(lambda text: hidden_sign(text) is None))
def test_any_text_in_double_quotes_comes_back_as_written(text: str) -> None:
    tree, findings = parse(f'key: "{text}"\n', "one.yml")
    assert findings == ()
    assert isinstance(tree, Mapping)
    assert plain(tree) == {"key": text}
