"""Two shops without a drive at every place: benches that put valves together, and a press line."""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml
from jsonschema import Draft202012Validator

from benchleaf import pipeline
from benchleaf.commands.new import new_record
from benchleaf.compute import set_up_sheets
from benchleaf.diagnose import Finding
from benchleaf.meaning import statements
from benchleaf.model import Machine, StationKind, hazards_met, workplace
from benchleaf.model.schema import json_schema
from benchleaf.pipeline import Loaded

HERE = Path(__file__).parent
Edit = Callable[..., Path]


@pytest.fixture
def content(tmp_path: Path) -> Edit:
    """`content("press", "jobs/hc-0020.yml", "old", "new")` is that shop, with one change."""

    def copy(shop: str, name: str = "", old: str = "", new: str = "") -> Path:
        folder = tmp_path / shop / "content"
        if not folder.exists():
            shutil.copytree(HERE / shop / "content", folder)
        if name:
            text = (folder / name).read_text(encoding="utf-8")
            assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {name}"
            (folder / name).write_text(text.replace(old, new), encoding="utf-8")
        return folder

    return copy


def page(loaded: Loaded, address: str, edition: str = "kiosk") -> str:
    plan = pipeline.plan_site(loaded, edition=edition)
    return next(one for one in plan.pages if one.address == address).render().html


def words(html: str) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", html))


def codes(findings: tuple[Finding, ...]) -> set[str]:
    return {one.code for one in findings if not one.code.startswith("A")}


@pytest.mark.parametrize("shop", ["bench", "press"])
def test_each_shop_is_sound_without_a_word_it_does_not_mean(shop: str, content: Edit) -> None:
    assert codes(pipeline.check(content(shop))) == set()


@pytest.mark.parametrize(
    ("shop", "address"),
    [
        ("bench", "jobs/nv-0010.html"),
        ("bench", "jobs/nv-0020.html"),
        ("bench", "machines/bench-2.html"),
        ("bench", "machines/table-1.html"),
        ("press", "jobs/hc-0010.html"),
        ("press", "machines/press-1.html"),
    ],
)
def test_no_stop_is_shown_where_there_is_none_and_help_is(
    shop: str, address: str, content: Edit
) -> None:
    loaded = pipeline.load(content(shop))
    text = words(page(loaded, address))
    for never in ("Emergency stop", "Isolate", "None", "machine "):
        assert never not in text.replace("machine maker", "")
    assert loaded.shop.manual.emergency in text
    assert loaded.shop.manual.call in text
    assert 'id="machine-controls"' in page(loaded, address) or address.startswith("machines/")


@pytest.mark.parametrize("sheet", ["breakdown", "card", "get-ready", "set-up", "try-out"])
def test_no_sheet_of_a_bench_speaks_of_a_stop(sheet: str, content: Edit) -> None:
    loaded = pipeline.load(content("bench"))
    text = words(page(loaded, f"trainer/nv-0010-{sheet}.html", "full"))
    for never in ("reach of the stop", "Emergency stop", "Stop:", "Machine"):
        assert never not in text
    if sheet == "breakdown":
        assert "Station Bench 2" in text
        assert "Say beforehand that one thing will be wrong" in text
    if sheet == "card":
        assert f"Emergency: {loaded.shop.manual.emergency}" in text


def test_a_machine_keeps_the_reach_of_the_stop(content: Edit) -> None:
    planted = "    set_up: pin-hole\n    planted:\n      what: A loose vice.\n"
    planted += "      put_right: Tighten it.\n"
    loaded = pipeline.load(content("press", "jobs/hc-0020.yml", "    set_up: pin-hole\n", planted))
    assert "reach of the stop" in words(page(loaded, "trainer/hc-0020-breakdown.html", "full"))


def test_where_air_is_cut_off_is_shown(content: Edit) -> None:
    loaded = pipeline.load(content("bench"))
    for address in ("jobs/nv-0010.html", "machines/bench-2.html"):
        assert "Cut off air or current The blue valve" in words(page(loaded, address))


def test_the_home_page_speaks_of_stations_only_where_some_are(content: Edit) -> None:
    assert "Which station do you stand at?" in page(pipeline.load(content("bench")), "index.html")
    only = content("press")
    for name in ("machines/press-1", "machines/cell-a", "jobs/hc-0010", "jobs/hc-0020"):
        (only / f"{name}.yml").unlink()
    assert "Which machine do you stand at?" in page(pipeline.load(only), "index.html")


def test_the_home_page_groups_jobs_by_station(content: Edit) -> None:
    """By a count; the jobs stand on the station's own page, before all else."""
    loaded = pipeline.load(content("press"))
    text = words(page(loaded, "index.html")).partition("Find a job")[0]
    assert (
        "Hinge cell Bay 3 1 job Hand press Beside the drill 2 jobs Twin drill Bay 3 1 job" in text
    )
    stations = {"cell-a": "at this cell", "press-1": "at this hand press",
                "twin-drill": "on this machine"}  # fmt: skip
    parts = [
        re.split(f"Jobs {where} |Start, stop|In an emergency", words(page(loaded, address)))[1]
        for address, where in ((f"machines/{one}.html", at) for one, at in stations.items())
    ]
    found = [re.findall(r"HC-\d{4}", one) for one in parts]
    assert found == [["HC-0020"], ["HC-0010", "HC-0020"], ["HC-0020"]]


def test_search_calls_a_bench_no_machine(content: Edit) -> None:
    plan = pipeline.plan_site(pipeline.load(content("press")))
    found = {
        one.address: one.render().entries[0].kind.value
        for one in plan.pages
        if one.address.startswith("machines/") and not one.address.endswith("index.html")
    }
    assert found == {
        "machines/cell-a.html": "Station",
        "machines/press-1.html": "Station",
        "machines/twin-drill.html": "Machine",
    }


# Keys of each kind


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("kind: hand press\n", "", "the machine has no 'controls'"),
        ("kind: hand press\n", "kind: cell\n", "the machine has no 'stations'"),
        ("kind: hand press\n", "kind: bench\n",
         "'rated_force' is no key of a station of kind 'bench'"),
        ("rated_force: 10 kN\n", "chuck: 1 to 13 mm\n",
         "'chuck' is no key of a station of kind 'hand press'"),
        ("rated_force: 10 kN\n", "spindle_speeds: [400 rpm]\n",
         "'spindle_speeds' is no key of a station of kind 'hand press'"),
        ("rated_force: 10 kN\n",
         "controls: {start: Green., stop: Red., emergency_stop: Mushroom., isolation: Handle.}\n",
         "'controls' is no key of a station of kind 'hand press'"),
        ("kind: hand press\n", "kind: sofa\n", "'sofa' is not allowed for 'kind'"),
    ],
)  # fmt: skip
def test_a_kind_asks_only_for_what_it_has(old: str, new: str, said: str, content: Edit) -> None:
    findings = pipeline.check(content("press", "machines/press-1.yml", old, new))
    assert said in [one.text for one in findings]


def test_what_a_spindle_has_of_its_own_is_not_said_of_all(content: Edit) -> None:
    old = "motor_power: 1.5 kW"
    findings = pipeline.check(
        content("press", "machines/twin-drill.yml", old, f"{old}\nquill_travel: 60 mm")
    )
    (one,) = (one for one in findings if one.code == "F201")
    assert one.help == ("write 'quill_travel' under 'spindles', for each spindle its own",)


@pytest.mark.parametrize("kind", [StationKind.MACHINE, StationKind.SPINDLES])
def test_one_mistake_of_a_kind_hides_no_other(kind: StationKind, content: Edit) -> None:
    folder = content("press", "machines/press-1.yml", "kind: hand press", f"kind: {kind}")
    texts = [one.text for one in pipeline.check(folder)]
    assert "the machine has no 'controls'" in texts
    assert any("'rated_force' is no key" in one for one in texts)


@pytest.mark.parametrize(
    ("name", "more", "is_sound"),
    [
        ("press-1", {}, True),
        ("twin-drill", {}, True),
        ("cell-a", {}, True),
        ("press-1", {"kind": "machine"}, False),
        ("press-1", {"kind": "bench"}, False),
        ("press-1", {"chuck": "1 to 13 mm"}, False),
        ("twin-drill", {"kind": "machine"}, False),
        ("cell-a", {"stations": []}, True),  # an empty list is told by the check
    ],
)
def test_editors_know_what_each_kind_has(
    name: str, more: dict[str, object], is_sound: bool, content: Edit
) -> None:
    text = (content("press") / f"machines/{name}.yml").read_text(encoding="utf-8")
    record = {**yaml.load(text, yaml.BaseLoader), **more}
    assert Draft202012Validator(json_schema(Machine)).is_valid(record) is is_sound


# Rules that look at the kind


@pytest.mark.parametrize(
    ("shop", "name", "old", "new", "code", "is_found"),
    [
        # gloves: worn at a bench, not at a spindle of a cell
        ("bench", "jobs/nv-0010.yml", "thin gloves", "gloves", "V510", False),
        ("press", "jobs/hc-0020.yml", "  - Gloves, rings", "  - Rings", "V510", True),
        # the stop first: where something runs on
        ("bench", "jobs/nv-0010.yml", "Stop, and call", "Stop and call", "V512", False),
        ("press", "jobs/hc-0020.yml", "      - Press stop and wait",
         "      - Call the lead.\n      - Press stop and wait", "V512", True),
        # a step says where, and a cell has only its own
        ("press", "jobs/hc-0020.yml", "  - id: press\n", "  - id: press\n    station: press-1\n",
         "V605", False),
        ("press", "jobs/hc-0020.yml", "  - id: press\n", "  - id: press\n    station: cell-a\n",
         "V605", True),
        ("press", "jobs/hc-0020.yml", "  - id: drill\n", "  - id: drill\n    station: press-1\n",
         "V605", True),
        ("press", "jobs/hc-0010.yml", "  - id: press\n", "  - id: press\n    station: press-1\n",
         "V605", True),
        # a hand at the work under a ram
        ("press", "jobs/hc-0010.yml", "Let go of the pin before you pull the lever",
         "Hold the pin with two fingers until the ram touches it", "V508", True),
        ("press", "jobs/hc-0010.yml", "Let go of the pin before you pull the lever",
         "Keep your fingers out from under the ram", "V508", False),
        ("press", "jobs/hc-0010.yml", "Let go of the pin before you pull the lever",
         "Hold the lever with both hands until the ram is up", "V508", False),
        # the key of a chuck
        ("press", "jobs/hc-0020.yml", "Hang the chuck key on its hook before", "Stand well before",
         "V503", True),
        # a set-up says where
        ("press", "jobs/hc-0020.yml", "    spindle: left\n", "", "V605", True),
        ("press", "jobs/hc-0020.yml", "    station: twin-drill\n", "", "V605", True),
        ("press", "jobs/hc-0020.yml", "station: twin-drill", "station: press-1", "V605", True),
        ("press", "jobs/hc-0020.yml", "spindle: left", "spindle: middle", "V605", True),
        # a tool in the chuck of the spindle that is named
        ("press", "jobs/hc-0020.yml", "spindle: left", "spindle: right", "S503", True),
    ],
)  # fmt: skip
def test_rules_look_at_the_kind(
    shop: str, name: str, old: str, new: str, code: str, is_found: bool, content: Edit
) -> None:
    assert (code in codes(pipeline.check(content(shop, name, old, new)))) is is_found


def test_a_set_up_with_no_spindle_named_makes_no_figure_up(content: Edit) -> None:
    loaded = pipeline.load(content("press", "jobs/hc-0020.yml", "    spindle: left\n", ""))
    assert set_up_sheets(loaded.shop, loaded.shop.jobs["hc-0020"]) == ()


def test_each_spindle_counts_by_its_own_limits(content: Edit) -> None:
    loaded = pipeline.load(content("press"))
    (left,) = set_up_sheets(loaded.shop, loaded.shop.jobs["hc-0020"])
    loaded = pipeline.load(content("press", "jobs/hc-0020.yml", "spindle: left", "spindle: right"))
    (right,) = set_up_sheets(loaded.shop, loaded.shop.jobs["hc-0020"])
    assert left.may_run
    assert {one.code for one in right.stops} >= {"S501", "S503", "S508"}
    assert any("Twin drill, Right spindle" in one.reason for one in right.stops)


def test_the_page_says_at_which_spindle_the_figures_are_true(content: Edit) -> None:
    loaded = pipeline.load(content("press"))
    assert "At: Twin drill, Left spindle" in words(page(loaded, "jobs/hc-0020.html"))
    for sheet in ("set-up", "card"):
        text = words(page(loaded, f"trainer/hc-0020-{sheet}.html", "full"))
        assert "Twin drill, Left spindle" in text


# A cell


@pytest.mark.parametrize("kind", ["hand press", "inspection table"])
def test_a_new_place_has_no_example_of_a_bench(kind: str, content: Edit) -> None:
    folder = content("press")
    new_record("station", "new-1", folder, station=StationKind(kind))
    text = (folder / "machines/new-1.yml").read_text(encoding="utf-8")
    assert (
        re.findall(
            r".*(?:vice|jaws|spindle|[Bb]ench[ -]).*", text.partition("## What it is and")[2]
        )
        == []
    )


def test_a_step_at_a_cell_says_at_which_station(content: Edit) -> None:
    folder = content(
        "press", "jobs/hc-0020.yml", "  - id: press\n", "  - id: press\n    station: press-1\n"
    )
    steps = page(pipeline.load(folder), "jobs/hc-0020.html").split('<section class="bl-step"')[1:]
    at = [re.findall(r"At: <b>(.*?)</b>", one) for one in steps]
    assert [one[:1] for one in at] == [[], ["Twin drill, Left spindle"], ["Hand press"]]


def test_a_cell_has_the_hazards_and_the_stops_of_its_stations(content: Edit) -> None:
    loaded = pipeline.load(content("press"))
    job = loaded.shop.jobs["hc-0020"]
    bare = job.model_copy(update={"steps": (job.steps[0].model_copy(update={"hazards": ()}),)})
    assert set(hazards_met(bare, workplace(loaded.shop, bare))) == {"ram-crushes", "work-turns"}
    text = words(page(loaded, "jobs/hc-0020.html"))
    assert "Emergency stop, Twin drill The red mushroom" in text
    assert "The ram comes down" in words(page(loaded, "machines/cell-a.html"))


def test_what_a_station_of_a_cell_teaches_belongs_to_the_job(content: Edit) -> None:
    loaded = pipeline.load(content("press"))
    job = loaded.shop.jobs["hc-0020"]
    found = {one.subject for one in statements(loaded.shop, job, set_up_sheets(loaded.shop, job))}
    assert "machines/twin-drill/controls/emergency_stop" in found
    assert any(one.startswith("machines/press-1/guards") for one in found)


def test_a_machine_that_says_its_kind_means_the_same(content: Edit) -> None:
    """What was published before kinds were told must not move."""
    text = "id: press-1\nname: P\nwhat: P.\nwhere: Bay\n{}controls:\n  start: Green.\n"
    text += "  stop: Red.\n  emergency_stop: Mushroom.\n  isolation: Handle.\n"
    prints = []
    for kind in ("", "kind: machine\n"):
        folder = content("press")
        (folder / "machines/press-1.yml").write_text(text.format(kind), encoding="utf-8")
        prints.append(pipeline.load(folder).fingerprints["hc-0010"])
    assert prints[0] == prints[1]
