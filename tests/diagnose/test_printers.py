"""Findings in the forms that programs and forges read: one finding, the same place in each."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from benchleaf.cli import main
from benchleaf.diagnose import CODES, FORMS, Finding, Place, Related, Severity, seen_from

Shop = Callable[..., Path]
Edited = Callable[..., dict[str, str]]
Captured = pytest.CaptureFixture[str]
ONE = Finding(
    "F205",
    Severity.ERROR,
    Place("content/jobs/a,b.yml", 4, 7),
    "100% wrong: so",
    ("write it otherwise",),
    (Related(Place("content/tools/t.yml", 2, 1), "said here"),),
)
OTHER = Finding(
    "A602", Severity.WARNING, Place("content/addresses.yml"), "two are new", ("run it",)
)
STOP = Finding("S501", Severity.STOP, Place("content/jobs/x.yml", 9, 1), "do not run", ("slower",))


def told(form: str, *findings: Finding) -> Any:
    return json.loads(FORMS[form](findings))


def test_json_says_all_that_the_text_says() -> None:
    value = told("json", ONE, OTHER, STOP)
    assert value["ok"] is False
    assert value["counts"] == {"error": 1, "stop": 1, "warning": 1, "note": 0}
    assert value["findings"][0] == {
        "code": "F205",
        "severity": "error",
        "file": "content/jobs/a,b.yml",
        "line": 4,
        "column": 7,
        "text": "100% wrong: so",
        "help": ["write it otherwise"],
        "related": [{"file": "content/tools/t.yml", "line": 2, "column": 1, "text": "said here"}],
    }
    assert value["findings"][1]["line"] == 0


def test_nothing_found_is_ok_in_every_form() -> None:
    assert told("json") == {
        "ok": True,
        "counts": {"error": 0, "stop": 0, "warning": 0, "note": 0},
        "findings": [],
    }
    assert FORMS["annotations"](()) == ""
    assert told("code-quality") == []
    assert told("sarif")["runs"][0]["results"] == []


def test_annotations_are_one_line_each_with_their_signs_escaped() -> None:
    first, second, third = FORMS["annotations"]((ONE, OTHER, STOP)).split("\n")
    assert first == (
        "::error file=content/jobs/a%2Cb.yml,line=4,col=7,title=F205 error::100%25 wrong: so"
        "%0Awrite it otherwise%0Asee also content/tools/t.yml:2:1: said here"
    )
    assert second == "::warning file=content/addresses.yml,title=A602 warning::two are new%0Arun it"
    assert third.startswith("::error file=content/jobs/x.yml,line=9,col=1,title=S501 stop::")


def test_code_quality_has_what_a_report_needs() -> None:
    first, second, third = told("code-quality", ONE, OTHER, STOP)
    assert first["location"] == {"path": "content/jobs/a,b.yml", "lines": {"begin": 4}}
    assert second["location"]["lines"] == {"begin": 1}
    assert (first["severity"], second["severity"], third["severity"]) == (
        "critical", "minor", "blocker",
    )  # fmt: skip
    assert re.fullmatch(r"[0-9a-f]{64}", first["fingerprint"])


def test_a_fingerprint_stays_when_the_line_moves() -> None:
    moved = Finding("F205", Severity.ERROR, Place("content/jobs/a,b.yml", 90, 1), "100% wrong: so")
    (first,), (second,) = told("code-quality", ONE), told("code-quality", moved)
    assert first["fingerprint"] == second["fingerprint"]


def test_sarif_has_what_the_standard_asks_for() -> None:
    """SARIF 2.1.0, sections 3.13 (log), 3.14 (run), 3.19 (driver), 3.27 (result)."""
    log = told("sarif", ONE, OTHER)
    assert (log["version"], len(log["runs"])) == ("2.1.0", 1)
    (run,) = log["runs"]
    rules = run["tool"]["driver"]["rules"]
    assert [rule["id"] for rule in rules] == ["A602", "F205"]
    assert rules[1]["shortDescription"] == {"text": CODES["F205"].title}
    first, second = run["results"]
    assert (first["level"], second["level"]) == ("error", "warning")
    assert rules[first["ruleIndex"]]["id"] == first["ruleId"]
    place = first["locations"][0]["physicalLocation"]
    assert place == {
        "artifactLocation": {"uri": "content/jobs/a,b.yml"},
        "region": {"startLine": 4, "startColumn": 7},
    }
    assert "region" not in second["locations"][0]["physicalLocation"]
    assert first["relatedLocations"][0]["message"] == {"text": "said here"}


@pytest.mark.parametrize("form", sorted(FORMS))
def test_every_form_exits_like_the_text(
    shop: Shop, edited: Edited, capsys: Captured, form: str
) -> None:
    assert main(["check", "--format", form, str(shop())]) == 0
    bad = shop(edited("jobs/vg-0010.yml", "feed: 0.15 mm/rev", "feed: 0.15 mm"))
    capsys.readouterr()
    assert main(["check", "--format", form, str(bad)]) == 1
    printed, errors = capsys.readouterr()
    assert "F206" in printed
    assert errors == ""


def test_files_are_named_from_where_the_command_runs(
    shop: Shop, edited: Edited, capsys: Captured, monkeypatch: pytest.MonkeyPatch
) -> None:
    content = shop(edited("jobs/vg-0010.yml", "feed: 0.15 mm/rev", "feed: 0.15 mm"))
    monkeypatch.chdir(content.parents[1])
    for given in (content.relative_to(content.parents[1]), content):
        assert main(["check", "--format", "json", str(given)]) == 1
        (finding,) = json.loads(capsys.readouterr().out)["findings"]
        assert (Path.cwd() / finding["file"]).is_file()
    monkeypatch.chdir(content.parent)
    assert main(["check", "--format", "annotations"]) == 1
    assert capsys.readouterr().out.startswith("::error file=content/jobs/vg-0010.yml,line=")


def test_related_places_move_too() -> None:
    (moved,) = seen_from("docs", (ONE,))
    assert moved.place.file == "docs/content/jobs/a,b.yml"
    assert moved.related[0].place.file == "docs/content/tools/t.yml"
    assert seen_from("", (ONE,)) == (ONE,)


def test_misuse_of_the_options_exits_2(capsys: Captured) -> None:
    for arguments in (["--format", "xml"], ["--today", "2026-13-01"]):
        with pytest.raises(SystemExit) as left:
            main(["check", *arguments])
        assert left.value.code == 2
    assert "is no date like 2026-03-09" in capsys.readouterr().err
