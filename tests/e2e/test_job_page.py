"""The job page's order and wording, read from the built demo."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.compute import set_up_sheets

CONTENT = Path(__file__).parents[2] / "content"
ORDER = (
    "wear",
    "machine-controls",
    "makes",
    "know-first",
    "hazards",
    "have-ready",
    "set-up",
    "steps",
    "if-wrong",
    "hand-on",
    "revision",
)


def _jobs(demo: Path) -> list[Path]:
    """The page of each job; an address that has moved keeps a plain page without its parts."""
    return [path for path in sorted((demo / "jobs").glob("tr-*.html")) if not _has_moved(path)]


def _has_moved(path: Path) -> bool:
    return "</span> has moved</h1>" in path.read_text(encoding="utf-8")


def _article(path: Path) -> str:
    text = path.read_text(encoding="utf-8")
    return text[text.index("<article") : text.index("</article>")]


def test_the_parts_stand_in_order_on_every_job(demo: Path) -> None:
    for path in _jobs(demo):
        html = _article(path)
        found = [anchor for anchor in ORDER if f'<h2 id="{anchor}"' in html]
        places = [html.index(f'<h2 id="{anchor}"') for anchor in found]
        assert places == sorted(places)
        assert set(ORDER) - set(found) <= {"set-up"}


def test_hazards_stand_before_the_step_they_bite_in(demo: Path) -> None:
    shop = pipeline.load(CONTENT).shop
    for job in shop.jobs.values():
        html = _article(demo / f"jobs/{job.id}.html")
        for step in job.steps:
            section = html[html.index(f'<section class="bl-step" id="{step.id}"') :]
            title = section.index('class="bl-step__title"')
            for hazard_id in step.hazards:
                first_words = shop.hazards[hazard_id].title
                what = _words(shop.hazards[hazard_id].what)
                assert what in _words(section[:title]), f"{step.id}: {first_words}"


def _words(html: str) -> str:
    return " ".join(re.sub(r"<[^>]+>", "", html).split())


def test_messages_stand_gravest_first_with_word_and_symbol(demo: Path) -> None:
    words = ["danger", "warning", "caution", "notice"]
    for path in _jobs(demo):
        for block in re.split(r"<section class=\"bl-step\"|<h2 ", _article(path)):
            found = re.findall(r'<div class="bl-hazard bl-hazard--(\w+)"', block)
            assert found == sorted(found, key=words.index)
        for css, head in re.findall(
            r'bl-hazard--(\w+)".*?<p class="bl-hazard__word">(.*?)</p>', _article(path), re.DOTALL
        ):
            assert css.upper() in _words(head)
            assert ("<svg" in head) == (css != "notice")


def test_every_key_point_has_its_kind_and_its_reason_beneath(demo: Path) -> None:
    shop = pipeline.load(CONTENT).shop
    for job in shop.jobs.values():
        html = _article(demo / f"jobs/{job.id}.html")
        points = re.findall(r'<li class="bl-point.*?</li>', html, re.DOTALL)
        assert len(points) == sum(len(step.key_points) for step in job.steps)
        for point in points:
            what, kind, why = (point.index(f"bl-point__{part}") for part in ("what", "kind", "why"))
            assert what < kind < why


def test_every_computed_figure_is_on_the_page_with_its_working(demo: Path) -> None:
    shop = pipeline.load(CONTENT).shop
    for job in shop.jobs.values():
        words = _words(_article(demo / f"jobs/{job.id}.html")).replace("&#39;", "'")
        for sheet in set_up_sheets(shop, job):
            for row in sheet.rows:
                if row.is_optional and row.figure is None:
                    continue
                assert row.figure is not None, f"{job.id} {row.key}"
                for text in (row.figure.text, row.formula, row.working, row.source, row.limits):
                    assert text, f"{job.id} {row.key}"
                    assert text in words, f"{job.id} {row.key}: {text}"


def test_pages_with_hazards_or_figures_end_with_the_usual_caution(demo: Path) -> None:
    folders = ("jobs", "machines", "materials", "tools", "fluids", "hazards")
    pages = [
        path
        for folder in folders
        for path in (demo / folder).glob("*.html")
        if path.name != "index.html" and not _has_moved(path)
    ]
    assert len(pages) > 20
    for path in [*pages, demo / "signal-words.html"]:
        assert _article(path).rstrip().endswith("</aside>"), path.name
        assert 'class="bl-caution"' in _article(path)


class _TermPlaces(HTMLParser):
    """Notes inside which elements each term link stands."""

    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.inside: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        if tag == "a" and ("class", "bl-term") in attrs:
            self.inside += self.open
        if tag not in ("br", "img", "input", "meta", "link", "path", "circle"):
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        while tag in self.open and self.open.pop() != tag:
            pass


def test_terms_are_never_linked_in_headings_links_or_code(demo: Path) -> None:
    found = 0
    for path in demo.rglob("*.html"):
        places = _TermPlaces()
        places.feed(_article(path))
        found += len(places.inside)
        assert not {"h1", "h2", "h3", "a", "code", "summary"} & set(places.inside), path.name
    assert found > 100


def test_a_term_is_linked_once_in_a_step(demo: Path) -> None:
    for path in _jobs(demo):
        for section in re.findall(
            r'<section class="bl-step".*?</section>', _article(path), re.DOTALL
        ):
            targets = re.findall(r'class="bl-term" href="([^"]+)"', section)
            assert len(targets) == len(set(targets))


@pytest.mark.parametrize("name", ["tr-0110", "tr-0120"])
def test_the_demo_may_be_run(demo: Path, name: str) -> None:
    assert "Do not run" not in _article(demo / f"jobs/{name}.html")
