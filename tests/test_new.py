"""Skeletons of every kind of record: terms, the manual, people; and what `keys` says."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Annotated, Any

import pytest
from pydantic import TypeAdapter

from benchleaf import pipeline
from benchleaf.cli import main
from benchleaf.commands.keys import keys
from benchleaf.commands.new import new_record
from benchleaf.diagnose import report
from benchleaf.model import ALONE, Record, records_in
from benchleaf.model.schema import every_record, example_of
from benchleaf.people.crews import load_crew
from test_desk import filled

Shop = Callable[..., Path]
Captured = pytest.CaptureFixture[str]


def test_a_new_term_joins_the_others(shop: Shop, capsys: Captured) -> None:
    content = shop()
    before = (content / "terms.yml").read_text(encoding="utf-8")
    assert main(["new", "term", "Arbor", "--content", str(content)]) == 0
    after = (content / "terms.yml").read_text(encoding="utf-8")
    assert after.startswith(before.rstrip("\n"))
    new = filled(after[len(before) - 1 :]).replace("word: quill", "word: arbor")
    (content / "terms.yml").write_text(before.rstrip("\n") + new, encoding="utf-8")
    loaded = pipeline.load(content)
    assert report([one for one in loaded.findings if one.blocks_publishing]) == ""
    assert "arbor" in loaded.shop.terms


def test_the_first_term_begins_its_file(shop: Shop) -> None:
    content = shop({"terms.yml": None})
    assert main(["new", "term", "arbor", "--content", str(content)]) == 0
    lines = (content / "terms.yml").read_text(encoding="utf-8").split("\n")
    assert lines[:2] == ["terms:", "  - id: arbor"]


def test_a_new_manual_asks_for_its_facts(shop: Shop) -> None:
    content = shop({"manual.yml": None})
    assert main(["new", "manual", "--content", str(content)]) == 0
    path = content / "manual.yml"
    path.write_text(filled(path.read_text(encoding="utf-8")), encoding="utf-8")
    assert pipeline.load(content).shop.manual.shop == "Tarn Row Works"


def test_a_new_crew_can_be_read_once_it_is_filled_in(shop: Shop, tmp_path: Path) -> None:
    content, crew = shop(), tmp_path / "crew"
    for asked in (["crew"], ["person", "op-07"]):
        assert main(["new", *asked, "--crew", str(crew), "--content", str(content)]) == 0
    for path in (crew / "crew.yml", crew / "people/op-07.yml"):
        path.write_text(filled(path.read_text(encoding="utf-8")), encoding="utf-8")
    loaded = load_crew(crew, pipeline.load(content).shop, content)
    assert report(loaded.findings) == ""
    assert loaded.crew is not None
    assert list(loaded.crew.people) == ["op-07"]


def test_no_crew_is_begun_inside_the_content(shop: Shop, capsys: Captured) -> None:
    content = shop()
    asked = ["new", "crew", "--crew", str(content / "crew"), "--content", str(content)]
    assert main(asked) == 2
    assert "lies inside the content folder" in capsys.readouterr().err
    assert not (content / "crew").exists()


def people_fields() -> Iterator[tuple[type[Record], str]]:
    for kind in ("crew", "person"):
        for cls in every_record(ALONE[kind]):
            yield from ((cls, key) for key in cls.model_fields if not records_below(cls, key))


def records_below(cls: type[Record], key: str) -> bool:
    return any(records_in(cls.model_fields[key].annotation))


@pytest.mark.parametrize(("cls", "key"), list(people_fields()))
def test_each_key_about_people_has_an_example_that_fits(cls: type[Record], key: str) -> None:
    example = example_of(cls, key)
    assert example is not None
    field = cls.model_fields[key]
    is_list = str(field.annotation).startswith("tuple[")
    whole: Any = field.annotation
    for one in field.metadata:
        whole = Annotated[whole, one]
    assert TypeAdapter(whole).validate_python([example] if is_list else example) is not None


def test_keys_list_allowed_words_units_and_examples() -> None:
    lines = {one.split()[0]: one for one in str(keys("tool")).split("\n") if one[0] != " "}
    assert "Allowed: drill, countersink, reamer" in lines["kind"]
    assert "An angle, with its unit: deg" in lines["point_angle"]
    assert "For example: Twist drill 8.5 mm" in lines["name"]


def test_a_skeleton_lists_allowed_words_and_what_may_be_left_out(shop: Shop) -> None:
    content = shop()
    new_record("hazard", "new-1", content)
    new_record("job", "new-1", content)
    hazard = (content / "hazards/new-1.yml").read_text(encoding="utf-8")
    job = " ".join((content / "jobs/new-1.yml").read_text(encoding="utf-8").split())
    assert "Allowed: death or serious injury, minor or moderate injury, no injury." in hazard
    assert "May be left out: hazards, station, stand, right, checks, set_up, picture" in job
    assert "## May be left out: work, work_diameter" in job


@pytest.mark.parametrize(("kind", "name"), [("family", "families"), ("machine-group", "machine-g")])
def test_what_jobs_are_made_of_is_begun_in_its_own_folder(
    shop: Shop, kind: str, name: str, capsys: Captured
) -> None:
    """Each empty key is told, and no address looks gone because of it."""
    content = shop()
    assert main(["new", kind, "plates", "--content", str(content)]) == 0
    (path,) = content.glob(f"{name}*/plates.yml")
    assert path.read_text(encoding="utf-8").startswith("# ")
    empty = [one for one in pipeline.check(content) if one.place.file.endswith("plates.yml")]
    assert {one.code for one in empty} == {"R112"}
    assert len(pipeline.check(content)) == len(empty)
