"""Kinds of records by the names that people type."""

from __future__ import annotations

from benchleaf.model import ALONE, FAMILIES, GROUPS, KINDS, Record

OWN_FOLDERS = {"machine-group": GROUPS, "family": FAMILIES}
"""Kinds of record of which jobs are made, and the folder of each."""
STATIONS = {"station": "machines", "stations": "machines"}
"""Another word for a kind: a bench is no machine, and its file lies beside theirs."""


def record_class(kind: str) -> type[Record] | None:
    """The class of a kind of record, by its singular or plural; None where there is none."""
    classes: dict[str, type[Record]] = {**KINDS, **ALONE}
    singular = {name.removesuffix("s"): name for name in KINDS}
    singular |= {folder: kind for kind, folder in OWN_FOLDERS.items()}
    kind = STATIONS.get(kind, kind)
    return classes.get(singular.get(kind, kind))


def schema_kinds() -> tuple[str, ...]:
    """The kinds that `schema` and `keys` know."""
    return (*KINDS, *ALONE)
