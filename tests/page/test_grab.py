"""What pages say of a drill that comes through under a kept pull."""

from __future__ import annotations

import re
from collections.abc import Callable

from planned import Planned

Site = Callable[..., Planned]
Edited = Callable[..., dict[str, str]]
JOB, PAGE = "jobs/vg-0010.yml", "jobs/vg-0010.html"
GRABS = ("hazards/work-turns.yml", "controls:\n", "at_break_through: true\ncontrols:\n")
# 7.83 x 1.995 x 2 / 1.18 = 26.5 N m, 3.4 times 7.83; 20000 x 0.126 x 40 = 101 N m
GROWN = "Not eased, it turns with up to 27 N m. That is 3.4 times the cut's torque."
HELD_TO = "The work is held to 100 N m."
LINE = "Not eased, it turns up to 3.4 times as hard: 27 N m. Held to 100 N m."


def test_break_through_is_told_at_set_up_curve_and_the_hazard_of_its_step(
    site: Site, edited: Edited
) -> None:
    made = site(edited(*GRABS))
    bites = '<p class="bl-hazard__when">It bites as the tool comes through.</p>'
    assert bites in made.html("jobs/vg-0020.html"), "a job that reckons nothing of it"
    html = made.html(PAGE).replace("\u00a0", " ")
    drilled = html[html.index('id="drill"') : html.index('id="gauge"')]
    clamped = html[html.index('id="clamp"') : html.index('id="drill"')]
    set_up = html[html.index('id="set-up"') : html.index('id="steps"')]
    measured = re.findall(r'<p class="bl-hazard__measured">(.+?)</p>', html)
    assert measured == [LINE]
    assert measured[0] in drilled
    assert measured[0] not in clamped  # no drill comes through there
    told = set_up.replace("&#39;", "'")
    assert f"<b>As it comes through.</b> {GROWN} {HELD_TO}" in told
    curve = told[told.index("What your hand will feel") :]
    for line in (GROWN.partition(". ")[0] + ".", HELD_TO):
        assert f">{line}</text>" in curve


def test_a_hazard_that_no_tool_brings_says_no_torque(site: Site) -> None:
    assert "bl-hazard__measured" not in site().html(PAGE)


def test_a_job_that_must_not_run_promises_no_holding(site: Site, edited: Edited) -> None:
    weak = edited(JOB, "force: 20 kN", "force: 3.5 kN")
    html = site(edited(*GRABS) | weak).html(PAGE)
    assert "The work is held to" not in html
    assert "27 N m; the holding resists 17 N m" in html


def test_a_feed_stop_is_told_with_what_it_keeps(site: Site, edited: Edited) -> None:
    line = "    start_clearance: 3 mm\n"
    stop = "    feed_stop:\n      how: By power.\n      feed: 0.15 mm/rev\n      source: entered\n"
    html = site(edited(*GRABS) | edited(JOB, line, line + stop)).html(PAGE)
    html = html.replace("\u00a0", " ")
    assert "The feed stop keeps it to 7.9 N m." in html
    assert "as hard: 27 N m, by the feed stop 7.9 N m. Held to 100 N m." in html
