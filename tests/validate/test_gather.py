"""All files to one shop: ids once, and a slip in one file told once and not in others."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.diagnose import Finding, Place
from benchleaf.model import KINDS

Found = Callable[..., tuple[Finding, ...]]
Edited = Callable[..., dict[str, str]]


def test_the_small_shop_is_read_whole(shop: Callable[..., Path]) -> None:
    loaded = pipeline.load(shop())
    assert loaded.findings == ()
    assert loaded.may_publish
    assert {kind: list(loaded.shop.of_kind(kind)) for kind in KINDS} == {
        "jobs": ["vg-0010", "vg-0020"],
        "parts": ["vg-r1"],
        "machines": ["bench-drill"],
        "materials": ["mild-steel"],
        "tools": ["drill-8", "plug-gauge-8"],
        "fluids": ["soluble-oil"],
        "hazards": ["work-turns"],
        "onboarding": ["first-days"],
        "terms": ["burr", "quill", "rack-plate"],
    }


def test_the_place_of_a_value_of_a_record(shop: Callable[..., Path]) -> None:
    places = pipeline.load(shop()).places
    assert places.of("jobs", "vg-0010", ("steps", 0, "id")) == Place(
        "content/jobs/vg-0010.yml", 53, 9
    )
    assert places.of("terms", "burr", ("word",)) == Place("content/terms.yml", 3, 11)
    assert places.of("jobs", "vg-0010", ("call",)) == Place("content/jobs/vg-0010.yml", 1, 1)
    assert places.of("jobs", "not-there") == Place("content")


def test_a_kind_without_a_record_is_no_problem(shop: Callable[..., Path], edited: Edited) -> None:
    files = edited("jobs/vg-0010.yml", "fluid: soluble-oil\n", "") | edited(
        "addresses.yml", "  - fluids/soluble-oil.html\n", ""
    )
    assert pipeline.check(shop({"fluids/soluble-oil.yml": None, **files})) == ()


@pytest.mark.parametrize(
    ("name", "slip"),
    [
        ("tools/plug-gauge-8.yml", "kind: gauge: go\n"),
        ("tools/plug-gauge-8.yml", "care:\n\t- x\n"),
        ("hazards/work-turns.yml", "title: [\n"),
        ("jobs/vg-0020.yml", "title: [\n"),
        ("machines/bench-drill.yml", "name: @\n"),
        ("materials/mild-steel.yml", "- list\n"),
        ("terms.yml", "terms: [\n"),
    ],
)
def test_a_file_that_cannot_be_read_is_told_once(
    found: Found, base_shop: dict[str, str], name: str, slip: str
) -> None:
    """Records that use it are not told that it is gone, and its address is not called lost."""
    findings = found({name: slip + base_shop[name]})
    assert {each.place.file for each in findings} == {f"content/{name}"}
    assert len(findings) == 1


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [
        ("tools/plug-gauge-8.yml", "kind: gauge", "kind: gauges"),
        ("hazards/work-turns.yml", "title: Plate", "titel: Plate"),
        ("jobs/vg-0020.yml", "revision: A", "revision: A.1"),
        ("machines/bench-drill.yml", "chuck: 1 to 13 mm", "chuck: 1 to 13"),
        ("materials/mild-steel.yml", "kd_thrust: 24000", "kd_thrust: 24,000"),
        ("terms.yml", "    word: quill", "    wrod: quill"),
    ],
)
def test_a_record_with_a_slip_is_told_once(
    found: Found, edited: Edited, name: str, old: str, new: str
) -> None:
    findings = found(edited(name, old, new))
    assert len(findings) == 1
    assert findings[0].place.file == f"content/{name}"


def test_ids_are_told_apart_without_regard_to_capitals(
    found: Found, base_shop: dict[str, str]
) -> None:
    other = base_shop["tools/plug-gauge-8.yml"].replace("plug-gauge-8", "PLUG-gauge-8")
    (finding,) = (each for each in found({"tools/z.yml": other}) if each.code == "L303")
    assert finding.place == Place("content/tools/z.yml", 1, 5)
    assert finding.related[0].place == Place("content/tools/plug-gauge-8.yml", 1, 5)


def test_records_of_two_kinds_may_share_an_id(
    found: Found, base_shop: dict[str, str], edited: Edited
) -> None:
    fluid = base_shop["fluids/soluble-oil.yml"].replace("id: soluble-oil", "id: drill-8")
    register = edited("addresses.yml", "  - fluids/index.html\n",
                      "  - fluids/index.html\n  - fluids/drill-8.html\n")  # fmt: skip
    assert found({"fluids/drill-8.yml": fluid}, register) == ()


def test_two_slips_in_two_files_are_both_told(found: Found, edited: Edited) -> None:
    findings = found(
        edited("manual.yml", "title: Drilling manual", "titel: Drilling manual"),
        edited("terms.yml", "    word: burr", "    wrod: burr"),
    )
    assert [(each.code, each.place.file) for each in findings] == [
        ("F201", "content/manual.yml"), ("F201", "content/terms.yml"),
    ]  # fmt: skip


def test_a_second_key_beside_the_terms_is_named(found: Found, edited: Edited) -> None:
    (finding,) = found(edited("terms.yml", "terms:\n", "words: none\nterms:\n"))
    assert finding.code in {"F201", "F203"}
    assert "words" in finding.text or any("words" in line for line in finding.help)


def test_without_a_manual_the_rest_is_still_checked(found: Found, edited: Edited) -> None:
    findings = found({"manual.yml": None}, edited("jobs/vg-0010.yml", "feed: 0.15", "feed: 0,15"))
    assert [each.code for each in findings] == ["F205", "R101"]
