"""A copy held to the sums of its build: each damage is named, and nothing else."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf.cli import main
from benchleaf.publish import SEAL, staging_folder, swap_in, verify
from benchleaf.publish.seal import parts_of

PAGE = '<!doctype html><html data-seal=""><body><section><h1>A</h1><p>b</p></section>'
FILES = {
    "index.html": PAGE,
    "jobs/a.html": PAGE,
    "assets/benchleaf/benchleaf.css": "html{top:0}",
    "assets/benchleaf/paper-a4.css": "@page{size:A4}",
    "assets/benchleaf/search/words-a.js": "benchleafIndex('words-a',[])",
    "assets/benchleaf/early.js": "(function(){})()// the end",
    "own.js": "own()",
    "pictures/a.svg": "<svg/>",
}


def _built(site: Path, files: dict[str, str] | None = None) -> str:
    for name, text in (files or FILES).items():
        path = staging_folder(site) / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return swap_in(site)


@pytest.fixture
def site(tmp_path: Path) -> Path:
    _built(tmp_path / "site")
    return tmp_path / "site"


def _bytes(site: Path) -> dict[str, bytes]:
    files = (path for path in site.rglob("*") if path.is_file())
    return {path.relative_to(site).as_posix(): path.read_bytes() for path in files}


def _codes(site: Path) -> dict[str, str]:
    found = verify(site)
    assert found
    return {one.place.file: one.code for one in found.findings}


def test_the_same_content_gets_the_same_seal_and_any_other_another(tmp_path: Path) -> None:
    first, again = _built(tmp_path / "a"), _built(tmp_path / "b", dict(reversed(FILES.items())))
    assert first == again
    assert _bytes(tmp_path / "a") == _bytes(tmp_path / "b")
    for name, text in FILES.items():
        other = tmp_path / f"other-{name.replace('/', '-')}"
        assert _built(other, {**FILES, name: f"{text} "}) != first, name
        page = (other / "index.html").read_bytes()
        assert page != (tmp_path / "a/index.html").read_bytes(), name  # so is the stamp


def test_pages_scripts_and_sheets_say_one_stamp_and_nothing_else_is_touched(site: Path) -> None:
    said = (site / "index.html").read_text(encoding="utf-8")
    stamp, parts = said.partition('data-seal="')[2].partition('"')[0].split()
    assert int(parts) == 3
    ours = site / "assets/benchleaf"
    for name, mark in {
        "benchleaf.css": f"html{{--s-benchleaf:{stamp}}}",
        "paper-a4.css": f"html{{--s-paper_a4:{stamp}}}",
        "early.js": f"\nfunction benchleaf_early_{stamp}(){{}}\n",
        "search/words-a.js": f"\nfunction benchleaf_search_words_a_{stamp}(){{}}\n",
    }.items():
        assert (ours / name).read_text(encoding="utf-8").endswith(mark), name
    for name in ("own.js", "pictures/a.svg"):
        assert (site / name).read_text(encoding="utf-8") == FILES[name]


def test_the_list_is_sorted_and_other_programs_read_it(site: Path) -> None:
    lines = (site / SEAL).read_text(encoding="utf-8").splitlines()
    names = [line.partition("  ")[2] for line in lines]
    assert names == sorted(_bytes(site).keys() - {SEAL})
    program = shutil.which("sha256sum")
    if program:
        done = subprocess.run([program, "--check", "--strict", SEAL], cwd=site, check=False,
                              capture_output=True)  # fmt: skip
        assert done.returncode == 0


def test_parts_are_counted_as_a_browser_counts() -> None:
    assert parts_of(b"<LI>a<li class=x>b<link><path><pre><header><h7><h6\n>") == 3
    assert parts_of(b"""<p title="a <p >"><p title='"<p >'><a title="><p >">""") == 2
    assert parts_of(b"<title><p></title><p><script>'<p>'</script ><TEXTAREA><p></textarea>") == 1


def _alter(site: Path) -> None:
    data = bytearray((site / "jobs/a.html").read_bytes())
    data[-3] ^= 1
    (site / "jobs/a.html").write_bytes(data)


def _link(site: Path) -> None:
    (site / "own.js").rename(site.parent / "elsewhere.js")
    (site / "own.js").symlink_to(site.parent / "elsewhere.js")


def _queue(site: Path) -> None:
    (site / "own.js").unlink()
    os.mkfifo(site / "own.js")


def _folder_link(site: Path) -> None:
    (site.parent / "more").mkdir()
    (site / "more").symlink_to(site.parent / "more")


def _line(site: Path) -> None:
    text = (site / SEAL).read_text(encoding="utf-8")
    (site / SEAL).write_text(text.replace("  own.js", "  ../own.js"), encoding="utf-8")


DAMAGES: dict[str, tuple[Callable[[Path], object], dict[str, str]]] = {
    "one bit": (_alter, {"jobs/a.html": "P709"}),
    "cut": (lambda site: (site / "own.js").write_bytes(b""), {"own.js": "P709"}),
    "a link to the same": (_link, {"own.js": "P709"}),
    "a queue": (_queue, {"own.js": "P709"}),
    "missing": (lambda site: (site / "index.html").unlink(), {"index.html": "P710"}),
    "extra": (lambda site: (site / "jobs/b.html").write_text("b"), {"jobs/b.html": "P711"}),
    "a link to a folder": (_folder_link, {"more": "P711"}),
    "renamed": (
        lambda site: (site / "own.js").rename(site / "Own.js"),
        {"own.js": "P710", "Own.js": "P711"},
    ),
    "without its list": (lambda site: (site / SEAL).unlink(), {SEAL: "P712"}),
    "an empty list": (lambda site: (site / SEAL).write_bytes(b""), {SEAL: "P712"}),
    "a list that leads out": (_line, {SEAL: "P712", "own.js": "P711"}),
    "of the system": (lambda site: (site / "jobs/Thumbs.db").write_text("x"), {}),
}


@pytest.mark.parametrize("damage", DAMAGES)
def test_each_damage_is_named_and_nothing_else(
    site: Path, damage: str, capsys: pytest.CaptureFixture[str]
) -> None:
    do, expected = DAMAGES[damage]
    assert _codes(site) == {}
    do(site)
    assert _codes(site) == expected
    assert main(["verify", str(site)]) == (1 if expected else 0)
    said = capsys.readouterr().out
    assert all(name in said for name in expected)
    assert ("not looked at, of the system: jobs/Thumbs.db" in said) is (not expected)
    assert ("Do not work from this copy." in said) is bool(expected)


def test_a_new_list_over_an_altered_copy_shows_in_the_number_only(
    site: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    number = _built(tmp_path / "same")
    main(["verify", str(site)])
    assert f"number of its list: {number}" in capsys.readouterr().out
    forged = _built(tmp_path / "forged", {**FILES, "jobs/a.html": PAGE.replace("<p>b", "<p>c")})
    assert main(["verify", str(tmp_path / "forged")]) == 0
    said = capsys.readouterr().out
    assert forged in said
    assert number not in said


def test_very_many_are_told_as_and_so_many_more(
    site: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    for number in range(510):
        (site / f"{number}.txt").write_text("", encoding="utf-8")
    assert main(["verify", str(site)]) == 1
    said = capsys.readouterr().out
    assert "and 10 more" in said
    assert "510 errors" in said


def test_what_is_no_manual_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    other = tmp_path / "other"
    other.mkdir()
    (other / SEAL).write_text("my own notes\n", encoding="utf-8")
    for folder in (other, tmp_path / "none"):
        assert main(["verify", str(folder)]) == 2
        assert str(folder) in capsys.readouterr().err
