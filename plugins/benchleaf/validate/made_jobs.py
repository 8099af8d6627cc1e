"""Jobs without a file of their own, made before any record is built: nothing after this knows.

A row of a family is put into its breakdown, then a job of a group of machines is made for each
machine.
"""

from __future__ import annotations

from dataclasses import replace

from benchleaf.diagnose import Finding
from benchleaf.model import FAMILIES, GROUPS
from benchleaf.read import Contents, Document

from .families import rows_of
from .machine_groups import groups_of, named_here, names_group, on_each_machine
from .made_document import Making


def with_made(contents: Contents) -> tuple[Contents, tuple[Finding, ...]]:
    """The contents with the jobs of families and groups as documents, and what is amiss.

    Where a family or group cannot be read, nobody can say which jobs are gone.
    """
    unread = [("jobs", "jobs") for kind, _ in contents.unread if kind in (FAMILIES, GROUPS)]
    kinds = {one.kind for one in contents.documents}
    if (
        not unread
        and not kinds & {FAMILIES, GROUPS}
        and not any(map(names_group, contents.documents))
    ):
        return contents, ()
    made = Making(unread=unread)
    whole: list[Document] = []
    for one in contents.documents:
        whole += rows_of(one, made) if one.kind == FAMILIES else (one,)
    groups = groups_of(whole, made)
    documents: list[Document] = []
    for one in whole:
        documents += on_each_machine(one, groups, made) if names_group(one) else (one,)
    every = replace(
        contents,
        documents=tuple(named_here(documents, groups)),
        unread=(*contents.unread, *made.unread),
    )
    return every, tuple(made.findings)
