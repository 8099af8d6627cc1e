"""Templates: a missing value is an error, and a shop replaces one block and keeps the rest."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from jinja2 import UndefinedError
from jinja2.exceptions import TemplateNotFound
from planned import Planned, elements, hrefs, words

from benchleaf.html import writer

Site = Callable[..., Planned]
PAGE = "jobs/vg-0010.html"
SHIPPED = Path(writer.__file__).parent / "templates"


@pytest.fixture
def override(tmp_path: Path) -> Callable[[str, str], tuple[Path]]:
    """`override(name, text)` is a folder of a shop's own templates."""

    def write(name: str, text: str) -> tuple[Path]:
        folder = tmp_path / "own"
        folder.mkdir(exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
        return (folder,)

    return write


Override = Callable[[str, str], tuple[Path]]


def test_one_block_is_replaced_and_all_others_stay(site: Site, override: Override) -> None:
    own = override(
        "job.html.jinja",
        '{% extends "shipped/job.html.jinja" %}\n{% block hand_on %}\n'
        '<h2 id="hand-on">Our own way</h2>\n<p>{{ view.job.hand_on|say }}</p>\n{% endblock %}\n',
    )
    html, usual = site(overrides=own).html(PAGE), site().html(PAGE)
    start, end = '<h2 id="hand-on">', '<h2 id="revision">'
    mine = html[html.index(start) : html.index("</section>", html.index(start))]
    assert words(mine).startswith("Our own way Lay the plates in the tote")
    assert "vg-0020.html#deburr" in hrefs(mine)
    assert html[: html.index(start)].split() == usual[: usual.index(start)].split()
    assert html[html.index(end) :].split() == usual[usual.index(end) :].split()


def test_a_block_may_keep_what_it_had_and_add_to_it(site: Site, override: Override) -> None:
    own = override(
        "job.html.jinja",
        '{% extends "shipped/job.html.jinja" %}\n'
        '{% block wear %}{{ super() }}<p class="own">Ask at the store.</p>{% endblock %}',
    )
    html = site(overrides=own).html(PAGE)
    assert (
        html.index("Safety glasses")
        < html.index("Ask at the store.")
        < html.index('id="machine-controls"')
    )


def test_an_override_of_one_page_leaves_the_others(site: Site, override: Override) -> None:
    own = override("home.html.jinja", "<h1>Ours: {{ manual.title }}</h1>")
    one, usual = site(overrides=own), site()
    assert one.html("index.html").startswith("<h1>Ours: Drilling manual</h1><aside")
    assert one.html(PAGE) == usual.html(PAGE)


def test_a_piece_that_pages_share_may_be_replaced_alone(site: Site, override: Override) -> None:
    own = override(
        "step.html.jinja", '<section id="{{ one.step.id }}">{{ one.number }}</section>\n'
    )
    html = site(overrides=own).html(PAGE)
    assert '<section id="clamp">1</section>' in html
    assert 'id="hand-on"' in html


@pytest.mark.parametrize("name", ["view.no_such_value", "no_such_value", "manual.no_such_value"])
def test_a_value_that_is_not_there_is_an_error_and_never_an_empty_place(
    site: Site, override: Override, name: str
) -> None:
    own = override("home.html.jinja", f"<p>{{{{ {name} }}}}</p>")
    with pytest.raises(UndefinedError, match="no_such_value"):
        site(overrides=own).html("index.html")


def test_what_a_template_writes_is_escaped(site: Site, override: Override) -> None:
    own = override("home.html.jinja", "<p>{{ '<b>' ~ manual.title }}</p>")
    html = site(overrides=own).html("index.html")
    assert [one.tag for one in elements(html)][:2] == ["p", "aside"]
    assert "<b>Drilling" not in html


def test_only_what_is_shipped_stands_under_shipped(site: Site, override: Override) -> None:
    own = override("home.html.jinja", '{% extends "shipped/no-such.html.jinja" %}')
    with pytest.raises(TemplateNotFound):
        site(overrides=own).html("index.html")


@pytest.mark.parametrize(
    "path", sorted(SHIPPED.glob("*.jinja")), ids=lambda path: path.name.split(".")[0]
)
def test_each_template_says_first_what_it_is_and_what_it_is_given(path: Path) -> None:
    first = path.read_text(encoding="utf-8").split("\n")[0]
    assert first.startswith("{# ")
    assert "Given: " in first or "Import with context" in first


def test_no_template_makes_an_address_by_hand() -> None:
    """An address that is not relative to its page works on one disk only."""
    for path in SHIPPED.glob("*.jinja"):
        text = path.read_text(encoding="utf-8")
        for part in text.split('href="')[1:] + text.split('src="')[1:]:
            assert part.startswith(("{{", "#")), f"{path.name}: {part[:40]}"
