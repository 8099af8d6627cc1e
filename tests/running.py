"""How the suite runs: which tests make the first tier, what is nightly, and which worker does what.

`tests/conftest.py` loads this as a plugin. `--quick` is the first tier: no browser, nothing slow.
`--nightly` does in full what the suite does as a seeded sample. Each test file is one piece of
work for one of the processes, so that what a file shares is made once; files that take long go
first, so that no core is idle at the end.
"""

from __future__ import annotations

import functools
import inspect
import os
import random
import sys
import tempfile
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any, TypeVar

import pytest
from filelock import FileLock
from hypothesis import HealthCheck, settings
from xdist.scheduler import LoadScopeScheduling

T = TypeVar("T")
U = TypeVar("U")
TESTS = Path(__file__).parent
LONGEST = (
    "e2e/test_access",
    "e2e/test_html",
    "contract/test_checkers",
    "e2e/",
    "compute/test_corrupt",
)
"""Beginnings of the files that are given out first, longest first."""
IN_SHARES = ("e2e/test_access",)
"""Files that are too long for one process: given out by the first parameter of each test."""
SLOW = (
    "compute/test_break_through_rows.py", "compute/test_corrupt.py", "compute/test_workings.py",
    "contract/test_check_imports_no_mkdocs.py", "contract/test_checkers.py::test_all_types_fit",
    "diff/test_consequence.py", "diff/test_properties.py", "diff/test_wording.py",
    "formulas/test_feel_geometry.py", "inch_shop/", "link/test_addresses.py",
    "link/test_forwards.py", "link/test_register.py", "meaning/", "page/",
    "publish/test_search_index.py", "read/test_photographs.py", "read/test_quick.py",
    "read/test_tidy_yaml.py", "registers/", "review/", "stations/", "test_cli.py",
    "test_cli_reckon_odd.py", "test_desk.py", "test_guide.py", "test_init.py", "test_new.py",
    "test_pipeline.py", "test_reckon_json.py", "training/", "validate/test_route_of_a_hole.py",
    "workbooks/",
)  # fmt: skip
"""Beginnings of the tests that are left out by --quick: the rest takes a minute at most."""
NIGHTLY_TIMES = 20
SEED = 20261130
# Hypothesis would leave its folder in the repository, and another run would meet it there.
os.environ.setdefault("HYPOTHESIS_STORAGE_DIRECTORY", tempfile.gettempdir() + "/hypothesis")
_nightly = False
_all = False


def pytest_xdist_auto_num_workers() -> int:
    """One process more than there are cores: many tests wait for a browser, which is another."""
    return (os.cpu_count() or 1) + 1


def is_nightly() -> bool:
    """Whether everything is done in full."""
    return _nightly


def examples(usual: int) -> int:
    """How many random examples a property is tried on: a quarter of the usual by day."""
    return usual * NIGHTLY_TIMES if _nightly else (usual + 3) // 4


def sample(every: Sequence[T], usual: int, seed: int) -> list[T]:
    """So many of them, the same in every run; by night all of them, and where all are kept anew."""
    every = some(every)
    return every if _all else random.Random(seed).sample(every, min(usual, len(every)))


def in_turn(every: Sequence[T], places: Sequence[U]) -> list[tuple[T, U]]:
    """Each of them at one of the places, which take turns; by night each at every one."""
    if _all:
        return [(one, place) for one in some(every) for place in places]
    return [(one, places[at % len(places)]) for at, one in enumerate(some(every))]


def some(every: Iterable[T]) -> list[T]:
    """What a loop goes through, which must not be empty: else its asserts would prove nothing."""
    found = list(every)
    assert found, "there is nothing to go through, so nothing would be tested"
    return found


def for_each(
    names: str | Sequence[str], values: Iterable[Any], ids: object = None
) -> Callable[[Callable[..., None]], Callable[..., None]]:
    """As `pytest.mark.parametrize`, but one test that goes through all and names each that fails.

    For what takes less than pytest needs to set up a test, some milliseconds: hundreds of files or
    fields looked at in turn. `ids` is a function that names a value.
    """
    keys = tuple(one.strip() for one in names.split(",")) if isinstance(names, str) else (*names,)
    every = [getattr(one, "values", one if len(keys) > 1 else (one,)) for one in some(values)]
    say: Any = ids if callable(ids) else repr

    def of(test: Callable[..., None]) -> Callable[..., None]:
        @functools.wraps(test)
        def all_(**given: Any) -> None:
            wrong = []
            for one in every:
                try:
                    test(**dict(zip(keys, one, strict=True)), **given)
                except Exception as error:
                    wrong.append(f"{', '.join(map(say, one))}: {type(error).__name__}: {error}")
            assert not wrong, "\n".join(wrong)

        told = inspect.signature(test)
        left = [one for key, one in told.parameters.items() if key not in keys]
        all_.__signature__ = told.replace(parameters=left)  # type: ignore[attr-defined]
        all_.each_of = getattr(test, "each_of", test)  # type: ignore[attr-defined]
        return all_

    return of


def once(tmp_path_factory: pytest.TempPathFactory, name: str, make: Callable[[Path], None]) -> Path:
    """A folder that the first process that asks for it fills; it is the same for all of this run.

    Whoever uses it must not write into it.
    """
    root = tmp_path_factory.getbasetemp()
    if "PYTEST_XDIST_WORKER" in os.environ:
        root = root.parent
    folder, done = root / f"once-{name}", root / f"once-{name}.done"
    with FileLock(root / f"once-{name}.lock"):
        if not done.exists():
            folder.mkdir(exist_ok=True)
            make(folder)
            done.touch()
    return folder


# Hooks


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--quick", action="store_true", help="no browser, and nothing that is slow")
    parser.addoption("--nightly", action="store_true", help="samples in full: takes very long")


@pytest.hookimpl(tryfirst=True)
def pytest_configure(config: pytest.Config) -> None:
    """Before any test is imported: what is sampled is chosen then.

    Order and random cases are the same in every run, by night others. There is no clock: a slow
    machine must not fail a test.
    """
    global _nightly, _all
    if getattr(config.option, "numprocesses", None):
        _compile_once()
    _nightly = bool(config.getoption("--nightly"))
    _all = _nightly or bool(config.getoption("--update-golden"))
    settings.register_profile("benchleaf", derandomize=not _nightly, deadline=None, database=None,
                              suppress_health_check=[HealthCheck.too_slow],
                              max_examples=examples(100), print_blob=True)  # fmt: skip
    settings.load_profile("benchleaf")
    if not _nightly and getattr(config.option, "randomly_seed", None) == "default":
        config.option.randomly_seed = SEED


def _compile_once() -> None:
    """What one process has compiled the others read, and so do the commands that tests start.

    Not in one process alone: there `mutate.py` forbids it, since it changes sources in no time.
    """
    sys.dont_write_bytecode = False
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)


def pytest_ignore_collect(collection_path: Path, config: pytest.Config) -> bool | None:
    """The first tier does not even read the files that it leaves out: that takes as long."""
    if not config.getoption("--quick") or not collection_path.is_relative_to(TESTS):
        return None
    name = collection_path.relative_to(TESTS).as_posix() + "/" * collection_path.is_dir()
    return True if name.startswith(("e2e/", *SLOW)) else None


def _file(item: pytest.Item) -> str:
    """Its path below tests/; nothing for a doctest."""
    file = item.nodeid.partition("::")[0]
    return file.removeprefix("tests/") if file.startswith("tests/") else ""


def _rank(item: pytest.Item) -> int:
    name = _file(item)
    return next((at for at, one in enumerate(LONGEST) if name.startswith(one)), len(LONGEST))


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Marks the browser's tests, takes out what was not asked for, puts the longest first."""
    for item in items:
        if _file(item).startswith("e2e/"):
            item.add_marker(pytest.mark.browser)
        elif item.nodeid.removeprefix("tests/").startswith(SLOW):
            item.add_marker(pytest.mark.slow)
    if config.getoption("--quick"):
        left = [one for one in items if one.get_closest_marker("browser") or
                one.get_closest_marker("slow")]  # fmt: skip
        config.hook.pytest_deselected(items=left)
        kept = set(map(id, left))
        items[:] = [one for one in items if id(one) not in kept]
    items.sort(key=_rank)


def piece_of_work(nodeid: str) -> str:
    """What a test is given out with: the others of its file, or of its share of a file."""
    file = nodeid.partition("::")[0]
    if not file.removeprefix("tests/").startswith(IN_SHARES):
        return file
    share = nodeid.partition("[")[2].partition("-")[0].rstrip("]")
    return f"{file} {share}"


class ByFile(LoadScopeScheduling):  # type: ignore[misc]  # it has no types
    """Gives out file after file in the order of the collection."""

    def _split_scope(self, nodeid: str) -> str:
        return piece_of_work(nodeid)


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> LoadScopeScheduling:
    config.option.loadscopereorder = False
    return ByFile(config, log)
