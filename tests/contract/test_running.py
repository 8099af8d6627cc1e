"""How the suite runs: what is shared, sampled and given out."""

from __future__ import annotations

import re
import time
from pathlib import Path
from types import FunctionType, ModuleType

import pytest

import mutate
from benchleaf.formulas import drilling, rounding
from mutants import Wrong, put_in, sizes, those_that_run, within
from mutants_forks import DIED, NOTHING, Work, in_forks
from mutants_map import Map, joined
from mutants_values import users_of, values_moved
from running import (
    IN_SHARES,
    LONGEST,
    SLOW,
    TESTS,
    for_each,
    is_nightly,
    once,
    piece_of_work,
    sample,
    some,
)


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


def test_what_is_said_to_be_no_different_is_still_there() -> None:
    files = {key.partition(": ")[0] for key in mutate.EQUAL}
    known = {one.key() for file in files for one in mutate.places(file)}
    assert set(mutate.EQUAL) <= known


def test_a_wrong_function_is_put_in_and_only_there() -> None:
    """In a fork, so that the function is right again afterwards."""
    place = next(one for one in mutate.places("formulas/rounding.py") if "return" in one.what)
    wrong = place.wrong()
    assert wrong.last
    before = [one.__code__ for one in _functions(rounding)]

    def changed() -> str:
        put_in(wrong)
        after = [one.__code__ for one in _functions(rounding)]
        return str(sum(one != other for one, other in zip(before, after, strict=True)))

    assert dict(in_forks([Work("it", changed, 60)], 1)) == {"it": "1"}
    assert [one.__code__ for one in _functions(rounding)] == before


def _functions(module: ModuleType) -> list[FunctionType]:
    return [one for one in vars(module).values()
            if isinstance(one, FunctionType) and one.__module__ == module.__name__]  # fmt: skip


def test_a_fork_tells_what_it_found_that_it_died_or_never_ended() -> None:
    def die() -> str:
        raise MemoryError

    def wait() -> str:
        time.sleep(60)
        return ""

    work = [Work("seen", lambda: "test_a", 60), Work("unseen", str, 60), Work("dead", die, 60),
            Work("endless", wait, 0)]  # fmt: skip
    found = dict(in_forks(work, 2))
    assert found == {
        "seen": "test_a", "unseen": NOTHING, "dead": DIED, "endless": "it never ends"
    }  # fmt: skip


def test_tests_that_run_a_line_come_first_the_narrowest_of_each_function_at_first() -> None:
    names = ["a::wide", "a::narrow[1]", "a::narrow[2]", "a::other", "a::broken", "a::calls"]
    calls = {("x.py", 3): {0, 1, 2, 4, 5}, ("x.py", 9): {0, 3}, ("y.py", 3): {3}}
    lines = {("x.py", 4): 0b010111, ("x.py", 9): 0b001001}
    known = Map(names, [1.0, 0.2, 0.1, 0.1, 0.1, 0.1], calls, [4], lines)
    found = those_that_run(known, Wrong("place", "x.py", 4, 2, 5, ""), sizes(known))
    assert [names[one] for one in found] == ["a::narrow[2]", "a::wide", "a::narrow[1]", "a::calls"]
    assert within(0.15, known, found) == [2, 0]
    twice = joined([known, known])
    assert twice.failed == [4, 10]
    assert twice.calls["y.py", 3] == {3, 9}
    assert twice.lines["x.py", 9] == 0b001001001001


def test_a_wrong_value_outside_of_functions_finds_those_that_name_it() -> None:
    """`put_in` then puts it where the sound one stands, in a fork."""
    place = next(one for one in mutate.places("formulas/drilling.py") if "40000.0" in one.what)
    wrong = place.wrong()
    assert (wrong.first, wrong.last) == (0, 0)
    assert values_moved(wrong.file, wrong.source) == {"TORQUE_DIVISOR": (40000.0, 40001.0)}
    assert ("formulas/drilling.py", drilling.torque_nm.__code__.co_firstlineno) in users_of(
        wrong.file, wrong.source
    )

    def changed() -> str:
        put_in(wrong)
        return str(drilling.TORQUE_DIVISOR)

    assert dict(in_forks([Work("it", changed, 60)], 1)) == {"it": "40001.0"}
    assert drilling.TORQUE_DIVISOR == 40000.0


def test_for_each_goes_through_all_and_names_those_that_fail() -> None:
    seen: list[int] = []

    def small(number: int, most: int) -> None:
        seen.append(number)
        assert number < most, f"at most {most}"

    all_ = for_each("number", [1, 5, 2, 7])(small)
    with pytest.raises(AssertionError) as failed:
        all_(most=3)
    assert re.findall(r"^ *(\d): AssertionError", str(failed.value), flags=re.M) == ["5", "7"]
    assert seen == [1, 5, 2, 7]
    with pytest.raises(AssertionError, match="nothing to go through"):
        for_each("number", [])(small)
    pairs = for_each(("a", "b"), [(1, 1), (2, 2)])
    pairs(lambda a, b: seen.append(a + b))()
    assert seen[-2:] == [2, 4]
