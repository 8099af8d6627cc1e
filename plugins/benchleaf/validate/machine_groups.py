"""F211: jobs of a group of like machines, made for each machine of the group."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from benchleaf.diagnose import Code, Finding, Related, Sample, Severity, suggestion
from benchleaf.model import GROUP_KEY, GROUPS, MachineGroup, MadeFrom
from benchleaf.read import Document, Listing, Node, Scalar, Source, child, key_place
from benchleaf.read import Mapping as Keys

from .building import build
from .made_document import Making, below, made_document, made_of
from .places import misnamed, written_id

CODE = Code(
    "F211",
    "A job names a machine and a group of machines",
    why="Nobody can say for which machines its figures are to be worked out.",
    instead="Keep one of the two.",
    bad=(
        Sample(
            """
            # The group was put in, and the machine was left.
            - file: jobs/vg-0020.yml
              find: "machine: bench-drill"
              put: |-
                machine: bench-drill
                machine_group: drills
            - file: machine-groups/drills.yml
              text: |
                id: drills
                name: Drills
                machines: [bench-drill]
            """,
            """
            content/jobs/vg-0020.yml:9:1: error F211 this job names a machine and
                    'machine_group' too
                take one of the two out; the group says on which machines it is done
            """,
        ),
    ),
    good="""
        # A group that no job names yet.
        - file: machine-groups/drills.yml
          text: |
            id: drills
            name: Drills
            machines: [bench-drill]
    """,
)

_LINK = re.compile(r"(\[\[\s*(?:jobs?\s*:\s*)?)([A-Za-z0-9-]+)(?=\s*(?:#[^\[\]\n]*)?\]\])", re.I)
_JOB_KEYS = ("know_first", "operation_before", "operation_after")
"""Keys of a job that name other jobs."""


@dataclass(frozen=True, slots=True)
class Group:
    """A group, and where each of its machines is written."""

    record: MachineGroup
    source: Source
    machines: Mapping[str, Scalar]


Groups = Mapping[str, Group | None]
"""The groups by id; None for one with a mistake that is told."""


def names_group(document: Document) -> bool:
    """True for a job that is to be made for each machine of a group."""
    value = document.value
    return document.kind == "jobs" and isinstance(value, dict) and GROUP_KEY in value


def groups_of(documents: Sequence[Document], made: Making) -> dict[str, Group | None]:
    """The groups of a shop."""
    groups: dict[str, Group | None] = {}
    for document in documents:
        if document.kind != GROUPS:
            continue
        source = Source(document, (), document.value)
        record, problems = build(MachineGroup, source)
        if record is None:
            made.tell(*problems)
            groups[written_id(document.value) or ""] = None
            continue
        made.findings += misnamed(document, record.id)
        first = groups.get(record.id)
        if first is not None:
            made.findings.append(_twice(source, first.source))
            continue
        listed = child(document.tree, "machines")
        items = listed.items if isinstance(listed, Listing) else ()
        named = (one for one in items if isinstance(one, Scalar))
        machines: dict[str, Scalar] = {}
        for one in named:
            machines.setdefault(one.text.strip().lower(), one)
        groups[record.id] = Group(record, source, machines)
    return groups


def _twice(source: Source, first: Source) -> Finding:
    here, there = (child(one.tree, "id") or one.tree for one in (source, first))
    return Finding(
        "L303",
        Severity.ERROR,
        here.place,
        f"the id '{written_id(source.value)}' is used twice among the machine groups",
        ("give one of the two another id",),
        (Related(there.place, "used first here"),),
    )


def on_each_machine(document: Document, groups: Groups, made: Making) -> Iterator[Document]:
    """A job's document for each machine of the group that it names."""
    tree, written = document.tree, written_id(document.value)
    named = child(tree, GROUP_KEY)
    assert isinstance(tree, Keys)
    assert named is not None
    name = named.text.strip().lower() if isinstance(named, Scalar) else ""
    own = key_place(tree, "machine")
    if own is not None:
        text = f"this job names a machine and '{GROUP_KEY}' too"
        cure = "take one of the two out; the group says on which machines it is done"
        made.tell(Finding(CODE.id, Severity.ERROR, own, text, (cure,)))
        return
    group = groups.get(name)
    if name not in groups:
        begin = f"or begin its file: benchleaf new machine-group {name}"
        lines = (*suggestion(name, tuple(groups), what="machine groups"), begin)
        text = f"there is no '{name}' among the machine groups"
        made.tell(Finding("L301", Severity.ERROR, named.place, text, lines))
        return
    if group is None:
        made.tell()
        return
    if not written:  # the building of the record tells so
        made.tell()
        yield made_document(
            document, _on_machine(tree, "", next(iter(group.machines.values()))), None
        )
        return
    former = made_of(document)
    for machine_id, at in group.machines.items():
        made_from = MadeFrom(
            below(document.name),
            written,
            former.family if former else "",
            group.record.id,
            group.record.name,
        )
        made_id = group.record.made_id(written, machine_id)
        yield made_document(document, _on_machine(tree, made_id, at), made_from)


def _on_machine(tree: Keys, made_id: str, at: Scalar) -> Keys:
    """The job as it is on one machine: its own id, and the machine in place of the group."""

    def put(key: Scalar, value: Node) -> tuple[Scalar, Node]:
        if key.text == GROUP_KEY:
            return replace(key, text="machine"), at
        if key.text == "id" and isinstance(value, Scalar) and made_id:
            return key, replace(value, text=made_id)
        return key, value

    return replace(tree, entries=tuple(put(key, value) for key, value in tree.entries))


def named_here(documents: Sequence[Document], groups: Groups) -> Iterator[Document]:
    """The documents, where a job on a machine that names a job of a group means it there."""
    works: dict[str, Group] = {}
    for one in documents:
        made_from = made_of(one)
        group = groups.get(made_from.group) if made_from is not None else None
        if made_from is not None and group is not None:
            works[made_from.written] = group
    for one in documents:
        value = one.value if isinstance(one.value, dict) else {}
        machine = str(value.get("machine") or "").strip().lower()
        meant = {
            job: group.record.made_id(job, machine)
            for job, group in works.items()
            if machine in group.machines and machine != group.record.keeps_id
        }
        text = one.text.lower()
        if one.kind == "jobs" and any(job in text for job in meant):
            yield made_document(one, _put_here(one.tree, meant), made_of(one))
        else:
            yield one


def _put_here(node: Node, meant: Mapping[str, str], key: str = "") -> Node:
    """The same with each such job named as it is on this machine."""
    if isinstance(node, Keys):
        entries = ((name, _put_here(one, meant, name.text)) for name, one in node.entries)
        return replace(node, entries=tuple(entries))
    if isinstance(node, Listing):
        items = (_put_here(one, meant, key) for one in node.items)
        return replace(node, items=tuple(items))
    if key in _JOB_KEYS:
        named = node.text.strip().lower()
        return replace(node, text=meant[named]) if named in meant else node

    def link(found: re.Match[str]) -> str:
        job = found[2].lower()
        return found[1] + meant.get(job, found[2])

    return replace(node, text=_LINK.sub(link, node.text)) if "[[" in node.text else node
