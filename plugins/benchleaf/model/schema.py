"""JSON Schema of a kind of record, with a meaning and an example for every key."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from enum import StrEnum
from functools import cache
from typing import Any, get_args, get_origin

from pydantic import WithJsonSchema

from .declared import has, kind_named, mark, records_in
from .marks import At, Example, Instead, Trait
from .record import Record

DIALECT = "https://json-schema.org/draft/2020-12/schema"


def json_schema(cls: type[Record]) -> dict[str, Any]:
    """The schema of one record."""
    schema = {"$schema": DIALECT, **cls.model_json_schema()}
    found = {one.__name__: one for one in every_record(cls)}
    for name, part in ((cls.__name__, schema), *schema.get("$defs", {}).items()):
        if name in found:
            _complete(found[name], part.get("properties", {}))
            if "required" in part:  # what a command gives is in no file of many a shop
                part["required"] = [
                    key for key in part["required"] if not has(found[name], key, Trait.ISSUED)
                ]
    conditions = [*_by_kind(cls), *_in_place(cls, schema)]
    if conditions:
        schema["allOf"] = conditions
    return schema


def _in_place(cls: type[Record], schema: dict[str, Any]) -> Iterator[dict[str, Any]]:
    """Keys that may stand in place of others: put into the schema, with the choice of the two."""
    for key in cls.model_fields:
        other = mark(cls, key, Instead)
        if other is not None:
            said = {"type": "string", "description": other.meaning, "examples": [other.example]}
            schema["properties"][other.key] = said
            schema["required"] = [one for one in schema["required"] if one != key]
            yield {"oneOf": [{"required": [key]}, {"required": [other.key]}]}


def _by_kind(cls: type[Record]) -> Iterator[dict[str, Any]]:
    """What each kind of station needs, and what it has not."""
    marked = {key: at for key in cls.model_fields if (at := mark(cls, key, At)) is not None}
    if not marked:
        return
    usual = str(cls.model_fields["kind"].default)
    for kind in allowed_words(cls, "kind"):
        is_kind: dict[str, Any] = {"properties": {"kind": {"const": kind}}}
        needed = [key for key, at in marked.items() if kind in at.needed_at]
        never = {key: False for key, at in marked.items() if kind not in at.kinds}
        yield {
            "if": is_kind if kind == usual else {**is_kind, "required": ["kind"]},
            "then": {"required": needed, "properties": never},
        }


def list_schema(entry: type[Record] | str, key: str, meaning: str) -> dict[str, Any]:
    """The schema of a file that holds a list under one key, such as terms.yml.

    An entry is a record, or a text like the example given.
    """
    items: dict[str, Any] = (
        {"type": "string", "examples": [entry]} if isinstance(entry, str) else json_schema(entry)
    )
    definitions = items.pop("$defs", {})
    items.pop("$schema", None)
    listed = {"type": "array", "items": items, "description": meaning}
    return {
        "$schema": DIALECT,
        "$defs": definitions,
        "title": key.capitalize(),
        "type": "object",
        "properties": {key: listed},
        "required": [key],
        "additionalProperties": False,
    }


def every_record(cls: type[Record]) -> Iterator[type[Record]]:
    """A class of record and every class that may stand inside it, each once."""
    seen: list[type[Record]] = []
    waiting = [cls]
    while waiting:
        one = waiting.pop(0)
        if one not in seen:
            seen.append(one)
            yield one
            for info in one.model_fields.values():
                waiting += records_in(info.annotation)


def described(cls: type[Record], key: str) -> str:
    """What a key holds, in one line."""
    return " ".join((cls.model_fields[key].description or "").split())


def example_of(cls: type[Record], key: str) -> str | None:
    """What may stand there, as written in a file; None where it holds keys of its own."""
    choices = allowed_words(cls, key)
    own = own_example(cls, key) or _usual(cls, key)
    return own or (choices[0] if choices else _from_schema(cls, key))


def own_example(cls: type[Record], key: str) -> str | None:
    """The example that stands on the field itself, not on its type."""
    own = mark(cls, key, Example)
    return own.text if own is not None else None


def _usual(cls: type[Record], key: str) -> str | None:
    """The number that counts where the key is left out."""
    usual = cls.model_fields[key].default
    is_number = isinstance(usual, int | float) and not isinstance(usual, bool)
    return f"{usual:g}" if is_number else None


def allowed_words(cls: type[Record], key: str) -> tuple[str, ...]:
    """The words of which one stands there; empty where any text may."""
    return _words(cls.model_fields[key].annotation)


def is_free_text(cls: type[Record], key: str) -> bool:
    """True where any text may stand, or a list of texts: no id, number or one of some words."""
    annotation = cls.model_fields[key].annotation
    if get_origin(annotation) is tuple:
        annotation = get_args(annotation)[0]
    is_text = getattr(annotation, "__origin__", annotation) is str
    is_own = key != "id" and kind_named(cls, (key,)) is None
    return is_text and is_own and not allowed_words(cls, key) and not form_of(cls, key)


def form_of(cls: type[Record], key: str) -> str:
    """How a value of its type is written, such as the units that a length takes; else empty."""
    info = cls.model_fields[key]
    own = (one.json_schema for one in info.metadata if isinstance(one, WithJsonSchema))
    said = next((one for one in own if one), None) or _schema_within(info.annotation) or {}
    return str(said.get("description", ""))


def _schema_within(annotation: object) -> Mapping[str, Any] | None:
    """What a type inside an annotation says of itself, such as `Length` in `Length | None`."""
    metadata = getattr(annotation, "__metadata__", ())
    own = (one.json_schema for one in metadata if isinstance(one, WithJsonSchema))
    inside = (_schema_within(part) for part in get_args(annotation))
    return next((one for one in (*own, *inside) if one), None)


def _words(annotation: object) -> tuple[str, ...]:
    if annotation is bool:
        return ("true", "false")
    if isinstance(annotation, type) and issubclass(annotation, StrEnum):
        return tuple(str(one) for one in annotation)
    if isinstance(annotation, type) and issubclass(annotation, Record):
        return ()
    choices = tuple(one for one in get_args(annotation) if isinstance(one, str))
    inner = (_words(one) for one in get_args(annotation))
    return choices or next((one for one in inner if one), ())


def _from_schema(cls: type[Record], key: str) -> str | None:
    """The example that a type such as a length or an id brings along."""
    waiting = [_properties(cls)[key]]
    while waiting:
        part = waiting.pop(0)
        if part.get("examples"):
            return str(part["examples"][0])
        waiting += [*part.get("anyOf", ()), *([part["items"]] if "items" in part else [])]
    return None


@cache
def _properties(cls: type[Record]) -> dict[str, Any]:
    found: dict[str, Any] = cls.model_json_schema()["properties"]
    return found


def _complete(cls: type[Record], properties: Mapping[str, dict[str, Any]]) -> None:
    for key, part in properties.items():
        part.setdefault("description", described(cls, key))
        example = example_of(cls, key)
        if example is not None and (own_example(cls, key) or "examples" not in part):
            is_list = part.get("type") == "array"
            part["examples"] = [[example] if is_list else _as_json(part, example)]


def _as_json(part: Mapping[str, Any], example: str) -> object:
    """Whole numbers and yes-or-no as JSON has them."""
    if part.get("type") == "boolean":
        return example == "true"
    kinds = [one.get("type") for one in (part, *part.get("anyOf", ()))]
    return int(example) if "integer" in kinds and example.isdigit() else example
