"""The engineer's desk: schemas for editors, new files, tidy files, readability."""

from __future__ import annotations

import json
import re
import xml.etree.ElementTree as Xml
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml

from benchleaf import pipeline
from benchleaf.cli import main
from benchleaf.commands import schema
from benchleaf.commands.drafted import DRAFTED
from benchleaf.commands.new import new_record
from benchleaf.diagnose import report
from benchleaf.model import FOLDERS, KINDS, OPEN_MARK, Manual, Record
from benchleaf.model.schema import every_record
from benchleaf.registers import Forward, RegisteredRevision

ROOT = Path(__file__).parents[1]
SHOP = ROOT / "tests/shop"
Shop = Callable[..., Path]
Edited = Callable[..., dict[str, str]]
Captured = pytest.CaptureFixture[str]
SCHEMAS = {name: json.loads(text) for name, text in schema.schemas().items()}
FILES: tuple[type[Record], ...] = (*KINDS.values(), Manual, Forward, RegisteredRevision)
CLASSES: set[type[Record]] = {one for cls in FILES for one in every_record(cls)}


def of_file(path: Path) -> str:
    """The schema for a content file, as the catalog has it."""
    found: str = next(
        entry["url"]
        for entry in SCHEMAS[schema.CATALOG]["schemas"]
        for pattern in entry["fileMatch"]
        if path.match(pattern.removeprefix("**/"))
    )
    return found


def as_an_editor_reads(text: str) -> Any:
    """YAML 1.2 core, as the language server has it: text, whole numbers, truths."""

    class Loader(yaml.SafeLoader):
        pass

    Loader.yaml_implicit_resolvers = {}
    for tag, pattern, first in (
        ("int", r"[-+]?\d+$", "-+0123456789"),
        ("float", r"[-+]?\d+\.\d+$", "-+0123456789"),
        ("bool", r"true$|false$", "tf"),
    ):
        Loader.add_implicit_resolver(f"tag:yaml.org,2002:{tag}", re.compile(pattern), list(first))
    return yaml.load(text, Loader)


# Schemas


def test_the_schemas_in_the_repository_are_those_of_the_records() -> None:
    """`benchleaf schema --all .schemas --editors` writes them anew."""
    folder = ROOT / schema.SCHEMA_FOLDER
    assert {path.name for path in folder.iterdir()} == set(SCHEMAS)
    assert {
        name: (folder / name).read_text(encoding="utf-8") for name in SCHEMAS
    } == schema.schemas()


@pytest.mark.parametrize("name", sorted(schema.editor_files()))
def test_the_settings_of_editors_in_the_repository_are_those_we_write(name: str) -> None:
    assert (ROOT / name).read_text(encoding="utf-8") == schema.editor_files()[name]


def test_every_file_that_an_editor_is_told_of_is_there() -> None:
    settings = json.loads(schema.editor_files()[".vscode/settings.json"])["yaml.schemas"]
    project = Xml.fromstring(schema.editor_files()[".idea/jsonSchemas.xml"])
    told = {one.get("value") for one in project.iter("option") if one.get("name") == "path"}
    told |= {pattern.removesuffix("/*.yml") for pattern in settings.values()}
    # there only while a notice waits or a job is on hold, and where a shop makes jobs of them
    told -= {"content/notices", "content/holds", "content/machine-groups", "content/families"}
    assert {one for one in told if not (ROOT / str(one)).exists()} == set()
    assert all((ROOT / path).is_file() for path in settings)


@pytest.mark.parametrize("name", sorted(set(SCHEMAS) - {schema.CATALOG}))
def test_a_schema_is_one(name: str) -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMAS[name])


def name_of(cls: type[Record]) -> str:
    return cls.__name__


BY_NAME: list[type[Record]] = sorted(CLASSES, key=name_of)


@pytest.mark.parametrize("cls", BY_NAME)
def test_every_key_has_a_meaning_and_an_example(cls: type[Record]) -> None:
    """A new key needs a text beneath it, and an `Example` where its type brings none."""
    whole = next(schema for schema in SCHEMAS.values() if cls.__name__ in _names(schema))
    part = _names(whole)[cls.__name__]
    for key, said in part["properties"].items():
        assert said.get("description"), f"{cls.__name__}.{key} has no meaning"
        assert _has_example(said), f"{cls.__name__}.{key} has no example"


def _names(schema: dict[str, Any]) -> dict[str, Any]:
    parts = schema.get("properties", {}).values()
    listed = [part["items"] for part in parts if "title" in part.get("items", {})]
    return {
        schema.get("title", ""): schema,
        **{one["title"]: one for one in listed},
        **schema.get("$defs", {}),
    }


def _has_example(said: dict[str, Any]) -> bool:
    words = json.dumps(said)
    return any(f'"{sign}"' in words for sign in ("examples", "$ref", "enum", "const"))


CONTENT = [path for top in (ROOT / "content", SHOP) for path in sorted(top.rglob("*.yml"))]


@pytest.mark.parametrize("path", CONTENT, ids=lambda path: path.name)
def test_an_editor_finds_nothing_wrong_in_a_sound_file(path: Path) -> None:
    value = as_an_editor_reads(path.read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator(SCHEMAS[of_file(path)]).validate(value)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("machine: bench-drill", "machin: bench-drill"),
        ("feed: 0.15 mm/rev", "feed: [0.15]"),
        ("hole: through", "hole: thru"),
        ("makes: One 8 mm hole through a rack plate.\n", ""),
    ],
)
def test_an_editor_marks_a_mistake(edited: Edited, old: str, new: str) -> None:
    (text,) = edited("jobs/vg-0010.yml", old, new).values()
    validator = jsonschema.Draft202012Validator(SCHEMAS["job.schema.json"])
    assert not validator.is_valid(as_an_editor_reads(text))


@pytest.mark.parametrize(
    "text", ["forwards: [{old: a.html, now: b.html}]", "forwards: [{old: a.html}]", "forwards: a"]
)
def test_an_editor_marks_a_forward_that_leads_nowhere(text: str) -> None:
    validator = jsonschema.Draft202012Validator(SCHEMAS["forwards.schema.json"])
    assert validator.is_valid(as_an_editor_reads("forwards: [{old: a.html, new: b.html}]"))
    assert not validator.is_valid(as_an_editor_reads(text))


def test_schemas_and_settings_are_written(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Captured
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main(["schema", "--all", ".schemas", "--editors"]) == 0
    assert capsys.readouterr().out.count(" is written\n") == len(SCHEMAS) + 2
    assert (tmp_path / ".schemas/job.schema.json").is_file()
    assert (tmp_path / ".idea/jsonSchemas.xml").is_file()


# New records


OF_THE_SHOP = {
    "pillar-drill": "bench-drill",
    "mild-steel": "mild-steel",
    "can injure": "makes or breaks the job",
}


def chosen(text: str) -> str:
    """A skeleton, each empty key filled with the example beside it; open texts stay open."""
    found = re.sub(r" *  # for example: ", " ", text)
    for one, other in OF_THE_SHOP.items():
        found = found.replace(f": {one}", f": {other}")
    return found


def filled(text: str) -> str:
    """The same with the example above it in place of each open text, and nothing still open."""
    lines, above = [], ""
    for line in chosen(text).partition("\n## What is still to be given")[0].split("\n"):
        before, is_open, _ = line.partition(OPEN_MARK)
        is_text = is_open and not line.startswith("# ")
        lines.append(before.rstrip('"') + above if is_text else line)
        above = line.partition("## For example: ")[2] or above
    return "\n".join(lines) + "\n"


@pytest.mark.parametrize("kind", FOLDERS)
def test_a_skeleton_passes_the_check_once_it_is_filled_in(
    shop: Shop, capsys: Captured, kind: str
) -> None:
    content = shop()
    assert main(["new", kind.removesuffix("s"), "New-1", "--content", str(content)]) == 0
    assert "new-1.yml is written: fill it in" in capsys.readouterr().out
    path = content / kind / "new-1.yml"
    path.write_text(filled(path.read_text(encoding="utf-8")), encoding="utf-8")
    findings = [one for one in pipeline.check(content) if one.code != "A602"]
    assert report(findings) == ""


@pytest.mark.parametrize("kind", FOLDERS)
def test_the_check_names_every_key_that_is_not_filled_in(shop: Shop, kind: str) -> None:
    content = shop()
    new_record(kind.removesuffix("s"), "new-1", content)
    text = (content / kind / "new-1.yml").read_text(encoding="utf-8")
    findings = pipeline.check(content)
    assert len([one for one in findings if one.code == "R112"]) == text.count("# for example: ")
    assert {one.code for one in findings} <= {"R112", "A602", "V901"}


@pytest.mark.parametrize("kind", DRAFTED)
def test_a_new_record_stops_no_build_once_its_ids_and_words_are_chosen(
    shop: Shop, kind: str
) -> None:
    content = shop()
    new_record(kind, "new-1", content)
    (path,) = content.glob("*/new-1.yml")
    path.write_text(chosen(path.read_text(encoding="utf-8")), encoding="utf-8")
    assert {one.code for one in pipeline.check(content)} - {"A602"} == {"V901"}


@pytest.mark.parametrize("kind", FOLDERS)
def test_each_example_of_a_skeleton_can_be_used(shop: Shop, kind: str) -> None:
    """The comment signs taken away, only references and files may be missing."""
    content = shop()
    new_record(kind.removesuffix("s"), "new-1", content)
    path = content / kind / "new-1.yml"
    text = filled(path.read_text(encoding="utf-8"))
    path.write_text(re.sub(r"^# (?![A-Z])", "", text, flags=re.MULTILINE), encoding="utf-8")
    codes = {one.code for one in pipeline.check(content) if one.blocks_publishing}
    assert codes <= {"L301", "L302", "L305", "V403", "F208"}


def test_nothing_is_written_over(shop: Shop, capsys: Captured) -> None:
    content = shop()
    before = (content / "jobs/vg-0010.yml").read_bytes()
    assert main(["new", "job", "VG-0010", "--content", str(content)]) == 2
    assert "is there already" in capsys.readouterr().err
    assert (content / "jobs/vg-0010.yml").read_bytes() == before


@pytest.mark.parametrize(
    ("kind", "record_id", "said"),
    [
        ("jobb", "x-1", "did you mean 'job'?"),
        ("term", "quill", "'quill' is in"),
        ("manual", "", "is there already"),
        ("manual", "x", "a manual has no id"),
        ("tool", "", "a tool has an id"),
        ("crew", "", "no crew folder is named"),
        ("job", "a b", "'a b' is no id"),
    ],
)
def test_misuse_of_new_is_told(
    shop: Shop, capsys: Captured, kind: str, record_id: str, said: str
) -> None:
    assert main(["new", kind, record_id, "--content", str(shop())]) == 2
    assert said in capsys.readouterr().err


def test_a_place_that_cannot_be_written_is_told(tmp_path: Path, capsys: Captured) -> None:
    (tmp_path / "file").write_text("")
    assert main(["schema", "--all", str(tmp_path / "file/below")]) == 1
    told = capsys.readouterr().err
    assert told.startswith("benchleaf: ")
    assert told.count("\n") == 1


# Readability


def test_readability_lists_every_job_and_is_no_gate(shop: Shop, capsys: Captured) -> None:
    assert main(["check", "--readability", str(shop())]) == 0
    printed = capsys.readouterr().out
    assert "VG-0010" in printed
    assert "VG-0020" in printed
    assert "A report, no rule" in printed


def test_readability_counts_steps_and_key_points(
    shop: Shop, edited: Edited, capsys: Captured
) -> None:
    """The small shop: 3 steps with 2, 4 and 1 points, of them 2 + 4 + 1 by kind; and 1 with 1."""
    easier = edited("jobs/vg-0020.yml", "kind: makes or breaks the job", "kind: makes it easier")
    assert main(["check", "--readability", str(shop(easier))]) == 0
    first, hazards = capsys.readouterr().out.split("\n\n")
    assert {line.split()[0] for line in hazards.splitlines()[1:3]} == {"VG-0010", "VG-0020"}
    lines = [line for line in first.splitlines() if line]
    assert " ".join(lines[0].split()).endswith("steps points a step breaks injures easier")
    counts = {line.split()[0]: " ".join(line.split()[5:]) for line in lines if line[:2] == "VG"}
    assert counts == {"VG-0010": "3 7 1 to 4 2 4 1", "VG-0020": "1 1 1 0 0 1"}
    (total,) = [line for line in lines if line.startswith("all 2")]
    assert " ".join(total.split()[6:]) == "4 8 1 to 4 2 4 2"
    assert all(len(line) <= 100 for line in lines)
