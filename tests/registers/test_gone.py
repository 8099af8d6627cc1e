"""A register that is missing, renamed, shorter or written anew: also against another revision."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from repository import Repository

from benchleaf import pipeline
from benchleaf.cli import main
from running import sample, some

REGISTERS = ("addresses", "revisions", "history", "tally")
JOB = "jobs/vg-0010.yml"


@pytest.fixture
def plain(shop: Callable[..., Path]) -> Repository:
    """The small shop in a repository, whose job files say their revision; registered."""
    content = shop()
    assert main(["register", str(content)]) == 0
    made = Repository(content.parent)
    made.git("init", "-q", "-b", "main")
    made.commit("First")
    return made


def codes(content: Path) -> list[str]:
    return [one.code for one in pipeline.check(content) if one.blocks_publishing]


@pytest.mark.parametrize("is_known", [True, False], ids=["git remembers", "no git"])
@pytest.mark.parametrize("name", REGISTERS[:2])
def test_without_one_of_its_registers_a_shop_is_not_as_if_it_never_had_any(
    plain: Repository, capsys: pytest.CaptureFixture[str], name: str, *, is_known: bool
) -> None:
    file = plain.content / f"{name}.yml"
    text = file.read_text(encoding="utf-8")
    if not is_known:
        (plain.top / ".git").rename(plain.top / "aside")
    file.rename(file.with_suffix(".yaml"))
    plain.edit(JOB, "8 +0.1/-0 mm", "8 +0.2/-0 mm")
    told, *more = [one for one in pipeline.check(plain.content) if one.blocks_publishing]
    assert (told.code, told.place.file) == ("A613", f"content/{name}.yml")
    assert [one.code for one in more] == (["A604"] if name == "addresses" else [])
    assert ("git checkout HEAD" in told.help[0]) is is_known
    for options in ([], ["--first"] if is_known else []):  # which would hide what changed
        assert main(["register", str(plain.content), *options]) == 1
        assert not file.exists()
    assert "A613" in capsys.readouterr().out
    file.write_text(text, encoding="utf-8")
    assert codes(plain.content) == ["A604"]


def test_a_register_that_never_was_is_begun_by_name(plain: Repository) -> None:
    (plain.top / ".git").rename(plain.top / "aside")
    (plain.content / "revisions.yml").unlink()
    assert main(["register", str(plain.content), "--first"]) == 0
    assert codes(plain.content) == []


def test_a_shop_that_never_registered_is_told_how_to_begin(shop: Callable[..., Path]) -> None:
    content = shop({"addresses.yml": None})
    (told,) = pipeline.check(content)
    assert told.code == "A602"
    assert told.help == (
        "nothing was ever registered here, so nothing is kept from changing yet",
        "run `benchleaf register`, and commit the file with your change",
    )


@pytest.mark.parametrize("lost", [("history", "tally"), REGISTERS[1:], REGISTERS])
def test_a_shop_that_releases_cannot_fall_back_to_none(
    repo: Repository, lost: tuple[str, ...]
) -> None:
    for name in lost:
        (repo.content / f"{name}.yml").unlink()
    found = [one for one in pipeline.check(repo.content) if one.blocks_publishing]
    about = {Path(one.place.file).stem for one in found if one.code in ("A603", "A606")}
    assert {"history", "tally"} <= about
    assert all("restore" in one.help[0] for one in found if one.code in ("A603", "A606"))
    assert not any(one.code == "F202" for one in found)  # nobody is asked to type a revision
    assert main(["register", str(repo.content)]) == 2


def told_against(made: Repository, capsys: pytest.CaptureFixture[str], ref: str = "main") -> str:
    capsys.readouterr()
    code = main(["check", str(made.content), "--against", ref])
    out = capsys.readouterr().out
    assert code == (1 if "error A61" in out else 0), out
    return "" if out == "no problems found\n" else out


def test_every_entry_is_held_to_the_branch_it_came_from(
    plain: Repository, capsys: pytest.CaptureFixture[str]
) -> None:
    """Also where the whole file was written anew, so that nothing in itself is amiss."""
    plain.branch("work")
    assert told_against(plain, capsys) == ""
    for name in REGISTERS[:2]:
        file = plain.content / f"{name}.yml"
        text = file.read_text(encoding="utf-8")
        lines = text.splitlines(keepends=True)
        entries = [at for at, line in enumerate(lines) if line.startswith("  - ")]
        for at in some(sample(entries, 3, 18)):
            other = lines[at].replace("fingerprint: ", "fingerprint: 0").replace(".html", "x.html")
            for put in ("", other):
                file.write_text("".join((*lines[:at], put, *lines[at + 1 :])), encoding="utf-8")
                assert f"{name}.yml: error A614 this register lost" in told_against(plain, capsys)
        file.write_text(text, encoding="utf-8")
    file = plain.content / "revisions.yml"
    file.unlink()
    assert "it is gone" in told_against(plain, capsys)
    file.write_text("revisions: []\n", encoding="utf-8")
    plain.edit(JOB, "8 +0.1/-0 mm", "8 +0.2/-0 mm")
    assert main(["register", str(plain.content)]) == 0
    assert codes(plain.content) == []  # in itself all is well
    plain.commit("Written anew")
    assert "revisions.yml: error A614" in told_against(plain, capsys)
    capsys.readouterr()
    assert main(["check", str(plain.content), "--against", "nowhere"]) == 2
    assert "there is no revision 'nowhere'" in capsys.readouterr().err


def test_what_only_grew_is_well_also_where_a_shop_is_taken_over(
    plain: Repository, capsys: pytest.CaptureFixture[str]
) -> None:
    plain.branch("work")
    plain.edit(JOB, "revision: 2", "revision: 3")
    plain.edit(JOB, "8 +0.1/-0 mm", "8 +0.2/-0 mm")
    assert main(["register", str(plain.content)]) == 0
    assert "A614" not in told_against(plain, capsys)
    assert main(["release", str(plain.content), "--take-over", "--main", "work"]) == 0
    assert "A614" not in told_against(plain, capsys)


def test_a_release_that_was_taken_back_is_told(
    repo: Repository, capsys: pytest.CaptureFixture[str]
) -> None:
    first = repo.git("rev-parse", "HEAD")
    repo.edit(JOB, "A plate that lies crooked gets", "A plate that is loose gets")
    repo.notice("plate", "[VG-0010]", "The plate lies fast.")
    assert repo.release() == 0
    repo.branch("work")
    assert told_against(repo, capsys) == ""
    repo.git("checkout", "-q", first, "--", "content/tally.yml", "content/history.yml")
    (repo.content / "changed" / "vg-0010.yml").write_text("job: VG-0010\nchanges: []\n")
    out = told_against(repo, capsys)
    for file in ("tally.yml", "history.yml", "changed/vg-0010.yml"):
        assert f"content/{file}: error A614" in out


def test_a_list_goes_on_with_every_change(
    plain: Repository, capsys: pytest.CaptureFixture[str]
) -> None:
    (name,) = (path.name for path in (plain.content / "onboarding").glob("*.yml"))
    file = plain.content / "onboarding" / name
    text = file.read_text(encoding="utf-8")
    plain.branch("work")
    file.write_text(f"# a comment\n{text}", encoding="utf-8")
    assert told_against(plain, capsys) == ""
    signed = "        signed_by:\n          - learner\n          - trainer\n"
    assert signed in text
    file.write_text(text.replace(signed, "", 1), encoding="utf-8")
    out = told_against(plain, capsys)
    assert "error A615 this list changed since" in out
    assert any(line.endswith("its revision is still 1: stages") for line in out.splitlines())
