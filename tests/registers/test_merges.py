"""Pairs of branches in real repositories: they merge, and a release tells of both."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import pytest
from repository import Releases, Repository

from running import sample

DRILL, BURR = "jobs/vg-0010.yml", "jobs/vg-0020.yml"
REGISTERS = ("addresses", "revisions", "history", "tally")
AT_FIRST = 2
"""Entries of the history of the small shop as it is taken over."""
Edit = Callable[[Repository], None]


def larger(repo: Repository) -> None:
    repo.edit(DRILL, "limits: 8 +0.1/-0 mm", "limits: 8 +0.2/-0 mm")
    repo.notice("larger", "[VG-0010]", "The hole may be larger.")


def feet(repo: Repository) -> None:
    repo.edit(DRILL, "In front of the table, feet apart.", "Beside the table, feet apart.")
    repo.notice("feet", "[VG-0010]", "Stand beside the table.")


def two_turns(repo: Repository) -> None:
    repo.edit(BURR, "One light turn", "Two light turns")
    repo.notice("turns", "[VG-0020]", "Two turns.")


def sits(repo: Repository) -> None:
    repo.edit(DRILL, "A plate that lies crooked gets", "A plate that sits crooked gets")
    repo.notice("sits", "[VG-0010]", "It sits.", wording_only=True)


def cools(repo: Repository) -> None:
    repo.edit(DRILL, "It keeps the lips cool, and", "It cools the lips, and")
    repo.notice("cools", "[VG-0010]", "It cools.", wording_only=True)


def moved_machine(repo: Repository) -> None:
    repo.edit("machines/bench-drill.yml", "under the window", "by the door")
    repo.notice("door", "those affected", "The drill stands by the door.")


def other_gauge(repo: Repository) -> None:
    repo.edit("tools/plug-gauge-8.yml", "name: ", "name: GO and NO-GO ")
    repo.notice("gauge", "those affected", "The gauge has its full name.")


def new_job(number: str) -> Edit:
    def make(repo: Repository) -> None:
        text = (repo.content / BURR).read_text(encoding="utf-8")
        text = text.replace("VG-0020", number).replace("operation_before: VG-0010\n", "")
        (repo.content / "jobs" / f"{number.lower()}.yml").write_text(text, encoding="utf-8")
        repo.notice(f"new-{number.lower()}", f"[{number}]", f"{number} is new.")

    return make


def renamed_step(repo: Repository) -> None:
    repo.edit(DRILL, "  - id: gauge\n", "  - id: gauge-hole\n")
    forward = (
        "forwards:\n  - {old: 'jobs/vg-0010.html#gauge', new: 'jobs/vg-0010.html#gauge-hole'}\n"
    )
    (repo.content / "forwards.yml").write_text(forward, encoding="utf-8")


def gone(repo: Repository) -> None:
    (repo.content / BURR).unlink()
    repo.edit(DRILL, "operation_after: VG-0020", "end_of_route: The plates go to the store.")
    repo.edit(DRILL, "[[VG-0020#deburr]]", "the store")
    repo.edit("onboarding/first-days.yml", "job: VG-0020", "job: VG-0010")
    old = [line.split()[1] for line in (repo.content / "addresses.yml").read_text().splitlines()
           if "vg-0020" in line]  # fmt: skip
    lines = "".join(f"  - {{old: '{one}', new: 'jobs/vg-0010.html'}}\n" for one in old)
    (repo.content / "forwards.yml").write_text(f"forwards:\n{lines}", encoding="utf-8")
    repo.notice("gone", "[VG-0010]", "The plates are not deburred here any more.")


def same_line(repo: Repository) -> None:
    repo.edit(DRILL, "limits: 8 +0.1/-0 mm", "limits: 8 +0.15/-0 mm")
    repo.notice("same", "[VG-0010]", "The hole may be a little larger.")


BOTH = {"VG-0010": [("3", "Stand beside the table. The hole may be larger.")]}


@dataclass(frozen=True, slots=True)
class Pair:
    """Two branches from one commit, and what a release on their merge gives."""

    one: Edit
    other: Edit
    released: Releases
    conflicts: list[str] = field(default_factory=list)


PAIRS = {
    "the same job twice": Pair(larger, feet, BOTH),
    "two jobs": Pair(
        larger,
        two_turns,
        {"VG-0010": [("3", "The hole may be larger.")], "VG-0020": [("B", "Two turns.")]},
    ),
    "two new jobs": Pair(
        new_job("VG-0030"),
        new_job("VG-0040"),
        {"VG-0030": [("1", "VG-0030 is new.")], "VG-0040": [("1", "VG-0040 is new.")]},
    ),
    "a new job and a change": Pair(
        new_job("VG-0030"),
        larger,
        {"VG-0030": [("1", "VG-0030 is new.")], "VG-0010": [("3", "The hole may be larger.")]},
    ),
    "wording of one job, a change of another": Pair(
        sits,
        two_turns,
        {"VG-0010": [("2 wording", "It sits.")], "VG-0020": [("B", "Two turns.")]},
    ),
    "wording twice": Pair(sits, cools, {"VG-0010": [("2 wording", "It sits. It cools.")]}),
    "a shared record and a job that uses it": Pair(
        moved_machine,
        larger,
        {
            "VG-0010": [("3", "The hole may be larger. The drill stands by the door.")],
            "VG-0020": [("B", "The drill stands by the door.")],
        },
    ),
    "two shared records": Pair(
        moved_machine,
        other_gauge,
        {
            "VG-0010": [("3", "The drill stands by the door. The gauge has its full name.")],
            "VG-0020": [("B", "The drill stands by the door.")],
        },
    ),
    "a shared record and a job that does not use it": Pair(
        other_gauge,
        two_turns,
        {
            "VG-0010": [("3", "The gauge has its full name.")],
            "VG-0020": [("B", "Two turns.")],
        },
    ),
    "a step renamed and a change": Pair(
        renamed_step, feet, {"VG-0010": [("3", "Stand beside the table.")]}
    ),
    "a job gone and a change of another": Pair(
        gone,
        larger,
        {"VG-0010": [("3", "The plates are not deburred here any more. The hole may be larger.")]},
    ),
    "a job gone and a change of it": Pair(
        gone,
        two_turns,
        {"VG-0010": [("3", "The plates are not deburred here any more.")]},
        [f"content/{BURR}"],
    ),
    "one line written two ways": Pair(
        larger,
        same_line,
        {"VG-0010": [("3", "The hole may be larger. The hole may be a little larger.")]},
        [f"content/{DRILL}"],
    ),
}


LONE_STATE = "V410"
"""A note: where a job is gone, a state of its part is left or taken by none."""


def faults(repo: Repository) -> list[str]:
    """What is found, but for that note."""
    return [one for one in repo.findings() if one != LONE_STATE]


def both_branches(repo: Repository, pair: Pair) -> None:
    """Each branch by itself is sound, and both are merged."""
    for name, edit in (("one", pair.one), ("other", pair.other)):
        repo.branch(name)
        edit(repo)
        assert faults(repo) == [], name
        repo.commit(name)
    repo.merge("one")
    repo.merge("other")


@pytest.mark.parametrize("name", sample(list(PAIRS), 6, seed=8))
def test_two_branches_merge_and_a_release_tells_of_both(repo: Repository, name: str) -> None:
    pair = PAIRS[name]
    both_branches(repo, pair)
    assert repo.conflicts == pair.conflicts
    if repo.conflicts:  # somebody must decide which of the two it is to be: the first
        settled = repo.conflicts[0]
        if repo.git("ls-tree", "--name-only", "one", settled):
            repo.git("checkout", "one", "--", settled)
        else:
            repo.git("rm", "-q", settled)
            (repo.content / "notices" / "2026-12-01-turns.yml").unlink()
        repo.commit("Decide")
    assert faults(repo) == []
    assert repo.release() == 0
    found = repo.released(AT_FIRST)
    assert {job: sorted(told) for job, told in found.items()} != {}
    assert {job: words(told) for job, told in found.items()} == {
        job: words(told) for job, told in pair.released.items()
    }
    assert faults(repo) == []
    assert not list((repo.content / "notices").glob("*.yml"))


def words(told: list[tuple[str, str]]) -> list[tuple[str, set[str]]]:
    """Revision and sentences; which of two notes stands first does not count."""
    return [(revision, set(note.rstrip(".").split(". "))) for revision, note in told]


def test_no_pair_meets_but_where_two_people_say_different_things_of_one_line() -> None:
    met = {name for name, pair in PAIRS.items() if pair.conflicts}
    assert met == {"a job gone and a change of it", "one line written two ways"}
    files = {file for pair in PAIRS.values() for file in pair.conflicts}
    assert all(file.startswith("content/jobs/") for file in files)
    assert len(PAIRS) >= 12


def test_wording_and_a_change_of_one_job_is_told_at_its_line(repo: Repository) -> None:
    both_branches(repo, Pair(sits, larger, {}))
    assert repo.conflicts == []
    (found,) = repo.found()
    assert (found.code, str(found.place)) == ("A609", "content/notices/2026-12-01-sits.yml:4:15")
    assert repo.release() == 1
    assert repo.released(AT_FIRST) == {}
    repo.edit("notices/2026-12-01-sits.yml", "wording_only: true\n", "")
    repo.commit()
    assert repo.release() == 0
    assert repo.released(AT_FIRST).keys() == {"VG-0010"}
    assert words(repo.released(AT_FIRST)["VG-0010"]) == [
        ("3", {"It sits", "The hole may be larger"})
    ]


def test_a_branch_that_was_open_over_a_release_gets_the_next_number(repo: Repository) -> None:
    repo.branch("late")
    feet(repo)
    repo.commit()
    repo.git("checkout", "-q", "main")
    repo.branch("early")
    larger(repo)
    repo.commit()
    repo.merge("early")
    assert repo.release() == 0
    repo.merge("late")
    assert (repo.conflicts, repo.findings()) == ([], [])
    assert repo.release() == 0
    assert repo.released(AT_FIRST) == {
        "VG-0010": [("3", "The hole may be larger."), ("4", "Stand beside the table.")]
    }


def test_a_change_taken_back_gets_a_new_number_and_never_the_old(repo: Repository) -> None:
    larger(repo)
    changed = repo.commit()
    assert repo.release() == 0
    repo.git("revert", "--no-edit", changed, "-X", "ours")
    (repo.content / "notices" / "2026-12-01-larger.yml").unlink(missing_ok=True)
    assert repo.findings() == ["A604"]
    repo.notice("back", "[VG-0010]", "The hole is as it was.")
    repo.commit()
    assert repo.release() == 0
    assert repo.released(AT_FIRST)["VG-0010"][-1] == ("4", "The hole is as it was.")


def test_a_merge_taken_back_before_the_release_leaves_nothing(repo: Repository) -> None:
    repo.branch("one")
    larger(repo)
    changed = repo.commit()
    repo.merge("one")
    repo.git("revert", "--no-edit", changed)
    assert repo.findings() == []
    assert repo.release() == 0
    assert repo.released(AT_FIRST) == {}


def test_a_release_taken_back_is_told_and_its_number_is_not_given_again(repo: Repository) -> None:
    larger(repo)
    repo.commit()
    assert repo.release() == 0
    released = repo.git("rev-parse", "HEAD")
    repo.git("revert", "--no-edit", "HEAD")
    found = repo.found()
    told = {one.code: one.text for one in found}
    assert set(told) == {"A603", "A606"}  # the page of the short lesson was registered as well
    assert "the repository remembers revision 3 of VG-0010" in told["A606"]
    assert repo.release() == 1
    for name in REGISTERS:
        repo.git("checkout", released, "--", f"content/{name}.yml")
    repo.git("checkout", released, "--", "content/changed")  # else its page would be gone
    repo.edit(DRILL, "In front of the table", "Beside the table")
    repo.commit()
    assert repo.findings() == []  # the notice came back with the revert, and covers the new edit
    assert repo.release() == 0
    assert [revision for revision, _ in repo.released(AT_FIRST)["VG-0010"]] == ["3", "4"]


def test_a_register_rewritten_with_its_tally_is_found_by_the_repository(repo: Repository) -> None:
    larger(repo)
    repo.commit()
    registers = [repo.content / f"{name}.yml" for name in REGISTERS]
    before = {path: path.read_bytes() for path in registers}
    assert repo.release() == 0
    for path, data in before.items():
        path.write_bytes(data)
    assert set(repo.findings()) == {"A603", "A606"}


def test_numbers_are_given_on_the_main_branch_only(
    repo: Repository, capsys: pytest.CaptureFixture[str]
) -> None:
    repo.branch("one")
    larger(repo)
    repo.commit()
    before = repo.git("rev-parse", "HEAD:content")
    assert repo.release() == 2
    assert "revisions are given on 'main' only" in capsys.readouterr().err
    assert repo.git("rev-parse", "HEAD:content") == before
