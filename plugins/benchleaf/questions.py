"""Questions that need no site: set-ups and operations reckoned, keys and schemas of records."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from benchleaf import validate
from benchleaf.compute import printed, set_up_sheets
from benchleaf.compute.reckon import OPERATIONS, InputError, reckon
from benchleaf.diagnose import suggestion
from benchleaf.model import ALONE, KINDS, Record
from benchleaf.model.schema import json_schema
from benchleaf.pipeline import load

__all__ = [
    "Answer",
    "is_operation",
    "keys",
    "operations_help",
    "reckon_job",
    "reckon_operation",
    "record_class",
    "schema",
    "schema_kinds",
]


@dataclass(frozen=True, slots=True)
class Answer:
    """What a question at the command line gives: text or JSON, or a problem with its cure."""

    text: str = ""
    problem: str = ""
    help: tuple[str, ...] = ()
    complete: bool = True
    """False where nothing could be computed, or a job must not be run."""


def reckon_job(content: Path, job_id: str, *, as_json: bool = False) -> Answer:
    """The set-up workings of one job."""
    shop = load(content).shop
    job = shop.jobs.get(job_id.lower())
    if job is None:
        known = [*(one.upper() for one in shop.jobs), *OPERATIONS]
        return Answer(
            problem=f"'{job_id}' is no job of {content}/ and no operation",
            help=suggestion(job_id, known, what="jobs and operations"),
        )
    sheets = set_up_sheets(shop, job)
    if as_json:
        text = printed.sheets_json({sheet.id: sheet for sheet in sheets})
    else:
        number = job.id.upper()
        lines = (line for sheet in sheets for line in printed.sheet_lines(number, sheet))
        text = "\n".join(lines) or f"{number} has no set-ups"
    return Answer(text, complete=all(sheet.may_run for sheet in sheets))


def reckon_operation(name: str, given: Mapping[str, str], *, as_json: bool = False) -> Answer:
    """What follows from inputs such as `diameter: 7/8 in`, with no content files."""
    operation = OPERATIONS[name]
    try:
        reckoning = reckon(operation, given)
    except InputError as error:
        wrong = next((one for one in given if one not in operation.inputs), None)
        near = suggestion(wrong, operation.inputs, what="inputs") if wrong else (error.cure,)
        return Answer(problem=error.problem, help=near)
    text = (
        printed.reckoning_json(reckoning)
        if as_json
        else "\n".join(printed.reckoning_lines(reckoning))
    )
    return Answer(text, complete=bool(reckoning.results) and reckoning.within_limits)


def operations_help() -> str:
    """Operations and inputs, for people."""
    return printed.operations_help()


def is_operation(name: str) -> bool:
    """True for the name of an operation that can be reckoned by itself."""
    return name in OPERATIONS


def keys(kind: str) -> str | None:
    """The keys of a kind of record for people: key, whether it is needed, what it holds."""
    found = record_class(kind)
    return "\n".join(_key_lines(found)) if found else None


def _key_lines(cls: type[Record], indent: str = "") -> Iterator[str]:
    for name, info in cls.model_fields.items():
        what = " ".join((info.description or "").split())
        needed = "needed" if info.is_required() else ""
        yield f"{indent}{name:<{26 - len(indent)}}{needed:<8}{what}".rstrip()
        for inner in validate.classes_at(cls, (name,)):
            if inner is not cls:
                tag = ", ".join(validate.tags(inner))
                if tag:
                    yield f"{indent}  with operation: {tag}"
                yield from _key_lines(inner, indent + "    ")


def schema(kind: str) -> str | None:
    """JSON Schema of a kind of record, or None where there is no such kind."""
    found = record_class(kind)
    return json.dumps(json_schema(found), indent=2, ensure_ascii=False) if found else None


def record_class(kind: str) -> type[Record] | None:
    """The class of a kind of record, by its singular or plural; None where there is none."""
    classes: dict[str, type[Record]] = {**KINDS, **ALONE}
    singular = {name.removesuffix("s"): name for name in KINDS}
    return classes.get(singular.get(kind, kind))


def schema_kinds() -> tuple[str, ...]:
    """The kinds that `schema` knows."""
    return (*KINDS, *ALONE)
