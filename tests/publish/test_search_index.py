"""The search index: every word of every entry is on the shelf where a browser looks for it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf import pipeline
from benchleaf.html.values import Found, SearchEntry
from benchleaf.search.index import (
    FOLDER,
    LARGE,
    LONGEST,
    PER_FILE,
    file_name,
    front_coded,
    in_order,
    index_files,
    write_search,
)
from benchleaf.search.words import Splitter, number_key
from running import examples
from search_reader import Index, read_index

RESERVED = {"con", "prn", "aux", "nul", *(f"{one}{n}" for one in ("com", "lpt") for n in range(10))}


def index(*entries: SearchEntry) -> Index:
    return read_index(dict(index_files(entries)))


def found_alone(entry: SearchEntry) -> set[str]:
    """The words that find an entry by themselves."""
    own = (entry.title, entry.number, *entry.names, *entry.points, *entry.lines)
    return Splitter().words(own)


def entries_of(content: Path) -> list[SearchEntry]:
    plan = pipeline.plan_site(pipeline.load(content))
    return [entry for page in plan.pages for entry in page.render().entries]


words = st.text(st.sampled_from("abcdeéμ0189.-/' \n"), max_size=25)
entries = st.builds(
    SearchEntry,
    address=st.just("a.html"),
    title=words,
    kind=st.sampled_from(Found),
    lines=st.tuples(words, words),
    points=st.tuples(words),
    names=st.tuples(words),
    number=words,
    under=words,
    around=words,
)


def test_every_word_of_the_small_shop_is_found(shop: Callable[..., Path]) -> None:
    met = in_order(entries_of(shop()))
    made = index(*met)
    assert len(met) > 30
    assert {entry.kind for entry in met} >= set(Found) - {Found.FLUID, Found.GUIDE, Found.STATION}
    for place, entry in enumerate(met):
        assert made.texts[place][:2] == [entry.address, entry.title]
        for word in found_alone(entry):
            assert place in made.entries_with(word), (word, entry.address)


@settings(max_examples=examples(60))
@given(st.lists(entries, max_size=20))
def test_every_word_of_every_entry_is_found_and_no_other(met: list[SearchEntry]) -> None:
    made = index(*met)
    everywhere = in_order(met)
    for place, entry in enumerate(everywhere):
        for word in found_alone(entry):
            assert place in made.entries_with(word)
    for word, ranks in made.words.items():
        if word[0] in "=~+":
            continue
        for rank, places in enumerate(ranks):
            assert places == sorted(set(places))
            alone = {place for place in places if word in found_alone(everywhere[place])}
            assert alone == (set(places) if rank < 3 else set())


def test_a_word_is_kept_at_its_best_place() -> None:
    made = index(
        SearchEntry("a", "quill", Found.TERM, lines=("the quill",)),
        SearchEntry("b", "x", Found.STEP, points=("quill",), lines=("quill",), under="quill"),
        SearchEntry("c", "x", Found.STEP, lines=("quill",), around="quill"),
        SearchEntry("d", "x", Found.STEP, around="quill"),
    )
    assert made.words["quill"] == [[0], [1], [2], [3]]


def test_places_are_kept_whole_however_common_a_word() -> None:
    many = [SearchEntry(f"{n}.html", f"drill {n}", Found.STEP) for n in range(3000)]
    made = index(*many)
    assert made.entries_with("drill") == set(range(3000))
    assert made.entries_with("2999") == {2999}
    assert len(made.texts) == 3000


def test_no_file_is_large_but_for_one_word_in_very_many_places() -> None:
    many = [SearchEntry("a", f"ab{n:05} abc{n % 7}d{n}", Found.TOOL) for n in range(4000)]
    for name, text in index_files(many):
        if name.startswith("words-") and len(name) < len("words-.js") + LONGEST:
            assert len(text) < 2 * LARGE, name
    made = index(*many)
    assert all(place in made.entries_with(f"ab{place:05}") for place in range(0, 4000, 97))


def test_a_number_leads_straight_to_one_page() -> None:
    made = index(
        SearchEntry("jobs/tr-0110.html", "TR-0110 Drill", Found.JOB, number="tr-0110"),
        SearchEntry("parts/trw-204.html", "TRW-204 Plate", Found.PART, number="TRW-204"),
        SearchEntry("jobs/tr-0110.html#a", "Drill", Found.STEP),
    )
    assert made.entries_with("tr0110") == {0}
    assert made.words["=tr0110"] == [[0]]
    assert made.words["=trw204"] == [[1]]
    assert sorted(word for word in made.words if word[0] == "=") == ["=tr0110", "=trw204"]


def test_a_whole_title_is_known_but_no_steps(shop: Callable[..., Path]) -> None:
    made = index(
        SearchEntry("a", "Chuck key", Found.TOOL, names=("T-handle",)),
        SearchEntry("b", "Chuck key", Found.STEP),
    )
    assert made.words["~chuckkey"] == [[0]]
    assert made.words["~thandle"] == [[0]]
    met = in_order(entries_of(shop()))
    whole = index(*met).words
    for place, entry in enumerate(met):
        if entry.kind is not Found.STEP:
            assert place in whole[f"~{number_key(entry.title)}"][0]


def test_an_entry_tells_its_kind_by_its_place() -> None:
    made = index(
        SearchEntry("s", "s", Found.STEP),
        SearchEntry("h", "h", Found.HAZARD),
        SearchEntry("j", "j", Found.JOB),
        SearchEntry("h2", "h2", Found.HAZARD),
    )
    assert [one[0] for one in made.texts] == ["j", "h", "h2", "s"]
    assert made.values["start"]["kinds"] == [["Job", 0], ["Hazard", 1], ["Step", 3]]


def test_key_points_come_first_among_the_lines() -> None:
    entry = SearchEntry("a", "t", Found.STEP, lines=("one", "", "two"), points=("p", "why"))
    assert index(entry).texts == [["a", "t", "", 2, "p", "why", "one", "two"]]


def test_the_order_of_words_and_the_rest_of_each() -> None:
    assert front_coded(["drill", "drilling", "dry"]) == "0drill 5ing 2y"
    assert front_coded([]) == ""


@given(st.sets(st.text("abcz1é", min_size=1, max_size=50)))
def test_the_list_of_words_can_be_read_back(some: set[str]) -> None:
    word, back = "", []
    for item in front_coded(sorted(some)).split():
        word = word[: int(item[0], 36)] + item[1:]
        back.append(word)
    assert back == sorted(some)


@given(st.text(min_size=1, max_size=4), st.text(min_size=1, max_size=4))
def test_two_beginnings_have_two_files_that_any_disk_takes(one: str, other: str) -> None:
    one, other = one.lower(), other.lower()
    names = [f"words-{file_name(each)}" for each in (one, other)]
    assert all(
        name.isascii() and name.replace("-", "").replace("_", "").isalnum() for name in names
    )
    assert not {name.casefold() for name in names} & RESERVED
    assert (names[0].casefold() == names[1].casefold()) == (one == other)


def test_what_a_text_holds_cannot_break_out_of_the_script() -> None:
    nasty = '"]) ; alert(1) // \u2028 </script> \\'
    made = index(SearchEntry("a", nasty, Found.JOB, lines=(nasty,), number=nasty))
    assert made.texts[0][1] == nasty
    assert all(
        "\u2028" not in text for _, text in index_files([SearchEntry("a", nasty, Found.JOB)])
    )


def test_an_empty_manual_has_an_index_too(tmp_path: Path) -> None:
    write_search(tmp_path, [])
    assert sorted(one.name for one in (tmp_path / FOLDER).iterdir()) == ["all-words.js", "start.js"]


@pytest.mark.parametrize("count", [0, 1, PER_FILE, PER_FILE + 1])
def test_texts_are_in_as_many_files_as_needed(count: int) -> None:
    made = index(*(SearchEntry(f"{n}", f"t{n}", Found.JOB) for n in range(count)))
    assert [one[0] for one in made.texts] == [f"{n}" for n in range(count)]
    assert len([one for one in made.values if one.startswith("texts-")]) == -(-count // PER_FILE)
