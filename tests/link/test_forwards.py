"""Forwarded addresses: whatever the change, an old address works or the check fails."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from planned_site import broken, planned_pages

from benchleaf import pipeline
from benchleaf.diagnose import Place
from benchleaf.registers import Forward, check_forwards, check_register, forwarding, moved
from running import examples

FILE = "content/forwards.yml"
PAGES = [f"jobs/{name}.html" for name in "abc"] + ["terms.html", "tools/a.html"]
ADDRESS = st.sampled_from([*PAGES, *(f"{page}#{one}" for page in PAGES for one in "xy")])
ADDRESSES = st.lists(ADDRESS, unique=True, max_size=8)
PAIRS = st.lists(st.tuples(ADDRESS, ADDRESS), max_size=6, unique_by=lambda pair: pair[0])
Edited = Callable[..., dict[str, str]]
Found = Callable[..., tuple[object, ...]]


def entries(pairs: list[tuple[str, str]]) -> dict[str, tuple[Forward, Place]]:
    return {
        old: (Forward(old=old, new=new), Place(FILE, line)) for line, (old, new) in enumerate(pairs)
    }


@settings(max_examples=examples(300))
@given(ADDRESSES, ADDRESSES, PAIRS)
def test_every_old_address_leads_to_a_living_one_or_is_an_error(
    registered: list[str], living: list[str], pairs: list[tuple[str, str]]
) -> None:
    wanted = entries(pairs)
    ways = moved(registered, living, wanted)
    found = [
        *check_register({one: Place(FILE) for one in registered}, living, FILE, ways.to),
        *check_forwards(registered, living, wanted),
    ]
    assert set(ways.to.values()) <= set(living)
    assert not set(ways.to) & set(living)
    lost = set(registered) - set(living) - set(ways.to)
    told = {one.text.split("'")[1] for one in found if one.code == "A601"}
    assert {one for one in lost if one in told or one.partition("#")[0] in told} == lost
    assert told <= lost
    if not any(one.blocks_publishing for one in found):
        assert set(registered) <= set(living) | set(ways.to)


def test_a_chain_is_followed_to_its_end() -> None:
    ways = moved(
        ["jobs/a.html", "jobs/a.html#x", "jobs/b.html", "jobs/b.html#x"],
        ["jobs/c.html", "jobs/c.html#x"],
        entries([("jobs/a.html", "jobs/b.html"), ("jobs/b.html", "jobs/c.html")]),
    )
    assert ways.to == {
        "jobs/a.html": "jobs/c.html",
        "jobs/a.html#x": "jobs/c.html#x",
        "jobs/b.html": "jobs/c.html",
        "jobs/b.html#x": "jobs/c.html#x",
    }


def test_a_place_that_the_new_page_has_not_leads_to_the_page() -> None:
    ways = moved(
        ["jobs/a.html", "jobs/a.html#gone"],
        ["jobs/c.html", "jobs/c.html#x"],
        entries([("jobs/a.html", "jobs/c.html")]),
    )
    assert ways.to["jobs/a.html#gone"] == "jobs/c.html"


def test_the_chart_of_a_machine_without_one_leads_to_the_machine() -> None:
    ways = moved(["charts/speeds-a.html"], ["machines/a.html"], {})
    assert ways.to == {"charts/speeds-a.html": "machines/a.html"}


def test_a_part_that_no_job_works_on_leads_to_the_list_of_parts() -> None:
    ways = moved(["parts/a.html"], ["parts/index.html"], {})
    assert ways.to == {"parts/a.html": "parts/index.html"}


def test_a_lost_place_of_a_living_page_needs_its_own_entry() -> None:
    assert moved(["jobs/a.html#gone"], ["jobs/a.html"], {}).to == {}


@pytest.mark.parametrize(
    ("pairs", "said"),
    [
        ([("jobs/a.html", "jobs/c.html")], "still there"),
        ([("jobs/never.html", "jobs/a.html")], "never published"),
        ([("jobs/b.html", "jobs/nowhere.html")], "not there"),
        ([("jobs/b.html", "jobs/d.html"), ("jobs/d.html", "jobs/b.html")], "in a ring"),
        ([("jobs/b.html", "trainer.html")], "the reader's edition does not hold"),
    ],
)
def test_an_entry_that_does_not_fit_is_told(pairs: list[tuple[str, str]], said: str) -> None:
    registered = ["jobs/a.html", "jobs/b.html", "jobs/d.html"]
    living = ["jobs/a.html", "jobs/c.html", "trainer.html"]
    found = list(check_forwards(registered, living, entries(pairs)))
    assert found
    assert all(one.code == "A607" and said in one.text for one in found)


# On a content folder: every way of losing an address, with and without an entry for it

CHANGES: dict[str, Callable[[dict[str, str]], dict[str, str | None]]] = {
    "step": lambda base: _put(base, "jobs/vg-0010.yml", "  - id: gauge\n", "  - id: gauge-it\n"),
    "set-up": lambda base: _put(base, "jobs/vg-0010.yml", "guide-hole", "guide-bore"),
    "job": lambda base: {
        "jobs/vg-0020.yml": None,
        "jobs/vg-0021.yml": base["jobs/vg-0020.yml"].replace("id: VG-0020", "id: VG-0021"),
        **_put(base, "jobs/vg-0010.yml", "VG-0020", "VG-0021"),
        **_put(base, "onboarding/first-days.yml", "VG-0020", "VG-0021"),
    },
    "term": lambda base: {
        "terms.yml": base["terms.yml"]
        .replace(": burr\n    w", ": raised-edge\n    w")
        .replace("- burr", "- raised-edge")
    },
    "page": lambda base: {
        "pages/safety.md": None,
        "pages/first.md": base["pages/safety.md"],
        **_put(base, "manual.yml", "safety.md", "first.md"),
        **_put(base, "onboarding/first-days.yml", "safety.md", "first.md"),
    },
    "part": lambda base: {
        "parts/vg-r1.yml": None,
        "parts/vg-r2.yml": base["parts/vg-r1.yml"].replace("id: vg-r1", "id: vg-r2"),
        **{
            name: text.replace("part: vg-r1", "part: vg-r2")
            for name, text in base.items()
            if name.startswith("jobs/")
        },
    },
}
ENTRIES = {
    "step": ("jobs/vg-0010.html#gauge", "jobs/vg-0010.html#gauge-it"),
    "set-up": ("jobs/vg-0010.html#guide-hole", "jobs/vg-0010.html"),
    "job": ("jobs/vg-0020.html", "jobs/vg-0021.html"),
    "term": ("terms.html#burr", "terms.html#raised-edge"),
    "page": ("safety.html", "first.html"),
    "part": ("parts/vg-r1.html", "parts/vg-r2.html"),
}


def _put(base: dict[str, str], name: str, old: str, new: str) -> dict[str, str | None]:
    assert old in base[name]
    return {name: base[name].replace(old, new)}


def forwards_yml(keys: set[str]) -> str | None:
    lines = [
        f"  - {{old: '{ENTRIES[key][0]}', new: '{ENTRIES[key][1]}'}}\n" for key in sorted(keys)
    ]
    return "forwards:\n" + "".join(lines) if lines else None


@settings(max_examples=examples(6), suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    changes=st.sets(st.sampled_from(sorted(CHANGES)), min_size=1, max_size=3),
    forgotten=st.sets(st.sampled_from(sorted(CHANGES)), max_size=1),
    edition=st.sampled_from(["kiosk", "full"]),
)
def test_any_change_keeps_old_addresses_working_or_fails(
    shop: Callable[..., Path],
    base_shop: dict[str, str],
    changes: set[str],
    forgotten: set[str],
    edition: str,
) -> None:
    files: dict[str, str | None] = {}
    for key in sorted(changes):
        now = {**base_shop, **files}
        files |= CHANGES[key]({name: text for name, text in now.items() if text is not None})
    files["forwards.yml"] = forwards_yml(changes - forgotten)
    loaded = pipeline.load(shop(files))
    assert loaded.may_publish == (not changes & forgotten)
    if loaded.may_publish:
        plan = pipeline.plan_site(loaded, edition=edition)
        assert broken(plan.promised, planned_pages(plan)) == []


def test_an_old_job_has_a_page_that_says_where_it_is_now(
    shop: Callable[..., Path], base_shop: dict[str, str]
) -> None:
    files = CHANGES["job"](base_shop)
    files["forwards.yml"] = (
        "forwards:\n  - old: jobs/vg-0020.html\n    new: jobs/vg-0021.html\n"
        "    why: The number was given twice.\n"
    )
    plan = pipeline.plan_site(pipeline.load(shop(files)))
    html = planned_pages(plan)["jobs/vg-0020.html"]
    assert "The number was given twice." in html
    assert 'href="vg-0021.html"' in html
    assert re.search(r'<li id="deburr">.*href="vg-0021.html#deburr"', html)
    assert "<script" not in html
    assert "http-equiv" not in html


def test_a_renamed_step_keeps_its_old_anchor_where_it_is_now(
    shop: Callable[..., Path], base_shop: dict[str, str]
) -> None:
    files = {**CHANGES["step"](base_shop), "forwards.yml": forwards_yml({"step"})}
    plan = pipeline.plan_site(pipeline.load(shop(files)))
    html = planned_pages(plan)["jobs/vg-0010.html"]
    assert re.search(r'<section [^>]*id="gauge-it"[^>]*><span id="gauge"', html)


def test_the_register_keeps_what_is_forwarded(
    shop: Callable[..., Path], base_shop: dict[str, str]
) -> None:
    files = {**CHANGES["step"](base_shop), "forwards.yml": forwards_yml({"step"})}
    content = shop(files)
    assert pipeline.register(content) == ((), 1)
    written = (content / "addresses.yml").read_text(encoding="utf-8")
    assert "#gauge\n" in written
    assert "#gauge-it\n" in written


def test_every_promise_of_the_small_shop_is_kept_in_both_editions(
    shop: Callable[..., Path],
) -> None:
    loaded = pipeline.load(shop())
    for edition in ("kiosk", "full"):
        plan = pipeline.plan_site(loaded, edition=edition)
        assert broken(plan.promised, planned_pages(plan)) == []
    assert set(plan.promised) == set(forwarding.promised(loaded.shop))
