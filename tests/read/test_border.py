"""The border of a content folder: what may lie where, under which name, and what it may hold."""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.diagnose import Finding, report
from benchleaf.read import document_of, read_document, read_text, settings_in_page
from benchleaf.read.border import at_border
from benchleaf.read.parser import MOST_KEYS
from benchleaf.read.pictures import READ_AT_MOST
from running import some

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" {0}>'
    "{1}</svg>"
)


def told(content: Path) -> list[tuple[str, str]]:
    """Code and file of what is found, below the content folder."""
    found = list(at_border(content))
    assert all(one.help and one.blocks_publishing for one in found)
    return [(one.code, one.place.file.partition("/")[2]) for one in found]


@pytest.fixture
def content(tmp_path: Path) -> Path:
    root = tmp_path / "content"
    for folder in ("pages", "pictures", "sheets", "jobs"):
        (root / folder).mkdir(parents=True)
    return root


def put(content: Path, name: str, text: str | bytes = "x") -> Path:
    path = content / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return path


@pytest.mark.parametrize(
    "name",
    [
        "pages/safety.md", "pages/more/shift start.md", "pages/map.png", "pages/plan.pdf",
        "pages/own.css", "pictures/plate.JPG", "pictures/sub/plate.svg", "sheets/oil.pdf",
        "sheets/oil.txt", "pages/Prüfung.md", "jobs/vg-0010.yml", "pages/.hidden",
        "pages/console.md",
    ],
)  # fmt: skip
def test_what_belongs_there_passes(content: Path, name: str) -> None:
    whole = {".pdf": "%PDF-1.7", ".svg": SVG.format("", "")}
    put(content, name, whole.get(Path(name).suffix.lower(), "x"))
    assert told(content) == []


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("pages/raw.html", "R118"), ("pages/run.js", "R118"), ("pages/data.json", "R118"),
        ("pages/op-03.yml", "R118"), ("pages/crew.yml", "R118"), ("pages/people/op-03.md", "R118"),
        ("pages/sheet.docx", "R118"), ("pictures/plate.html", "R118"), ("sheets/oil.html", "R118"),
        ("sheets/oil.svg", "R118"), ("pages/noending", "R118"), ("sheets/oil.pdf", "R120"),
        ("pages/con.md", "R119"), ("pages/aux.extra.md", "R119"), ("jobs/con.yml", "R119"),
        ("jobs/LPT1.yml", "R119"), ("pages/a:b.md", "R119"), ("pages/what?.md", "R119"),
        ("pages/end .md ", "R119"), ("pages/u\u0308ber.md", "R119"), ("pages/a\u202eb.md", "R119"),
        ("pages/a\u200bb.md", "R119"), (f"pages/{'a' * 120}.md", "R119"),
        (f"pages/{'/'.join(['long-folder'] * 18)}/a.md", "R119"),
    ],
)  # fmt: skip
def test_what_does_not_is_told(content: Path, name: str, code: str) -> None:
    put(content, name, "<html>")
    assert code in {one for one, _ in told(content)}


def test_no_link_leads_out_and_nothing_but_plain_files_is_opened(
    content: Path, tmp_path: Path
) -> None:
    crew = tmp_path / "crew"
    (crew / "people").mkdir(parents=True)
    put(crew, "people/op-03.md", "kept")
    (content / "pages" / "team").symlink_to(crew / "people", target_is_directory=True)
    (content / "pages" / "users.txt").symlink_to("/etc/passwd")
    (content / "pictures" / "plate.png").symlink_to(put(tmp_path, "plate.png"))
    (content / "pages" / "ring.md").symlink_to("ring.md")
    (content / "pages" / "nowhere.md").symlink_to("gone.md")
    os.mkfifo(content / "pages" / "pipe.md")
    put(content, "pages/kept.md")
    (content / "pages" / "same.md").symlink_to("kept.md")
    begun = time.monotonic()
    names = ("nowhere.md", "pipe.md", "ring.md", "team", "users.txt")
    wanted = [*(f"pages/{name}" for name in names), "pictures/plate.png"]
    assert sorted(told(content)) == [("R118", name) for name in wanted]
    assert time.monotonic() - begun < 60  # a pipe would wait for ever


def test_two_names_that_are_one_elsewhere(content: Path) -> None:
    put(content, "pages/Safety.md")
    if (content / "pages/safety.md").exists():
        pytest.skip("this disk takes them for one")
    put(content, "pages/safety.md")
    assert told(content) == [("R119", "pages/safety.md")]


def test_a_picture_of_gigabytes_is_not_read(content: Path) -> None:
    path = content / "pictures" / "huge.svg"
    with path.open("wb") as file:
        file.truncate(READ_AT_MOST + 1)  # takes no room on the disk
    assert told(content) == [("R118", "pictures/huge.svg")]


@pytest.mark.parametrize(
    ("given", "inside"),
    [
        ("", "<script>x()</script>"), ('onload="x()"', ""), ("", '<g onclick="x()"/>'),
        ("", '<a href="https://example.org/"><g/></a>'), ("", '<a xlink:href="javascript:x()"/>'),
        ("", '<image href="//example.org/a.png"/>'), ("", '<image href="file:///etc/passwd"/>'),
        ("", '<use href="other.svg#a"/>'), ("", '<image href="data:image/svg+xml,x"/>'),
        ("", "<foreignObject><b/></foreignObject>"), ("", "<style>@import 'a.css';</style>"),
        ("", "<style>rect { fill: url(https://example.org/a) }</style>"),
        ("", r"<style>rect { fill: u\72l(https://example.org/a) }</style>"),
        ("", "<style>@im/**/port 'a.css';</style>"), ("", '<rect style="fill: url(a.svg#b)"/>'),
        ("", '<set attributeName="href" to="javascript:x()"/>'),
        ("", '<animate attributeName="xlink:href" values="x"/>'),
        ("", '<b xmlns="http://www.w3.org/1999/xhtml"/>'), ("", "<a:script xmlns:a='b'/>"),
        ("", "<script>x()</script><not-closed>"), ("", "<?xml-stylesheet href='a.css'?>"),
    ],
)  # fmt: skip
def test_a_drawing_that_runs_or_fetches_is_refused(content: Path, given: str, inside: str) -> None:
    put(content, "pictures/plate.svg", SVG.format(given, inside))
    assert told(content) == [("R120", "pictures/plate.svg")]


def test_a_drawing_of_entities_is_refused_and_plain_ones_pass(content: Path) -> None:
    put(content, "pages/a.svg", '<!DOCTYPE svg [<!ENTITY a "b">]>' + SVG.format("", "&a;"))
    put(content, "pages/utf16.svg", SVG.format("", "<script/>").encode("utf-16"))
    plain = '<defs><g id="a"/></defs><use href="#a"/><rect style="fill: url(#a)" fill="red"/>'
    plain += '<style>rect { fill: none }</style><image href="data:image/png;base64,AA=="/>'
    put(content, "pictures/plain.svg", SVG.format('viewBox="0 0 1 1" role="img"', plain))
    assert told(content) == [("R120", "pages/a.svg"), ("R120", "pages/utf16.svg")]


def test_every_drawing_of_the_demo_passes() -> None:
    root = Path(__file__).parents[2] / "content"
    assert len(list((root / "pictures").glob("*.svg"))) > 10
    assert told(root) == []


HIDDEN = (
    0x202E,
    0x202C,
    0x2066,
    0x200B,
    0x200E,
    0x2060,
    0xFEFF,
    0xAD,
    0x1B,
    0x07,
    0x85,
    0x2028,
    0xE0041,
)


@pytest.mark.parametrize("number", HIDDEN, ids=lambda one: f"U+{one:04X}")
def test_a_hidden_sign_is_told_raw_and_written_by_its_number(tmp_path: Path, number: int) -> None:
    """`"\\u202E5.21\\u202C mm"` would show 12.5 mm."""
    escape = f"\\U{number:08X}"
    for text in (f'a: "x{escape}5.21 mm"\n', f'"k{escape}": b\n', f'a: ["b", "{escape}c"]\n'):
        document, found = document_of(text, "jobs", "a.yml")
        assert [one.code for one in found] == ["R107"], text
        assert document is not None  # and the rest of the file is looked at
        assert f"U+{number:04X}" in found[0].text
        assert found[0].place.line == 1
    path = put(tmp_path, "raw.yml", f"a: x{chr(number)}5.21 mm\n")
    assert [one.code for one in read_text(path, "raw.yml")[1]] == ["R107"]


def test_signs_of_other_scripts_and_pictures_are_no_slip(tmp_path: Path) -> None:
    for text in some(
        ("a: می\u200cخواهم\n", "a: 👷\u200d♂️ x\n", 'a: "\\xB5m \\u00D8 8\\ttab"\n', "a: ½ ⌀ µ\n")
    ):
        path = put(tmp_path, "a.yml", text)
        document, found = read_document(path, "jobs", "a.yml")
        assert found == ()
        assert document is not None


def test_a_hidden_sign_reaches_no_page(shop: Callable[..., Path]) -> None:
    """A free page may write it as an entity, which the browser reads."""
    content = shop({"pages/notes.md": "# Notes\n\nThe hole is &#x202E;5.21&#8236; mm.\n\n&rlm;\n"})
    found = [one for one in pipeline.check(content) if one.code == "R107"]
    assert [one.place.line for one in found] == [3, 3, 5]


@pytest.mark.parametrize("text", ["[[" * 100_000, '<a "' * 20_000, "a: " + "[" * 5_000 + "b"])
def test_what_never_closes_is_told_at_once(tmp_path: Path, text: str) -> None:
    path = put(tmp_path, "a.md", text)
    begun = time.process_time()
    (found,) = read_text(path, "a.md")[1]
    assert (found.code, found.place.line) == ("R121", 1)
    assert time.process_time() - begun < 5


def test_thousands_of_keys_are_one_finding(shop: Callable[..., Path]) -> None:
    keys = "".join(f"key_{number}: x\n" for number in range(20_000))
    content = shop({"tools/drill-8.yml": f"id: drill-8\n{keys}"})
    begun = time.process_time()
    found = [one for one in pipeline.check(content) if one.place.file.endswith("drill-8.yml")]
    assert time.process_time() - begun < 30  # it was a minute
    assert [one.code for one in found if one.blocks_publishing] == ["R121"]
    assert f"more than {MOST_KEYS} keys" in found[0].text


def test_of_very_many_findings_the_first_are_shown_and_how_many_more() -> None:
    (one,) = document_of("a: 1\na: 2\n", "jobs", "a.yml")[1]
    lines = report([one] * 20_500).splitlines()
    assert lines[-1] == "and 20,000 more"
    assert len(lines) < 5_000


@pytest.mark.parametrize("day", ["yesterday", "9" * 40, "-1", "99999999999999", "²"])
def test_a_day_in_the_environment_that_is_none_is_told(
    shop: Callable[..., Path], monkeypatch: pytest.MonkeyPatch, day: str
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", day)
    found: tuple[Finding, ...] = pipeline.check(shop())
    assert [one.code for one in found] == ["R122"]


def test_an_id_is_a_name_for_every_system(shop: Callable[..., Path]) -> None:
    long = "a" * 260
    content = shop({"tools/con.yml": "id: con\n", "tools/long.yml": f"id: {long}\n"})
    texts = [one.text for one in pipeline.check(content) if "tools/" in one.place.file]
    assert "'con' is a device on Windows, and no file there" in texts
    assert "this id is 260 letters long" in texts


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("# Safety\n\nWarning: stop first.\n", []),
        ("---\ntitle: Safety\ndescription: Read it\n---\n# Safety\n", []),
        ("Warning: stop first.\nNote: twice.\n\n# Safety\n", [1, 2]),
        ("---\ntemplate: nowhere.html\ntitle: [1]\n---\n# Safety\n", [2, 3]),
        ("---\nstyles: 5\n# a comment\n\n- odd\n---\n", [2, 5]),
        ("---\n\n# A rule, not a block\n", []),
        ("https://example.org/ is named\n", []),
    ],
)
def test_what_the_engine_would_take_for_settings(text: str, lines: list[int]) -> None:
    found = list(settings_in_page(text, "pages/a.md"))
    assert [(one.code, one.place.line) for one in found] == [("R123", line) for line in lines]
