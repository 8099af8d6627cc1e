"""How the suite runs: what is shared, sampled and given out."""

from __future__ import annotations

from pathlib import Path

import pytest

import mutate
from running import IN_SHARES, LONGEST, SLOW, TESTS, is_nightly, once, piece_of_work, sample, some


def test_a_folder_is_filled_once_and_again_only_after_a_failure(
    tmp_path_factory: pytest.TempPathFactory, tmp_path: Path
) -> None:
    asked: list[Path] = []
    name = tmp_path.name

    def fail(folder: Path) -> None:
        raise OSError("no space")

    with pytest.raises(OSError, match="no space"):
        once(tmp_path_factory, name, fail)
    first, second = (once(tmp_path_factory, name, asked.append) for _ in "ab")
    assert first == second
    assert asked == [first]


def test_a_sample_is_the_same_every_day() -> None:
    every = range(1000)
    assert sample(every, 5, seed=1) == sample(every, 5, seed=1)
    assert len(sample(every, 5, seed=1)) == (1000 if is_nightly() else 5)
    assert sample([1], 5, seed=1) == [1]


def test_nothing_to_go_through_is_a_fault() -> None:
    assert some(range(2)) == [0, 1]
    with pytest.raises(AssertionError, match="nothing to go through"):
        some(())


def test_what_is_named_by_its_place_is_there() -> None:
    for name in (*SLOW, *LONGEST, *IN_SHARES):
        file = name.partition("::")[0]
        found = (TESTS / file, TESTS / f"{file}.py")
        assert any(one.exists() for one in found), name


def test_a_file_is_one_piece_of_work_but_where_it_is_in_shares() -> None:
    assert piece_of_work("tests/page/test_a.py::test_b[x-y]") == "tests/page/test_a.py"
    pages, states, rest = (
        piece_of_work(f"tests/e2e/test_access.py::test_a{end}")
        for end in ("[pages]", "[states-1]", "")
    )
    assert len({pages, states, rest}) == 3


# The script that makes the package wrong; what it finds needs many runs, how it does it does not.


def test_each_kind_of_place_is_made_wrong_in_its_own_way() -> None:
    text = (
        "def f(a: int = 3, b: bool = True) -> int:\n"
        "    if a < 2 and not b:\n"
        "        return a + 1\n"
        '    return len(f"{a + 1}")\n'
        "LIMIT: int = 7\n"
    )
    made = [one.what.split("  ->  ") for one in mutate._places("x.py", text)]
    assert made == [
        ["a < 2 and not b", "(a < 2 or not b)"], ["a < 2", "(a <= 2)"], ["2", "(3)"],
        ["not b", "(b)"], ["return a + 1", "return None"], ["a + 1", "(a - 1)"], ["1", "(2)"],
        ['return len(f"{a + 1}")', "return None"], ["7", "(8)"],
    ]  # fmt: skip


def test_every_place_of_the_package_can_be_read_when_wrong() -> None:
    found = mutate.places("compute/")
    assert len(found) > 500
    for one in sample(found, 60, seed=3):
        compile(one.source(), one.file, "exec")
