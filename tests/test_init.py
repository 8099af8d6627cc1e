"""A manual begun in an empty folder: what is written, asked, refused, and until when a draft."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
import yaml

from benchleaf import pipeline
from benchleaf.cli import main
from benchleaf.commands.first_files import First, first_files
from benchleaf.commands.init import QUESTIONS, begin
from benchleaf.commands.tidy import tidy
from benchleaf.html.values import PlannedPage
from benchleaf.model import OPEN_MARK, StationKind, drafts, is_complete
from benchleaf.write import write_new

Captured = pytest.CaptureFixture[str]
FIRST = First("Lower Fen", "metric", "a4", "Bench drill", "J-0010", "Drill the pivot hole")


@pytest.fixture
def begun(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder in which somebody has just begun, the answers given as options."""
    monkeypatch.chdir(tmp_path)
    options = [f"--{one.key}={getattr(FIRST, one.key)}" for one in QUESTIONS]
    assert main(["init", "--no-build", *options]) == 0
    return tmp_path


def listing(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*"))


def pages(content: Path) -> tuple[PlannedPage, ...]:
    return pipeline.plan_site(pipeline.load(content), edition="full").pages


def write_all_of(content: Path, *names: str) -> None:
    """Take every open mark out of some files, and what they list as still open."""
    for name in names:
        path = content / name
        text = path.read_text(encoding="utf-8").replace(OPEN_MARK, "Press and")
        path.write_text(text.partition("still_open:")[0], encoding="utf-8")


MANUAL, PREFACE = "manual.yml", "pages/safety.md"
STATION, JOB = "machines/bench-drill.yml", "jobs/j-0010.yml"


# What is written


def test_the_check_finds_nothing_but_what_is_open(begun: Path, capsys: Captured) -> None:
    assert main(["check", "content"]) == 0
    found = pipeline.check(begun / "content")
    assert {one.code for one in found} == {"V901"}
    files = {one.place.file.removeprefix("content/") for one in found}
    assert files == {MANUAL, PREFACE, STATION, JOB}


def test_every_open_mark_and_every_listed_line_is_found_once(begun: Path) -> None:
    texts = [path.read_text(encoding="utf-8") for path in (begun / "content").rglob("*.*")]
    lines = [line for text in texts for line in text.split("\n") if not line.startswith("# Write")]
    marked = [line for line in lines if OPEN_MARK in line]
    listed = [line for text in texts for line in text.partition("still_open:")[2].split("\n")]
    assert len(pipeline.check(begun / "content")) == len(marked) + len(list(filter(None, listed)))


def test_the_files_are_in_order(begun: Path) -> None:
    assert tidy(begun / "content", only_look=True) == ((), ())


def test_settings_schemas_and_checks_are_there(begun: Path) -> None:
    there = listing(begun)
    assert {"mkdocs.yml", ".gitattributes", ".gitignore", "requirements.txt"} <= set(there)
    assert {".vscode/settings.json", ".idea/jsonSchemas.xml", ".schemas/job.schema.json"} <= set(
        there
    )
    names = (".github/workflows/manual.yml", ".gitlab-ci.yml")
    checks = [yaml.safe_load((begun / name).read_text(encoding="utf-8")) for name in names]
    for one in checks:
        assert "benchleaf check" in str(one)
        assert "mkdocs build" in str(one)


NUMBER = re.compile(r"\d")


@pytest.mark.parametrize("units", ["metric", "inch"])
def test_no_number_stands_outside_a_comment(units: str) -> None:
    """But for ids, and the tally of registers that hold nothing yet."""
    texts = first_files(replace(FIRST, units=units), "0.1.0")
    content = {name: text for name, text in texts.items() if name.startswith("content/")}
    for name, text in content.items():
        live = [line for line in text.split("\n") if not line.lstrip().startswith("#")]
        nothing = ("addresses: {count: 0,", "revisions: {count: 0,", "history: {count: 0,")
        allowed = ("id: ", "  - id: ", "paper: a4", *nothing)
        assert [one for one in live if NUMBER.search(one) and not one.startswith(allowed)] == [], (
            name
        )


def test_the_examples_of_an_inch_shop_are_in_its_units() -> None:
    texts = first_files(replace(FIRST, units="inch"), "0.1.0")
    examples = "\n".join(
        line
        for name, text in texts.items()
        if name.startswith("content/")
        for line in text.split("\n")
        if line.startswith("# ")
    )
    assert re.findall(r"\d (?:mm|kN|kW|kPa|m/min)\b", examples) == []
    assert len(re.findall(r"\d (?:in|in/rev|lbf|hp|psi)\b", examples)) > 10


@pytest.mark.parametrize(
    "name", ["A: b", "#1 Works", '"Q" & \\ Co', "[x]", "100", "yes", "Straße 7"]
)
def test_any_name_is_read_back_as_it_was_given(tmp_path: Path, name: str) -> None:
    begin(tmp_path, replace(FIRST, shop=name, station=name, title=f"Drill {name}"))
    shop = pipeline.load(tmp_path / "content").shop
    assert shop.manual.shop == name
    assert [one.name for one in shop.machines.values()] == [name]
    assert shop.jobs["j-0010"].title == f"Drill {name}"
    settings = (tmp_path / "mkdocs.yml").read_text(encoding="utf-8").partition("plugins:")[0]
    assert yaml.safe_load(settings)["site_name"] == f"Training manual of {name}"


# What is asked


def test_a_terminal_is_asked_until_the_answer_can_be_used(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    answers = iter(["Fen", "feet", "inch", "", "Bench 2", "sofa", "bench", "a b", "J-7", ""])
    monkeypatch.setattr("sys.stdin.isatty", lambda: True, raising=False)
    monkeypatch.setattr("builtins.input", lambda _: next(answers))
    assert main(["init", str(tmp_path), "--no-build"]) == 0
    printed = capsys.readouterr().out
    assert "write metric or inch" in printed
    assert "single hyphens between" in printed
    shop = pipeline.load(tmp_path / "content").shop
    assert (shop.manual.shop, shop.manual.paper.value) == ("Fen", "letter")
    assert list(shop.machines) == ["bench-2"]
    assert shop.machines["bench-2"].kind is StationKind.BENCH
    preface = (tmp_path / "content/pages/safety.md").read_text(encoding="utf-8")
    assert "start a machine" not in preface
    assert "what pushes, heats or shines there" in preface
    assert shop.jobs["j-7"].title.startswith(OPEN_MARK)


def test_who_stops_leaves_nothing_behind(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    def stop(_: str) -> str:
        raise EOFError

    monkeypatch.setattr("sys.stdin.isatty", lambda: True, raising=False)
    monkeypatch.setattr("builtins.input", stop)
    assert main(["init", str(tmp_path)]) == 2
    assert "nothing is written" in capsys.readouterr().err
    assert listing(tmp_path) == []


def test_where_nobody_can_be_asked_the_options_are_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    monkeypatch.setattr("sys.stdin.isatty", lambda: False, raising=False)
    assert main(["init", str(tmp_path), "--shop", "Fen"]) == 2
    told = capsys.readouterr().err
    assert "give --units, --paper, --station, --kind, --job, --title" in told
    assert "--yes" in told
    assert listing(tmp_path) == []


@pytest.mark.parametrize(
    ("option", "value", "said"),
    [
        ("--units", "feet", "write metric or inch"),
        ("--paper", "a5", "write a4 or letter"),
        ("--job", "J 10", "single hyphens between"),
        ("--shop", " - ", "a letter or digit at least"),
    ],
)
def test_a_wrong_option_is_told(
    tmp_path: Path, capsys: Captured, option: str, value: str, said: str
) -> None:
    assert main(["init", str(tmp_path), "--yes", option, value]) == 2
    assert said in capsys.readouterr().err
    assert listing(tmp_path) == []


# What is refused


def test_a_folder_that_is_not_empty_is_refused(tmp_path: Path, capsys: Captured) -> None:
    (tmp_path / "notes.txt").write_text("mine")
    (tmp_path / "content").mkdir()
    before = listing(tmp_path)
    assert main(["init", str(tmp_path), "--yes"]) == 2
    told = capsys.readouterr().err
    assert "content/, notes.txt" in told
    assert "nothing is written" in told
    assert listing(tmp_path) == before


def test_what_is_no_part_of_a_manual_is_in_nobodys_way(tmp_path: Path) -> None:
    for name in (".git", "wheels", "env"):
        (tmp_path / name).mkdir()
    (tmp_path / "env/pyvenv.cfg").write_text("")
    assert main(["init", str(tmp_path), "--yes", "--no-build"]) == 0


def test_all_files_are_written_or_none(tmp_path: Path) -> None:
    (tmp_path / "there").write_text("mine")
    with pytest.raises(OSError, match="there"):
        write_new({tmp_path / "new/a": "a", tmp_path / "there": "b"})
    assert listing(tmp_path) == ["there"]
    assert (tmp_path / "there").read_text() == "mine"


# When it is no draft


def test_every_page_of_a_new_manual_is_a_draft(begun: Path) -> None:
    content = begun / "content"
    assert [one.address for one in pages(content) if not one.is_draft] == []
    assert pipeline.site_facts(pipeline.load(content)).is_draft


ORDERS = [
    (MANUAL, PREFACE, STATION, JOB),
    (JOB, STATION, PREFACE, MANUAL),
    (STATION, MANUAL, JOB, PREFACE),
]


@pytest.mark.parametrize("order", ORDERS, ids=lambda order: str(order[-1]))
def test_it_stays_one_until_the_last_file_is_written(begun: Path, order: tuple[str, ...]) -> None:
    content = begun / "content"
    for name in order:
        shop = pipeline.load(content).shop
        assert drafts(shop).whole, name
        assert not is_complete(shop, "j-0010")
        write_all_of(content, name)
    loaded = pipeline.load(content)
    assert [one.code for one in loaded.findings if one.blocks_publishing] == ["A605"]
    assert is_complete(loaded.shop, "j-0010")
    assert {one.is_draft for one in pages(content)} == {False}


def test_the_first_release_gives_the_first_revision(
    begun: Path, capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    content = begun / "content"
    assert main(["release"]) == 0  # a job that is not written to its end gets no number
    assert "j-0010" in pipeline.load(content).shop.drafts
    write_all_of(content, *ORDERS[0])
    assert main(["new", "notice", "first"]) == 0
    (notice,) = (content / "notices").glob("*.yml")
    text = notice.read_text(encoding="utf-8")
    assert "[J-0010]" in text
    text = text.replace("note:", "note: First issue.").replace("by:", "by: foreman")
    notice.write_text(text, encoding="utf-8")
    assert main(["check"]) == 0, capsys.readouterr().out
    assert main(["release"]) == 0
    loaded = pipeline.load(content)
    assert loaded.shop.jobs["j-0010"].revision == "1"
    assert not loaded.shop.drafts
    assert pipeline.not_released(loaded) == ()


@pytest.fixture
def open_job(shop: Callable[..., Path], base_shop: dict[str, str]) -> Path:
    """The small shop, in which one of two jobs has something open."""
    text = base_shop["jobs/vg-0020.yml"]
    return shop({"jobs/vg-0020.yml": f"{text}still_open:\n  - Its hazards.\n"})


def test_one_open_job_makes_no_draft_of_the_others(open_job: Path) -> None:
    found = drafts(pipeline.load(open_job).shop)
    assert (found.whole, found.is_complete("vg-0010")) == (False, True)
    marked = {one.address for one in pages(open_job) if one.is_draft}
    assert "jobs/vg-0020.html" in marked
    assert [one for one in marked if "vg-0020" not in one] == []
    assert len(marked) > 3  # its sheets, too


@pytest.mark.parametrize("kind", ["machines", "materials", "tools", "fluids", "hazards"])
def test_an_open_record_makes_drafts_of_the_jobs_that_use_it(
    shop: Callable[..., Path], base_shop: dict[str, str], kind: str
) -> None:
    name = next(one for one in base_shop if one.startswith(kind))
    content = shop({name: f"{base_shop[name]}still_open:\n  - Something.\n"})
    found = drafts(pipeline.load(content).shop)
    assert not found.is_complete("vg-0010")
    assert name.removesuffix(".yml") in {f"{one}/{at}" for one, at in found.records}


def test_a_word_of_the_trade_can_wait(shop: Callable[..., Path], base_shop: dict[str, str]) -> None:
    text = base_shop["terms.yml"]
    meaning = next(line for line in text.split("\n") if "meaning: " in line)
    content = shop({"terms.yml": text.replace(meaning, f"    meaning: {OPEN_MARK}")})
    loaded = pipeline.load(content)
    assert drafts(loaded.shop).is_complete("vg-0010")
    assert "V901" in {one.code for one in loaded.findings}
