"""Running text to HTML: what is written is what is shown, and no markup but our own."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from planned import elements, shown

from benchleaf import pipeline
from benchleaf.html.inline import Inline
from benchleaf.link import TermIndex
from benchleaf.model import Term
from running import examples

SHOP = Path(__file__).parents[1] / "shop"
LATER = "VG-0020 Deburr the guide hole of a rack plate"
JOB_PAGE, HOME = "jobs/vg-0010.html", "index.html"
TERMS = (
    Term(id="feed", word="feed", meaning="M"),
    Term(id="feed-lever", word="feed lever", meaning="M"),
    Term(id="burr", word="burr", meaning="M", variants=("rag",)),
)


@cache
def inline() -> Inline:
    return Inline(pipeline.load(SHOP).shop, TermIndex(TERMS))


def html(text: str, here: str = JOB_PAGE, seen: set[str] | None = None) -> str:
    return str(inline().html(text, here, set() if seen is None else seen))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Press *stop* first.", "Press <em>stop</em> first."),
        ("Press **stop** first.", "Press <strong>stop</strong> first."),
        ("Press _stop_ first.", "Press <em>stop</em> first."),
        ("Set `G1` here.", "Set <code>G1</code> here."),
        ("**Press *stop* now**", "<strong>Press <em>stop</em> now</strong>"),
        ("***stop***", "<strong><em>stop</em></strong>"),
        (r"2 \* 3 \* 4", "2 * 3 * 4"),
        ("drill_8_5 stays", "drill_8_5 stays"),
        ("one\n  line", "one line"),
        ("", ""),
    ],
)
def test_emphasis_code_and_escapes(text: str, expected: str) -> None:
    assert html(text) == expected


@pytest.mark.parametrize(
    "text",
    [
        "<script>alert(1)</script>",
        "<b>bold</b> and <img src=x onerror=alert(1)>",
        "<!-- hidden -->",
        "<?php echo 1 ?>",
        "<!DOCTYPE html>",
        "<a href='https://example.org'>x</a>",
        "[words](https://example.org)",
        "[words](javascript:alert)",
        "[words]: https://example.org",
        "![picture](p.svg)",
        "<https://example.org>",
        "<shift@example.org>",
        "https://example.org",
        "&lt;b&gt; &amp; &#106; &nbsp; &copy;",
        "nuts & bolts < 5 > 4",
        "\"quoted\" and 'quoted'",
        "# no heading",
        "- no list",
        "1. no list",
        "> no quotation",
        "| a | b |",
        "    no code block",
        "===",
        "[[VG-0030]]",
        "[[tool:saw]]",
        "[[]]",
        "[[ ]]",
        "[[VG-0020",
        "a\x01b",
    ],
)
def test_all_other_markup_is_shown_as_it_is_written(text: str) -> None:
    assert elements(html(text)) == []
    assert shown(html(text)) == " ".join(text.split())


@pytest.mark.parametrize(
    "text",
    [
        "<b>bold</b> *x*",
        "[words](javascript:alert) *x*",
        "![picture](p.svg) *x*",
        "<https://example.org> *x*",
        "&lt;b&gt; &amp; &#106; *x*",
        "nuts & bolts < 5 > 4 *x*",
        "[[VG-0030]] *x*",
    ],
)
def test_beside_an_emphasis_too(text: str) -> None:
    assert [one.tag for one in elements(html(text))] == ["em"]
    assert shown(html(text)) == text.replace("*", "")


def test_markup_inside_code_is_shown() -> None:
    assert html("Write `<b> & &lt; **x** [[VG-0020]]`.") == (
        "Write <code>&lt;b&gt; &amp; &amp;lt; **x** [[VG-0020]]</code>."
    )


def test_signs_of_the_machinery_are_no_door() -> None:
    """The converter marks its own places with control characters and such words."""
    text = "\x02klzzwxh:0000\x03 \x02wzxhzdk:0\x03 \x02amp\x03 *x*"
    assert [one.tag for one in elements(html(text))] == ["em"]


@pytest.mark.parametrize(
    ("text", "here", "expected"),
    [
        ("[[VG-0020]]", JOB_PAGE, ("vg-0020.html", LATER)),
        ("[[vg-0020]]", HOME, ("jobs/vg-0020.html", LATER)),
        ("[[VG-0020#deburr]]", "machines/bench-drill.html",
         ("../jobs/vg-0020.html#deburr", LATER)),
        ("[[VG-0010#drill]]", JOB_PAGE, ("#drill", "VG-0010 Drill the guide hole in a rack plate")),
        ("[[tool:drill-8]]", JOB_PAGE, ("../tools/drill-8.html", "8 mm drill")),
        ("[[term:quill]]", JOB_PAGE, ("../terms.html#quill", "quill")),
        ("[[term:quill]]", HOME, ("terms.html#quill", "quill")),
        ("[[ machines : bench-drill ]]", HOME, ("machines/bench-drill.html", "Bench drill")),
    ],
)  # fmt: skip
def test_a_link_by_id_leads_from_the_page_it_stands_on(
    text: str, here: str, expected: tuple[str, str]
) -> None:
    (link,) = elements(html(text, here))
    assert (link.attributes, shown(html(text, here))) == ({"href": expected[0]}, expected[1])


def test_a_link_inside_an_emphasis() -> None:
    found = elements(html("**Then [[VG-0020]].**"))
    assert [(one.tag, one.inside) for one in found] == [("strong", ()), ("a", ("strong",))]


@pytest.mark.parametrize(
    "title",
    ["Drill *all* holes", "Drill `8` holes", "Nuts &lt; bolts", "Nuts & bolts", "Drill [8] holes",
     "Drill <b>8</b> holes", "See [[VG-0010]]"],
)  # fmt: skip
def test_the_words_of_a_link_are_the_title_as_it_is_written(
    shop: Callable[..., Path], edited: Callable[..., dict[str, str]], title: str
) -> None:
    """A title is no running text: on its own page it is shown as it is."""
    files = edited("jobs/vg-0020.yml", "title: Deburr the guide hole of a rack plate",
                   f"title: '{title}'")  # fmt: skip
    one = Inline(pipeline.load(shop(files)).shop, TermIndex(()))
    made = str(one.html("[[VG-0020]]", JOB_PAGE, set()))
    assert [each.tag for each in elements(made)] == ["a"]
    assert shown(made) == f"VG-0020 {title}"


def test_a_title_that_names_its_own_job_is_no_endless_loop(
    shop: Callable[..., Path], edited: Callable[..., dict[str, str]]
) -> None:
    files = edited("jobs/vg-0020.yml", "title: Deburr the guide hole of a rack plate",
                   "title: 'See [[VG-0020]]'")  # fmt: skip
    one = Inline(pipeline.load(shop(files)).shop, TermIndex(()))
    assert shown(str(one.html("[[VG-0020]]", JOB_PAGE, set()))) == "VG-0020 See [[VG-0020]]"


def linked(text: str, seen: set[str] | None = None) -> list[tuple[str, str]]:
    """Words and target of each term that is linked."""
    made = html(text, HOME, seen)
    found = elements(made, "a")
    parts = made.split('<a class="bl-term"')[1:]
    texts = [part[part.index(">") + 1 : part.index("</a>")] for part in parts]
    assert all(one.attributes["class"] == "bl-term" for one in found)
    return list(zip(texts, (one.attributes["href"] for one in found), strict=True))


BURR, FEED, LEVER = "terms.html#burr", "terms.html#feed", "terms.html#feed-lever"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("A burr and a burr.", [("burr", BURR)]),
        ("Burrs cut.", [("Burrs", BURR)]),
        ("BURR", [("BURR", BURR)]),
        ("The rag at the edge.", [("rag", BURR)]),
        ("Pull the feed lever.", [("feed lever", LEVER)]),
        ("The feed lever sets the feed.", [("feed lever", LEVER), ("feed", FEED)]),
        ("Two feed levers.", [("feed levers", LEVER)]),
        ("A *burr* here.", [("burr", BURR)]),
        ("No `burr` in code, but a burr.", [("burr", BURR)]),
        ("burred feeder", []),
    ],
)
def test_a_term_is_linked_at_its_first_use_the_longest_first(
    text: str, expected: list[tuple[str, str]]
) -> None:
    assert linked(text) == expected


def test_a_term_that_was_met_on_the_page_is_not_linked_again() -> None:
    seen: set[str] = set()
    assert linked("A burr.", seen) == [("burr", BURR)]
    assert seen == {"burr"}
    assert linked("A burr and the feed.", seen) == [("feed", FEED)]
    assert seen == {"burr", "feed"}


def test_no_term_inside_a_link_or_code() -> None:
    made = html("`the burr` [[VG-0020]] burr", HOME)
    assert "<code>the burr</code>" in made
    assert all("a" not in one.inside for one in elements(made, "a"))


@pytest.mark.parametrize("word", ["amp", "lt", "gt", "quot"])
def test_a_term_is_never_found_inside_the_name_of_a_sign(word: str) -> None:
    """`&` is `&amp;` in HTML, and a shop may well have the ampere among its words."""
    one = Inline(pipeline.load(SHOP).shop, TermIndex([Term(id=word, word=word, meaning="M")]))
    for text in ('nuts & <bolts> "x"', 'nuts & <bolts> "x" *y*'):
        made = str(one.html(text, HOME, set()))
        assert elements(made, "a") == []
        assert shown(made) == text.replace("*", "")


def test_plain_words_for_search() -> None:
    assert inline().plain("See **all** of [[VG-0020]], `G1`.") == (
        "See all of VG-0020 Deburr the guide hole of a rack plate, G1."
    )
    assert inline().plain("[[VG-0030]] <b> & x") == "VG-0030 <b> & x"


PIECES = (
    *"<>&\"'`*_\\[]()!#:/;=-~|{}%.1 \n\t",
    *"\x00\x01\x02\x03\x0b\x1f\x7f\x85\u2028\ufeff\ue000",
    "a", "Z", "é", "中", "😀", "burr", "feed lever", "script", "javascript:", "onerror=", "href=",
    "<script>", "</a>", "<a ", "<img src=x>", "<!--", "-->", "<![CDATA[", "<?", "](", "[[VG-0020]]",
    "[[", "]]", "[[VG-0030]]", "[[tool:", "&amp;", "&#106;", "&lt", "**", "``", "***", "<em>",
    "klzzwxh:0000", "wzxhzdk:0", "https://x.example", "x@y.example",
)  # fmt: skip
nasty = st.lists(st.sampled_from(PIECES), max_size=14).map("".join)
SAFE = {"em", "strong", "code", "a"}


@settings(max_examples=examples(200))
@given(nasty, st.sampled_from([HOME, JOB_PAGE]))
@example("**[[VG-0020]]** `[[VG-0020]]`", HOME)
@example("*a **b* c**", HOME)
@example("<a *href*='javascript:x'>", HOME)
def test_whatever_is_written_no_tag_and_no_attribute_but_our_own(text: str, here: str) -> None:
    found = elements(html(text, here))
    assert {one.tag for one in found} <= SAFE
    up = "" if here == HOME else "../"
    targets = {
        f"{up}terms.html#burr", f"{up}terms.html#feed-lever", f"{up}terms.html#feed",
        "jobs/vg-0020.html" if here == HOME else "vg-0020.html",
    }  # fmt: skip
    for one in found:
        assert set(one.attributes) <= {"href", "class"}
        assert one.attributes.get("class", "bl-term") == "bl-term"
        if one.tag == "a":
            assert one.attributes["href"] in targets
            assert "a" not in one.inside


plain_signs = st.text(alphabet="<>&\"'#:/;=-~|{}%.!()1 aZé中", max_size=30)


@given(plain_signs)
def test_a_text_without_markdown_is_shown_sign_for_sign(text: str) -> None:
    assert shown(html(text)) == " ".join(text.split())


@given(plain_signs)
def test_markdown_elsewhere_changes_no_sign(text: str) -> None:
    assert shown(html(f"*x* {text}")) == " ".join(f"x {text}".split())


@given(nasty, nasty)
def test_one_text_leaves_nothing_behind_for_the_next(first: str, second: str) -> None:
    alone = html(second)
    html(first)
    assert html(second) == alone
