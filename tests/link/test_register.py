"""The register of addresses: only ever added to, and whatever is gone from it is told."""

from __future__ import annotations

import re
import string
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from benchleaf import pipeline
from benchleaf.diagnose import Finding, Place, Severity
from benchleaf.read import Listing, Scalar, child, parse
from benchleaf.registers import addresses_text as register_text
from benchleaf.registers import check_register, forwarding
from running import examples

FILE = "content/addresses.yml"
ADDRESS = st.from_regex(r"(jobs|tools)/[a-z0-9]+(-[a-z0-9]+)?\.html(#[a-z]+)?", fullmatch=True)
ADDRESSES = st.lists(ADDRESS, unique=True, max_size=12)


def placed(addresses: list[str]) -> dict[str, Place]:
    return {one: Place(FILE, line, 5) for line, one in enumerate(addresses, 4)}


def listed(text: str) -> list[str]:
    """The addresses of a register file, as the reader gives them."""
    tree, findings = parse(text, FILE)
    assert findings == ()
    assert tree is not None
    found = child(tree, "addresses")
    assert isinstance(found, Listing)
    assert all(isinstance(item, Scalar) for item in found.items)
    return [item.text for item in found.items if isinstance(item, Scalar)]


def others(finding: Finding) -> int:
    """How many addresses go with the one that a finding names."""
    found = re.search(r"gone, and (\d+) other", finding.text)
    return int(found[1]) if found else 0


@settings(max_examples=examples(40))
@given(ADDRESSES, ADDRESSES)
def test_every_registered_address_is_kept_or_told_to_be_gone(
    old: list[str], planned: list[str]
) -> None:
    findings = list(check_register(placed(old), planned, FILE))
    gone = [each for each in findings if each.code == "A601"]
    lost = [one for one in old if one not in planned]
    by_itself = [one for one in lost if "#" not in one or one.partition("#")[0] not in lost]
    assert [each.place for each in gone] == [placed(old)[one] for one in by_itself]
    assert sum(1 + others(each) for each in gone) == len(lost)
    assert all(each.severity is Severity.ERROR for each in gone)
    new = [each for each in findings if each.code == "A602"]
    assert len(new) == (1 if set(planned) - set(old) and not gone else 0)
    assert len(findings) == len(gone) + len(new)


@settings(max_examples=examples(40))
@given(ADDRESSES.filter(bool), ADDRESSES)
def test_writing_the_register_only_ever_adds_at_its_end(old: list[str], planned: list[str]) -> None:
    written = listed(register_text(old, planned))
    assert written[: len(old)] == old
    assert set(written) == set(old) | set(planned)
    assert len(set(written)) == len(written)


@settings(max_examples=examples(40))
@given(ADDRESSES.filter(bool), ADDRESSES)
def test_writing_the_register_again_changes_nothing(old: list[str], planned: list[str]) -> None:
    text = register_text(old, planned)
    assert register_text(listed(text), planned) == text


@settings(max_examples=examples(40))
@given(ADDRESSES.filter(bool))
def test_what_has_just_been_written_has_no_findings(planned: list[str]) -> None:
    register = placed(listed(register_text([], planned)))
    assert list(check_register(register, planned, FILE)) == []


def test_a_likely_new_name_is_offered() -> None:
    (gone,) = check_register(placed(["jobs/tr-0140.html#ream"]), ["jobs/tr-0140.html#reamer"], FILE)
    assert gone.code == "A601"
    assert "'jobs/tr-0140.html#reamer'" in gone.help[0]


def test_no_address_that_is_still_registered_is_offered() -> None:
    old = ["jobs/tr-0140.html#ream", "jobs/tr-0140.html#reamer"]
    (gone,) = check_register(placed(old), old[1:], FILE)
    assert gone.help[0] == "put the id back"
    assert len(gone.help) == 2


def test_one_new_address_is_one() -> None:
    (finding,) = check_register({}, ["index.html"], FILE)
    assert finding.text.startswith("1 address not")
    (finding,) = check_register({}, ["a.html", "b.html", "c.html", "d.html"], FILE)
    assert finding.text.startswith("4 addresses not")
    assert finding.text.endswith("and more")


# The command, on a content folder


def test_registering_writes_what_is_new_and_keeps_what_was(shop: Callable[..., Path]) -> None:
    content = shop({"tools/deburrer.yml": "id: deburrer\nname: D\nkind: hand tool\nwhat: W.\n"})
    before = listed((content / "addresses.yml").read_text(encoding="utf-8"))
    findings, added = pipeline.register(content)
    assert (findings, added) == ((), 1)
    after = listed((content / "addresses.yml").read_text(encoding="utf-8"))
    assert after == [*before, "tools/deburrer.html"]
    assert pipeline.check(content) == ()
    assert pipeline.register(content) == ((), 0)


def test_registering_a_shop_for_the_first_time(
    shop: Callable[..., Path], base_shop: dict[str, str]
) -> None:
    content = shop({"addresses.yml": None})
    assert pipeline.register(content) == ((), len(listed(base_shop["addresses.yml"])))
    assert pipeline.check(content) == ()
    written = (content / "addresses.yml").read_text(encoding="utf-8")
    assert set(listed(written)) == set(listed(base_shop["addresses.yml"]))


@pytest.mark.parametrize(
    "text", ["addresses: none\n", "addresses:\n  - a.html\n  - a.html\n", "addresses: [\n", "",
             "addresses:\n  - index.html\n  -\n"],
    ids=["no list", "twice", "broken", "empty", "blank entry"],
)  # fmt: skip
def test_a_damaged_register_is_never_written_over(shop: Callable[..., Path], text: str) -> None:
    content = shop({"addresses.yml": text})
    findings, added = pipeline.register(content)
    assert added == 0
    assert any(finding.place.file == FILE for finding in findings)
    assert (content / "addresses.yml").read_text(encoding="utf-8") == text


def test_a_lost_address_is_not_registered_away(
    shop: Callable[..., Path], edited: Callable[..., dict[str, str]]
) -> None:
    content = shop(edited("jobs/vg-0010.yml", "  - id: gauge\n", "  - id: gauge-it\n"))
    findings, added = pipeline.register(content)
    assert ([each.code for each in findings], added) == (["A601"], 0)
    assert "#gauge\n" in (content / "addresses.yml").read_text(encoding="utf-8")


def test_taking_out_the_last_job_does_not_hide_what_is_gone(
    shop: Callable[..., Path], base_shop: dict[str, str]
) -> None:
    jobs = dict.fromkeys(("jobs/vg-0010.yml", "jobs/vg-0020.yml", "parts/vg-r1.yml"))
    content = shop(jobs)
    gone = [each for each in pipeline.check(content) if each.code == "A601"]
    assert [one.text.split("'")[1] for one in gone] == ["jobs/vg-0010.html", "jobs/vg-0020.html"]
    assert sum(1 + others(one) for one in gone) == sum(
        any(sign in line for sign in ("jobs/vg", "trainer/vg"))
        for line in base_shop["addresses.yml"].split("\n")
    )


def test_a_job_that_is_taken_out_asks_for_one_entry(shop: Callable[..., Path]) -> None:
    files: dict[str, str | None] = {"jobs/vg-0010.yml": None, "forwards.yml":
             "forwards:\n  - {old: jobs/vg-0010.html, new: jobs/vg-0020.html}\n"}  # fmt: skip
    bare = [one for one in pipeline.check(shop({"jobs/vg-0010.yml": None})) if one.code == "A601"]
    assert len(bare) == 1
    assert not [one for one in pipeline.check(shop(files)) if one.code in ("A601", "A607")]
    loaded = pipeline.load(shop(files))
    ways = forwarding.moved(loaded.registered, loaded.forwards, loaded.shop).to
    assert ways["jobs/vg-0010.html#drill"] == "jobs/vg-0020.html"
    assert ways["trainer/vg-0010-card.html"] == "trainer/vg-0020-card.html"


def test_a_part_with_another_number_is_asked_for(
    shop: Callable[..., Path], edited: Callable[..., dict[str, str]]
) -> None:
    jobs = ("jobs/vg-0010.yml", "jobs/vg-0020.yml")
    files = {k: v for one in jobs for k, v in edited(one, "part: vg-r1", "part: vg-r7").items()}
    (part,) = edited("parts/vg-r1.yml", "id: vg-r1", "id: vg-r7", "VG-R1\n", "VG-R7\n").values()
    content = shop({**files, "parts/vg-r1.yml": None, "parts/vg-r7.yml": part})
    gone = [one for one in pipeline.check(content) if one.code == "A601"]
    assert [one.text for one in gone] == ["the published address 'parts/vg-r1.html' is gone"]


def test_ids_cannot_break_the_register_file() -> None:
    signs = string.ascii_lowercase + string.digits + "-"
    assert listed(register_text([], [f"tools/{signs}.html#{signs}"])) == [
        f"tools/{signs}.html#{signs}"
    ]
