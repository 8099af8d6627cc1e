"""A file is whole or as it was, and a set of files all or none, wherever the writing ends."""

from __future__ import annotations

import errno
import os
import stat
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from benchleaf.write import (
    JOURNAL,
    OutsideError,
    finish,
    together,
    write_bytes,
    write_new,
    write_text,
    write_together,
)
from running import some

CALLS = ((os, "open"), (os, "fsync"), (os, "replace"), (Path, "unlink"), (Path, "chmod"))
"""What reaches the disk: after any of these a power cut may come."""


def files(root: Path) -> dict[str, bytes]:
    """Everything that is read as content: hidden files are not."""
    return {
        path.relative_to(root).as_posix(): path.read_bytes()
        for path in root.rglob("*")
        if path.is_file() and not path.name.startswith(".")
    }


def hidden(root: Path) -> list[str]:
    return [path.name for path in root.rglob(".*")]


def on_each_call(patch: pytest.MonkeyPatch, do: Callable[[str], None]) -> None:
    """Have `do` called before each call that reaches the disk."""
    for owner, name in CALLS:
        usual = getattr(owner, name)

        def counted(*given: object, _usual: object = usual, _name: str = name, **named: object):  # type: ignore[no-untyped-def]
            do(_name)
            return _usual(*given, **named)  # type: ignore[operator]

        patch.setattr(owner, name, counted)


def ended_after(number: int) -> Callable[[str], None]:
    """What ends the process, with no cleaning up, before the call of this number."""
    left = iter(range(number, -1, -1))
    return lambda _: os._exit(9) if next(left) == 0 else None


def shelf(root: Path) -> Path:
    """Two files and a notice, as a release finds them."""
    (root / "notices").mkdir(parents=True)
    for name in ("a.yml", "b.yml", "notices/n.yml"):
        (root / name).write_text(f"old {name}", encoding="utf-8")
    return root


def texts(root: Path) -> dict[Path, str | bytes | None]:
    return {
        root / "changed" / "c.yml": "new c",
        root / "a.yml": "new a",
        root / "b.yml": b"new b",
        root / "notices" / "n.yml": None,
    }


NEW = {"a.yml": b"new a", "b.yml": b"new b", "changed/c.yml": b"new c"}


@pytest.fixture
def root(tmp_path: Path) -> Path:
    return shelf(tmp_path / "content")


def test_a_file_keeps_its_rights_and_nothing_is_left_beside(root: Path) -> None:
    path = root / "a.yml"
    path.chmod(0o640)
    write_text(path, "new\n")
    assert path.read_bytes() == b"new\n"
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    assert hidden(root) == []


@pytest.mark.parametrize("step", range(3))
def test_a_full_disk_leaves_the_former_file_and_is_told_with_its_name(
    root: Path, monkeypatch: pytest.MonkeyPatch, step: int
) -> None:
    def full(*_: object) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, ("fdopen", "fsync", "replace")[step], full)
    with pytest.raises(OSError, match="No space left") as told:
        write_text(root / "a.yml", "new " * 100)
    with pytest.raises(OSError, match="No space left") as told_together:
        write_together(root, texts(root))
    monkeypatch.undo()
    assert told.value.filename == str(root / "a.yml")
    assert str(root) in str(told_together.value.filename)
    assert files(root)["a.yml"] == b"old a.yml"
    assert files(root) == files(shelf(root.parent / "other"))
    assert not (root / "changed").exists()
    assert hidden(root) == []


def test_no_link_leads_out(root: Path, tmp_path: Path) -> None:
    outside = tmp_path / "outside"
    outside.mkdir()
    (outside / "kept.yml").write_text("kept", encoding="utf-8")
    (root / "out.yml").symlink_to(outside / "kept.yml")
    (root / "jobs").symlink_to(outside, target_is_directory=True)
    (root / "ring.yml").symlink_to("ring.yml")
    for name in ("out.yml", "jobs/kept.yml", "jobs/new.yml"):
        with pytest.raises(OutsideError, match="outside of"):
            write_together(root, {root / "a.yml": "new", root / name: "new"})
    with pytest.raises(OutsideError, match="outside of"):
        write_bytes(root / "out.yml", b"new")
    with pytest.raises(OSError, match=r"ring\.yml"):
        write_bytes(root / "ring.yml", b"new")
    assert [path.name for path in outside.iterdir()] == ["kept.yml"]
    assert (outside / "kept.yml").read_text(encoding="utf-8") == "kept"
    assert files(root)["a.yml"] == b"old a.yml"


def test_a_link_inside_stays_a_link(root: Path) -> None:
    (root / "other.yml").symlink_to("a.yml")
    write_text(root / "other.yml", "new")
    assert (root / "other.yml").is_symlink()
    assert files(root)["a.yml"] == b"new"


def test_all_or_none_wherever_the_process_is_ended(
    root: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Ended before each call in turn, with no cleaning up; the next run does what is promised."""
    if not hasattr(os, "fork"):
        pytest.skip("no fork here")
    old, outcomes = files(root), []
    for number in range(200):
        place = shelf(tmp_path / f"{number}")
        child = os.fork()
        if child == 0:
            with monkeypatch.context() as patch:
                on_each_call(patch, ended_after(number))
                write_together(place, texts(place))
            os._exit(0)
        was_ended = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 9
        finish(place)
        now = files(place)
        assert now in (old, NEW), number
        outcomes.append(now == NEW)
        assert not (place / JOURNAL).exists()
        write_together(place, texts(place))
        assert files(place) == NEW
        assert hidden(place) == [], number
        if not was_ended:
            break
    assert len(outcomes) > 15
    assert outcomes == sorted(outcomes)  # old up to one point, new from there
    assert {*outcomes} == {False, True}


def test_two_runs_may_finish_the_same(root: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(together, "finish", lambda _: False)
    write_together(root, texts(root))
    monkeypatch.undo()
    assert files(root) == files(shelf(root.parent / "other"))
    usual, again = os.replace, [True]

    def after_another(*given: str) -> None:
        if again.pop() if again else False:
            finish(root)
        usual(*given)

    monkeypatch.setattr(os, "replace", after_another)
    assert finish(root)
    assert files(root) == NEW
    assert not finish(root)


@pytest.mark.parametrize(
    "journal",
    [
        "",
        "[]",
        "{}",
        '{"write": [1], "remove": []}',
        '{"write": [], "remove": 7}',
        "\x00",
        "[" * 9999,
    ],
)
def test_a_journal_of_somebody_else_does_nothing(root: Path, journal: str) -> None:
    (root / JOURNAL).write_text(journal, encoding="utf-8")
    before = files(root)
    assert not finish(root)
    assert files(root) == before


@pytest.mark.parametrize("name", ["../kept.yml", "{outside}/kept.yml", "notices/../../kept.yml"])
def test_a_journal_reaches_nothing_outside(root: Path, name: str) -> None:
    kept = root.parent / "kept.yml"
    kept.write_text("kept", encoding="utf-8")
    told = name.format(outside=root.parent)
    (root / JOURNAL).write_text(f'{{"write": [], "remove": ["{told}"]}}', encoding="utf-8")
    with pytest.raises(OutsideError):
        finish(root)
    assert kept.exists()


def test_new_files_all_or_none_and_never_over_another(root: Path) -> None:
    before = files(root)
    with pytest.raises(FileExistsError, match="already"):
        write_new({root / "x" / "y" / "new.yml": "n", root / "a.yml": "n"})
    assert files(root) == before
    assert not (root / "x").exists()
    write_new({root / "x" / "y" / "new.yml": "n"})
    assert files(root)["x/y/new.yml"] == b"n"


def cases() -> Iterator[Path]:
    yield from (Path("a" * length) for length in (1, 100, 240, 250))


def test_a_long_name_is_no_hindrance(root: Path) -> None:
    for name in some(list(cases())):
        write_text(root / name, "new")
        assert (root / name).read_text(encoding="utf-8") == "new"
