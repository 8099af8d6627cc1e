"""Walking a tree: by path, and back to plain values."""

from __future__ import annotations

from benchleaf.diagnose import Place
from benchleaf.read import Node, Scalar, child, key_place, parse, plain


def tree() -> Node:
    node, findings = parse("id: a\nsteps:\n  - title: b\n    checks: []\n  - title: c\n", "f.yml")
    assert findings == ()
    assert node is not None
    return node


def text_of(node: Node | None) -> str:
    assert isinstance(node, Scalar)
    return node.text


def test_a_child_by_key_and_by_position() -> None:
    steps = child(tree(), "steps")
    assert steps is not None
    second = child(steps, 1)
    assert second is not None
    assert text_of(child(second, "title")) == "c"


def test_there_is_no_child_beyond_what_is_written() -> None:
    steps = child(tree(), "steps")
    assert steps is not None
    assert child(tree(), "nothing") is None
    assert child(steps, 2) is None
    assert child(steps, -1) is None
    assert child(steps, "title") is None
    assert child(Scalar("a", Place("f.yml", 1, 1)), "a") is None


def test_the_place_of_a_key() -> None:
    assert key_place(tree(), "steps") == Place("f.yml", 2, 1)
    assert key_place(tree(), "nothing") is None


def test_plain_values_have_no_places() -> None:
    assert plain(tree()) == {
        "id": "a",
        "steps": [{"title": "b", "checks": []}, {"title": "c"}],
    }
