"""F212: the rows of a family, each put into the breakdown that they share.

`[[row:COLUMN]]` stands in the breakdown where a row has a value of its own. A value that is that
and nothing else takes the cell as it is, a list too, with the place of the cell: a slip in it is
told there. In a sentence the text of the cell takes its place.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import replace

from benchleaf.diagnose import (
    Code,
    Finding,
    Place,
    Related,
    Sample,
    Severity,
    nearest,
    suggestion,
)
from benchleaf.model import Family, MadeFrom
from benchleaf.read import Document, Listing, Node, Scalar, Source, child, key_place, plain
from benchleaf.read import Mapping as Keys

from .building import build
from .made_document import Making, below, made_document
from .places import misnamed, written_id

CODE = Code(
    "F212",
    "A row does not fit the breakdown of its family",
    why="A size that is left out, or put where nothing shows it, would be missed at the machine.",
    instead="Give each row an id, and a value for every column that the breakdown shows.",
    bad=(
        Sample(
            """
            # One row has no edge, and one has a colour that nothing shows.
            - file: families/burrs.yml
              text: |
                id: burrs
                job:
                  title: Deburr the [[row:edge]] edge
                  revision: 1
                  effective: 2026-03-02
                  approved_by: production engineer
                  change_note: First issue.
                  makes: A rack plate without a burr at its [[row:edge]] edge.
                  matters: A burr lifts the pin, and the vent opens with a jerk.
                  machine: bench-drill
                  wear: [Safety glasses with side shields.]
                  take_off: ["Gloves, rings and watch."]
                  steps:
                    - id: deburr
                      title: Take off the burr
                      key_points:
                        - point: One light turn with the hand deburrer.
                          reason: More than that makes a countersink.
                          kind: makes or breaks the job
                  if_wrong:
                    - sign: The edge still catches a fingernail.
                      do: [Go over it once more.]
                  hand_on: Stack the plates, one edge to the rail, on the trolley for the fitters.
                rows:
                  - id: VG-0040
                  - {id: VG-0050, edge: lower, colour: red}
            """,
            """
            content/families/burrs.yml:25:5: error F212 row VG-0040 has no 'edge', and the
                    breakdown shows it
                write 'edge: ...' in this row
            content/families/burrs.yml:26:32: error F212 row VG-0050 has 'colour', which
                    nothing shows
                columns: edge
                or show it in the breakdown: [[row:colour]]
            """,
        ),
    ),
    good="""
        # A family of one row, in place of the job's own file.
        - file: jobs/vg-0020.yml
          remove: true
        - file: families/burrs.yml
          text: |
            id: burrs
            job:
              title: Deburr the [[row:hole]] of a rack plate
              revision: A
              effective: 2026-02-16
              approved_by: production engineer
              change_note: First issue.
              makes: A rack plate without a burr at its [[row:hole]].
              matters: A burr lifts the pin, and the vent opens with a jerk.
              machine: bench-drill
              part: "[[row:part]]"
              takes: drilled
              leaves: deburred
              know_first: "[[row:before]]"
              operation_before: VG-0010
              wear: [Safety glasses with side shields.]
              take_off: ["Gloves, rings and watch."]
              steps:
                - id: deburr
                  title: Take off the burr on both sides
                  key_points:
                    - point: One light turn with the hand deburrer.
                      reason: More than that makes a countersink.
                      kind: makes or breaks the job
              if_wrong:
                - sign: The edge still catches a fingernail.
                  do: [Go over it once more.]
              hand_on: Stack the plates, one edge to the rail, on the trolley for the fitters.
              end_of_route: The finished plates go to the store.
            rows:
              - {id: VG-0020, hole: guide hole, part: vg-r1, before: [VG-0010]}
    """,
)

_CELL = re.compile(r"\[\[\s*row\s*:\s*([A-Za-z0-9_-]+)\s*\]\]")


def rows_of(document: Document, made: Making) -> Iterator[Document]:
    """A job's document for each row of a family."""
    family, problems = build(Family, Source(document, (), document.value))
    job, rows = child(document.tree, "job"), child(document.tree, "rows")
    if family is None or not isinstance(job, Keys) or not isinstance(rows, Listing):
        made.tell(*problems)
        return
    made.findings += misnamed(document, family.id)
    asked = dict(_asked(job))
    wrong = tuple(_breakdown(job, rows, asked))
    if wrong:
        made.tell(*wrong)
        return
    seen: dict[str, Node] = {}
    for row in rows.items:
        assert isinstance(row, Keys)
        row_id = written_id(plain(row)) or ""
        amiss = tuple(_misfits(row, row_id, asked, seen))
        if amiss or not row_id:
            made.tell(*amiss, job=row_id or "jobs")
            continue
        seen[row_id] = row
        tree = _with_cells(job, row)
        assert isinstance(tree, Keys)
        own = next(one for one in row.entries if one[0].text == "id")
        tree = replace(tree, entries=(own, *tree.entries))
        made_from = MadeFrom(below(document.name), row_id, family=family.id)
        yield made_document(document, tree, made_from)


def _breakdown(job: Keys, rows: Listing, asked: Mapping[str, Place]) -> Iterator[Finding]:
    """What is wrong with the breakdown, whatever the row."""
    own_id = key_place(job, "id")
    if own_id is not None:
        text = "this breakdown is for several jobs: each row gives its own id"
        yield _unfit(own_id, text, "take it out")
    keys = {key.text for row in rows.items if isinstance(row, Keys) for key, _ in row.entries}
    for name, at in asked.items():
        if name not in keys or name == "id":
            lines = suggestion(name, sorted(keys - {"id"}), what="columns")
            yield _unfit(at, f"'[[row:{name}]]': no row has a column '{name}'", *lines)


def _alone(node: Node) -> tuple[str, Place] | None:
    """The column whose cell a whole value is, and the place of that value.

    Without quotes `[[row:size]]` is a list in a list, which no key of a job takes.
    """
    if isinstance(node, Scalar):
        found = _CELL.fullmatch(node.text.strip())
        return (found[1], node.place) if found else None
    inner: Node = node
    for _ in range(2):
        if not isinstance(inner, Listing) or len(inner.items) != 1:
            return None
        inner = inner.items[0]
    found = _CELL.fullmatch(f"[[{inner.text}]]") if isinstance(inner, Scalar) else None
    return (found[1], node.place) if found else None


def _asked(node: Node) -> Iterator[tuple[str, Place]]:
    """Every column that a breakdown shows, and the place of a value that does."""
    alone = _alone(node)
    if alone is not None:
        yield alone
    if isinstance(node, Scalar):
        yield from ((name, node.place) for name in _CELL.findall(node.text))
        return
    inside = node.items if isinstance(node, Listing) else [value for _, value in node.entries]
    for one in inside:
        yield from _asked(one)


def _misfits(
    row: Keys, row_id: str, asked: Mapping[str, Place], seen: Mapping[str, Node]
) -> Iterator[Finding]:
    """What is wrong with one row: its id, a cell that is missing, and one that nothing shows."""
    own_id = child(row, "id")
    if own_id is None:
        yield _unfit(row.place, "this row has no 'id'", "write 'id: ...': each row is a job")
        return
    if row_id in seen:
        yield Finding(
            "L303",
            Severity.ERROR,
            own_id.place,
            f"the id '{row_id}' stands in two rows",
            ("give one of the two another id: each row is a job",),
            (Related(seen[row_id].place, "used first here"),),
        )
    given = {key.text: key.place for key, _ in row.entries}
    missing = [one for one in asked if one not in given]
    strange = [one for one in given if one != "id" and one not in asked]
    meant = {one: near for one in strange if (near := nearest(one, missing))}
    name = row_id.upper()
    for one in missing:
        slip = next((f" in place of '{key}'" for key, near in meant.items() if near == one), "")
        text = f"row {name} has no '{one}', and the breakdown shows it"
        yield _unfit(row.place, text, f"write '{one}: ...' in this row{slip}")
    for one in strange:
        if one not in meant:  # else it is told already, as what is missing
            lines = suggestion(one, tuple(asked), what="columns")
            show = f"or show it in the breakdown: [[row:{one}]]"
            yield _unfit(given[one], f"row {name} has '{one}', which nothing shows", *lines, show)


def _with_cells(node: Node, row: Keys) -> Node:
    """A breakdown with the cells of a row in it."""
    alone = _alone(node)
    if alone is not None:
        return child(row, alone[0]) or node
    if isinstance(node, Listing):
        return replace(node, items=tuple(_with_cells(one, row) for one in node.items))
    if isinstance(node, Keys):
        entries = tuple((key, _with_cells(value, row)) for key, value in node.entries)
        return replace(node, entries=entries)

    def text(cell: re.Match[str]) -> str:
        value = child(row, cell[1])
        # what is no text stays as written, and is told as a link that there is not
        return value.text.strip() if isinstance(value, Scalar) else cell[0]

    return replace(node, text=_CELL.sub(text, node.text))


def _unfit(place: Place, text: str, *lines: str) -> Finding:
    return Finding(CODE.id, Severity.ERROR, place, text, lines)
