"""What a preview shows where content has errors: the findings at the place they are about."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from planned import Planned, elements, words

from benchleaf import pipeline

Site = Callable[..., Planned]
Shop = Callable[..., Path]
Edited = Callable[..., dict[str, str]]
WRONG = ("jobs/vg-0010.yml", "machine: bench-drill", "machin: bench-drill")


@pytest.fixture
def problems(shop: Shop, site: Site) -> Callable[..., Planned]:
    """`problems(files)` is the preview after an edit; `former=False` is one that starts so."""

    def plan(files: dict[str, str], *, former: bool = True) -> Planned:
        loaded = pipeline.load(shop(files))
        before = site().plan if former else None
        return Planned(loaded, pipeline.plan_problems(loaded, before))

    return plan


def test_the_page_of_the_damaged_file_and_the_home_page_show_it(
    problems: Callable[..., Planned], edited: Edited
) -> None:
    one = problems(edited(*WRONG))
    for address in ("jobs/vg-0010.html", "index.html"):
        text = words(one.html(address))
        assert "There are problems" in text
        assert "F201" in text
        assert "content/jobs/vg-0010.yml:9:1" in text
        assert "Did you mean" in text
        assert one.pages[address].title == "There are problems"


def test_every_other_page_is_the_last_good_one(
    problems: Callable[..., Planned], site: Site, edited: Edited
) -> None:
    one, before = problems(edited(*WRONG)), site()
    assert set(one.pages) == set(before.pages)
    for address in set(before.pages) - {"jobs/vg-0010.html", "index.html"}:
        assert one.html(address) == before.html(address), address


def test_home_shows_all_findings_and_a_page_only_its_own(
    problems: Callable[..., Planned], edited: Edited
) -> None:
    one = problems(edited(*WRONG) | edited("tools/drill-8.yml", "size: 8 mm", "size: 8"))
    home = words(one.html("index.html"))
    assert "content/jobs/vg-0010.yml" in home
    assert "content/tools/drill-8.yml" in home
    assert "content/tools/drill-8.yml" not in words(one.html("jobs/vg-0010.html"))
    assert "content/jobs/vg-0010.yml" not in words(one.html("tools/drill-8.html"))


def test_an_error_in_the_terms_is_shown_on_the_page_of_terms(
    problems: Callable[..., Planned], edited: Edited
) -> None:
    one = problems(edited("terms.yml", "word: burr", "wrod: burr"))
    assert "F201" in words(one.html("terms.html"))


def test_a_preview_that_starts_with_errors_has_their_pages_only(
    problems: Callable[..., Planned], edited: Edited
) -> None:
    one = problems(edited(*WRONG), former=False)
    assert set(one.pages) == {"index.html", "jobs/vg-0010.html"}


@pytest.mark.parametrize("name", ["jobs/VG-0099.yml", "jobs/vg-0099.yml"])
def test_a_new_file_with_an_error_has_a_page_at_once(
    problems: Callable[..., Planned], name: str
) -> None:
    one = problems({name: "id: VG-0099\n"})
    assert "F202" in words(one.html("jobs/vg-0099.html"))


def test_an_error_on_a_free_page_is_on_the_home_page_and_takes_no_address(
    problems: Callable[..., Planned],
) -> None:
    one = problems({"pages/safety.md": "# Safety\n\nSee [[VG-0099]].\n"})
    assert "content/pages/safety.md:3:5" in words(one.html("index.html"))
    assert "pages/safety.html" not in one.pages


def test_what_was_written_is_quoted_and_never_taken_for_markup(
    problems: Callable[..., Planned], edited: Edited
) -> None:
    one = problems(edited("jobs/vg-0010.yml", "fluid: soluble-oil", "fluid: '<script>x</script>'"))
    for address in ("index.html", "jobs/vg-0010.html"):
        html = one.html(address)
        assert elements(html, "script") == []
        assert "&lt;script&gt;" in html
