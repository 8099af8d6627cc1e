"""`benchleaf schema`: schemas of records, and settings by which editors find them."""

from __future__ import annotations

import argparse
import json
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from benchleaf import diff
from benchleaf.model import (
    FAMILIES,
    FOLDERS,
    GROUPS,
    KINDS,
    ChangeNotice,
    Family,
    Hold,
    Job,
    JobChanges,
    MachineGroup,
    Manual,
    Record,
)
from benchleaf.model.schema import json_schema, list_schema
from benchleaf.model.told import TOLD, told_schema
from benchleaf.registers import HOLDS, NOTICES, Forward, RegisteredRevision, Released, Tally
from benchleaf.write import make_folder, write_text

from .answer import unknown
from .kinds import OWN_FOLDERS, record_class, schema_kinds

SCHEMA_FOLDER = ".schemas"
"""Where the editors' settings look for the schemas."""
CATALOG = "catalog.json"
COMPARISON = "comparison.schema.json"
"""What `benchleaf compare --format json` prints: no file of the content, so in no catalog."""
CHANGED = "changed"
"""The folder of what revisions changed, which a command writes."""
LISTS: tuple[tuple[str, type[Record] | str, str], ...] = (
    ("terms", KINDS["terms"], "The terms, in any order."),
    ("forwards", Forward, "Where addresses that are gone lead now, in any order."),
    ("addresses", "jobs/tr-0110.html", "Every address ever published; only ever added to."),
    ("revisions", RegisteredRevision, "What each revision of a job meant; only ever added to."),
    ("history", Released, "Each change as it was released; only ever added to."),
)
"""Files that hold one list: key and name of the file, what an entry is, what the list means."""


def add(commands: Any) -> None:
    """Add the command to the parser."""
    schema = commands.add_parser("schema", help="print or write the JSON Schema of records")
    kinds = schema.add_mutually_exclusive_group(required=True)
    kinds.add_argument("kind", nargs="?", metavar="KIND", help=", ".join((*schema_kinds(), *TOLD)))
    kinds.add_argument("--all", type=Path, metavar="FOLDER", help="write every schema there")
    schema.add_argument(
        "--editors", action="store_true", help="with --all: write settings for editors here, too"
    )
    schema.set_defaults(run=_schema)


def _schema(options: argparse.Namespace) -> int:
    if options.all is not None:
        paths = write_all(schemas(), options.all)
        if options.editors:
            paths += write_all(editor_files(), Path())
        print("\n".join(f"{path} is written" for path in paths))
        return 0
    text = schema(options.kind.lower())
    if text is None:
        return unknown("kind", options.kind, (*schema_kinds(), *TOLD))
    print(text)
    return 0


def schema(kind: str) -> str | None:
    """JSON Schema of a kind of record, or of what `reckon` prints; None where there is no such."""
    if kind in TOLD:
        return json.dumps(told_schema(kind), indent=2, ensure_ascii=False)
    found = record_class(kind)
    told = family_schema() if found is Family else json_schema(found) if found else None
    return json.dumps(told, indent=2, ensure_ascii=False) if told else None


def family_schema() -> dict[str, Any]:
    """The schema of a family: of the breakdown it tells each key, and leaves every value free."""
    schema = json_schema(Family)
    keys: dict[str, Any] = json_schema(Job)["properties"]
    job = schema["properties"]["job"]
    job["properties"] = {key: _told_of(said) for key, said in keys.items() if key != "id"}
    for key in ("job", "rows"):
        del schema["properties"][key]["examples"]  # they are lines of YAML
    return schema


def _told_of(said: Mapping[str, Any]) -> dict[str, Any]:
    return {key: said[key] for key in ("description", "examples") if key in said}


def schemas() -> dict[str, str]:
    """File name -> text of every schema, and a catalog of which files each is for."""
    found: dict[str, object] = {
        **{_schema_file(kind): json_schema(KINDS[kind]) for kind in FOLDERS},
        _schema_file(NOTICES): json_schema(ChangeNotice),
        _schema_file(HOLDS): json_schema(Hold),
        _schema_file(GROUPS): json_schema(MachineGroup),
        _schema_file(FAMILIES): family_schema(),
        _schema_file("manual"): json_schema(Manual),
        _schema_file("tally"): json_schema(Tally),
        **{_schema_file(key): list_schema(entry, key, said) for key, entry, said in LISTS},
        **{f"{name}.schema.json": told_schema(name) for name in TOLD},
        COMPARISON: diff.comparison_schema(),
        _schema_file(CHANGED): json_schema(JobChanges),
    }
    entries = [
        {
            "name": f"Benchleaf {kind}",
            "description": f"The {kind} of a shop training manual",
            "fileMatch": [f"**/{pattern}"],
            "url": _schema_file(kind),
        }
        for kind, pattern in _patterns()
    ]
    found[CATALOG] = {"version": 1, "schemas": entries}
    return {name: _json(one) for name, one in found.items()}


def editor_files(content: str = "content") -> dict[str, str]:
    """Settings by which two families of editors find the schemas by themselves.

    The first is read by editors that take workspace settings for the YAML language server, the
    second by those that keep a project file of JSON schemas.
    """
    by_schema = {
        f"./{SCHEMA_FOLDER}/{_schema_file(kind)}": f"{content}/{pattern}"
        for kind, pattern in _patterns()
    }
    settings = {"yaml.schemas": by_schema, "yaml.validate": True, "yaml.completion": True}
    entries = (
        line for kind, pattern in _patterns() for line in _entry(kind, f"{content}/{pattern}")
    )
    project = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        '<project version="4">',
        '  <component name="JsonSchemaMappingsProjectConfiguration">',
        "    <state>",
        "      <map>",
        *entries,
        "      </map>",
        "    </state>",
        "  </component>",
        "</project>",
    ]
    return {
        ".vscode/settings.json": _json(settings),
        ".idea/jsonSchemas.xml": "\n".join(project) + "\n",
    }


def _entry(kind: str, pattern: str) -> Iterator[str]:
    """One entry of the project file: a whole folder, or one file."""
    is_folder = "*" in pattern
    path, sort = (pattern.rpartition("/")[0], "Directory") if is_folder else (pattern, "File")
    option = "        <option"
    lines = [
        f'<entry key="Benchleaf {kind}">',
        "  <value>",
        "    <SchemaInfo>",
        f'      <option name="name" value="Benchleaf {kind}" />',
        '      <option name="relativePathToSchema"',
        f'              value="{SCHEMA_FOLDER}/{_schema_file(kind)}" />',
        '      <option name="patterns">',
        "        <list>",
        "          <Item>",
        *([f'    {option} name="directory" value="true" />'] if is_folder else []),
        f'    {option} name="path" value="{path}" />',
        f'    {option} name="mappingKind" value="{sort}" />',
        "          </Item>",
        "        </list>",
        "      </option>",
        "    </SchemaInfo>",
        "  </value>",
        "</entry>",
    ]
    yield from (f"        {line}" for line in lines)


def _patterns() -> Iterator[tuple[str, str]]:
    """Kind and the files that hold it, below the content folder."""
    yield from (
        (kind, f"{kind}/*.yml") for kind in (*FOLDERS, GROUPS, FAMILIES, NOTICES, HOLDS, CHANGED)
    )
    yield from ((name, f"{name}.yml") for name in ("manual", "tally", *(key for key, *_ in LISTS)))


def _schema_file(kind: str) -> str:
    is_list = kind in {key for key, *_ in LISTS}
    own = {folder: one for one, folder in OWN_FOLDERS.items()}
    return f"{kind if is_list else own.get(kind, kind.removesuffix('s'))}.schema.json"


def _json(value: object) -> str:
    return json.dumps(value, indent=2, ensure_ascii=False) + "\n"


def write_all(texts: Mapping[str, str], folder: Path) -> tuple[Path, ...]:
    """Write files below a folder; the paths written."""
    paths = tuple(folder / name for name in texts)
    for path, text in zip(paths, texts.values(), strict=True):
        make_folder(path.parent)
        write_text(path, text, within=folder)
    return paths
