"""The table of layouts: keyed by what is laid out, so that an edited step is not in it."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from planned import Planned

from benchleaf import pipeline
from benchleaf.cli import main
from benchleaf.diagnose import Severity
from benchleaf.html.laid_out import fingerprint
from benchleaf.read import LAYOUTS_FILE, read_layouts

KEYS = re.compile(r'data-laid-out="([^"]+)"')
LAYOUT = {"390x844": {"fit": 0, "columns": 1, "picture": 0, "parts": ["h p0", "p1 r"]}}


def _job_page(content: Path) -> str:
    loaded = pipeline.load(content)
    return Planned(loaded, pipeline.plan_site(loaded)).html("jobs/vg-0010.html")


def test_words_and_sizes_count_and_markup_does_not() -> None:
    same = fingerprint('<p class="a">Look at <b>it</b>.</p><img width="4" height="3">')
    assert same == fingerprint('<p>Look  at\n <i id="x">it</i>.</p><img width="4" height="3">')
    assert same != fingerprint('<p>Look at <b>them</b>.</p><img width="4" height="3">')
    assert same != fingerprint('<p>Look at <b>it</b>.</p><img width="4" height="2">')
    strip = '<div data-title="Chips" data-control="{}"><p>Look.</p></div>'
    assert fingerprint(strip.format("Wear glasses.")) != fingerprint(strip.format("Stand back."))


def test_a_step_carries_its_layouts_until_it_is_edited(
    shop: Callable[..., Path], edited: Callable[..., dict[str, str]]
) -> None:
    content = shop()
    page = _job_page(content)
    keys = KEYS.findall(page)
    assert len(keys) == len(set(keys)) > 1
    assert "data-layouts" not in page  # a shop without a table builds, and its steps scroll
    table = {"steps": dict.fromkeys(keys, LAYOUT)}
    (content / LAYOUTS_FILE).write_text(json.dumps(table), encoding="utf-8")
    assert pipeline.check(content) == pipeline.check(shop())  # it is no stranger
    assert _job_page(content).count("data-layouts=") == len(keys)
    files = edited("jobs/vg-0010.yml", "Push against the clamped plate", "Push at the plate")
    content = shop(files)
    (content / LAYOUTS_FILE).write_text(json.dumps(table), encoding="utf-8")
    assert _job_page(content).count("data-layouts=") == len(keys) - 1


BROKEN = [
    '{"steps":\n {]}',
    "",
    "[]",
    '{"steps": []}',
    '{"steps": {"a": 3}}',
    "[" * 200_000,
    *(
        json.dumps({"steps": {"a": {size: LAYOUT["390x844"] | change}}})
        for size, change in (
            ("390x844", {"parts": "h p0"}),
            ("390x844", {"picture": "1px; color: red"}),
            ("390x844", {"before": [0]}),
            ("390x844", {"picture": float("nan")}),
            ("390x844", {"fit": 10**400}),
            ("wide", {}),
        )
    ),
]


def test_a_broken_table_is_none_and_is_told(shop: Callable[..., Path]) -> None:
    content = shop()
    told = pipeline.check(content)
    for text in BROKEN:
        (content / LAYOUTS_FILE).write_text(text, encoding="utf-8")
        assert read_layouts(content) == {}, text[:60]
        (found,) = (one for one in pipeline.check(content) if one not in told)
        assert (found.code, found.severity) == ("R125", Severity.WARNING), text[:60]
        assert "benchleaf layouts" in found.help[0]
    (content / LAYOUTS_FILE).write_text(BROKEN[0], encoding="utf-8")
    (found,) = (one for one in pipeline.check(content) if one not in told)
    assert (found.place.line, found.place.column) == (2, 3)
    (content / LAYOUTS_FILE).write_bytes(b'{"steps": {"\xff": {}}}')
    assert read_layouts(content) == {}


def test_a_table_that_is_no_plain_file_of_the_folder_is_not_opened(
    shop: Callable[..., Path], tmp_path: Path
) -> None:
    content, table = shop(), tmp_path / "outside.json"
    table.write_text(json.dumps({"steps": {"a": LAYOUT}}), encoding="utf-8")
    (content / LAYOUTS_FILE).symlink_to(table)
    assert read_layouts(content) == {}
    (content / LAYOUTS_FILE).unlink()
    (content / LAYOUTS_FILE).mkdir()
    assert read_layouts(content) == {}
    assert "R125" in {one.code for one in pipeline.check(content)}


def test_without_a_site_or_a_browser_the_command_says_what_to_do(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    assert main(["layouts", "--site", str(tmp_path)]) == 2
    assert "build it first" in capsys.readouterr().err
    (tmp_path / "jobs").mkdir()
    (tmp_path / "jobs/a.html").write_text('<div id="follow">', encoding="utf-8")
    monkeypatch.setattr("benchleaf.commands.layouts.shutil.which", lambda _: None)
    monkeypatch.setattr("benchleaf.commands.layouts.PLACES", ())
    assert main(["layouts", "--site", str(tmp_path)]) == 2
    assert "--browser PROGRAM" in capsys.readouterr().err
