"""Content at git revisions: real repositories, and everything that can be wrong with them."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf.cli import main

JOB = "content/jobs/vg-0010.yml"
Captured = pytest.CaptureFixture[str]


class Repo:
    """A repository that holds the small shop, for one test."""

    def __init__(self, top: Path) -> None:
        self.top = top

    def git(self, *arguments: str) -> str:
        settings = ("-c", "user.name=nobody", "-c", "user.email=nobody@localhost",
                    "-c", "commit.gpgsign=false", "-c", "protocol.file.allow=always")  # fmt: skip
        environment = {**os.environ, "GIT_CONFIG_GLOBAL": os.devnull, "GIT_CONFIG_NOSYSTEM": "1"}
        done = subprocess.run(
            ["git", "-C", str(self.top), *settings, *arguments],
            capture_output=True, text=True, env=environment, check=False,
        )  # fmt: skip
        assert done.returncode == 0 or arguments[0] == "merge", done.stderr
        return done.stdout.strip()

    def edit(self, name: str, old: str, new: str) -> None:
        path = self.top / name
        text = path.read_text(encoding="utf-8")
        assert text.count(old) == 1
        path.write_text(text.replace(old, new), encoding="utf-8")

    def commit(self, message: str = "Change") -> str:
        self.git("add", "-A")
        self.git("commit", "-q", "-m", message)
        return self.git("rev-parse", "--short", "HEAD")


@pytest.fixture
def repo(shop: Callable[..., Path], monkeypatch: pytest.MonkeyPatch) -> Repo:
    made = Repo(shop().parent)
    made.git("init", "-q", "-b", "main")
    made.commit("First")
    monkeypatch.chdir(made.top)
    monkeypatch.delenv("BENCHLEAF_CREW_DIR", raising=False)
    return made


def test_the_working_tree_is_compared_with_the_merge_base(repo: Repo, capsys: Captured) -> None:
    base = repo.git("rev-parse", "--short", "HEAD")
    repo.git("checkout", "-q", "-b", "topic")
    repo.edit(JOB, "feet apart", "feet together")
    repo.commit()
    repo.git("checkout", "-q", "main")
    repo.edit(JOB, "thickness: 6 mm", "thickness: 7 mm")
    repo.commit()
    repo.git("checkout", "-q", "topic")
    repo.edit("content/tools/drill-8.yml", "It squeals.", "It screams.")
    assert main(["compare"]) == 0
    out = capsys.readouterr().out
    assert f"old: {base} (where this and main went apart)" in out
    assert "feet together" in out
    assert "It screams." in out
    assert "7 mm" not in out


def test_two_revisions_and_the_files_as_they_were(repo: Repo, capsys: Captured) -> None:
    first = repo.git("rev-parse", "HEAD")
    repo.edit(JOB, "feet apart", "feet together")
    second = repo.commit()
    repo.edit(JOB, "feet together", "feet crossed")
    assert main(["compare", first, "HEAD", "--format", "text"]) == 0
    out = capsys.readouterr().out
    assert f"new: {second} (HEAD)" in out
    assert f"at {second}:content/jobs/vg-0010.yml:64" in out
    assert "crossed" not in out
    assert repo.git("status", "--porcelain") == "M content/jobs/vg-0010.yml"


def test_a_renamed_file_is_no_change(repo: Repo, capsys: Captured) -> None:
    repo.git("mv", "content/tools/drill-8.yml", "content/tools/drill-8-old-name.yml")
    repo.commit()
    assert main(["compare", "HEAD~1", "HEAD"]) == 0
    assert "No change of meaning." in capsys.readouterr().out


def test_a_renamed_content_folder_is_named(repo: Repo, capsys: Captured) -> None:
    repo.git("mv", "content", "manual")
    repo.commit()
    assert main(["compare", "HEAD~1", "--content", "manual"]) == 2
    err = capsys.readouterr().err
    assert "holds no folder 'manual'" in err
    short = repo.git("rev-parse", "--short", "HEAD~1")
    assert f"write {short}:content" in err
    assert main(["compare", "HEAD~1:content", "--content", "manual"]) == 0
    assert "No change of meaning." in capsys.readouterr().out


def test_a_revision_that_does_not_exist(repo: Repo, capsys: Captured) -> None:
    repo.git("tag", "release-7")
    assert main(["compare", "relaese-7"]) == 2
    assert capsys.readouterr().err == (
        "benchleaf: there is no revision 'relaese-7'\n"
        "did you mean 'release-7'?\n"
        "branches and tags: main, release-7\n"
    )


@pytest.mark.parametrize("written", ["--output=x", "-h~1", "", ":content", "HEAD:../x", "a b"])
def test_odd_names_of_revisions_are_no_options_of_git(
    written: str, repo: Repo, capsys: Captured
) -> None:
    code = None
    try:
        code = main(["compare", "--", written])
    except SystemExit as stopped:
        code = stopped.code  # type: ignore[assignment]
    assert code == 2
    assert "Traceback" not in capsys.readouterr().err
    assert sorted(path.name for path in repo.top.iterdir()) == [".git", "content"]


def test_a_main_branch_that_is_not_found(repo: Repo, capsys: Captured) -> None:
    repo.git("branch", "-m", "main", "work")
    assert main(["compare"]) == 2
    assert "the main branch is not found" in capsys.readouterr().err
    assert main(["compare", "--main", "work"]) == 0
    assert "No change of meaning." in capsys.readouterr().out
    assert main(["compare", "--main", "wrok"]) == 2
    assert "did you mean 'work'?" in capsys.readouterr().err


def test_a_repository_without_a_commit(tmp_path: Path, shop: Callable[..., Path],
                                       monkeypatch: pytest.MonkeyPatch,
                                       capsys: Captured) -> None:  # fmt: skip
    made = Repo(shop().parent)
    made.git("init", "-q", "-b", "main")
    monkeypatch.chdir(made.top)
    assert main(["compare"]) == 2
    assert "the main branch is not found" in capsys.readouterr().err


def test_no_repository_at_all(
    shop: Callable[..., Path], monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    monkeypatch.chdir(shop().parent)
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(Path.cwd().parent))
    assert main(["compare"]) == 2
    assert "is in no git repository" in capsys.readouterr().err
    assert main(["compare", "v1"]) == 2
    assert "'v1' is no folder, and" in capsys.readouterr().err


def test_no_git_at_all(
    repo: Repo, monkeypatch: pytest.MonkeyPatch, capsys: Captured, tmp_path: Path
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    assert main(["compare"]) == 2
    assert "git is not installed here" in capsys.readouterr().err


def test_a_shallow_clone_says_what_to_fetch(
    repo: Repo, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    repo.edit(JOB, "feet apart", "feet together")
    repo.commit()
    repo.git("checkout", "-q", "-b", "topic", "HEAD~1")
    repo.edit("content/tools/drill-8.yml", "It squeals.", "It screams.")
    repo.commit()
    clone = tmp_path / "clone"
    repo.git("clone", "-q", "--depth", "1", "--no-single-branch", "--branch", "topic",
             f"file://{repo.top}", str(clone))  # fmt: skip
    monkeypatch.chdir(clone)
    assert main(["compare"]) == 2
    err = capsys.readouterr().err
    assert "'origin/main' and the present revision have no revision in common" in err
    assert "this is a shallow clone" in err
    assert "git fetch --unshallow" in err
    assert main(["compare", "HEAD~1"]) == 2
    assert "this is a shallow clone" in capsys.readouterr().err
    assert main(["compare", "HEAD"]) == 0


def test_a_conflict_marker_in_the_working_tree(repo: Repo, capsys: Captured) -> None:
    repo.git("checkout", "-q", "-b", "topic")
    repo.edit(JOB, "feet apart", "feet together")
    repo.commit()
    repo.git("checkout", "-q", "main")
    repo.edit(JOB, "feet apart", "feet crossed")
    repo.commit()
    repo.git("merge", "-q", "topic")
    assert main(["compare"]) == 1
    err = capsys.readouterr().err
    assert "content/jobs/vg-0010.yml:64:1: error R105 a merge conflict marker '<<<<<<<'" in err
    assert err.endswith("nothing was compared\n")


def test_a_conflict_marker_that_was_committed(repo: Repo, capsys: Captured) -> None:
    repo.edit(JOB, "    stand:", "<<<<<<< HEAD\n    stand:")
    bad = repo.commit()
    repo.git("checkout", "-q", "HEAD~1", "--", "content")
    assert main(["compare", bad]) == 1
    assert f"{bad}:content/jobs/vg-0010.yml:64:1: error R105" in capsys.readouterr().err


@pytest.mark.parametrize("committed", [True, False])
@pytest.mark.parametrize("aim", ["drill-8.yml", "../../../outside.yml", "/etc/passwd", "gone.yml"])
def test_symlinks_that_lead_round_or_out(
    aim: str, committed: bool, repo: Repo, capsys: Captured
) -> None:
    path = repo.top / "content" / "tools" / "drill-8.yml"
    path.unlink()
    path.symlink_to(aim)
    sides = ["HEAD~1", "HEAD"] if committed else []
    if committed:
        repo.commit()
    assert main(["compare", *sides]) == 1
    err = capsys.readouterr().err
    assert "content/tools/drill-8.yml" in err
    assert "error R1" in err
    assert "Traceback" not in err
    assert "root:" not in err


def test_a_symlink_within_the_content_is_followed(repo: Repo, capsys: Captured) -> None:
    picture = repo.top / "content" / "pictures" / "clamped-plate.svg"
    shutil.copy(picture, picture.with_name("shared.svg"))
    picture.unlink()
    picture.symlink_to("shared.svg")
    repo.commit()
    assert main(["compare", "HEAD~1", "HEAD"]) == 0
    assert "No change of meaning." in capsys.readouterr().out


def test_folders_that_link_to_themselves(repo: Repo, capsys: Captured) -> None:
    for folder in ("jobs", "pictures", "pages", "sheets"):
        target = repo.top / "content" / folder
        target.mkdir(exist_ok=True)
        (target / "round").symlink_to("..")
        (target / "self").symlink_to("self")
    repo.commit()
    assert main(["compare", "HEAD~1", "HEAD"]) == 1
    said = capsys.readouterr().err
    for folder in ("pictures", "pages", "sheets"):
        assert f"content/{folder}/self: error R118 this file is no plain file" in said
    assert "3 errors: nothing was compared" in said


def test_names_with_odd_signs_come_through(repo: Repo, capsys: Captured) -> None:
    odd = repo.top / "content" / "pages" / "ein Blatt ü\n2.md"
    odd.write_text("# Odd\n", encoding="utf-8")
    repo.commit()
    assert main(["compare", "HEAD~1", "HEAD"]) == 0
    out = capsys.readouterr().out
    assert "page ein Blatt ü" in out
    assert "1 change" in out


def test_from_a_folder_below_the_top(repo: Repo, monkeypatch: pytest.MonkeyPatch,
                                     capsys: Captured) -> None:  # fmt: skip
    (repo.top / "docs").mkdir()
    monkeypatch.chdir(repo.top / "docs")
    assert main(["compare", "HEAD", "--content", "../content"]) == 0
    assert "No change of meaning." in capsys.readouterr().out


def test_content_outside_the_repository(
    repo: Repo, shop: Callable[..., Path], capsys: Captured
) -> None:
    other = shop()
    assert main(["compare", str(other), "content"]) == 0
    assert "No change of meaning." in capsys.readouterr().out


def test_a_forge_is_told_where_both_pictures_are(repo: Repo, capsys: Captured) -> None:
    first = repo.git("rev-parse", "HEAD")
    name = "content/pictures/clamped-plate.svg"
    text = (repo.top / name).read_text(encoding="utf-8")
    (repo.top / name).write_text(text.replace("</svg>", "<!-- again --></svg>"), encoding="utf-8")
    repo.commit()
    second = repo.git("rev-parse", "HEAD")
    at = "https://forge.example/shop/raw/{revision}/{file}"
    command = ["compare", "HEAD~1", "HEAD", "--format", "markdown", "--pictures-at", at]
    assert main(command) == 0
    out = capsys.readouterr().out
    for side, commit in (("before", first), ("after", second)):
        assert re.search(
            rf"- {side}: !\[clamped-plate.*\]\(<https://forge.example/shop/raw/{commit}/{name}>\)",
            out.replace("\\", ""),
        )
    assert main([*command[:2], "--format", "markdown", "--pictures-at", at]) == 0
    assert capsys.readouterr().out.count("![") == 1, "the folder as it is now has no revision"
