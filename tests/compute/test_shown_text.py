"""A figure that a sentence shows: the same words on page and sheet, in search and fingerprint."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.commands import sides
from benchleaf.compute import shown_job, shown_text
from benchleaf.meaning import meant
from benchleaf.model import texts
from benchleaf.pipeline import Loaded

JOB, OLD = "jobs/vg-0010.yml", "It keeps the lips cool, and carries the chips away."
LINK = "[[figure:guide-hole#depth-stop]]"
Shop = Callable[..., Path]
Edited = Callable[..., dict[str, str]]


def saying(shop: Shop, edited: Edited, sentence: str, *more: str) -> Loaded:
    return pipeline.load(shop(edited(JOB, OLD, sentence, *more)))


def text_of(html: str) -> str:
    return " ".join(re.sub(r"<[^>]*>", " ", html).split())


@pytest.mark.parametrize(
    ("link", "words"),
    [
        (LINK, "9.4 mm"),
        ("[[Figure: Guide-Hole # Depth-Stop ]]", "9.4 mm"),
        ("[[figure:guide-hole#spindle-speed]]", "1000 rpm"),
        ("[[figure:guide-hole#thickness]]", "6 mm"),
        ("[[figure:guide-hole#no-such-row]]", "[[figure:guide-hole#no-such-row]]"),
        ("[[figure:other#feed]]", "[[figure:other#feed]]"),
    ],
)
def test_a_link_becomes_the_figure(shop: Shop, link: str, words: str) -> None:
    loaded = pipeline.load(shop())
    job, sheets = loaded.shop.jobs["vg-0010"], loaded.sheets["vg-0010"]
    assert shown_text(f"Stop at {link}.", job, sheets) == f"Stop at {words}."


def test_pages_sheets_and_search_show_the_figure(shop: Shop, edited: Edited) -> None:
    loaded = saying(shop, edited, f"The stop stands at {LINK} for this.")
    assert loaded.may_publish
    plan = pipeline.plan_site(loaded, edition="full")
    rendered = {page.address: page.render() for page in plan.pages if "vg-0010" in page.address}
    wanted = "The stop stands at 9.4 mm for this."
    showing = {address for address, one in rendered.items() if wanted in text_of(one.html)}
    assert {"jobs/vg-0010.html", "trainer/vg-0010-breakdown.html"} <= showing
    assert not any("figure:" in one.html for one in rendered.values())
    entries = [entry for one in rendered.values() for entry in one.entries]
    assert any(wanted in entry.points for entry in entries)


def test_the_fingerprint_takes_the_words(shop: Shop, edited: Edited) -> None:
    def prints(sentence: str, *more: str) -> tuple[str, str]:
        loaded = saying(shop, edited, sentence, *more)
        job = loaded.shop.jobs["vg-0010"]
        found = meant(loaded.shop, job, loaded.sheets["vg-0010"])
        return found.fingerprint, found.core

    assert prints(f"It stops at {LINK}.") == prints("It stops at 9.4 mm.")
    deeper = ("overtravel: 1 mm", "overtravel: 2 mm")
    assert prints(f"It stops at {LINK}.", *deeper) == prints("It stops at 10.4 mm.", *deeper)
    assert prints(f"It stops at {LINK}.") != prints("It stops at 9.5 mm.")


def test_no_figure_of_a_set_up_that_nobody_may_run(shop: Shop, edited: Edited) -> None:
    loaded = saying(shop, edited, f"The stop stands at {LINK}.", "force: 20 kN", "force: 0.1 kN")
    sheets = loaded.sheets["vg-0010"]
    assert not sheets[0].may_run
    said = [text for _, text in texts(shown_job(loaded.shop.jobs["vg-0010"], sheets))]
    assert "The stop stands at (no figure: do not run)." in said


def test_a_job_without_such_a_link_is_the_same_record(shop: Shop) -> None:
    loaded = pipeline.load(shop())
    job = loaded.shop.jobs["vg-0010"]
    assert shown_job(job, loaded.sheets["vg-0010"]) is job


def test_a_set_up_under_another_id_keeps_its_sentences(shop: Shop, edited: Edited) -> None:
    said = f"It stops at {LINK}."
    old = shop(edited(JOB, OLD, said))
    renamed = ("id: guide-hole", "id: hole-of-guide", "set_up: guide-hole", "set_up: hole-of-guide")
    new = shop(edited(JOB, OLD, said.replace("guide-hole", "hole-of-guide"), *renamed))
    reviewed = sides.compare(sides.Asked(new, old=str(old)))
    assert reviewed.report is not None
    told = [(one.place, one.before, one.after) for one in reviewed.report.comparison.changes]
    assert not any("figure:" in str(one) for one in told), told
