"""Kinds of records by the names that people type."""

from __future__ import annotations

from benchleaf.model import ALONE, KINDS, Record


def record_class(kind: str) -> type[Record] | None:
    """The class of a kind of record, by its singular or plural; None where there is none."""
    classes: dict[str, type[Record]] = {**KINDS, **ALONE}
    singular = {name.removesuffix("s"): name for name in KINDS}
    return classes.get(singular.get(kind, kind))


def schema_kinds() -> tuple[str, ...]:
    """The kinds that `schema` and `keys` know."""
    return (*KINDS, *ALONE)
