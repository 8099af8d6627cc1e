"""A release ended at any point: the next run has all of it or none, and goes on from there."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from repository import Repository

from benchleaf import pipeline, write
from benchleaf.cli import main
from benchleaf.write import JOURNAL, together
from running import examples, some

JOB = "jobs/vg-0010.yml"


def state(content: Path) -> dict[str, bytes]:
    return {
        path.relative_to(content).as_posix(): path.read_bytes()
        for path in content.rglob("*")
        if path.is_file() and not path.name.startswith(".")
    }


@pytest.fixture
def waiting(repo: Repository) -> Repository:
    """The shop with a change that waits for its release."""
    repo.edit(JOB, "A plate that lies crooked gets", "A plate that is loose gets")
    repo.notice("plate", "[VG-0010]", "The plate lies fast.")
    repo.commit()
    return repo


ENDED, WELL = 9, 100


def release_ended(content: Path, number: int, patch: pytest.MonkeyPatch) -> int:
    """Release in a fork that is ended before it reaches the disk this often. `ENDED`, or how often
    it did reach it above `WELL`."""
    child = os.fork()
    if child:
        return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
    left = iter(range(number, -1, -1))

    def counted(usual: Callable[..., object]) -> Callable[..., object]:
        def call(*given: object, **named: object) -> object:
            if next(left) == 0:
                os._exit(ENDED)
            return usual(*given, **named)

        return call

    for room, name in ((os, "fsync"), (os, "replace"), (Path, "unlink")):
        patch.setattr(room, name, counted(getattr(room, name)))
    code = main(["release", str(content), "--on", "2026-12-20"])
    os._exit(WELL + number - next(left) if code == 0 else code)


def test_a_release_that_is_ended_anywhere_is_all_or_none(
    waiting: Repository, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = state(waiting.content)
    kept = tmp_path / "kept"
    shutil.copytree(waiting.content, kept)
    every = release_ended(waiting.content, 999, monkeypatch) - WELL
    assert 20 < every < 100
    released = state(waiting.content)
    assert sorted(before.keys() ^ released.keys()) == [
        "changed/vg-0010.yml", "notices/2026-12-01-plate.yml",
    ]  # fmt: skip
    seen = []
    for number in some(range(0, every, max(1, every // examples(every // 4)))):
        shutil.rmtree(waiting.content)
        shutil.copytree(kept, waiting.content)
        assert release_ended(waiting.content, number, monkeypatch) == ENDED, number
        findings = pipeline.check(waiting.content)  # whoever reads first finishes it
        assert findings == (), number
        now = state(waiting.content)
        assert now in (before, released), number
        seen.append(now == released)
        assert main(["release", str(waiting.content), "--on", "2026-12-20"]) == 0
        assert state(waiting.content) == released, number
        assert [path.name for path in waiting.content.rglob(".*")] == [], number
    assert {*seen} == {False, True}


def test_what_cannot_be_finished_is_told(
    waiting: Repository, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    content = waiting.content
    with monkeypatch.context() as patch:
        patch.setattr(together, "finish", lambda _: False)
        assert main(["release", str(content), "--on", "2026-12-20"]) == 0
    assert (content / JOURNAL).is_file()
    with monkeypatch.context() as patch:

        def full(*_: object) -> None:
            raise OSError(28, "No space left on device")

        patch.setattr(os, "replace", full)
        found = pipeline.check(content)
    told = [one for one in found if one.code == "R117"]
    assert [one.text for one in told] == [
        "what a command wrote half cannot be finished: No space left on device"
    ]
    assert str(content) in told[0].help[0]
    capsys.readouterr()
    assert main(["release", str(content)]) == 0
    assert "a release that was cut off is finished now" in capsys.readouterr().out
    assert not write.finish(content)
    assert pipeline.check(content) == ()
