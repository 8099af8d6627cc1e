"""`benchleaf reckon`, `keys` and `explain`: what is printed, for people and for programs."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf.cli import main
from benchleaf.commands.kinds import schema_kinds
from benchleaf.compute.reckon import OPERATIONS
from benchleaf.diagnose import CODES
from benchleaf.model import ALONE, KINDS, Check, KeyPoint, Record, Trait, has

Shop = Callable[..., Path]
Edited = Callable[..., dict[str, str]]
Captured = pytest.CaptureFixture[str]
JOB, MACHINE = "jobs/vg-0010.yml", "machines/bench-drill.yml"


def reckon_job(content: Path, *more: str) -> int:
    return main(["reckon", "VG-0010", "--content", str(content), *more])


def test_a_job_shows_each_figure_with_its_working(shop: Shop, capsys: Captured) -> None:
    assert reckon_job(shop()) == 0
    printed, errors = capsys.readouterr()
    lines = printed.split("\n")
    assert errors == ""
    assert lines[0] == "VG-0010 guide-hole: Guide hole, 8 mm through (drilling)"
    place = lines.index("  Depth stop, from first touch: 9.4 mm (0.370 in)")
    assert lines[place + 2] == "    6 + 2.40 + 1 = 9.4 mm"
    assert lines[place + 3].startswith("    limits: ")
    assert lines[place + 4].startswith("    source: ")


def test_a_job_that_must_not_run_exits_1_and_says_so_first(
    shop: Shop, edited: Edited, capsys: Captured
) -> None:
    content = shop(edited(MACHINE, "quill_travel: 60 mm", "quill_travel: 5 mm"))
    assert reckon_job(content) == 1
    lines = capsys.readouterr().out.split("\n")
    assert lines[1].startswith("  DO NOT RUN: the quill must travel 12.4 mm")
    assert reckon_job(content, "--json") == 1
    (sheet,) = json.loads(capsys.readouterr().out)["set_ups"]
    assert sheet["may_run"] is False
    assert sheet["do_not_run"][0]["reason"].startswith("the quill must travel")


def test_a_figure_that_is_missing_is_named(shop: Shop, edited: Edited, capsys: Captured) -> None:
    content = shop(edited(MACHINE, "efficiency: 0.8\n", ""))
    assert reckon_job(content) == 0
    wanted = "efficiency in machines/bench-drill"
    assert f"Power asked of the motor: not computed; missing: {wanted}" in capsys.readouterr().out
    reckon_job(content, "--json")
    (sheet,) = json.loads(capsys.readouterr().out)["set_ups"]
    assert sheet["not_computed"] == [
        {
            "key": "motor_power",
            "label": "Power asked of the motor",
            "missing": wanted,
            "is_optional": False,
        }
    ]


def test_a_doubt_is_told(shop: Shop, edited: Edited, capsys: Captured) -> None:
    hard = ("force: 20 kN", "force: 30 kN")
    content = shop(edited(JOB, "feed: 0.15 mm/rev", "feed: 0.2 mm/rev", *hard))
    assert reckon_job(content) == 0
    assert "  take care: The feed 0.20 mm/rev is outside" in capsys.readouterr().out


@pytest.mark.parametrize("written", ["VG-0010", "vg-0010", "Vg-0010"])
def test_a_job_is_found_in_any_case(shop: Shop, capsys: Captured, written: str) -> None:
    assert main(["reckon", written, "--content", str(shop())]) == 0
    assert capsys.readouterr().out.startswith("VG-0010 guide-hole")


def test_a_job_without_a_set_up(shop: Shop, capsys: Captured) -> None:
    content = shop()
    assert main(["reckon", "VG-0020", "--content", str(content)]) == 0
    assert capsys.readouterr().out == "VG-0020 has no set-ups\n"
    assert main(["reckon", "VG-0020", "--content", str(content), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["set_ups"] == []


def test_a_range_has_two_ends_and_no_one_value(capsys: Captured) -> None:
    assert main(["reckon", "fit", "size=10 mm", "tolerance=H7", "--json"]) == 0
    fit = json.loads(capsys.readouterr().out)
    assert fit["given"] == {"size": "10 mm", "tolerance": "H7"}
    limits = next(one for one in fit["results"] if one["key"] == "limits")
    assert (limits["value"], limits["low"], limits["high"]) == (None, 10.0, 10.015)
    main(["reckon", "drilling", "diameter=8 mm", "speed=1000 rpm", "--json"])
    drilling = json.loads(capsys.readouterr().out)
    speed = next(one for one in drilling["results"] if one["key"] == "cutting_speed")
    assert speed["value"] == speed["low"] == speed["high"] == pytest.approx(25.132741)


def test_every_key_of_a_result_is_a_name(shop: Shop, capsys: Captured) -> None:
    reckon_job(shop(), "--json")
    (sheet,) = json.loads(capsys.readouterr().out)["set_ups"]
    names = [one["key"] for one in sheet["results"]]
    assert len(set(names)) == len(names)
    assert all(name.isidentifier() and name.islower() for name in names)


def test_an_operation_needs_no_content(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["reckon", "drilling", "diameter=20 mm", "cutting_speed=30 m/min"]) == 0
    printed = capsys.readouterr().out
    assert printed.startswith("drilling: diameter 20 mm, cutting_speed 30 m/min\n")
    assert "  Spindle speed: 477 rpm\n" in printed  # 30000 / (pi x 20)
    assert "  Feed a minute: not computed; give feed\n" in printed


def test_an_option_may_stand_before_the_inputs(capsys: Captured) -> None:
    given = ("diameter=20 mm", "cutting_speed=30 m/min")
    assert main(["reckon", "drilling", *given, "--json"]) == 0
    after = capsys.readouterr().out
    assert main(["reckon", "--json", "drilling", *given]) == 0
    assert capsys.readouterr().out == after
    assert main(["reckon", "drilling", "--json", *given]) == 0
    assert capsys.readouterr().out == after
    assert main(["reckon", "drilling", "--format", "json", *given]) == 0
    assert capsys.readouterr().out == after


def test_where_nothing_follows_it_exits_1(capsys: Captured) -> None:
    assert main(["reckon", "fit", "size=10 mm"]) == 1
    assert "Limits of size: not computed; give tolerance" in capsys.readouterr().out
    assert main(["reckon", "fit"]) == 1


@pytest.mark.parametrize(
    ("arguments", "problem", "cure"),
    [
        (["drilling", "feeed=1 mm/rev"], "'feeed' is no input of drilling", "did you mean 'feed'?"),
        (["drilling", "diameter=8"], "diameter: '8' has no unit", "mm, in"),
        (["drilling", "diameter"], "'diameter' is no input", ""),
        (["drilling", "diameter="], "'diameter' is no input", ""),
        (["drilling", "=8 mm"], "'' is no input", ""),
        (["tapping", "thread=M9"], "thread: 'M9' cannot be taken", "M8x1.25"),
        (
            ["driling"],
            "'driling' is no job of content/ and no operation",
            "did you mean 'drilling'?",
        ),
    ],
)
def test_misuse_exits_2_and_says_what_to_give(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Captured,
    arguments: list[str], problem: str, cure: str,
) -> None:  # fmt: skip
    monkeypatch.chdir(tmp_path)
    assert main(["reckon", *arguments]) == 2
    printed, errors = capsys.readouterr()
    assert printed == ""
    assert errors.startswith(f"benchleaf: {problem}")
    assert cure in errors


def test_a_job_that_is_not_there_offers_the_nearest(shop: Shop, capsys: Captured) -> None:
    assert main(["reckon", "VG-0011", "--content", str(shop())]) == 2
    assert "did you mean 'VG-0010'?" in capsys.readouterr().err


def test_inputs_beside_a_job_are_refused_and_not_passed_over(shop: Shop, capsys: Captured) -> None:
    """Who asks what another feed would do must not be shown the figures of the old one."""
    assert main(["reckon", "VG-0010", "feed=0.3 mm/rev", "--content", str(shop())]) == 2
    printed, errors = capsys.readouterr()
    assert printed == ""
    assert "feed" in errors


def test_help_lists_every_operation_and_every_input(capsys: Captured) -> None:
    with pytest.raises(SystemExit) as caught:
        main(["reckon", "--help"])
    assert caught.value.code == 0
    printed = capsys.readouterr().out
    for operation in OPERATIONS.values():
        start = printed.index(f"\n  {operation.name}: {operation.what}\n")
        block = printed[start + 1 :].split("\n\n")[0]
        for name, given in operation.inputs.items():
            assert f"\n    {name} " in block, (operation.name, name)
            assert given.what in block


@pytest.mark.parametrize("kind", [*schema_kinds(), "job", "Machine", "TERM"])
def test_keys_lists_every_key_of_a_kind_and_which_are_needed(kind: str, capsys: Captured) -> None:
    assert main(["keys", kind]) == 0
    lines = capsys.readouterr().out.split("\n")
    classes: dict[str, type[Record]] = {**KINDS, **ALONE}
    plural = kind.lower() if kind.lower() in classes else f"{kind.lower()}s"
    top = {line.split()[0]: line for line in lines if line and not line.startswith(" ")}
    fields = classes[plural].model_fields
    assert list(top) == list(fields)
    for name, field in fields.items():
        words = top[name].split()
        is_issued = has(classes[plural], name, Trait.ISSUED)
        assert ("needed" in words[1:2]) is (field.is_required() and not is_issued), name
        assert top[name].endswith("`benchleaf release` gives it.") is is_issued


@pytest.mark.parametrize(
    ("key", "first", "count"),
    [
        ("steps.checks", "what ", len(Check.model_fields)),
        ("steps.key_points", "point ", len(KeyPoint.model_fields)),
        ("holding.method", "method ", 1),
    ],
)
def test_keys_below_a_key_alone(key: str, first: str, count: int, capsys: Captured) -> None:
    assert main(["keys", "job", key]) == 0
    lines = capsys.readouterr().out.rstrip().split("\n")
    assert lines[0].startswith(first)
    assert len(lines) == count
    assert main(["keys", "job", f"{key}x"]) == 2
    assert "did you mean" in capsys.readouterr().err


def test_keys_of_a_job_hold_the_keys_of_each_operation(capsys: Captured) -> None:
    main(["keys", "jobs"])
    printed = capsys.readouterr().out
    for operation in ("drilling", "tapping", "reaming", "countersinking", "counterboring"):
        assert f"with operation: {operation}" in printed


def test_keys_of_no_kind_exits_2(capsys: Captured) -> None:
    assert main(["keys", "machins"]) == 2
    assert capsys.readouterr().err.startswith("benchleaf: there is no kind 'machins'\ndid you mean")


def test_explain_without_a_code_lists_every_code(capsys: Captured) -> None:
    assert main(["explain"]) == 0
    printed, errors = capsys.readouterr()
    assert printed.rstrip().split("\n") == [f"{one.id}  {one.title}" for one in CODES.values()]
    assert errors == ""
