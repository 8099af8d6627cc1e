"""Every code has a case: an edit of the small shop that raises it, and one that does not.

The samples of a code that a rule or a stage declares stand in its `Code`, with what is printed.
Others have a folder tests/cases/CODE with one or more `bad*.yml`, the exact print of each in
`expected*.txt`, and a `good.yml`. Edits are a list; each entry names a `file` and either

- `find` and `put`: one change of text, `find` standing there exactly once,
- `text`: the whole file, in `encoding` where that is not UTF-8, `times` over where it is long,
- `remove: true`: no such file,
- `register: true`: revisions.yml as the command writes it for the content so far,
- `take_over: true`: the shop taken over, so that a release gives its revisions,
- `cut_off: true`: the file without its last line, or
- `link_to`: a symbolic link in its place.

Cases of codes that begin with C edit the small crew, which then lies beside the content folder. A
file below `saved/` is a record that is to be taken in; `FINGERPRINT` in it is that of VG-0010.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from textwrap import dedent, indent, wrap
from typing import Any

import pytest
import yaml

from benchleaf import pipeline
from benchleaf.diagnose import CODES, Finding, Place, Sample, report, summary
from benchleaf.people.booking import look_at
from benchleaf.people.crews import load_crew
from registering import cut_off, register_revisions, take_over
from running import for_each

CASES = Path(__file__).parents[1] / "cases"
CREW = Path(__file__).parents[1] / "crew"
BAD = sorted(CASES.glob("*/bad*.yml"))
GOOD = sorted(CASES.glob("*/good.yml"))
EXPECTED = sorted(CASES.glob("*/expected*.txt"))
BAD_SAMPLES = [
    (f"{code.id}-{number}", code.id, one)
    for code in CODES.values()
    for number, one in enumerate(code.bad)
]
SAMPLES = [pytest.param(code, one, id=name) for name, code, one in BAD_SAMPLES]
SPARED = [pytest.param(code.good, id=code.id) for code in CODES.values() if code.good]
MACHINERY = ("tuple", "string", "input should", "unable to parse", "valid integer", "datetime",
             "validation", "mapping values", "token", "alphabetic", "tag:yaml")  # fmt: skip
"""Words of the libraries beneath, which mean nothing to whoever writes a breakdown."""


def named(path: Path) -> str:
    return f"{path.parent.name}-{path.stem}"


def apply(content: Path, edit: dict[str, Any]) -> None:
    """One entry of an edit file, done to the content folder."""
    path = content / edit["file"]
    path.parent.mkdir(parents=True, exist_ok=True)
    if "find" in edit:
        text = path.read_bytes().decode()
        assert text.count(edit["find"]) == 1, f"{edit['find']!r} in {edit['file']}"
        path.write_bytes(text.replace(edit["find"], edit["put"]).encode())
    elif "text" in edit:
        path.write_bytes(edit["text"].encode(edit.get("encoding", "utf-8")) * edit.get("times", 1))
    elif "link_to" in edit:
        path.unlink(missing_ok=True)
        path.symlink_to(edit["link_to"])
    elif "take_over" in edit:
        take_over(content)
    elif "cut_off" in edit:
        cut_off(path)
    elif "register" in edit:
        assert register_revisions(content)[0] == ()
    else:
        assert edit["remove"] is True
        path.unlink()


def found_after(content: Path, edits: str) -> tuple[Finding, ...]:
    """What is found in a content folder after the edits of a sample."""
    for edit in yaml.safe_load(dedent(edits)):
        apply(content, edit)
    return pipeline.check(content)


def folded(printed: str) -> str:
    """What is printed, as a sample holds it: no line wider than the house allows."""
    lines = []
    for line in printed.split("\n"):
        first, *more = wrap(line.strip(), 80, break_long_words=False, break_on_hyphens=False)
        lines += [line[: len(line) - len(line.lstrip())] + first, *(" " * 8 + one for one in more)]
    return indent("\n".join(lines), " " * 12)


@pytest.mark.parametrize(("code", "sample"), SAMPLES)
def test_a_bad_sample_prints_exactly_what_it_says(
    code: str, sample: Sample, shop: Callable[..., Path]
) -> None:
    findings = found_after(shop(), sample.edits)
    assert code in {finding.code for finding in findings}
    printed = report(findings)
    assert printed == sample.printed, f"it prints\n{folded(printed)}"


@pytest.mark.parametrize("good", SPARED)
def test_a_good_sample_has_no_problem(good: str, shop: Callable[..., Path]) -> None:
    assert report(found_after(shop(), good)) == ""


def test_who_has_a_bad_sample_has_a_good_one() -> None:
    assert len(SPARED) > 50
    assert [code.id for code in CODES.values() if bool(code.bad) != bool(code.good)] == []


def found_in(content: Path, edits: Path) -> tuple[Finding, ...]:
    crew, saved = content.with_name("crew"), content.with_name("saved")
    if edits.parent.name.startswith("C"):
        shutil.copytree(CREW, crew)
    for edit in yaml.safe_load(edits.read_text(encoding="utf-8")):
        apply(content, edit)
    if not crew.is_dir():
        return pipeline.check(content)
    loaded = pipeline.load(content)
    if not saved.is_dir():
        return load_crew(crew, loaded.shop, content).findings
    for path in saved.iterdir():
        text = path.read_text(encoding="utf-8")
        path.write_text(text.replace("FINGERPRINT", loaded.fingerprints["vg-0010"]))
    given = look_at(sorted(saved.iterdir()), crew, loaded).given
    found = [one for each in given for one in each.findings]
    return tuple(replace(one, place=_inside(one.place, content)) for one in found)


def _inside(place: Place, content: Path) -> Place:
    return replace(place, file=place.file.removeprefix(f"{content.parent.as_posix()}/"))


@pytest.mark.parametrize("bad", BAD, ids=named)
def test_a_bad_case_prints_exactly_what_is_expected(
    bad: Path, shop: Callable[..., Path], golden: Callable[[Path, str], None]
) -> None:
    findings = found_in(shop(), bad)
    assert bad.parent.name in {finding.code for finding in findings}
    printed = f"{report(findings)}\n{summary(findings)}\n"
    printed = re.sub(r"\b(registered|now) [0-9a-f]{8}\b", r"\1 (fingerprint)", printed)
    golden(bad.with_name(bad.name.replace("bad", "expected", 1)).with_suffix(".txt"), printed)


@pytest.mark.parametrize("good", GOOD, ids=named)
def test_its_good_counterpart_has_no_problem(good: Path, shop: Callable[..., Path]) -> None:
    assert report(found_in(shop(), good)) == ""


PRINTED = [
    *(pytest.param(path.read_text(encoding="utf-8"), id=named(path)) for path in EXPECTED),
    *(pytest.param(f"{sample.printed}\n", id=name) for name, _, sample in BAD_SAMPLES),
]
"""Everything that a case expects to be printed."""


@for_each("printed", PRINTED)
def test_every_finding_says_what_to_do(printed: str) -> None:
    findings = re.split(r"^(?=(?:content|crew|saved)/)", printed, flags=re.MULTILINE)
    without = [each for each in findings if each and not re.search(r"\n    (?!see also)", each)]
    assert without == []


@for_each("printed", PRINTED)
def test_no_finding_speaks_of_the_machinery(printed: str) -> None:
    assert [word for word in MACHINERY if word in printed] == []


def test_no_case_is_left_half_written() -> None:
    folders = {path for path in CASES.iterdir() if path.is_dir()}
    assert {path.name for path in folders} <= set(CODES)
    assert {path.parent for path in GOOD} == {path.parent for path in BAD} == folders
    expected = {path.with_name(path.name.replace("bad", "expected", 1)).with_suffix(".txt")
                for path in BAD}  # fmt: skip
    assert expected == set(CASES.glob("*/*.txt"))
