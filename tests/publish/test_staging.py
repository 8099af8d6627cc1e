"""The former site stays whole until the new one is finished, whatever is cut off in between."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from benchleaf.publish import (
    NotOursError,
    discard,
    lock_of,
    may_replace,
    recover,
    staging,
    staging_folder,
    swap_in,
)
from benchleaf.write import BusyError, exchanged

SIGN = "assets/benchleaf/benchleaf.css"


def make(folder: Path, words: str) -> Path:
    (folder / SIGN).parent.mkdir(parents=True)
    (folder / SIGN).write_text("", encoding="utf-8")
    (folder / "index.html").write_text(words, encoding="utf-8")
    return folder


def words(site: Path) -> str:
    return (site / "index.html").read_text(encoding="utf-8")


def names(site: Path) -> list[str]:
    return sorted(path.name for path in site.parent.iterdir())


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return tmp_path / "site"


@pytest.fixture(params=["in one step", "in two"])
def way(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    """Systems that exchange two names in one step, and those that cannot."""
    if request.param == "in two":
        monkeypatch.setattr(staging, "exchanged", lambda *_: False)


def test_the_new_site_is_built_beside_the_old_one_out_of_sight(site: Path) -> None:
    built = staging_folder(site)
    assert built.parent == site.parent
    assert built.name.startswith(".site-")  # as .gitignore names it
    assert str(os.getpid()) in built.name


def test_two_editions_are_never_built_in_one_folder(tmp_path: Path) -> None:
    assert staging_folder(tmp_path / "site") != staging_folder(tmp_path / "site-full")


def test_a_first_site_is_swapped_in(site: Path) -> None:
    make(staging_folder(site), "new")
    swap_in(site)
    assert words(site) == "new"
    assert names(site) == ["site"]


@pytest.mark.usefixtures("way")
def test_a_new_site_takes_the_place_of_the_old_one_and_nothing_is_left(site: Path) -> None:
    make(site, "old")
    (site / "gone.html").write_text("old", encoding="utf-8")
    make(staging_folder(site), "new")
    swap_in(site)
    assert words(site) == "new"
    assert not (site / "gone.html").exists()
    assert names(site) == ["site"]


def test_the_site_is_never_absent_where_the_system_can_exchange_names(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    make(site, "old")
    make(staging_folder(site), "new")
    usual = exchanged
    if not usual(site, staging_folder(site)):
        pytest.skip("this disk exchanges no names")
    assert usual(site, staging_folder(site))

    def never(*_: object) -> None:
        raise AssertionError("the site was moved away first")

    monkeypatch.setattr(Path, "rename", never)
    swap_in(site)
    assert words(site) == "new"


def test_a_failed_build_is_thrown_away_and_the_old_site_stays(site: Path) -> None:
    make(site, "old")
    make(staging_folder(site), "half")
    discard(site)
    assert words(site) == "old"
    assert names(site) == ["site"]


def test_throwing_away_what_is_not_there_is_no_slip(site: Path) -> None:
    discard(site)
    recover(site)
    assert names(site) == []


def test_a_swap_that_was_cut_off_half_way_is_put_right(site: Path) -> None:
    """The old site was moved aside, and the power failed before the new one came."""
    make(site, "old")
    make(staging_folder(site), "new")
    site.rename(site.with_name(".site-former"))
    recover(site)
    assert words(site) == "old"
    assert names(site) == ["site"]


def fail_to_rename_the_new(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """As where a page of the former site is held open on Windows."""
    usual = Path.rename

    def fail(path: Path, target: Path) -> Path:
        if path == staging_folder(site):
            raise PermissionError(13, "in use", str(path))
        return usual(path, target)

    monkeypatch.setattr(staging, "exchanged", lambda *_: False)
    monkeypatch.setattr(Path, "rename", fail)


def test_after_a_swap_that_fails_readers_still_have_the_old_site(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A page held open on Windows makes the second rename fail; nobody builds again till Monday."""
    make(site, "old")
    make(staging_folder(site), "new")
    fail_to_rename_the_new(site, monkeypatch)
    with pytest.raises(PermissionError):
        swap_in(site)
    assert words(site) == "old"
    monkeypatch.undo()
    recover(site)
    assert words(site) == "old"
    assert names(site) == ["site"]


def test_a_swap_with_nothing_built_leaves_the_old_site(site: Path) -> None:
    make(site, "old")
    with pytest.raises(FileNotFoundError):
        swap_in(site)
    assert words(site) == "old"


def test_a_leftover_of_an_earlier_swap_does_not_stop_the_next(site: Path) -> None:
    make(site, "old")
    make(site.with_name(".site-former"), "older")
    make(site.with_name(".site-building"), "of an earlier version")
    make(site.with_name(".site-building-99999999"), "of a build that was ended")
    recover(site)
    make(staging_folder(site), "new")
    swap_in(site)
    assert words(site) == "new"
    assert names(site) == ["site"]


def test_recovery_touches_no_neighbour(site: Path) -> None:
    make(site, "old")
    make(site.with_name("site-full"), "full")
    make(site.with_name(".site-full-building-1"), "half")
    recover(site)
    assert names(site) == [".site-full-building-1", "site", "site-full"]


@pytest.mark.parametrize("name", ["crew.yml", ".hidden", "people/k-12.yml"])
def test_a_folder_of_anything_else_is_never_replaced(site: Path, name: str) -> None:
    (site / name).parent.mkdir(parents=True)
    (site / name).write_text("kept", encoding="utf-8")
    make(staging_folder(site), "new")
    assert not may_replace(site)
    with pytest.raises(NotOursError):
        swap_in(site)
    assert (site / name).read_text(encoding="utf-8") == "kept"


def test_what_may_be_replaced(site: Path, tmp_path: Path) -> None:
    assert may_replace(site)
    site.mkdir()
    assert may_replace(site)
    site.rmdir()
    make(staging_folder(site), "new")
    swap_in(site)
    (site / SIGN).unlink()  # the mark says it, whatever becomes of a style sheet
    assert may_replace(site)
    (site / ".git").mkdir()  # a copy of a repository, whose history would go
    assert not may_replace(site)
    aside = tmp_path / "aside"
    aside.symlink_to(tmp_path / "nowhere")
    assert not may_replace(aside)
    (tmp_path / "file").write_text("", encoding="utf-8")
    assert not may_replace(tmp_path / "file")


def test_one_lock_at_a_time_and_none_is_left_over(site: Path) -> None:
    first, second = lock_of(site), lock_of(site)
    first.take()
    with pytest.raises(BusyError):
        second.take()
    other = lock_of(site.with_name("site-full"))  # another edition is another site
    other.take()
    other.let_go()
    first.let_go()
    second.take()
    second.let_go()
    second.let_go()
    assert [name for name in names(site) if name.startswith(".site-building")] == []


def test_a_lock_ends_with_its_process(site: Path) -> None:
    if not hasattr(os, "fork"):
        pytest.skip("no fork here")
    child = os.fork()
    if child == 0:
        lock_of(site).take()
        os._exit(0)  # as killed: nothing is given back
    os.waitpid(child, 0)
    mine = lock_of(site)
    mine.take()
    mine.let_go()
    assert names(site) == []
