"""The `benchleaf` command as a person runs it: exit codes, what is printed, and where."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf.cli import main
from benchleaf.commands.kinds import schema_kinds
from benchleaf.diagnose import CODES

Shop = Callable[..., Path]
Edited = Callable[..., dict[str, str]]
Captured = pytest.CaptureFixture[str]
MACHINE = "machines/bench-drill.yml"


def test_a_sound_shop_exits_0_and_says_so(shop: Shop, capsys: Captured) -> None:
    assert main(["check", str(shop())]) == 0
    assert capsys.readouterr() == ("no problems found\n", "")


def test_an_error_exits_1_and_names_file_line_and_column(
    shop: Shop, edited: Edited, capsys: Captured
) -> None:
    content = shop(edited("jobs/vg-0010.yml", "feed: 0.15 mm/rev", 'feed: "0,15 mm/rev"'))
    assert main(["check", str(content)]) == 1
    printed, errors = capsys.readouterr()
    assert printed.split("\n") == [
        "content/jobs/vg-0010.yml:49:11: error F205 '0,15 mm/rev' has a comma in its number "
        "(for 'feed')",
        "    write the decimal mark as a point: '0.15 mm/rev'",
        "1 error",
        "",
    ]
    assert errors == ""


def test_a_stop_exits_1(shop: Shop, edited: Edited, capsys: Captured) -> None:
    content = shop(edited(MACHINE, "quill_travel: 60 mm", "quill_travel: 12 mm"))
    assert main(["check", str(content)]) == 1
    assert "stop S504 do not run VG-0010" in capsys.readouterr().out


def test_a_warning_alone_exits_0(shop: Shop, edited: Edited, capsys: Captured) -> None:
    content = shop(edited(MACHINE, "efficiency: 0.8\n", ""))
    assert main(["check", str(content)]) == 0
    assert capsys.readouterr().out.endswith("1 warning\n")


def test_the_last_line_counts_by_gravity(shop: Shop, edited: Edited, capsys: Captured) -> None:
    content = shop(
        edited(MACHINE, "quill_travel: 60 mm", "quill_travel: 12 mm", "efficiency: 0.8\n", "",
               "hazards:\n  - work-turns", "hazards:\n  - noise\n  - dust")
    )  # fmt: skip
    assert main(["check", str(content)]) == 1
    assert capsys.readouterr().out.split("\n")[-2] == "2 errors, 1 stop, 1 warning"


def test_without_a_folder_the_one_called_content_is_meant(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    monkeypatch.chdir(shop().parent)
    assert main(["check"]) == 0
    assert main(["register"]) == 0
    assert capsys.readouterr().out.split("\n") == [
        "no problems found",
        "0 added to content/addresses.yml",
        "2 added to content/revisions.yml",
        "",
    ]


def test_a_content_folder_that_is_not_there(tmp_path: Path, capsys: Captured) -> None:
    assert main(["check", str(tmp_path / "nowhere")]) == 1
    assert "R101 there is no such content folder" in capsys.readouterr().out


def test_a_content_folder_that_links_to_itself(tmp_path: Path, capsys: Captured) -> None:
    (tmp_path / "content").symlink_to("content")
    assert main(["check", str(tmp_path / "content")]) == 1
    assert "R101" in capsys.readouterr().out


def test_a_content_folder_that_may_not_be_listed(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    def refuse(path: object) -> None:
        raise PermissionError(13, "Permission denied", str(path))

    content = shop()
    monkeypatch.setattr(Path, "iterdir", refuse)
    assert main(["check", str(content)]) == 1
    assert "R101" in capsys.readouterr().out


def test_register_adds_and_then_has_nothing_to_add(
    shop: Shop, base_shop: dict[str, str], capsys: Captured
) -> None:
    content, every = shop({"addresses.yml": None}), base_shop["addresses.yml"].count("\n  - ")
    assert main(["register", str(content)]) == 0
    assert main(["register", str(content)]) == 0
    assert capsys.readouterr().out.split("\n") == [
        f"{every} added to {content}/addresses.yml", f"2 added to {content}/revisions.yml",
        f"0 added to {content}/addresses.yml", f"0 added to {content}/revisions.yml", "",
    ]  # fmt: skip


def test_register_writes_nothing_while_there_are_errors(
    shop: Shop, edited: Edited, capsys: Captured
) -> None:
    content = shop({"addresses.yml": None} | edited("terms.yml", "word: burr", "wrod: burr"))
    assert main(["register", str(content)]) == 1
    printed = capsys.readouterr().out
    assert "F201" in printed
    assert printed.endswith("nothing was written: mend these first\n")
    assert not (content / "addresses.yml").exists()


def test_register_may_write_while_a_job_must_not_run(shop: Shop, edited: Edited) -> None:
    files = edited(MACHINE, "quill_travel: 60 mm", "quill_travel: 12 mm")
    content = shop({"addresses.yml": None, **files})
    assert main(["register", str(content)]) == 0
    assert (content / "addresses.yml").is_file()


def test_a_register_that_links_to_itself_is_told_and_not_written(
    shop: Shop, capsys: Captured
) -> None:
    content = shop({"addresses.yml": None})
    (content / "addresses.yml").symlink_to("addresses.yml")
    assert main(["register", str(content)]) == 1
    assert "R101" in capsys.readouterr().out


@pytest.mark.parametrize("kind", [*schema_kinds(), "job", "Machine", "MATERIALS", "term"])
def test_every_schema_is_json(kind: str, capsys: Captured) -> None:
    assert main(["schema", kind]) == 0
    schema = json.loads(capsys.readouterr().out)
    assert schema["type"] == "object"
    assert set(schema["required"]) <= set(schema["properties"])


def test_schema_kinds_are_those_of_the_content_and_crew_folders() -> None:
    assert set(schema_kinds()) == {
        "jobs", "parts", "machines", "materials", "tools", "fluids", "hazards", "onboarding",
        "terms", "manual", "machine-group", "family", "notice", "hold",
        "crew", "person",
    }  # fmt: skip


def test_a_schema_holds_the_meaning_of_each_field(capsys: Captured) -> None:
    main(["schema", "job"])
    schema = json.loads(capsys.readouterr().out)
    assert schema["properties"]["approved_by"]["description"] == "A role, not a name."


@pytest.mark.parametrize(
    ("arguments", "problem", "near"),
    [
        (["schema", "machins"], "there is no kind 'machins'", "did you mean 'machines'?"),
        (["explain", "F2055"], "there is no code 'F2055'", "did you mean 'F205'?"),
    ],
)
def test_misuse_exits_2_and_offers_the_nearest(
    arguments: list[str], problem: str, near: str, capsys: Captured
) -> None:
    assert main(arguments) == 2
    printed, errors = capsys.readouterr()
    assert printed == ""
    assert errors.startswith(f"benchleaf: {problem}\n{near}\n")


@pytest.mark.parametrize("code", CODES)
def test_every_code_is_explained(code: str, capsys: Captured) -> None:
    assert main(["explain", code.lower()]) == 0
    title, why, instead, end = capsys.readouterr().out.split("\n")
    assert title == f"{code}  {CODES[code].title}"
    assert why == f"Why it matters: {CODES[code].why}"
    assert instead == f"Instead: {CODES[code].instead}"
    assert end == ""


@pytest.mark.parametrize("arguments", [[], ["no-such-command"], ["schema"], ["check", "a", "b"]])
def test_a_command_that_is_not_understood_exits_2(arguments: list[str], capsys: Captured) -> None:
    with pytest.raises(SystemExit) as caught:
        main(arguments)
    assert caught.value.code == 2
    assert capsys.readouterr().err.startswith("usage: benchleaf")


def test_help_names_every_command(capsys: Captured) -> None:
    with pytest.raises(SystemExit) as caught:
        main(["--help"])
    assert caught.value.code == 0
    printed = capsys.readouterr().out
    assert all(command in printed for command in ("check", "register", "schema", "explain"))


def test_a_screen_that_cannot_show_a_sign_is_no_crash(shop: Shop, edited: Edited) -> None:
    """A console or a log file on Windows often holds only a few hundred signs."""
    content = shop(edited("jobs/vg-0010.yml", "method: vice", "method: Spannpratzen für 90°"))
    ran = subprocess.run(
        [sys.executable, "-m", "benchleaf.cli", "check", str(content)],
        env={**os.environ, "PYTHONIOENCODING": "ascii"},
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert ran.stderr == ""
    assert ran.returncode == 1
    assert "error F204" in ran.stdout
