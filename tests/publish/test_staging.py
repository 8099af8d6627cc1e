"""The former site stays whole until the new one is finished, whatever is cut off in between."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchleaf.publish import discard, recover, staging_folder, swap_in


def make(folder: Path, words: str) -> Path:
    folder.mkdir(parents=True)
    (folder / "index.html").write_text(words, encoding="utf-8")
    return folder


def words(site: Path) -> str:
    return (site / "index.html").read_text(encoding="utf-8")


def names(site: Path) -> list[str]:
    return sorted(path.name for path in site.parent.iterdir())


@pytest.fixture
def site(tmp_path: Path) -> Path:
    return tmp_path / "site"


def test_the_new_site_is_built_beside_the_old_one_out_of_sight(site: Path) -> None:
    built = staging_folder(site)
    assert built.parent == site.parent
    assert built.name.startswith(".")
    assert built != site


def test_two_editions_are_never_built_in_one_folder(tmp_path: Path) -> None:
    assert staging_folder(tmp_path / "site") != staging_folder(tmp_path / "site-full")


def test_a_first_site_is_swapped_in(site: Path) -> None:
    make(staging_folder(site), "new")
    swap_in(site)
    assert words(site) == "new"
    assert names(site) == ["site"]


def test_a_new_site_takes_the_place_of_the_old_one_and_nothing_is_left(site: Path) -> None:
    make(site, "old")
    (site / "gone.html").write_text("old", encoding="utf-8")
    make(staging_folder(site), "new")
    swap_in(site)
    assert words(site) == "new"
    assert not (site / "gone.html").exists()
    assert names(site) == ["site"]


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


def test_a_swap_that_was_cut_off_before_its_end_is_cleared_up(site: Path) -> None:
    """The new site is there, and the old one was not yet removed."""
    make(site, "new")
    make(site.with_name(".site-former"), "old")
    recover(site)
    assert words(site) == "new"
    assert names(site) == ["site"]


def test_a_build_that_was_cut_off_is_cleared_up(site: Path) -> None:
    make(site, "old")
    make(staging_folder(site), "half")
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

    monkeypatch.setattr(Path, "rename", fail)


def test_a_swap_that_fails_leaves_a_site_that_recovery_brings_back(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    make(site, "old")
    make(staging_folder(site), "new")
    fail_to_rename_the_new(site, monkeypatch)
    with pytest.raises(PermissionError):
        swap_in(site)
    monkeypatch.undo()
    recover(site)
    assert words(site) == "old"
    assert names(site) == ["site"]


def test_after_a_swap_that_fails_readers_still_have_the_old_site(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A page held open on Windows makes the second rename fail; nobody builds again till Monday."""
    make(site, "old")
    make(staging_folder(site), "new")
    fail_to_rename_the_new(site, monkeypatch)
    with pytest.raises(PermissionError):
        swap_in(site)
    assert site.is_dir()
    assert words(site) == "old"


def test_a_swap_with_nothing_built_leaves_the_old_site(site: Path) -> None:
    make(site, "old")
    with pytest.raises(FileNotFoundError):
        swap_in(site)
    assert site.is_dir()
    assert words(site) == "old"


def test_a_leftover_of_an_earlier_swap_does_not_stop_the_next(site: Path) -> None:
    make(site, "old")
    make(site.with_name(".site-former"), "older")
    make(staging_folder(site), "new")
    recover(site)
    make(staging_folder(site), "new")
    swap_in(site)
    assert words(site) == "new"
    assert names(site) == ["site"]


def test_recovery_touches_no_neighbour(site: Path) -> None:
    make(site, "old")
    make(site.with_name("site-full"), "full")
    make(site.with_name(".site-full-former"), "full")
    recover(site)
    assert names(site) == [".site-full-former", "site", "site-full"]
