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
            "bad_id", "'{written}' is no id", {"written": written, "near": near_id(lowered)}
        )
    return lowered


def near_id(lowered: str) -> str:
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


def _id_of(what: str, example: str) -> WithJsonSchema:
    return _schema(f"The id of a {what}.", example)


DEVICES = frozenset(
    ("con", "prn", "aux", "nul", *(f"{one}{n}" for one in ("com", "lpt") for n in range(1, 10)))
)
"""Names that are devices on Windows: no page can be called so there."""
LONGEST = 80
"""Letters of an id: it is the name of a file, and others are made of it."""


def _not_kept(record_id: str) -> str:
    if len(record_id) > LONGEST:
        told = {"length": len(record_id), "most": LONGEST}
        raise PydanticCustomError("long_id", "an id of {length} letters", told)
    if record_id in DEVICES:
        raise PydanticCustomError("device_id", "'{value}' is a device", {"value": record_id})
    if record_id == "index":
        raise PydanticCustomError("kept_id", "'{value}' is kept", {"value": record_id})
    return record_id


_NORMAL = AfterValidator(normal_id)

Id = Annotated[
    str,
    _NORMAL,
    AfterValidator(_not_kept),
    _schema("Letters, digits, single hyphens.", "clamp-plate"),
]
Text = Annotated[str, RunningText()]
Title = Annotated[str, ShortText()]

JobRef = Annotated[str, _NORMAL, RefTo("jobs"), _id_of("job", "TR-0110")]
MachineRef = Annotated[str, _NORMAL, RefTo("machines"), _id_of("machine", "pillar-drill")]
PartRef = Annotated[str, _NORMAL, RefTo("parts"), _id_of("part", "trw-204")]
MaterialRef = Annotated[str, _NORMAL, RefTo("materials"), _id_of("material", "mild-steel")]
ToolRef = Annotated[str, _NORMAL, RefTo("tools"), _id_of("tool", "drill-8-5")]
FluidRef = Annotated[str, _NORMAL, RefTo("fluids"), _id_of("fluid", "soluble-oil")]
HazardRef = Annotated[str, _NORMAL, RefTo("hazards"), _id_of("hazard", "work-turns")]
ListRef = Annotated[str, _NORMAL, RefTo("onboarding"), _id_of("list", "first-week")]
TermRef = Annotated[str, _NORMAL, RefTo("terms"), _id_of("term", "quill")]
