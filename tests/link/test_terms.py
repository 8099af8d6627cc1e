"""Glossary terms in running text: whole words, longest first, plurals, any case."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.link import TermIndex
from benchleaf.model import Term


def term(word: str, *variants: str, name: str | None = None) -> Term:
    record_id = name or word.lower().replace(" ", "-")
    return Term(id=record_id, word=word, meaning="M", variants=variants)


INDEX = TermIndex(
    [
        term("quill", "spindle sleeve"), term("feed"), term("feed lever"), term("feed lever stop"),
        term("burr"), term("vice"), term("assembly"), term("bush"), term("first-off"),
        term("V-block", name="v-block"), term("operator's mark", name="mark"), term("°C", name="c"),
        term("lay", name="lay"), term("box", name="box"), term("1/4 in", name="quarter"),
    ]
)  # fmt: skip


def found(text: str) -> list[tuple[str, str]]:
    return [(text[match.start : match.end], match.term_id) for match in INDEX.find(text)]


def test_a_term_is_found_with_its_place() -> None:
    (match,) = INDEX.find("Lower the quill slowly.")
    assert (match.start, match.end, match.term_id) == (10, 15, "quill")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Set the feed.", [("feed", "feed")]),
        ("Pull the feed lever.", [("feed lever", "feed-lever")]),
        ("Set the feed lever stop.", [("feed lever stop", "feed-lever-stop")]),
        ("The feed lever and the feed.", [("feed lever", "feed-lever"), ("feed", "feed")]),
        ("feed feed lever", [("feed", "feed"), ("feed lever", "feed-lever")]),
    ],
)
def test_the_longest_term_wins(text: str, expected: list[tuple[str, str]]) -> None:
    assert found(text) == expected


@pytest.mark.parametrize(
    ("text", "term_id"),
    [
        ("two quills", "quill"), ("all burrs", "burr"), ("both vices", "vice"),
        ("two assemblies", "assembly"), ("the bushes", "bush"), ("the boxes", "box"),
        ("feed levers", "feed-lever"), ("spindle sleeves", "quill"),
        ("all first-offs", "first-off"),
        ("he lays it", "lay"),
    ],
)  # fmt: skip
def test_plurals_lead_to_the_term(text: str, term_id: str) -> None:
    assert [name for _, name in found(text)] == [term_id]


@pytest.mark.parametrize(
    "text",
    ["quilled", "unburred", "feedback", "devices", "advice", "assemble", "ambush", "feeds lever",
     "layer", "inlay", "burr5", "5burr"],
)  # fmt: skip
def test_only_whole_words_are_found(text: str) -> None:
    assert [name for _, name in found(text) if name != "feed"] == []


@pytest.mark.parametrize(
    "text", ["QUILL", "Quill", "quiLL", "(quill)", "quill.", "“quill”", "quill,"]
)
def test_case_and_punctuation_around_make_no_difference(text: str) -> None:
    assert [name for _, name in found(text)] == ["quill"]


@pytest.mark.parametrize(
    ("text", "is_found"),
    [
        ("feed lever", True), ("feed-lever", True), ("feed\nlever", True), ("feed  lever", False),
        ("feed, lever", False), ("feed. Lever", False), ("feed/lever", False), ("first off", True),
        ("first-off", True), ("v block", True),
    ],
)  # fmt: skip
def test_words_of_a_term_stand_side_by_side(text: str, is_found: bool) -> None:
    names = {name for _, name in found(text)}
    assert (names & {"feed-lever", "first-off", "v-block"} != set()) is is_found


@pytest.mark.parametrize("text", ["the operator's mark", "the operator’s mark"])
def test_either_apostrophe_is_the_same(text: str) -> None:
    assert [name for _, name in found(text)] == ["mark"]


def test_a_variant_leads_to_its_term() -> None:
    assert found("the spindle sleeve turns") == [("spindle sleeve", "quill")]


def test_terms_do_not_overlap_and_stand_in_order() -> None:
    text = "The feed lever stop, the quill and the burrs of the vice."
    matches = list(INDEX.find(text))
    assert [match.term_id for match in matches] == ["feed-lever-stop", "quill", "burr", "vice"]
    for left, right in pairwise(matches):
        assert left.end <= right.start


def test_no_terms_and_no_text() -> None:
    assert list(TermIndex([]).find("any text at all")) == []
    assert found("") == []


def test_the_order_of_the_glossary_makes_no_difference() -> None:
    terms = [term("feed"), term("feed lever"), term("lever")]
    text = "a feed lever, a lever"
    for order in (terms, terms[::-1]):
        matches = list(TermIndex(order).find(text))
        assert [match.term_id for match in matches] == ["feed-lever", "lever"]


@given(st.text(max_size=60))
def test_any_text_gives_sound_matches(text: str) -> None:
    position = 0
    for match in INDEX.find(text):
        assert position <= match.start < match.end <= len(text)
        position = match.end


@given(st.lists(st.sampled_from(["quill", "feed", "lever", "stop", "xyz", "burr"]), max_size=8))
def test_every_word_of_a_term_is_in_some_match_or_stands_alone(words: list[str]) -> None:
    text = " ".join(words)
    covered = {index for match in INDEX.find(text) for index in range(match.start, match.end)}
    start = 0
    for word in words:
        if word in {"quill", "feed", "burr"}:
            assert start in covered, text
        start += len(word) + 1
