"""The engineer's journey: schemas for the editor, new files, tidy files, how hard a job reads.

Like `pipeline.py` it hands back plain values and knows nothing of MkDocs.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from benchleaf import pipeline, questions, read, skeleton
from benchleaf.diagnose import Finding, suggestion
from benchleaf.model import FOLDERS, KINDS, Manual
from benchleaf.model.ids import normal_id
from benchleaf.model.schema import json_schema, list_schema
from benchleaf.questions import Answer
from benchleaf.validate import readability_lines

__all__ = ["editor_files", "new_record", "readability", "schemas", "tidy", "write_all"]

SCHEMA_FOLDER = ".schemas"
"""Where the editors' settings look for the schemas."""
CATALOG = "catalog.json"


def schemas() -> dict[str, str]:
    """File name -> text of every schema, and a catalog of which files each is for."""
    found: dict[str, object] = {
        **{_schema_file(kind): json_schema(KINDS[kind]) for kind in FOLDERS},
        _schema_file("terms"): list_schema(KINDS["terms"], "terms"),
        _schema_file("manual"): json_schema(Manual),
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
    yield from ((kind, f"{kind}/*.yml") for kind in FOLDERS)
    yield from ((name, f"{name}.yml") for name in ("terms", "manual"))


def _schema_file(kind: str) -> str:
    singular = kind if kind == "terms" else kind.removesuffix("s")
    return f"{singular}.schema.json"


def _json(value: object) -> str:
    return json.dumps(value, indent=2, ensure_ascii=False) + "\n"


def write_all(texts: Mapping[str, str], folder: Path) -> tuple[Path, ...]:
    """Write files below a folder; the paths written."""
    paths = tuple(folder / name for name in texts)
    for path, text in zip(paths, texts.values(), strict=True):
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")
    return paths


def new_record(kind: str, record_id: str, content: Path) -> Answer:
    """Write a commented skeleton for a record; where it stands, or why it was not written."""
    cls = questions.record_class(kind)
    folder = next((name for name in FOLDERS if KINDS[name] is cls), None)
    if cls is None or folder is None:
        kinds = [name.removesuffix("s") for name in FOLDERS]
        return Answer(
            problem=f"there is no kind '{kind}' with files of its own",
            help=suggestion(kind, kinds, what="kinds"),
        )
    try:
        written = normal_id(record_id)
    except ValueError:
        cure = "ids are letters and digits with single hyphens between, like tr-0140"
        return Answer(problem=f"'{record_id}' is no id", help=(cure,))
    path = content / folder / f"{written}.yml"
    if not content.is_dir():
        return Answer(problem=f"there is no folder {content}/", help=("name it: --content FOLDER",))
    if path.exists():
        return Answer(problem=f"{path} is there already", help=("choose another id",))
    write_all({f"{folder}/{written}.yml": skeleton.skeleton(cls, written)}, content)
    return Answer(text=f"{path} is written: fill it in, then run `benchleaf check`")


def tidy(content: Path, *, only_look: bool = False) -> tuple[tuple[Path, ...], tuple[Finding, ...]]:
    """Put every YAML file of a content folder in order: those changed, and those left alone.

    With `only_look` nothing is written. A file that cannot be read, or whose meaning or comments
    would not stay the same, is left as it is.
    """
    changed: list[Path] = []
    left: list[Finding] = []
    for path in _yaml_files(content):
        name = f"{content.name}/{path.relative_to(content).as_posix()}"
        before, after, problems = read.tidied(path, name)
        left += problems
        if after is not None and after != before:
            changed.append(path)
            if not only_look:
                path.write_bytes(after)
    return tuple(changed), tuple(left)


def _yaml_files(content: Path) -> Sequence[Path]:
    single = (content / name for name in ("manual.yml", "terms.yml"))
    folders = (path for kind in FOLDERS for path in sorted((content / kind).glob("*.yml")))
    return [path for path in (*single, *folders) if path.is_file()]


def readability(content: Path) -> str:
    """How hard each job reads, the hardest first: a report, never a gate."""
    return "\n".join(readability_lines(pipeline.load(content).shop))
