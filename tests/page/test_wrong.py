"""*Something is wrong*: each trouble stands under its choice, who is called before all."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from planned import Planned, words

from benchleaf.model import Wrong
from benchleaf.pages.at_work import how_often

Site = Callable[..., Planned]
Edited = Callable[..., dict[str, str]]
PAGE = "jobs/vg-0010.html"


def test_each_trouble_stands_once_under_its_choice(site: Site, base_shop: dict[str, str]) -> None:
    job = base_shop["jobs/vg-0010.yml"]
    at = job.index("if_wrong:\n") + len("if_wrong:\n")
    signs = {kind: f"Sign of {kind.name.lower()}." for kind in Wrong}
    more = "".join(f"  - sign: {signs[kind]}\n    kind: {kind}\n    do:\n      - Press stop.\n"
                   for kind in Wrong)  # fmt: skip
    html = site({"jobs/vg-0010.yml": job[:at] + more + job[at:]}).html(PAGE)
    text = words(html[html.index('id="if-wrong"') : html.index('id="hand-on"')])
    assert text.index("hurt or caught") < text.index("Call:") < text.index("It does not stop")
    order = [Wrong.DOES_NOT_STOP, Wrong.FEELS_WRONG, Wrong.SIZE_OUT, Wrong.UNSURE, Wrong.HURT]
    places = [text.index(signs[kind]) for kind in order]
    assert places == sorted(places)
    assert [text.count(sign) for sign in signs.values()] == [1] * len(signs)


def test_the_page_of_the_shop_tells_how_each_station_is_stopped(site: Site) -> None:
    one = site()
    text = words(one.html("wrong.html"))
    assert "Emergency stop, Bench drill The red mushroom button" in text
    assert "Isolate, Bench drill" in text
    assert "Write no name on it" in text  # the slip as a paper form


def test_a_job_that_must_not_run_has_no_work_and_no_count(site: Site, edited: Edited) -> None:
    one = site(edited("machines/bench-drill.yml", "quill_travel: 60 mm", "quill_travel: 5 mm"))
    html = one.html(PAGE)
    assert "bl-work" not in html
    assert "bl-at-work" not in html
    assert "bl-at-work" in site().html(PAGE)
    assert html.index("bl-stop__word") < html.index("bl-gravest") < html.index('id="wear"')


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        ("Both fixing holes, on the first-off and every tenth plate", 10),
        ("every twenty-fifth stay", 25), ("Every 5th block", 5), ("each second pin", 2),
        ("every ten castings", 10), ("every fifth and every tenth plate", 5),
        ("on every casting", 0), ("the edges of each flat", 0), ("every hour", 0),
        ("every ten minutes", 0), ("every second hour", 0), ("each third of a turn", 0), ("", 0),
    ],
)  # fmt: skip
def test_how_often_is_read_off_the_words_of_a_check(text: str, pieces: int) -> None:
    assert how_often(text) == pieces
