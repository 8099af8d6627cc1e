"""Ids: what they look like, and what a reference by id is."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from typing import Annotated

from pydantic import AfterValidator, WithJsonSchema
from pydantic_core import PydanticCustomError

ID_PATTERN = r"[a-z0-9]+(-[a-z0-9]+)*"
_ID = re.compile(ID_PATTERN)


@dataclass(frozen=True, slots=True)
class RefTo:
    """Marks a field that holds the id of a record of another kind."""

    kind: str


@dataclass(frozen=True, slots=True)
class RunningText:
    """Marks a field of prose: inline Markdown, `[[links]]` and glossary terms are looked for."""


@dataclass(frozen=True, slots=True)
class ShortText:
    """Marks a title or name: nothing is looked for in it, but its wording may change."""


@dataclass(frozen=True, slots=True)
class FileIn:
    """Marks a field that names a file below a folder of the content."""

    folder: str


Mark = RefTo | RunningText | ShortText | FileIn
"""What a field may be marked as."""


def normal_id(written: str) -> str:
    """The id in lower case; any case is accepted on input."""
    lowered = written.strip().lower()
    if not _ID.fullmatch(lowered):
        raise PydanticCustomError(
            "bad_id", "'{written}' is no id", {"written": written, "near": _near(lowered)}
        )
    return lowered


def _near(lowered: str) -> str:
    """The likeliest id meant: other signs become single hyphens."""
    plain = unicodedata.normalize("NFKD", lowered).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")


def _schema(description: str, example: str) -> WithJsonSchema:
    return WithJsonSchema(
        {
            "type": "string",
            "pattern": "^[A-Za-z0-9]+(-[A-Za-z0-9]+)*$",
            "description": description,
            "examples": [example],
        }
    )


def _not_kept(record_id: str) -> str:
    if record_id == "index":
        raise PydanticCustomError("kept_id", "'{value}' is kept", {"value": record_id})
    return record_id


Id = Annotated[
    str,
    AfterValidator(normal_id),
    AfterValidator(_not_kept),
    _schema("Letters, digits, single hyphens.", "clamp-plate"),
]
Text = Annotated[str, RunningText()]
Title = Annotated[str, ShortText()]


JobRef = Annotated[
    str,
    AfterValidator(normal_id),
    RefTo("jobs"),
    _schema("The id of a job.", "TR-0110"),
]
MachineRef = Annotated[
    str,
    AfterValidator(normal_id),
    RefTo("machines"),
    _schema("The id of a machine.", "pillar-drill"),
]
MaterialRef = Annotated[
    str,
    AfterValidator(normal_id),
    RefTo("materials"),
    _schema("The id of a material.", "mild-steel"),
]
ToolRef = Annotated[
    str,
    AfterValidator(normal_id),
    RefTo("tools"),
    _schema("The id of a tool.", "drill-8-5"),
]
FluidRef = Annotated[
    str,
    AfterValidator(normal_id),
    RefTo("fluids"),
    _schema("The id of a fluid.", "soluble-oil"),
]
HazardRef = Annotated[
    str,
    AfterValidator(normal_id),
    RefTo("hazards"),
    _schema("The id of a hazard.", "work-turns"),
]
TermRef = Annotated[
    str,
    AfterValidator(normal_id),
    RefTo("terms"),
    _schema("The id of a term.", "quill"),
]
