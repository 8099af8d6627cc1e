"""Home, lists of jobs, parts and records: everything that applies is there, and nothing else."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest
from planned import Planned, elements, hrefs, words

from benchleaf.html.lookup import Lookup
from benchleaf.link import address, relative, term_uses, where_used
from benchleaf.model import KINDS, Job, Shop, references
from benchleaf.pages.job_lists import WORDS, JobListView, job_list_view

Site = Callable[..., Planned]
Edited = Callable[..., dict[str, str]]
Many = Callable[[int], dict[str, str]]
J1, J2 = "jobs/vg-0010.yml", "jobs/vg-0020.yml"
PART = "part: vg-r1\ntakes: drilled\nleaves: deburred\n"


def tiles(html: str) -> list[str]:
    return [
        one.attributes["href"]
        for one in elements(html, "a")
        if one.attributes.get("class") == "bl-tile" and "vg-" in one.attributes["href"]
    ]


def test_home_shows_stations_and_each_stations_page_all_of_its_jobs(
    site: Site, many_jobs: Many
) -> None:
    one = site(many_jobs(14))
    home = one.html("index.html")
    assert "machines/bench-drill.html" in hrefs(home)
    assert "16 jobs" in words(home)
    assert not [href for href in hrefs(home) if href.startswith("jobs/vg-")]
    here = hrefs(one.html("machines/bench-drill.html"))
    assert len({href for href in here if href.startswith("../jobs/vg-")}) == 16


def test_home_leads_to_every_machine_list_and_free_page(site: Site) -> None:
    targets = hrefs(site({"pages/shift.md": "# Shift start\n"}).html("index.html"))
    assert {
        "machines/bench-drill.html", "safety.html", "shift.html", "terms.html", "signal-words.html",
        "jobs-by-part.html", "jobs-by-material.html", "jobs-by-hazard.html", "jobs-by-order.html",
        "parts/index.html", "charts/index.html", "operations/index.html", "machines/index.html",
        "materials/index.html", "tools/index.html", "fluids/index.html", "hazards/index.html",
    } <= set(targets)  # fmt: skip


def test_the_preface_stands_first_and_only_once(site: Site) -> None:
    html = site().html("index.html")
    assert hrefs(html).count("safety.html") == 1
    assert html.index("safety.html") < html.index('id="machines"')


def test_a_shop_without_a_preface_has_no_button_for_it(site: Site, edited: Edited) -> None:
    one = site(edited("manual.yml", "preface: safety.md\n", ""))
    html = one.html("index.html")
    assert html.index("safety.html") > html.index('id="look-up"')
    assert "preface" not in words(one.html("jobs/vg-0010.html"))


@pytest.fixture
def mixed(many_jobs: Many, edited: Edited, base_shop: dict[str, str]) -> dict[str, str]:
    """Jobs on two parts of two materials, one on no part, and a hazard in one step only."""
    brass = base_shop["materials/mild-steel.yml"].replace("mild-steel", "brass")
    noise = base_shop["hazards/work-turns.yml"].replace("work-turns", "noise")
    three = many_jobs(3)
    three["jobs/vg-0101.yml"] = three["jobs/vg-0101.yml"].replace("part: vg-r1", "part: vg-r2")
    three["jobs/vg-0102.yml"] = three["jobs/vg-0102.yml"].replace(PART, "")
    three["jobs/vg-0103.yml"] = three["jobs/vg-0103.yml"].replace(
        "- VG-0010", "- VG-0101\n  - VG-0020"
    )
    step = ("both sides\n", "both sides\n    hazards:\n      - noise\n")
    part = base_shop["parts/vg-r1.yml"].replace("vg-r1", "vg-r2").replace("VG-R1", "VG-R2")
    return three | {
        "parts/vg-r2.yml": part.replace("material: mild-steel", "material: brass"),
        "materials/brass.yml": brass.replace("Mild steel", "Brass"),
        "hazards/noise.yml": noise.replace("death or serious injury", "minor or moderate injury"),
    } | edited(J2, *step)  # fmt: skip


def views(one: Planned) -> dict[str, JobListView]:
    lookup = Lookup(one.loaded.shop, where_used(one.loaded.shop), one.loaded.sheets)
    return {way: job_list_view(lookup, way) for way in WORDS if way != "machine"}


def listed(view: JobListView) -> dict[str, list[str]]:
    return {group.title: [tile.number.lower() for tile in group.jobs] for group in view.groups}


def hazards_of(shop: Shop, job: Job) -> set[str]:
    return {
        record_id
        for record in (job, shop.machines[job.machine])
        for _, kind, record_id in references(record)
        if kind == "hazards"
    }


def test_every_job_is_in_each_list_under_each_heading_that_applies(
    site: Site, mixed: dict[str, str]
) -> None:
    one = site(mixed)
    shop = one.loaded.shop
    found = {way: listed(view) for way, view in views(one).items()}
    on_none = ["vg-0102"]
    assert found["part"] == {
        "VG-R1 Rack plate": ["vg-0010", "vg-0020", "vg-0103"], "VG-R2 Rack plate": ["vg-0101"],
        "On no part": on_none,
    }  # fmt: skip
    assert found["material"] == {
        "Brass": ["vg-0101"], "Mild steel": ["vg-0010", "vg-0020", "vg-0103"],
        "On no part": on_none,
    }  # fmt: skip
    assert list(views(one)["hazard"].groups[0].jobs) != []
    by_hazard = {
        group.link.address: {tile.number.lower() for tile in group.jobs}
        for group in views(one)["hazard"].groups
        if group.link
    }
    for hazard_id in shop.hazards:
        wanted = {job.id for job in shop.jobs.values() if hazard_id in hazards_of(shop, job)}
        assert by_hazard[address("hazards", hazard_id)] == wanted
    assert [group.note for group in views(one)["hazard"].groups] == ["WARNING", "CAUTION"]


def test_jobs_by_order_come_after_all_that_they_need(site: Site, mixed: dict[str, str]) -> None:
    one = site(mixed)
    groups = [[tile.number.lower() for tile in group.jobs] for group in views(one)["order"].groups]
    assert groups == [["vg-0010"], ["vg-0020", "vg-0101", "vg-0102"], ["vg-0103"]]


def test_the_pages_of_the_lists_show_every_job(site: Site, mixed: dict[str, str]) -> None:
    one = site(mixed)
    for way in ("part", "material", "hazard", "order"):
        html = one.html(f"jobs-by-{way}.html")
        assert set(tiles(html)) == {f"jobs/{job_id}.html" for job_id in one.loaded.shop.jobs}
        (here,) = [each for each in elements(html, "a") if "aria-current" in each.attributes]
        assert here.attributes["href"] == f"jobs-by-{way}.html"


def test_a_long_list_becomes_lines_and_loses_no_job(site: Site, many_jobs: Many) -> None:
    one = site(many_jobs(20))
    html = one.html("jobs-by-material.html")
    assert tiles(html) == []
    assert {f"jobs/{job_id}.html" for job_id in one.loaded.shop.jobs} <= set(hrefs(html))


def test_a_part_shows_its_route_in_order_with_what_is_handed_on(site: Site) -> None:
    html = site().html("parts/vg-r1.html")
    jobs = [href for href in hrefs(html) if "/jobs/" in href and "#" not in href]
    assert jobs == ["../jobs/vg-0010.html", "../jobs/vg-0020.html"]
    assert words(html).count("Handing on.") == 2
    assert "../materials/mild-steel.html" in hrefs(html)
    assert "2 operations" in words(site().html("parts/index.html"))


def test_a_part_number_of_odd_signs_has_a_page(site: Site, edited: Edited) -> None:
    one = site(edited("parts/vg-r1.yml", "number: VG-R1", "number: 'TRW 204/B <7>'"))
    assert "TRW 204/B &lt;7&gt;" in one.html("parts/vg-r1.html")
    assert "../parts/vg-r1.html" in hrefs(one.html("jobs/vg-0010.html"))


def test_a_number_of_odd_signs_in_a_copy_has_a_page(site: Site, edited: Edited) -> None:
    copy = (
        "part:\n  number: 'TRW 204/B <7>'\n  name: Plate\n  drawing: Sheet 1\n"
        "  material: mild-steel\n  stock: flat bar\n"
    )
    one = site(edited(J1, "part: vg-r1\ntakes: sawn\nleaves: drilled\n", copy))
    assert "TRW 204/B &lt;7&gt;" in one.html("parts/trw-204-b-7.html")
    assert "../parts/trw-204-b-7.html" in hrefs(one.html("jobs/vg-0010.html"))


def test_a_part_page_tells_each_state_and_who_leaves_and_takes_it(site: Site) -> None:
    said = words(site().html("parts/vg-r1.html"))
    assert "Takes Sawn blank. Leaves Drilled plate" in said
    assert "Left by VG-0010, taken by VG-0020" in said


def test_a_job_shows_what_arrives_and_what_leaves(site: Site) -> None:
    first, second = (words(site().html(f"jobs/{one}.html")) for one in ("vg-0010", "vg-0020"))
    drilled = "plate with its guide hole, a burr on both sides"
    assert "Arrives as sawn flat bar, 40 x 6 mm" in first
    assert f"Leaves as {drilled}" in first
    assert f"Arrives as {drilled}" in second


def test_pictures_of_a_part_and_its_states_stand_on_its_page(site: Site, edited: Edited) -> None:
    picture = "picture:\n{0}  file: clamped-plate.svg\n{0}  text: {1}\n"
    whole = f"mass: 0.2 kg\n{picture.format('', 'The rack plate.')}"
    state = "    looks_like: sawn flat bar, 40 x 6 mm\n"
    files = edited(
        "parts/vg-r1.yml", "mass: 0.2 kg\n", whole,
        state, f"{state}    {picture.format('    ', 'The blank.')}",
    )  # fmt: skip
    html = site(files).html("parts/vg-r1.html")
    shown = [one.attributes["alt"] for one in elements(html, "img")]
    assert shown == ["The rack plate.", "The blank."]


def test_a_sentence_can_lead_to_a_part(site: Site, edited: Edited) -> None:
    one = site(edited(J1, "through a rack plate.\nmatters", "through [[part:vg-r1]].\nmatters"))
    html = one.html("jobs/vg-0010.html")
    assert "through VG-R1 Rack plate" in words(html)


def test_a_part_without_jobs_has_a_page(site: Site, base_shop: dict[str, str]) -> None:
    other = base_shop["parts/vg-r1.yml"].replace("vg-r1", "vg-r9").replace("VG-R1", "VG-R9")
    one = site({"parts/vg-r9.yml": other})
    assert "No job works on this part yet." in words(one.html("parts/vg-r9.html"))


def _links_from(one: Planned, kind: str, record_id: str) -> set[str]:
    here = "terms.html" if kind == "terms" else address(kind, record_id)
    return set(hrefs(one.html(here)))


def _uses(one: Planned) -> Iterator[tuple[str, str, str, str, str | None]]:
    shop = one.loaded.shop
    for (kind, record_id), uses in where_used(shop).items():
        for use in uses:
            yield kind, record_id, use.kind, use.id, use.step
    for term_id, uses in term_uses(shop, one.loaded.terms).items():
        for use in uses:
            yield "terms", term_id, use.kind, use.id, use.step


def test_what_uses_a_record_is_on_its_page_and_leads_to_the_step(site: Site) -> None:
    """For jobs the page has other words: what comes before and after, and what needs it."""
    one, count = site(), 0
    for kind, record_id, user, user_id, step in _uses(one):
        if kind == "jobs":
            continue
        here = "terms.html" if kind == "terms" else address(kind, record_id)
        target = relative(address(user, user_id, step), here)
        assert target in _links_from(one, kind, record_id), (kind, record_id, user_id, step)
        count += 1
    assert count > 15


def test_what_a_record_names_is_linked_on_its_own_page(site: Site) -> None:
    """The other way: from the job to its machine, tools, fluid, material and other jobs."""
    one = site()
    shop = one.loaded.shop
    for kind in KINDS:
        for record_id, record in shop.of_kind(kind).items():
            here = "terms.html" if kind == "terms" else address(kind, record_id)
            for _, wanted_kind, wanted_id in references(record):
                if (
                    wanted_kind == "hazards" and kind != "onboarding"
                ):  # shown whole, under a link to its signal word
                    what = shop.hazards[wanted_id].what
                    assert what in words(one.html(here)), (kind, record_id, wanted_id)
                    continue
                target = relative(address(wanted_kind, wanted_id), here)
                assert target in hrefs(one.html(here)), (kind, record_id, wanted_id)


def test_a_use_in_a_step_names_the_step(site: Site) -> None:
    html = site().html("tools/plug-gauge-8.html")
    assert "step 3: Gauge the first hole" in words(html)
    assert "../jobs/vg-0010.html#gauge" in hrefs(html)


def test_a_record_that_nothing_uses_has_no_such_part(site: Site, base_shop: dict[str, str]) -> None:
    spare = base_shop["tools/plug-gauge-8.yml"].replace("plug-gauge-8", "spare")
    html = site({"tools/spare.yml": spare}).html("tools/spare.html")
    assert 'id="used-by"' not in html


def test_the_glossary_lists_every_word_once_under_its_letter(site: Site) -> None:
    html = site().html("terms.html")
    ids = [
        one.attributes["id"] for one in elements(html) if one.attributes.get("class") == "bl-entry"
    ]
    assert ids == ["burr", "quill", "rack-plate"]
    assert [href for href in hrefs(html) if href in ("#burr", "#quill", "#rack-plate")][:3] == [
        "#burr", "#quill", "#rack-plate",
    ]  # fmt: skip
    entry = html[html.index('id="burr"') : html.index('id="quill"')]
    assert 'class="bl-term" href="#burr"' not in entry


def test_the_four_words_are_explained_gravest_first(site: Site) -> None:
    html = site().html("signal-words.html")
    places = [html.index(f'id="{word}"') for word in ("danger", "warning", "caution", "notice")]
    assert places == sorted(places)


def test_an_operation_names_its_jobs_and_every_formula_its_source(site: Site) -> None:
    one = site()
    html = one.html("operations/drilling.html")
    assert "../jobs/vg-0010.html" in hrefs(html)
    assert "../jobs/vg-0020.html" not in hrefs(html)
    text = words(html)
    assert text.count("Source: ") == html.count('class="bl-check"') > 10
    assert 'id="jobs"' not in one.html("operations/tapping.html")


def test_every_page_but_lists_and_terms_ends_with_the_usual_caution(site: Site) -> None:
    one = site()
    folders = ("jobs", "machines", "materials", "tools", "fluids", "hazards", "parts", "charts",
               "operations")  # fmt: skip
    for page in one.pages:
        folder, _, name = page.partition("/")
        if folder in folders and name != "index.html":
            assert one.html(page).rstrip().endswith("</aside>"), page
            assert "The maker's instructions" in one.html(page).replace("&#39;", "'"), page
