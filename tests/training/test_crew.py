"""The crew folder: what it may hold, what it says of mistakes, and that a kiosk never opens it."""

from __future__ import annotations

import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

import read_once
from benchleaf import pipeline
from benchleaf.diagnose import Finding, report
from benchleaf.people import crews

ROOT = Path(__file__).parents[2]
GRANTED = "authorities:\n  - {{{}, given: 2026-01-05, until: 2027-01-04, proof: a list}}\n"
CREW = ROOT / "tests" / "crew"


@pytest.fixture
def crew(shop: Callable[..., Path]) -> Path:
    """The small crew, beside the small shop."""
    return Path(shutil.copytree(CREW, shop().with_name("crew")))


def found(crew: Path, name: str, old: str, new: str) -> tuple[Finding, ...]:
    path = crew / name
    text = path.read_text(encoding="utf-8")
    assert text.count(old) == 1
    path.write_text(text.replace(old, new), encoding="utf-8")
    return load(crew).findings


def load(crew: Path) -> crews.LoadedCrew:
    content = crew.with_name("content")
    return crews.load_crew(crew, pipeline.load(content).shop, content)


def test_the_small_crew_and_the_demo_crew_have_no_problem(crew: Path) -> None:
    assert load(crew).findings == ()
    shop = read_once.demo().shop
    demo = crews.load_crew(ROOT / ".demo-crew", shop, ROOT / "content")
    assert report(demo.findings) == ""
    assert demo.crew is not None
    assert len(demo.crew.people) > 4


@pytest.mark.parametrize(
    ("name", "old", "new", "said"),
    [
        ("people/op-01.yml", "job: VG-0020", "job: VG-0021",
         ("people/op-01.yml:10:10: error L301 there is no 'vg-0021'", "did you mean 'vg-0020'?")),
        ("crew.yml", "job: VG-0010", "job: VG-0011",
         ("crew.yml:8:10: error L301", "did you mean 'vg-0010'?")),
        ("people/op-01.yml", "shift: early", "shift: erly",
         ("people/op-01.yml:2:8: error L301 there is no shift 'erly'", "did you mean 'early'?")),
        ("people/op-01.yml", "id: op-01", "id: anna-smith",
         ("people/op-01.yml:1:5: error F208 'anna-smith' is no staff code", "never a name")),
        ("people/op-02.yml", "round: 1", "round: 5",
         ("people/op-02.yml:5:12: error F208 '5' is too large", "it is at most 4")),
        ("people/op-02.yml", "time: 5 min", "time: 5 mins",
         ("people/op-02.yml:8:26: error F206",)),
        ("people/op-02.yml", "time: 5 min", "time: 0 min",
         ("people/op-02.yml:8:26: error F205 '0 min' is zero",)),
        ("crew.yml", 'starts: "06:00"', "starts: six",
         ("crew.yml:5:13: error F208 'six' is no time of day", "like 06:00")),
        ("people/op-01.yml", "last_done:", "lastdone:",
         ("people/op-01.yml:8:5: error F201", "did you mean 'last_done'?")),
        ("people/op-01.yml", "judged_by: tr-01", "judged_by: tr-01\n    fingerprint: xyz",
         ("error F208 'xyz' is no fingerprint",)),
        ("people/op-01.yml", "must_be_able:", GRANTED.format("may: run") + "must_be_able:",
         ("error F204 'run' is not allowed for 'may'", "that under 'can_do'",
          "allowed: judge, lock off, set, teach")),
        ("people/op-01.yml", "must_be_able:", GRANTED.format("may: set, licence: forklift")
         + "must_be_able:", ("people/op-01.yml:10:11: error F208 an authority says what",)),
        ("people/op-01.yml", "must_be_able:", GRANTED.format("may: set, stations: [bench-dril]")
         + "must_be_able:", ("error L301 there is no 'bench-dril'", "did you mean 'bench-drill'?")),
        ("people/op-01.yml", "must_be_able:", GRANTED.format("may: set").replace("2027", "2025")
         + "must_be_able:", ("error F208 the authority ends before it begins",)),
    ],
)  # fmt: skip
def test_a_mistake_is_told_with_its_place_and_cure(
    crew: Path, name: str, old: str, new: str, said: tuple[str, ...]
) -> None:
    told = report(found(crew, name, old, new))
    assert all(one in told for one in said), told


def test_a_code_and_a_shift_are_used_once(crew: Path) -> None:
    shutil.copy(crew / "people/op-01.yml", crew / "people/op-09.yml")
    text = (crew / "crew.yml").read_text(encoding="utf-8")
    again = '  - id: early\n    name: Again\n    starts: "07:00"\n    hours: 8 h\ncover:'
    (crew / "crew.yml").write_text(text.replace("cover:", again), encoding="utf-8")
    told = report(load(crew).findings)
    assert "L303 the staff code 'op-01' is used twice" in told
    assert "L303 the shift 'early' is there twice" in told


def test_a_file_named_otherwise_than_its_code_is_told(crew: Path) -> None:
    (crew / "people/op-01.yml").rename(crew / "people/op-09.yml")
    assert [one.code for one in load(crew).findings] == ["F210"]


def test_with_errors_there_is_no_crew_to_plan_with(crew: Path) -> None:
    assert load(crew).crew is not None
    (crew / "crew.yml").unlink()
    assert load(crew).crew is None


def test_a_crew_folder_that_is_not_there_is_told(crew: Path) -> None:
    shutil.rmtree(crew)
    assert "R101 there is no such crew folder" in report(load(crew).findings)


def test_a_crew_inside_the_content_folder_is_refused(crew: Path) -> None:
    content = crew.with_name("content")
    inside = Path(shutil.move(crew, content / "pages" / "crew"))
    loaded = crews.load_crew(inside, pipeline.load(content).shop, content)
    assert [one.code for one in loaded.findings] == ["C704"]
    assert loaded.crew is None


MKDOCS_YML = """\
site_name: test
docs_dir: content/pages
use_directory_urls: false
theme: {name: material, font: false}
plugins:
  - benchleaf: {crew_dir: crew, edition: EDITION}
  - search
  - offline
"""
WATCHED = """\
import sys
opened = set()
def watch(event, given):
    if event in ("open", "os.listdir", "os.scandir", "os.chdir") and given:
        name = str(given[0])
        if FOLDER in name:
            opened.add(name)
sys.addaudithook(watch)
from mkdocs.__main__ import cli
try:
    cli(["build", "--quiet"])
finally:
    print("OPENED", sorted(opened))
"""
"""A build that notes every file and folder that is opened below one folder."""


def build(crew: Path, edition: str) -> str:
    project = crew.parent
    (project / "content/pages").mkdir(exist_ok=True)
    settings = MKDOCS_YML.replace("EDITION", edition)
    (project / "mkdocs.yml").write_text(settings, encoding="utf-8")
    watched = WATCHED.replace("FOLDER", repr(str(crew)))
    ran = subprocess.run(
        [sys.executable, "-c", watched],
        cwd=project, capture_output=True, text=True, check=False, timeout=120,
    )  # fmt: skip
    assert ran.returncode == 0, ran.stdout + ran.stderr
    return ran.stdout.rpartition("OPENED ")[2].strip()


def test_the_kiosk_edition_never_opens_the_crew_folder(crew: Path) -> None:
    assert build(crew, "kiosk") == "[]"
    built = [path for path in (crew.parent / "site").rglob("*") if path.is_file()]
    assert len(built) > 20
    holding = [path for path in built if b"op-01" in path.read_bytes()]
    assert holding == []


def test_the_full_edition_does_open_it(crew: Path) -> None:
    assert "op-01.yml" in build(crew, "full")
