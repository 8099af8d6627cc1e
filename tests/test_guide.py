"""The guide: its pages in the full edition alone, plain sentences, and examples that run."""

from __future__ import annotations

import doctest
import re
import shlex
import shutil
import subprocess
import sys
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from benchleaf import link, pipeline
from benchleaf.cli import main
from benchleaf.diagnose import CODES
from benchleaf.html.values import Found
from benchleaf.model import OPEN_MARK
from benchleaf.model.shop import Kiosk
from benchleaf.validate.rules.sentence_length import (
    DESCRIPTION_WORDS,
    PROCEDURE_WORDS,
    sentences,
    words_in,
)
from guide_texts import GUIDE, PAGES, README, ROOT, Example, blocks, examples, paragraphs, prose

Shop = Callable[..., Path]
EXAMPLES = [one for path in (README, *PAGES) for one in examples(path)]
MAY_EXIT_1 = ("timetable",)
"""Commands whose page says that they exit 1 for what they tell about the demo."""


IN_THE_SMALL_SHOP = {"TR-0110": "VG-0010", "TR-0220": "VG-0020", "op-03": "op-01"}
"""The examples speak of the demo. They run in the small shop, where each takes a tenth of the time,
so the names of the demo are put into what they print."""


WATCHED = "element;operator a;key point\nClamp the plate;12 11;Push it to the stop.\n"
"""What a tablet saved, for the example that takes it in."""


@pytest.fixture
def workshop(small_shop_released: Callable[[Path], Path], tmp_path: Path) -> Path:
    """The small shop's content, the crew that the examples name, and the demo's settings."""
    folder = small_shop_released(tmp_path).parent
    shutil.copytree(ROOT / "tests" / "crew", folder / ".demo-crew")
    shutil.copy(ROOT / "mkdocs.yml", folder)
    (folder / "tr-0600-watching.csv").write_text(WATCHED, encoding="utf-8")
    return folder


def renamed(text: str, names: Mapping[str, str]) -> str:
    """The text with other names in it, in capitals and not."""
    for old, new in names.items():
        text = text.replace(old, new).replace(old.lower(), new.lower())
    return text


def by_shell(command: str, folder: Path) -> tuple[str, int]:
    """What a command prints, and its exit code, in the environment that the tests run in."""
    path = f"{Path(sys.executable).parent}:/usr/bin:/bin"
    ran = subprocess.run(
        ["/bin/sh", "-c", command], cwd=folder, env={"PATH": path, "LANG": "C.UTF-8"},
        capture_output=True, text=True, timeout=120, check=False,
    )  # fmt: skip
    return ran.stdout + ran.stderr * (ran.returncode != 0), ran.returncode


def ran(command: str, folder: Path, capsys: pytest.CaptureFixture[str]) -> tuple[str, int]:
    """The same; our own command is run in this process, since starting it takes most of its time.

    `--help` leaves by an exception, as argparse does it.
    """
    if not command.startswith("benchleaf "):
        return by_shell(command, folder)
    try:
        code = main(shlex.split(command)[1:])
    except SystemExit as left:
        code = int(left.code or 0)
    printed = capsys.readouterr()
    return (printed.out + printed.err).replace("\r\n", "\n"), code


def test_there_are_examples_of_each_kind() -> None:
    commands = {one.command.split()[1] for one in EXAMPLES if one.command.startswith("benchleaf ")}
    assert {"check", "compare", "new", "release", "reckon", "timetable", "follow-up"} <= commands
    assert sum(bool(one.printed) for one in EXAMPLES) >= 6


@pytest.mark.parametrize("example", EXAMPLES, ids=str)
def test_an_example_runs_and_prints_what_is_shown(
    example: Example,
    workshop: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(workshop)
    command = renamed(example.command, IN_THE_SMALL_SHOP)
    printed, code = ran(command, workshop, capsys)
    printed = renamed(printed, {new: old for old, new in IN_THE_SMALL_SHOP.items()})
    allowed = (0, 1) if example.command.split()[1] in MAY_EXIT_1 else (0,)
    assert code in allowed, printed
    if example.printed:
        same = doctest.OutputChecker().check_output(example.printed, printed, doctest.ELLIPSIS)
        assert same, printed


def test_what_the_examples_name_is_in_the_demo() -> None:
    used = {name for name in IN_THE_SMALL_SHOP if any(name in one.command for one in EXAMPLES)}
    assert used == set(IN_THE_SMALL_SHOP)
    for name in used:
        folder = ".demo-crew/people" if name.startswith("op-") else "content/jobs"
        assert (ROOT / folder / f"{name.lower()}.yml").is_file(), name


def test_an_example_that_prints_otherwise_would_be_found() -> None:
    checker = doctest.OutputChecker()
    assert checker.check_output("a ...\n...\n", "a b\nc\n", doctest.ELLIPSIS)
    assert not checker.check_output("a ...\n", "b c\n", doctest.ELLIPSIS)


@pytest.mark.parametrize("path", [README, *PAGES], ids=lambda path: path.name)
def test_what_looks_like_a_command_is_one(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = path.read_text(encoding="utf-8")
    named = set(re.findall(r"`benchleaf ([a-z-]+)", text)) | set(
        re.findall(r"^\$ benchleaf ([a-z-]+)", text, re.M)
    )
    for command in named:  # may be empty: a page that tells of no command
        with pytest.raises(SystemExit) as left:
            main([command, "--help"])
        assert left.value.code == 0, command
    capsys.readouterr()


@pytest.mark.parametrize("path", [README, *PAGES], ids=lambda path: path.name)
def test_every_code_that_is_named_exists(path: Path) -> None:
    named = re.findall(r"`([A-Z]\d{3})`|\b([ASVP]\d{3})\b", path.read_text(encoding="utf-8"))
    assert {one or other for one, other in named} - set(CODES) == set()


@pytest.mark.parametrize("path", [README, *PAGES], ids=lambda path: path.name)
def test_sentences_are_short(path: Path) -> None:
    most = DESCRIPTION_WORDS if path == README else PROCEDURE_WORDS
    found = [
        one for text in paragraphs(path.read_text(encoding="utf-8")) for one in sentences(text)
    ]
    assert len(found) > 20
    assert [one for one in found if words_in(one) > most] == []


def test_the_readme_is_short_and_says_how_to_begin() -> None:
    text = README.read_text(encoding="utf-8")
    assert len(text.split()) <= 900
    assert "pip install --quiet . && .venv/bin/mkdocs build\n" in text
    run = (ROOT / ".ci" / "run").read_text(encoding="utf-8")
    assert f"    {run.splitlines()[-1]}\n" in text, "CI runs the README's own command"
    assert len(re.findall(r"^!\[", text, re.M)) == 1
    shown = {target for target in re.findall(r"\]\(([^)#]+)", text) if "://" not in target}
    assert shown
    assert [one for one in shown if not (ROOT / one).is_file()] == []
    assert {f"plugins/benchleaf/guide/{path.name}" for path in PAGES} <= shown


# The pages


@pytest.fixture
def planned(shop: Shop) -> dict[str, pipeline.SitePlan]:
    """Both editions of the small shop."""
    loaded = pipeline.load(shop())
    return {
        edition: pipeline.plan_site(loaded, edition=edition, edit_base="https://forge.example/x/")
        for edition in ("kiosk", "full")
    }


def test_each_file_of_the_guide_is_a_page() -> None:
    assert sorted(link.GUIDE_PAGES) == sorted(path.stem for path in PAGES)
    assert link.guide_address(link.GUIDE_PAGES[0]) == link.GUIDE_PAGE


@pytest.mark.parametrize("path", PAGES, ids=lambda path: path.name)
def test_a_page_of_the_guide_is_plain_markdown(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    assert re.match(r"# .+\n", text)
    assert len(re.findall(r"^# ", prose(text), re.M)) == 1
    assert re.findall(r"<\w+", prose(text)) == []


def test_the_full_edition_alone_holds_the_guide(planned: dict[str, pipeline.SitePlan]) -> None:
    kiosk, full = ({one.address: one for one in planned[it].pages} for it in ("kiosk", "full"))
    ours = {link.guide_address(name) for name in link.GUIDE_PAGES}
    assert ours <= set(full)
    assert not ours & set(kiosk)
    for address in ours:
        assert link.is_full_only(address)
    assert 'href="guide/index.html"' in full["index.html"].render().html
    for address, page in kiosk.items():
        assert "guide/" not in page.render().html, address


def test_the_search_finds_each_section_of_the_guide(planned: dict[str, pipeline.SitePlan]) -> None:
    for page in planned["full"].pages:
        if page.address.startswith("guide/"):
            made = page.render()
            anchors = re.findall(r'<h[2-6] id="([^"]+)"', made.html)
            wanted = [page.address, *(f"{page.address}#{one}" for one in anchors)]
            assert [one.address for one in made.entries] == wanted
            assert {one.kind for one in made.entries} == {Found.GUIDE}
            assert all(one.lines for one in made.entries[1:])


def test_a_page_of_the_guide_has_no_link_to_the_shops_forge(
    planned: dict[str, pipeline.SitePlan],
) -> None:
    pages = {page.address: page for page in planned["full"].pages}
    assert "https://forge.example/x/content/jobs/vg-0010.yml" in planned["full"].outward
    assert not [one for one in planned["full"].outward if "guide" in one]
    made = pages["guide/kiosk.html"].render().html
    assert "benchleaf/guide/kiosk.md" in made
    assert "forge.example" not in made


# What the guide says, held against the code


def test_the_times_of_the_kiosk_are_those_that_the_guide_gives() -> None:
    text = (GUIDE / "kiosk.md").read_text(encoding="utf-8")
    given = dict(re.findall(r"^\| `(\w+)` \| (\d+) \|", text, re.M))
    assert {name: str(getattr(Kiosk(), name)) for name in given} == given
    assert len(given) >= 3


def test_the_first_manual_of_the_guide_is_sound_and_builds(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    text = (GUIDE / "upkeep.md").read_text(encoding="utf-8")
    lines = [line for _, block in blocks(text, "sh") for line in block.split("\n")]
    (asked,) = (line for line in lines if "benchleaf init --" in line)
    printed, code = by_shell(asked.replace(".venv/bin/", "") + " --no-build", tmp_path)
    assert code == 0, printed
    monkeypatch.chdir(tmp_path)
    for path in (one for one in (tmp_path / "content").rglob("*") if one.is_file()):
        whole = path.read_text(encoding="utf-8").replace(OPEN_MARK, "Press and")
        path.write_text(whole.partition("still_open:")[0], encoding="utf-8")
    assert main(["new", "notice", "first"]) == 0, capsys.readouterr()
    (notice,) = (tmp_path / "content" / "notices").iterdir()
    filled = notice.read_text(encoding="utf-8").replace("note:", "note: First issue.")
    notice.write_text(filled.replace("approved_by:", "approved_by: lead"), encoding="utf-8")
    assert main(["release"]) == 0, capsys.readouterr()
    printed, code = by_shell("BENCHLEAF_EDITION=full mkdocs build", tmp_path)
    assert code == 0, printed
    assert (tmp_path / "site-full" / "safety.html").is_file()
    assert (tmp_path / "site-full" / "guide" / "upkeep.html").is_file()
    assert not (tmp_path / "site").exists()
