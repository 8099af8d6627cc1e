"""Ids as addresses, revisions in their order, and links inside text."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter, ValidationError
from pydantic_core import PydanticCustomError

from benchleaf.model import revision_order
from benchleaf.model.ids import normal_id
from benchleaf.model.record import Revision
from benchleaf.model.textlinks import TextLink, read_link, text_links

REVISION: TypeAdapter[str] = TypeAdapter(Revision)


@pytest.mark.parametrize(
    ("written", "read"),
    [("TR-0140", "tr-0140"), (" drill-8 ", "drill-8"), ("7", "7"), ("a-b-c", "a-b-c")],
)
def test_an_id_is_taken_in_any_case(written: str, read: str) -> None:
    assert normal_id(written) == read


@pytest.mark.parametrize(
    "written",
    ["", " ", "-a", "a-", "a--b", "a_b", "a b", "a.b", "a/b", "../a", "ä", "ſ", "ﬁ", "٣", "a\nb",
     "a#b"],
)  # fmt: skip
def test_what_no_address_can_hold_is_no_id(written: str) -> None:
    with pytest.raises(PydanticCustomError):
        normal_id(written)


@given(st.text(max_size=20))
def test_every_id_that_is_taken_is_plain_ascii_and_stays_itself(written: str) -> None:
    try:
        taken = normal_id(written)
    except PydanticCustomError:
        return
    assert taken.isascii()
    assert taken == taken.lower() == normal_id(taken)
    assert not set(taken) & set("/\\.#?%: _")


@pytest.mark.parametrize(("written", "near"), [("soluble_oil", "soluble-oil"), ("a. b", "a-b")])
def test_the_nearest_id_is_offered(written: str, near: str) -> None:
    with pytest.raises(PydanticCustomError) as caught:
        normal_id(written)
    assert caught.value.context is not None
    assert caught.value.context["near"] == near


@pytest.mark.parametrize(
    ("written", "read"), [("3", "3"), ("c", "C"), ("AB", "AB"), ("xyz", "XYZ")]
)
def test_a_revision_is_an_integer_or_letters(written: str, read: str) -> None:
    assert REVISION.validate_python(written) == read


@pytest.mark.parametrize("written", ["", "A.1", "1.0", "-1", "A1", "ABCD", "é", "²", "٣", "½"])
def test_anything_else_is_no_revision(written: str) -> None:
    with pytest.raises(ValidationError):
        REVISION.validate_python(written)


def test_revisions_in_their_order() -> None:
    order = ["0", "1", "2", "9", "10", "11", "100", "A", "B", "Z", "AA", "AB", "ZZ", "AAA"]
    assert sorted(set(order), key=revision_order) == order


@given(st.integers(0, 10**9), st.integers(0, 10**9))
def test_numbers_are_compared_as_numbers(one: int, other: int) -> None:
    assert (revision_order(str(one)) < revision_order(str(other))) == (one < other)


@pytest.mark.parametrize(
    ("inside", "kind", "record_id", "anchor"),
    [
        ("TR-0140", "jobs", "tr-0140", None),
        ("job:TR-0140", "jobs", "tr-0140", None),
        ("tr-0140#ream", "jobs", "tr-0140", "ream"),
        ("TR-0140#Ream", "jobs", "tr-0140", "ream"),
        ("term:quill", "terms", "quill", None),
        ("terms:quill", "terms", "quill", None),
        ("Machine : bench-drill", "machines", "bench-drill", None),
        (" tool:plug-gauge-8 ", "tools", "plug-gauge-8", None),
        ("gauge:x", None, "x", None),
        ("", None, "", None),
        ("two words", None, "two words", None),
        ("a:b:c", None, "a:b:c", None),
        ("tr-0140#", None, "tr-0140#", None),
    ],
)
def test_a_link_in_text_is_taken_apart(
    inside: str, kind: str | None, record_id: str, anchor: str | None
) -> None:
    assert read_link(inside) == TextLink(inside, kind, record_id, anchor)


def test_every_link_of_a_text_in_order() -> None:
    text = "Do [[TR-1]], then [[tool:x]] and [[not\na link]] and [single] and [[TR-2#a]]."
    assert [(link.id, link.anchor) for link in text_links(text)] == [
        ("tr-1", None), ("x", None), ("tr-2", "a"),
    ]  # fmt: skip


@given(st.text(st.sampled_from("[]ab#:-é \n"), max_size=40))
def test_links_are_looked_for_in_any_text_without_a_crash(text: str) -> None:
    assert len(list(text_links(text))) <= text.count("[[")
