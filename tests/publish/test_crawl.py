"""The built site is read once more: every link, every anchor, and nothing outward."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf.publish import crawl

Crawled = Callable[..., list[tuple[str, str, str]]]


@pytest.fixture
def crawled(tmp_path: Path) -> Crawled:
    """`crawled({"a.html": "..."})` is code, page and text of each finding about that site."""

    def check(files: dict[str, str]) -> list[tuple[str, str, str]]:
        for name, text in files.items():
            path = tmp_path / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, encoding="utf-8")
        found = list(crawl(tmp_path))
        assert all(one.blocks_publishing for one in found)
        return [(one.code, one.place.file, one.text) for one in found]

    return check


OTHER = '<h1 id="top">Other</h1><p id="two words">x</p><p id="größe">y</p><p id=\'single\'>z</p>'
SITE = {"jobs/b.html": OTHER, "pictures/p.svg": "<svg/>", "pictures/q r.png": "", "x.css": "p {}"}


def codes(found: list[tuple[str, str, str]]) -> list[str]:
    return [code for code, _, _ in found]


@pytest.mark.parametrize(
    "html",
    [
        '<a href="jobs/b.html">x</a>',
        "<a href='jobs/b.html'>x</a>",
        '<a class="y" href="jobs/b.html#top">x</a>',
        '<meta http-equiv="refresh" content="0; url=jobs/b.html#top">',
        '<meta name="description" content="10; one more">',
        '<a href="./jobs/b.html">x</a>',
        '<a href="jobs/../jobs/b.html#top">x</a>',
        '<a href="jobs/b.html?q=1#top">x</a>',
        '<a href="jobs/b.html?q=1&amp;r=#top">x</a>',
        '<a href="jobs/b.html#two%20words">x</a>',
        '<a href="jobs/b.html#gr%C3%B6%C3%9Fe">x</a>',
        '<a href="jobs/b.html#single">x</a>',
        '<a href="jobs/b.html#">x</a>',
        '<a href="#here">x</a><p id="here">y</p>',
        '<a href="">x</a>',
        '<a href=" jobs/b.html ">x</a>',
        '<img src="pictures/q%20r.png">',
        '<img src="pictures/p.svg#part">',
        '<img src="data:image/svg+xml,%3Csvg/%3E">',
        '<img src="DATA:image/png;base64,AAAA">',
        '<img srcset="pictures/p.svg 1x, pictures/q%20r.png 2x">',
        '<link rel="stylesheet" href="x.css">',
        '<svg><use xlink:href="#mark"/><path id="mark"/></svg>',
        "<p>https://example.org in plain words</p>",
        '<p data-href="https://example.org">no link</p>',
        '<code>href="https://example.org"</code>',
        '<code>&lt;a href="https://example.org"&gt;</code>',
        "<p title=\"<a href='https://example.org'>\">x</p>",
        '<!-- <a href="https://example.org">x</a> <p id="a"></p><p id="a"></p> -->',
        '<!-- <script src="https://example.org/x.js"></script> -->',
        "<script>var a = \"<a href='https://example.org'>\";</script>",
        "<script>var b = \"<p id='c'><p id='c'>\"; // <!-- </script>",
        "<SCRIPT>var a = \"<a href='https://example.org'>\";</SCRIPT>",
    ],
)
def test_a_sound_page_has_no_finding(crawled: Crawled, html: str) -> None:
    assert crawled({**SITE, "a.html": html}) == []


@pytest.mark.parametrize(
    ("html", "code"),
    [
        ('<a href="jobs/c.html">x</a>', "P701"),
        ('<a href="Jobs/b.html">x</a>', "P701"),
        ('<a href="jobs/B.html">x</a>', "P701"),
        ('<a href="jobs/">x</a>', "P701"),
        ('<a href="/jobs/b.html">x</a>', "P701"),
        ('<a href="../jobs/b.html">x</a>', "P701"),
        ('<a href="jobs\\b.html">x</a>', "P701"),
        ('<img src="pictures/no.svg">', "P701"),
        ('<img srcset="pictures/no.svg 1x, pictures/p.svg 2x">', "P701"),
        ('<img srcset="pictures/p.svg 1x, pictures/no.svg 2x">', "P701"),
        ('<video poster="no.png"></video>', "P701"),
        ('<object data="no.pdf"></object>', "P701"),
        ('<form action="send.html"></form>', "P701"),
        ('<script src="no.js"></script>', "P701"),
        ('<link href="no.css">', "P701"),
        ('<a href="jobs/b.html#nowhere">x</a>', "P702"),
        ('<a href="jobs/b.html#Top">x</a>', "P702"),
        ('<a href="#nowhere">x</a>', "P702"),
        ('<a href="https://example.org">x</a>', "P703"),
        ('<meta http-equiv="refresh" content="0; url=https://example.org/">', "P703"),
        ("<meta http-equiv=refresh content='3;URL=jobs/gone.html'>", "P701"),
        ('<a href="HTTP://example.org">x</a>', "P703"),
        ('<a href="//example.org/x.js">x</a>', "P703"),
        ('<a href=" https://example.org">x</a>', "P703"),
        ('<a href="mailto:a@example.org">x</a>', "P703"),
        ('<a href="javascript:alert(1)">x</a>', "P703"),
        ('<a href="file:///etc/passwd">x</a>', "P703"),
        ('<img src="https://example.org/p.png">', "P703"),
        ('<img srcset="https://example.org/p.png 2x">', "P703"),
        ('<img srcset="pictures/p.svg 1x, https://example.org/p.png 2x">', "P703"),
        ('<script src="https://example.org/x.js"></script>', "P703"),
        ("<script async src='//example.org/x.js'></script>", "P703"),
        ('<iframe src="https://example.org"></iframe>', "P703"),
        ('<form action="https://example.org"></form>', "P703"),
        ('<button formaction="https://example.org">x</button>', "P703"),
        ('<svg><use xlink:href="https://example.org/x.svg#a"/></svg>', "P703"),
        ('<A HREF="https://example.org">x</A>', "P703"),
        ('<IMG SRC="https://example.org/p.png">', "P703"),
        ('<SCRIPT SRC="https://example.org/x.js"></SCRIPT>', "P703"),
        ("<a href=https://example.org>x</a>", "P703"),
        ('<a href = "https://example.org">x</a>', "P703"),
        ('<p style="background: url(https://example.org/p.png)">x</p>', "P703"),
        ("<style>@import 'https://example.org/x.css';</style>", "P703"),
        ('<p id="a"></p><p id="a"></p>', "P704"),
        ('<p id="a"></p><h2 class="x" id=\'a\'></h2>', "P704"),
    ],
)
def test_an_unsound_page_has_one_finding(crawled: Crawled, html: str, code: str) -> None:
    found = crawled({**SITE, "a.html": html})
    assert codes(found) == [code]
    assert found[0][1] == "a.html"


def test_a_link_is_followed_from_where_it_stands(crawled: Crawled) -> None:
    up = '<a href="../a.html#top">x</a><a href="b.html">y</a><a href="a.html">z</a>'
    found = crawled({"jobs/c.html": up, "jobs/b.html": OTHER, "a.html": '<h1 id="top">A</h1>'})
    assert found == [("P701", "jobs/c.html", "'a.html' leads to no file")]


def test_the_nearest_is_offered(tmp_path: Path) -> None:
    (tmp_path / "a.html").write_text('<a href="bb.html">x</a><a href="b.html#tpo">y</a>')
    (tmp_path / "b.html").write_text('<p id="top">x</p>')
    assert [one.help for one in crawl(tmp_path)] == [
        ("did you mean 'b.html'?",), ("did you mean '#top'?",),
    ]  # fmt: skip


def test_each_slip_of_a_page_is_told_once_however_often_it_stands(crawled: Crawled) -> None:
    html = '<a href="no.html">x</a>' * 3 + '<p id="a"></p>' * 3
    assert sorted(codes(crawled({"a.html": html}))) == ["P701", "P704"]


def test_findings_come_page_by_page(crawled: Crawled) -> None:
    found = crawled({"b.html": '<a href="x.html">x</a>', "a.html": '<a href="x.html">x</a>'})
    assert [page for _, page, _ in found] == ["a.html", "b.html"]


@pytest.mark.parametrize(
    ("css", "is_outward"),
    [
        ("p { background: url(p.png) }", False),
        ("p { background: url(data:image/png;base64,AA) }", False),
        ("/* see https://example.org */", False),
        ("p { background: url(https://example.org/p.png) }", True),
        ("p { background: url( 'https://example.org/p.png' ) }", True),
        ('p { background: url("//example.org/p.png") }', True),
        ('@import "https://example.org/x.css";', True),
        ("@import url(http://example.org/x.css);", True),
        ("p { background: URL(HTTPS://example.org/p.png) }", True),
    ],
)
def test_a_style_sheet_fetches_nothing_from_outside(
    crawled: Crawled, css: str, is_outward: bool
) -> None:
    found = crawled({"assets/x.css": css, "a.html": "<p>x</p>"})
    assert codes(found) == (["P703"] if is_outward else [])
    assert not is_outward or found[0][1] == "assets/x.css"


def test_an_empty_site_has_no_finding(tmp_path: Path) -> None:
    assert list(crawl(tmp_path)) == []


def test_only_pages_and_style_sheets_are_read(crawled: Crawled) -> None:
    outward = '<a href="https://example.org">x</a>'
    assert (
        crawled({"x.js": outward, "x.txt": outward, "x.json": outward, "a.html": "<p>x</p>"}) == []
    )


@pytest.mark.parametrize(
    ("promised", "lost"),
    [
        (["a.html", "a.html#top", "jobs/b.html"], []),
        (["a.html#gone", "jobs/b.html#top"], ["a.html#gone", "jobs/b.html#top"]),
        (["jobs/c.html"], ["jobs/c.html"]),
    ],
)
def test_every_promised_address_must_be_in_the_built_site(
    tmp_path: Path, promised: list[str], lost: list[str]
) -> None:
    (tmp_path / "jobs").mkdir()
    (tmp_path / "a.html").write_text('<h1 id="top">x</h1>', encoding="utf-8")
    (tmp_path / "jobs" / "b.html").write_text("<h1>x</h1>", encoding="utf-8")
    found = [one for one in crawl(tmp_path, promised) if one.code == "P705"]
    assert [one.text.split("'")[1] for one in found] == lost
    assert all(one.blocks_publishing for one in found)


def test_a_promise_that_is_broken_is_told_at_its_page(tmp_path: Path) -> None:
    (tmp_path / "a.html").write_text("<h1>x</h1>", encoding="utf-8")
    (one,) = crawl(tmp_path, ["a.html#gone"])
    assert (one.code, one.place.file) == ("P705", "a.html")
    assert "'a.html#gone'" in one.text
