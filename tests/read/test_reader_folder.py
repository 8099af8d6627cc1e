"""Which files of a content folder are read, in which order, and what is said of the rest."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf.diagnose import Place, Severity
from benchleaf.model import FOLDERS
from benchleaf.read import read_content


def test_documents_come_in_one_order_and_know_their_kind(shop: Callable[..., Path]) -> None:
    contents = read_content(shop(), FOLDERS)
    documents, findings = contents.documents, contents.findings
    assert findings == ()
    assert [(each.kind, each.name) for each in documents] == [
        ("manual", "content/manual.yml"),
        ("terms", "content/terms.yml"),
        ("addresses", "content/addresses.yml"),
        ("jobs", "content/jobs/vg-0010.yml"),
        ("jobs", "content/jobs/vg-0020.yml"),
        ("parts", "content/parts/vg-r1.yml"),
        ("machines", "content/machines/bench-drill.yml"),
        ("materials", "content/materials/mild-steel.yml"),
        ("tools", "content/tools/drill-8.yml"),
        ("tools", "content/tools/plug-gauge-8.yml"),
        ("fluids", "content/fluids/soluble-oil.yml"),
        ("hazards", "content/hazards/work-turns.yml"),
        ("onboarding", "content/onboarding/first-days.yml"),
    ]


def test_a_content_folder_that_is_not_there(tmp_path: Path) -> None:
    contents = read_content(tmp_path / "nowhere", FOLDERS)
    documents, (finding,) = contents.documents, contents.findings
    assert documents == ()
    assert (finding.code, finding.severity) == ("R101", Severity.ERROR)
    assert finding.help


def test_a_file_in_the_place_of_the_content_folder(tmp_path: Path) -> None:
    (tmp_path / "content").write_text("a: 1\n")
    assert [each.code for each in read_content(tmp_path / "content", FOLDERS).findings] == ["R101"]


@pytest.mark.parametrize(
    ("name", "near"),
    [("tool/x.yml", "tools"), ("job/x.yml", "jobs"), ("manual.yaml", "manual.yml")],
)
def test_a_name_nearly_right_is_answered_with_the_right_one(
    shop: Callable[..., Path], name: str, near: str
) -> None:
    (finding,) = read_content(shop({name: "a: 1\n"}), FOLDERS).findings
    assert (finding.code, finding.severity) == ("R113", Severity.WARNING)
    assert finding.place == Place(f"content/{name.split('/')[0]}")
    assert f"did you mean '{near}'?" in finding.help


@pytest.mark.parametrize("name", [".hidden.yml", "tools/.swp", "pages/x.md", "pictures/x.svg"])
def test_what_is_no_business_of_the_reader(shop: Callable[..., Path], name: str) -> None:
    assert read_content(shop({name: "a\n"}), FOLDERS).findings == ()


@pytest.mark.parametrize(
    "name", ["tools/x.yaml", "tools/x.YML", "tools/notes.txt", "tools/more/x.yml"]
)
def test_a_file_in_the_right_folder_that_is_not_read(shop: Callable[..., Path], name: str) -> None:
    (finding,) = read_content(shop({name: "a: 1\n"}), FOLDERS).findings
    assert finding.code == "R113"
    assert finding.place.file == "/".join(("content", *name.split("/")[:2]))


def test_a_file_saved_with_no_end_of_line(
    shop: Callable[..., Path], base_shop: dict[str, str]
) -> None:
    name = "fluids/soluble-oil.yml"
    assert read_content(shop({name: base_shop[name].rstrip("\n")}), FOLDERS).findings == ()


def test_a_folder_that_links_to_itself_is_a_finding_not_a_crash(shop: Callable[..., Path]) -> None:
    content = shop()
    (content / "tools" / "again").symlink_to(content / "tools", target_is_directory=True)
    (content / "loop").symlink_to("loop")
    codes = [finding.code for finding in read_content(content, FOLDERS).findings]
    assert codes == ["R113", "R113"]


def test_a_kind_folder_that_is_a_file_is_said_to_be_unread(
    shop: Callable[..., Path], base_shop: dict[str, str]
) -> None:
    without = {name: None for name in base_shop if name.startswith("fluids/")}
    content = shop(without)
    (content / "fluids").rmdir()
    (content / "fluids").write_text("a: 1\n")
    assert [finding.place for finding in read_content(content, FOLDERS).findings] == [
        Place("content/fluids")
    ]


def test_a_kind_folder_that_links_nowhere_is_said(shop: Callable[..., Path]) -> None:
    content = shop({"fluids/soluble-oil.yml": None})
    (content / "fluids").rmdir()
    (content / "fluids").symlink_to("elsewhere")
    codes = [finding.code for finding in read_content(content, FOLDERS).findings]
    assert codes
    assert set(codes) <= {"R101", "R113"}


@pytest.mark.parametrize("folder", ["tools", "."])
def test_a_folder_that_may_not_be_listed_is_a_finding(
    shop: Callable[..., Path], monkeypatch: pytest.MonkeyPatch, folder: str
) -> None:
    content = shop()
    closed = (content / folder).resolve()
    real_iterdir, real_scandir = Path.iterdir, __import__("os").scandir

    def refused(path: object = ".") -> None:
        if Path(str(path)).resolve() == closed:
            raise PermissionError(13, "Permission denied", str(path))

    def iterdir(path: Path) -> object:
        refused(path)
        return real_iterdir(path)

    def scandir(path: object = ".") -> object:
        refused(path)
        return real_scandir(path)

    monkeypatch.setattr(Path, "iterdir", iterdir)
    monkeypatch.setattr("os.scandir", scandir)
    codes = {finding.code for finding in read_content(content, FOLDERS).findings}
    assert "R101" in codes
