"""Whatever is damaged in the registers hides nothing else: each thing is told in one run."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

from repository import Repository

from benchleaf import pipeline
from registering import cut_off, register_revisions

RECORD = "changed/vg-0010.yml"


def larger(repo: Repository) -> None:
    repo.edit("jobs/vg-0010.yml", "+0.1/-0", "+0.2/-0")


def told(repo: Repository) -> list[tuple[str, str]]:
    """Code, and the job that is called changed, or what is wrong with a register."""
    return sorted(
        (one.code, one.text.partition(" or a record")[0].rpartition("damaged: ")[2])
        for one in repo.found()
    )


def rewritten(repo: Repository, name: str, find: str, put: str) -> None:
    path = repo.content / name
    text, count = re.subn(find, put, path.read_text(encoding="utf-8"), count=1)
    assert count == 1
    path.write_text(text, encoding="utf-8")


def test_a_change_is_told_beside_a_damaged_register(repo: Repository) -> None:
    larger(repo)
    changed = ("A604", "VG-0010")
    assert told(repo) == [changed]
    whole = {name: (repo.content / f"{name}.yml").read_text(encoding="utf-8")
             for name in ("revisions", "history", "tally", "addresses")}  # fmt: skip

    def damaged(name: str, find: str, put: str) -> list[tuple[str, str]]:
        rewritten(repo, f"{name}.yml", find, put)
        found = told(repo)
        (repo.content / f"{name}.yml").write_text(whole[name], encoding="utf-8")
        return found

    altered = "the entry of VG-0020 revision A was altered, or an entry before it is gone"
    assert damaged("revisions", r"(VG-0020.*?fingerprint: )\w{8}", r"\g<1>01234567") == [
        changed, ("A606", altered),
    ]  # fmt: skip
    assert damaged("history", r"(VG-0020.*?note: \")", r"\1X") == [
        changed, ("A606", altered),
    ]  # fmt: skip
    assert damaged("tally", "history: .*", "history: none")[0] == changed
    assert [one for one, _ in damaged("addresses", "  - jobs/vg-0010.html .*\n", "")] == [
        "A603", "A604",
    ]  # fmt: skip
    # What is lost or altered of the job itself tells nothing of it for sure.
    own = damaged("revisions", r"(VG-0010.*?fingerprint: )\w{8}", r"\g<1>01234567")
    assert [one for one, _ in own] == ["A606"]
    assert [one for one, _ in damaged("revisions", r"  - .*VG-0010.*\n", "")] == ["A606"]


def test_two_damaged_registers_and_two_altered_entries_are_all_told(repo: Repository) -> None:
    for job in ("VG-0010", "VG-0020"):
        rewritten(repo, "revisions.yml", rf"({job}.*?fingerprint: )\w{{8}}", r"\g<1>01234567")
    rewritten(repo, "tally.yml", "history: .*", "history: none")
    places = [(one.code, Path(one.place.file).name) for one in repo.found()]
    assert places == [("A606", "revisions.yml")] * 2 + [("A606", "tally.yml")]


def test_an_entry_that_nobody_can_read_hides_no_change_of_another_job(
    shop: Callable[..., Path],
) -> None:
    content = shop()
    register_revisions(content)
    for name, find, put in (
        ("jobs/vg-0010.yml", "+0.1/-0", "+0.2/-0"),
        ("revisions.yml", "job: VG-0020, revision", "job: VG-0020, version"),
    ):
        path = content / name
        text = path.read_text(encoding="utf-8")
        assert text.count(find) == 1
        path.write_text(text.replace(find, put), encoding="utf-8")
    found = [(one.code, one.text[:7]) for one in pipeline.check(content)]
    assert found == [("A604", "VG-0010"), ("A606", "the reg")]


def test_a_record_of_changes_that_is_lost_cut_or_altered_is_told(repo: Repository) -> None:
    larger(repo)
    repo.notice("larger", "[VG-0010]", "The hole may be larger.")
    repo.commit()
    assert repo.release() == 0
    assert repo.found() == ()
    path, tally = repo.content / RECORD, repo.content / "tally.yml"
    text, counted = path.read_text(encoding="utf-8"), tally.read_text(encoding="utf-8")
    assert "job: VG-0010, count: 1" in counted

    def states() -> list[list[tuple[str, str]]]:
        found = [told(repo)]
        path.write_text(text.replace("+0.2/-0", "+0.3/-0", 1), encoding="utf-8")
        found.append(told(repo))
        more = "  - revision: 4\n    former: 3\n    statements: []\n"
        path.write_text(text + more, encoding="utf-8")
        found.append(told(repo))
        path.unlink()
        found.append(told(repo))
        path.write_text(text, encoding="utf-8")
        return found

    assert states() == [
        [],
        [("A620", "an entry was altered")],
        [("A620", "it holds more than tally.yml counts")],
        [("A620", "the file is gone")],
    ]
    # A tally of before counts no such file: then git knows what the last release left.
    tally.write_text(counted.partition("changed:")[0], encoding="utf-8")
    assert states()[1] == [], "a release that is not committed is held to nothing"
    repo.commit("Release")
    otherwise = "it was altered since the last release"
    assert states() == [
        [],
        [("A620", otherwise)],
        [("A620", otherwise)],
        [("A620", "the file is gone")],
    ]
    cut_off(path)
    repo.commit("Cut")
    assert told(repo) == [("A620", otherwise)]
