"""The JSON Schema of a comparison as JSON: the promise that other programs build on."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from .area import Area
from .change import ChangeKind, Consequence, EffectKind

DIALECT = "https://json-schema.org/draft/2020-12/schema"
_TEXT: dict[str, Any] = {"type": "string"}
_TEXT_OR_NONE: dict[str, Any] = {"type": ["string", "null"]}
_TRUTH: dict[str, Any] = {"type": "boolean"}
_ID = r"[a-z0-9]+(?:-[a-z0-9]+)*"


def comparison_schema() -> dict[str, Any]:
    """What `benchleaf compare --format json` prints; every key is always there."""
    schema = _object(
        "A comparison of two states of a manual.",
        old=_told("What was compared, in words.", _TEXT),
        new=_told("What it was compared with, in words.", _TEXT),
        notes=_told("What a reader should know of the comparison itself.", _list(_TEXT)),
        summary=_told("The whole in one line.", _TEXT),
        changes=_told("Each change as a cause, with what follows.", _list(_ref("change"))),
        jobs=_told("Each job that a change touches.", _list(_ref("job"))),
        crew_given=_told("Whether people were looked at.", _TRUTH),
        people=_told("Who is due; empty where no crew was given.", _list(_ref("person"))),
    )
    parts = {"change": _change(), "effect": _effect(), "job": _job(), "person": _person()}
    return {"$schema": DIALECT, "title": "Comparison", **schema, "$defs": parts}


def _change() -> dict[str, Any]:
    return _object(
        "One edit as the cause.",
        record=_told("Kind and id, such as `jobs/tr-0110`; a page or file by its name.", _TEXT),
        place=_told("The path of what changed in the record, with ids.", _TEXT),
        where=_told("The same in words.", _TEXT),
        kind=_told("What happened.", _one_of(ChangeKind)),
        about=_told("What it is about.", _one_of(Area)),
        before=_told("In words; lines of a page each on its own. null where new.", _TEXT_OR_NONE),
        after=_told("The same as it is now. null where gone.", _TEXT_OR_NONE),
        consequence=_told("What must follow.", _one_of(Consequence)),
        why=_told("Why, in a line that names the statement.", _TEXT),
        file=_told("File and line. null where it stands in none.", _TEXT_OR_NONE),
        jobs=_told(
            "What follows for each job that it touches.",
            {
                "type": "object",
                "propertyNames": {"pattern": f"^{_ID}$"},
                "additionalProperties": _one_of(Consequence),
            },
        ),
        effects=_told("What moved although nobody wrote it.", _list(_ref("effect"))),
    )


def _effect() -> dict[str, Any]:
    return _object(
        "Something that follows from a change.",
        record=_told("Kind and id.", _TEXT),
        place=_told("In words.", _TEXT),
        kind=_told("What moved.", _one_of(EffectKind)),
        key=_told("The key of a figure, or the code of a limit or doubt.", _TEXT_OR_NONE),
        before=_told("In words, with the unit. null where new.", _TEXT_OR_NONE),
        after=_told("The same as it is now. null where gone.", _TEXT_OR_NONE),
        percent=_told(
            "How far a figure moved, of the value before, unrounded values compared. null where"
            " there is no number on both sides.",
            {"type": ["number", "null"]},
        ),
        other_changes_too=_told("Whether other changes move the same.", _TRUTH),
    )


def _job() -> dict[str, Any]:
    return _object(
        "A job on both sides.",
        id=_told("Its id, as it is now.", {"type": "string", "pattern": f"^{_ID}$"}),
        title=_told("Its title.", _TEXT),
        revision=_told("null where the job is new, or gone.", _sides(_TEXT_OR_NONE)),
        fingerprint=_told(
            "64 hexadecimal digits. null where the job is new, or gone.",
            _sides({"type": ["string", "null"], "pattern": "^[0-9a-f]{64}$"}),
        ),
        consequence=_told("The gravest of what follows.", _one_of(Consequence)),
        revision_must_advance=_told("The meaning changed and the revision did not.", _TRUTH),
    )


def _person() -> dict[str, Any]:
    return _object(
        "A person, a job or a page that they signed, and what is due.",
        staff=_told("Their staff code.", _TEXT),
        job=_told(
            "The job's id. null where it is a page.",
            {"type": ["string", "null"], "pattern": f"^{_ID}$"},
        ),
        page=_told("The page's file name, such as `safety.md`. null for a job.", _TEXT_OR_NONE),
        consequence=_told("What must follow.", _one_of(Consequence)),
        by=_told("The last day.", {"type": "string", "format": "date"}),
        signed_off_on_revision=_told(
            "The revision that they proved. null for a page.", _TEXT_OR_NONE
        ),
        signed_on=_told(
            "The day on which they signed the page. null for a job.",
            {"type": ["string", "null"], "format": "date"},
        ),
        was_stale_before=_told("Whether the sign-off was stale before this change too.", _TRUTH),
    )


def _object(said: str, **properties: dict[str, Any]) -> dict[str, Any]:
    return {
        "description": said,
        "type": "object",
        "properties": properties,
        "required": list(properties),
        "additionalProperties": False,
    }


def _sides(one: dict[str, Any]) -> dict[str, Any]:
    return _object("Before and after.", before=one, after=one)


def _told(said: str, schema: dict[str, Any]) -> dict[str, Any]:
    return {**schema, "description": said}


def _list(entry: dict[str, Any]) -> dict[str, Any]:
    return {"type": "array", "items": entry}


def _ref(name: str) -> dict[str, Any]:
    return {"$ref": f"#/$defs/{name}"}


def _one_of(values: Iterable[Any]) -> dict[str, Any]:
    return {"enum": [one.value for one in values]}
