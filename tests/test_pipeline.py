"""The whole journey on damaged content: always findings, never an exception."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from hypothesis import example, given, settings
from hypothesis import strategies as st

from benchleaf import pipeline
from benchleaf.diagnose import CODES, Severity
from benchleaf.model import FOLDERS, KINDS, Manual, Record
from running import examples

SHOP = Path(__file__).parent / "shop"
BASE = {
    path.relative_to(SHOP).as_posix(): path.read_text(encoding="utf-8")
    for path in sorted(SHOP.rglob("*.yml"))
}


@pytest.fixture(scope="module")
def content(base_shop: dict[str, str]) -> Iterator[Path]:
    """One small shop; each example puts one file in the place of another and takes it back."""
    with tempfile.TemporaryDirectory() as folder:
        where = Path(folder) / "content"
        for name, text in base_shop.items():
            (where / name).parent.mkdir(parents=True, exist_ok=True)
            (where / name).write_text(text, encoding="utf-8")
        yield where


def check_soundness(content: Path, name: str, data: bytes) -> None:
    """Check with one file replaced: sound findings, and the same ones twice."""
    path = content / name
    before = path.read_bytes() if path.exists() else None
    path.write_bytes(data)
    try:
        loaded = pipeline.load(content)
        assert pipeline.check(content) == loaded.findings
        for finding in loaded.findings:
            assert finding.code in CODES
            assert finding.text.strip()
            assert "\n" not in finding.text, "a headline stands on one line"
            for place in (finding.place, *(other.place for other in finding.related)):
                file = content.parent / place.file
                assert file.exists(), place
                assert place.line == 0 or 1 <= place.line <= file.read_bytes().count(b"\n") + 2
                assert (place.column >= 1) == (place.line >= 1)
        assert loaded.may_publish == all(
            each.severity is not Severity.ERROR for each in loaded.findings
        )
    finally:
        if before is None:
            path.unlink()
        else:
            path.write_bytes(before)


SCRAPS = st.sampled_from(
    ["", " ", "  ", "\t", ":", ": ", "- ", "-", "#7", " #", "[", "]", "[]", "{", "}", "{}", "~",
     "null", "&a ", "*a", "<<: *a", "!!int ", "!x ", "|", ">-", "'", '"', "\\", "@", "`", "%",
     "---", "...", "? ", ",", "0", "-1 mm", "1/0 in", "9" * 400 + "/2 in", "1e999", "nan", "²",
     "²/3 in", "٣ mm", "0,15 mm/rev", "24 to 30 m/min", "hand", "[[", "]]", "[[x:y#z]]", "\r",
     "\r\n", "\0", "\x85", "\u2028", "\u202e", "\ufeff", "<<<<<<< a", "=======", "id: index",
     "set_ups:", "steps: []", "\N{KELVIN SIGN}", "é", "\U0001f600"]
)  # fmt: skip


def damaged(text: str, draw: st.DrawFn) -> str:
    """One slip of an editor's hand."""
    lines = text.split("\n")
    at, other = (draw(st.integers(0, len(lines) - 1)) for _ in "ab")
    kind = draw(st.sampled_from(["delete", "double", "swap", "insert", "value", "indent", "cut"]))
    scrap = draw(SCRAPS | st.text(max_size=6))
    if kind == "delete":
        del lines[at]
    elif kind == "double":
        lines.insert(other, lines[at])
    elif kind == "swap":
        lines[at], lines[other] = lines[other], lines[at]
    elif kind == "insert":
        column = draw(st.integers(0, len(lines[at])))
        lines[at] = lines[at][:column] + scrap + lines[at][column:]
    elif kind == "value":
        key, colon, _ = lines[at].partition(": ")
        lines[at] = f"{key}{colon or ': '}{scrap}"
    elif kind == "indent":
        lines[at] = draw(st.sampled_from(["  ", " ", "    - "])) + lines[at]
    else:
        lines = lines[:at]
    return "\n".join(lines) or scrap


@st.composite
def damaged_files(draw: st.DrawFn) -> tuple[str, str]:
    name = draw(st.sampled_from(sorted(BASE)))
    text = BASE[name]
    for _ in range(draw(st.integers(1, 4))):
        text = damaged(text, draw)
    return name, text


@settings(max_examples=examples(60))
@given(case=damaged_files())
@example(case=("manual.yml", ""))
@example(case=("terms.yml", "terms: x\n"))
@example(case=("terms.yml", "terms:\n  - x\n  - []\n  - {}\n"))
@example(case=("addresses.yml", "addresses:\n  - []\n  - a\n  - a\n"))
@example(case=("jobs/vg-0010.yml", "id: [VG-0010]\n"))
@example(
    case=("jobs/vg-0010.yml", BASE["jobs/vg-0010.yml"].replace(" 6 mm\n", f" {9**400}/2 in\n"))
)
@example(case=("jobs/vg-0020.yml", BASE["jobs/vg-0020.yml"].replace("ion: A\n", "ion: ²\n")))
@example(case=("jobs/vg-0010.yml", "id: VG-0010\nsteps: {}\nset_ups: x\n"))
def test_damage_to_a_real_file_gives_findings(content: Path, case: tuple[str, str]) -> None:
    name, text = case
    check_soundness(content, name, text.encode("utf-8", "surrogatepass"))


CLASSES: tuple[type[Record], ...] = (*KINDS.values(), Manual)
KEYS = sorted({key for cls in CLASSES for key in cls.model_fields})
FITTING = ["drilling", "vice", "through", "blind", "could", "vg-0010", "8 mm", "drill-8", "1", "A"]
WORDS = st.sampled_from([*KEYS, *FITTING, "bench-drill", "2026-03-02"]) | st.text(max_size=8)
TREES = st.recursive(
    WORDS | st.none() | st.booleans() | st.integers() | st.floats(),
    lambda inner: (
        st.lists(inner, max_size=4)
        | st.dictionaries(st.sampled_from(KEYS) | st.text(max_size=5), inner, max_size=6)
    ),
    max_leaves=25,
)
RECORDS = st.dictionaries(st.sampled_from(KEYS), TREES, max_size=12)


@settings(max_examples=examples(60))
@given(
    name=st.sampled_from([*(f"{kind}/any.yml" for kind in FOLDERS), *sorted(BASE)]),
    tree=RECORDS | TREES,
    flow=st.sampled_from([True, False, None]),
)
@example(name="tools/any.yml", tree={"id": "any", "a key\nof two lines": None}, flow=None)
@example(name="tools/any.yml", tree={"id": "any", "kind": "two\nlines"}, flow=None)
def test_any_tree_as_a_file_gives_findings(
    content: Path, name: str, tree: Any, flow: bool | None
) -> None:
    text = yaml.safe_dump(tree, default_flow_style=flow, allow_unicode=True)
    check_soundness(content, name, text.encode("utf-8", "surrogatepass"))


@settings(max_examples=examples(25))
@given(name=st.sampled_from(sorted(BASE)), data=st.binary(max_size=200))
def test_any_bytes_as_a_file_give_findings(content: Path, name: str, data: bytes) -> None:
    check_soundness(content, name, data)


@settings(max_examples=examples(40))
@given(
    name=st.sampled_from(sorted(BASE)),
    at=st.integers(min_value=0),
    byte=st.binary(min_size=1, max_size=3),
)
def test_any_bytes_within_a_file_give_findings(
    content: Path, name: str, at: int, byte: bytes
) -> None:
    data = BASE[name].encode()
    at %= len(data)
    check_soundness(content, name, data[:at] + byte + data[at:])


def test_the_order_in_which_files_lie_on_the_disk_makes_no_difference(
    shop: Callable[..., Path],
    edited: Callable[..., dict[str, str]],
    base_shop: dict[str, str],
    tmp_path: Path,
) -> None:
    slips = edited("terms.yml", "word: burr", "wrod: burr") | edited(
        "jobs/vg-0010.yml", "fluid: soluble-oil", "fluid: water"
    )
    backwards = tmp_path / "backwards" / "content"
    for name, text in reversed({**base_shop, **slips}.items()):
        (backwards / name).parent.mkdir(parents=True, exist_ok=True)
        (backwards / name).write_text(text, encoding="utf-8")
    findings = pipeline.check(backwards)
    assert findings == pipeline.check(shop(slips))
    assert [each.code for each in findings] == ["L301", "F201"]


def test_findings_are_in_the_order_of_files_and_lines(
    shop: Callable[..., Path], edited: Callable[..., dict[str, str]]
) -> None:
    findings = pipeline.check(
        shop(
            edited("jobs/vg-0010.yml", "fluid: soluble-oil", "fluid: water",
                   "machine: bench-drill", "machine: lathe", "[[VG-0020#deburr]]", "[[x]]")
            | edited("manual.yml", "title: Drilling manual", "titel: Drilling manual")
        )
    )  # fmt: skip
    places = [each.place for each in findings]
    assert len(places) == 4
    assert places == sorted(places)


def test_a_shop_with_warnings_and_stops_may_be_published(
    shop: Callable[..., Path], edited: Callable[..., dict[str, str]]
) -> None:
    loaded = pipeline.load(
        shop(edited("machines/bench-drill.yml", "quill_travel: 60 mm", "quill_travel: 1 mm",
                    "efficiency: 0.8\n", ""))
    )  # fmt: skip
    assert {each.severity for each in loaded.findings} == {Severity.STOP, Severity.WARNING}
    assert loaded.may_publish


def test_loading_writes_nothing(shop: Callable[..., Path]) -> None:
    content = shop()
    before = {path: path.stat().st_mtime_ns for path in content.rglob("*")}
    pipeline.load(content)
    assert {path: path.stat().st_mtime_ns for path in content.rglob("*")} == before


def test_the_small_shop_in_this_repository_has_no_problem() -> None:
    assert pipeline.check(SHOP) == ()
