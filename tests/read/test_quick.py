"""The quick reader: it agrees with the careful one wherever it gives an answer."""

from __future__ import annotations

import string
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf.read import parse, plain, quick
from benchleaf.read.quick import quick_tree, quick_value
from running import examples

ROOT = Path(__file__).parents[2]
REAL = sorted(path for top in ("content", "tests/shop") for path in (ROOT / top).rglob("*.yml"))
ODD = (
    "a: 1\na: 2\n",
    "a:\n",
    "a: ~\n",
    "- a\n",
    "a\n",
    "",
    "a: &x 1\nb: *x\n",
    "a: !!str 1\n",
    "<<: {a: 1}\n",
    "a: TR #7 more\n",
    "? [a]\n: b\n",
    "a: 1\n---\nb: 2\n",
    "a: [1, 2\n",
    "a: " + "[" * 13 + "]" * 13 + "\n",
    "a: [b, ]\nc: [~]\n",
)

needs_c = pytest.mark.skipif(
    vars(quick)["CParser"] is None, reason="PyYAML is here without its C part"
)


@needs_c
@pytest.mark.parametrize("path", REAL, ids=lambda path: path.name)
def test_real_files_come_out_the_same(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    tree, findings = parse(text, "f.yml")
    value = quick_value(text)
    if value is None:
        return
    assert findings == ()
    assert tree is not None
    assert value == plain(tree)
    assert quick_tree(text, "f.yml") == tree


@needs_c
def test_most_real_files_are_read_quickly() -> None:
    quick = [path for path in REAL if quick_value(path.read_text(encoding="utf-8")) is not None]
    assert len(quick) > 0.8 * len(REAL)


@pytest.mark.parametrize("text", ODD)
def test_an_odd_text_is_left_to_the_careful_reader(text: str) -> None:
    assert quick_value(text) is None


VALUES = st.recursive(
    st.text(string.ascii_letters + string.digits + " #&*!:-[]{}'\"~<?@%|>,.\n", max_size=12),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.text(string.ascii_lowercase + "<", min_size=1, max_size=3), inner)
    ),
    max_leaves=8,
)


@needs_c
@settings(max_examples=examples(80), deadline=None)
@given(st.dictionaries(st.text("abc#&", min_size=1, max_size=3), VALUES), st.booleans())
def test_anything_it_reads_is_what_the_careful_reader_reads(record: object, flow: bool) -> None:
    text = yaml.safe_dump(record, default_flow_style=flow, allow_unicode=True)
    _same_or_left(text)


@needs_c
@settings(max_examples=examples(200), deadline=None)
@given(st.text("ab:- \n#'\"[]{},&*!~|>?<", max_size=40))
def test_any_text_at_all(text: str) -> None:
    _same_or_left(text)


def _same_or_left(text: str) -> None:
    value = quick_value(text)
    if value is not None:
        tree, findings = parse(text, "f.yml")
        assert findings == ()
        assert tree is not None
        assert value == plain(tree)
        assert quick_tree(text, "f.yml") == tree
