"""One mistake hides no other: what can still be known is told in the same run."""

from __future__ import annotations

from collections.abc import Callable
from itertools import combinations
from pathlib import Path

import pytest

from benchleaf import pipeline

TESTS = Path(__file__).parents[1]
JOB, OTHER = "jobs/vg-0010.yml", "jobs/vg-0020.yml"
REVISIONS = {"revisions.yml": (TESTS / "shop" / "revisions.yml").read_text(encoding="utf-8")}
Shop = Callable[..., Path]
Edited = Callable[..., dict[str, str]]
KIND = ("kind: makes it easier", "kind: knack")


def told(content: Path) -> list[tuple[str, str, int]]:
    """Code, file and line of each error."""
    return [
        (one.code, one.place.file.removeprefix("content/"), one.place.line)
        for one in pipeline.check(content)
        if one.blocks_publishing
    ]


def test_an_address_that_is_gone_hides_no_revision_that_lags(shop: Shop, edited: Edited) -> None:
    files = edited(
        JOB, "  - id: gauge\n", "  - id: gauge-it\n", "thickness: 6 mm", "thickness: 7 mm"
    )
    assert [code for code, *_ in told(shop(files | REVISIONS))] == ["A601", "A604"]


@pytest.mark.parametrize(
    "slip",
    [
        "'Call the shift lead.",
        "Call: the shift lead.",
        "Call the shift lead.\n    and: wait",
        "Call\tthe shift lead.",
        "Call \u202ethe shift lead.",
        "@shift lead",
        "[the shift lead",
        "Call the shift lead.\n  and wait\nand: [so",
    ],
)
def test_a_slip_of_yaml_hides_no_wrong_choice_in_the_same_file(
    shop: Shop, edited: Edited, slip: str
) -> None:
    text = edited(JOB, *KIND)[JOB].replace("steps:\n", "call: Call the shift lead.\nsteps:\n", 1)
    assert [code for code, *_ in told(shop({JOB: text}))] == ["F204"]
    found = told(shop({JOB: text.replace("call: Call the shift lead.", f"call: {slip}")}))
    assert len(found) == 2, "nothing looks missing or gone because of the slip"
    assert {code for code, *_ in found} in ({"R107", "F204"}, {"R106", "F204"})


def test_two_slips_in_one_file_are_both_told(shop: Shop, edited: Edited) -> None:
    text = edited(JOB, "makes:", "makes: @", "if_wrong:\n", "if_wrong: [\n")[JOB]
    assert [code for code, *_ in told(shop({JOB: text}))] == ["R107", "R107"]


def test_a_slip_in_a_list_leaves_its_other_entries(shop: Shop, edited: Edited) -> None:
    text = edited("terms.yml", "word: burr", "word: 'burr", "word: quill", "wrod: quill")
    found = told(shop(text))
    assert {code for code, *_ in found} == {"R107", "F201"}


def test_a_record_that_cannot_be_built_hides_only_what_uses_it(shop: Shop, edited: Edited) -> None:
    files = edited("tools/drill-8.yml", "point_angle: ", "pont_angle: ")
    files |= edited(OTHER, "title: Deburr", "title: Well deburr")
    found = {(code, file) for code, file, _ in told(shop(files | REVISIONS))}
    assert found == {("F201", "tools/drill-8.yml"), ("A604", OTHER)}, "VG-0010 uses the drill"


FAULTS = {
    "F204": (JOB, *KIND),
    "A601": (JOB, "  - id: gauge\n", "  - id: gauge-it\n"),
    "A604": (OTHER, "revision: A", "revision: A\ncall: Call the setter."),
    "A607": ("forwards.yml", "", "forwards:\n  - {old: jobs/never.html, new: index.html}\n"),
    "L301": ("onboarding/first-days.yml", "hazard: work-turns", "hazard: work-tuns"),
    "R107": ("tools/plug-gauge-8.yml", "name: ", "name: @"),
    "F201": ("tools/drill-8.yml", "point_angle: ", "pont_angle: "),
}
NOT_KNOWN = {("F204", "A601")}
"""The second cannot be known beside the first: a job that is not built has no anchors."""


@pytest.mark.parametrize(("one", "other"), list(combinations(FAULTS, 2)))
def test_no_fault_hides_another(
    shop: Shop, base_shop: dict[str, str], one: str, other: str
) -> None:
    files: dict[str, str] = dict(REVISIONS)
    for name, old, new in (FAULTS[one], FAULTS[other]):
        text = files.get(name, base_shop.get(name, ""))
        assert old in text
        files[name] = text.replace(old, new, 1)
    codes = {code for code, *_ in told(shop(files))}
    assert codes == {one, other} - ({other} if (one, other) in NOT_KNOWN else set())
