"""What search finds on free pages."""

from __future__ import annotations

from benchleaf.html.values import Found, SearchEntry
from benchleaf.search import free_entries

HTML = """\
<h1 id="start">Start of the <em>shift</em></h1>
<p>Ten minutes
now.</p>
<h2 id="line">Before the line &amp; after</h2>
<ol><li>Put on <strong>glasses</strong>.</li><li>See <a href="x.html">the <code>vice</code></a>.</li></ol>
<h3>No anchor</h3><p>More.</p>
<table><tr><td>8.5</td><td>mm</td></tr></table>
"""  # noqa: E501


def test_a_page_is_cut_where_its_headings_have_anchors() -> None:
    assert list(free_entries(HTML, "shift.html", "Start")) == [
        SearchEntry(
            "shift.html", "Start", Found.PAGE, lines=("Start of the shift", "Ten minutes now.")
        ),
        SearchEntry(
            "shift.html#line", "Before the line & after", Found.PAGE,
            lines=("Put on glasses.", "See the vice.", "No anchor", "More.", "8.5", "mm"),
            under="Start",
        ),
    ]  # fmt: skip


def test_a_page_with_no_heading_has_one_entry() -> None:
    assert list(free_entries("<p>a</p>", "a.html", "A")) == [
        SearchEntry("a.html", "A", Found.PAGE, lines=("a",))
    ]
    assert [one.lines for one in free_entries("", "a.html", "A")] == [()]


def test_an_empty_heading_takes_the_title_of_its_page() -> None:
    empty = list(free_entries("<h2 id='x'></h2>", "a.html", "A"))[1]
    assert (empty.address, empty.title, empty.lines) == ("a.html#x", "A", ())
