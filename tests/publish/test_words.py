"""What counts as a word, for the index and for what is typed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchleaf.search.words import Splitter, number_key, plain, words_of


def words(text: str) -> set[str]:
    return Splitter().words((text,))


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Lower the quill.", {"lower", "the", "quill"}),
        ("TR-0110", {"tr", "0110", "tr0110"}),
        ("TRW-204/B", {"trw", "204", "b", "trw204b"}),
        ("go/no-go", {"go", "no", "gonogo"}),
        ("15H7, 15 H7", {"15", "h7", "15h7"}),
        ("8.5 mm and 8.5mm", {"8.5", "mm", "and"}),
        ("the maker’s, the maker's", {"the", "makers"}),
        ("1/4 in", {"1", "4", "in"}),
        ("Café μm µm", {"cafe", "μm"}),
        ("N/mm²", {"n", "mm2", "nmm2"}),
        ("...", set()),
        ("", set()),
        ("__proto__ a_b", {"proto", "a", "b"}),
    ],
)
def test_words_of_a_text(text: str, wanted: set[str]) -> None:
    assert words(text) == wanted


def test_a_size_is_never_taken_for_another() -> None:
    assert "85" not in words("8.5 mm, 8.5-mm, m8.5")
    assert "14" not in words("1/4 in")
    assert "6" not in words("6.5")


@pytest.mark.parametrize("written", ["TR-0110", "tr0110", "TR 0110", " tr_0110\n", "Tr.0110"])
def test_a_number_in_any_spelling(written: str) -> None:
    assert number_key(written) == "tr0110"


@given(st.text(max_size=60))
def test_a_text_is_split_the_same_whole_and_in_lines(text: str) -> None:
    splitter = Splitter()
    lines = text.split()
    assert splitter.words((text,)) == splitter.words(lines)
    assert words(text) == words(text.upper().lower()) or not text.isascii()


@given(st.text(max_size=40))
def test_words_hold_no_sign_that_a_file_could_trip_over(text: str) -> None:
    for word in words(text):
        assert word
        assert not set(word) & set(' "\\|=~\n\u2028')
        assert word == plain(word)


@given(st.from_regex(r"[a-z]{1,3}-?[0-9]{1,4}", fullmatch=True))
def test_what_is_written_in_one_piece_is_found_in_one_piece(piece: str) -> None:
    assert number_key(piece) in words_of(piece)
