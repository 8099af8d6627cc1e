"""`benchleaf addresses`: every address in four forms, each readable by what it is pasted into."""

from __future__ import annotations

import csv
import json
from collections.abc import Callable
from html.parser import HTMLParser
from pathlib import Path

import pytest
from markdown import Markdown

from benchleaf import pipeline
from benchleaf.cli import main
from benchleaf.registers import forwarding

Shop = Callable[..., Path]
Edited = Callable[..., dict[str, str]]
Captured = pytest.CaptureFixture[str]
STEP = "VG-0010 step 2: Drill the hole"


class _Links(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.found: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.found += [value or "" for key, value in attrs if key == "href"]


def links(html: str) -> list[str]:
    reader = _Links()
    reader.feed(html)
    return reader.found


def test_every_promised_address_is_listed_once_with_a_title(shop: Shop, capsys: Captured) -> None:
    content = shop()
    assert main(["addresses", str(content), "--format", "json"]) == 0
    rows = json.loads(capsys.readouterr().out)
    assert [row["address"] for row in rows] == list(
        forwarding.promised(pipeline.load(content).shop)
    )
    assert [row for row in rows if row["title"] in ("", row["address"])] == []
    (step,) = [row for row in rows if row["address"] == "jobs/vg-0010.html#drill"]
    assert step == {
        "kind": "step", "title": STEP, "revision": "2",
        "address": "jobs/vg-0010.html#drill", "edition": "reader",
    }  # fmt: skip


def test_the_four_forms_hold_the_same_addresses(shop: Shop, capsys: Captured) -> None:
    content, printed = shop(), {}
    for form in ("csv", "json", "markdown", "html"):
        assert main(["addresses", str(content), "--format", form, "--base", "file:///M:/"]) == 0
        printed[form] = capsys.readouterr().out
    wanted = [row["address"] for row in json.loads(printed["json"])]
    assert wanted[0] == "file:///M:/index.html"
    assert [row["address"] for row in csv.DictReader(printed["csv"].splitlines())] == wanted
    assert links(printed["html"]) == wanted
    assert links(Markdown().convert(printed["markdown"])) == wanted


def test_only_the_kinds_asked_for(shop: Shop, capsys: Captured) -> None:
    assert main(["addresses", str(shop()), "--kind", "hazard", "--kind", "set-up"]) == 0
    rows = list(csv.DictReader(capsys.readouterr().out.splitlines()))
    assert {row["kind"] for row in rows} == {"hazard", "set-up"}


def test_a_server_of_the_shop_stands_before_each_address(
    shop: Shop, edited: Edited, capsys: Captured
) -> None:
    files = edited("manual.yml", "preface:", "server: https://manual.example\npreface:")
    assert main(["addresses", str(shop(files)), "--kind", "job", "--format", "html"]) == 0
    assert links(capsys.readouterr().out)[0] == "https://manual.example/jobs/vg-0010.html"


def test_an_unknown_kind_is_misuse(shop: Shop, capsys: Captured) -> None:
    assert main(["addresses", str(shop()), "--kind", "hazards"]) == 2
    assert "did you mean 'hazard'?" in capsys.readouterr().err


def test_nothing_is_listed_where_there_are_errors(shop: Shop, capsys: Captured) -> None:
    assert main(["addresses", str(shop({"machines/bench-drill.yml": None}))]) == 1
    printed, errors = capsys.readouterr()
    assert printed == ""
    assert "nothing was listed" in errors
