"""What was watched at the machine, as the beginning of a breakdown.

One row an element, in the order of the work: the times of each operator in seconds, what each does
otherwise and why, a key point with its reason and its test, trouble, props. More key points of an
element stand in rows below it. An element with a key point becomes a step; all are timed.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from statistics import mean

from benchleaf import read
from benchleaf.diagnose import Finding, Place, Severity
from benchleaf.model import KeyPointKind
from benchleaf.read import Listing, Node, Scalar

from .tables import Cell, Table

NAME = "watching"
ELEMENT, ENDS, OTHERWISE, WHY = "element", "ends when", "done otherwise", "why otherwise"
POINT, REASON, TEST = "key point", "reason", "test"
TROUBLE, DO, PROPS = "trouble", "what to do", "props"
OPERATOR = re.compile(r"operator \w+")
HEADS = (
    ELEMENT, ENDS, "operator a", "operator b", "operator c", OTHERWISE, WHY, POINT, REASON, TEST,
    TROUBLE, DO, PROPS,
)  # fmt: skip
"""The columns of an empty sheet; there may be as many operators as were watched."""
MEANS = {
    ELEMENT: "A part of the work with a beginning and an end that you can see or hear.",
    ENDS: "What you see or hear when it ends: there the watch is read.",
    OTHERWISE: "What one operator does otherwise than the others.",
    WHY: "The reason that the operator gives. Ask, and write it as it is said.",
    POINT: "What must be so, one thing, as a command. Ask: does it make or break the job, can it "
    "injure, does it make the work easier?",
    REASON: "What happens otherwise.",
    TEST: f"One of: {', '.join(KeyPointKind)}.",
    TROUBLE: "What goes wrong here, as it is seen, heard or felt.",
    DO: "What to do then, the stop first; one act a line.",
    PROPS: "What a trainer would want for this lesson, one a line.",
}
_TIME = re.compile(r"\d+(?:\.\d+)?")
_AT_LEAST = 0.1
"""Seconds; a time is given to a tenth, which is finer than a hand reads a watch."""

Notes = dict[tuple[str | int, ...], list[str]]


@dataclass(slots=True)
class _Element:
    """One element with all its rows."""

    title: Cell
    rows: list[Mapping[str, Cell]] = field(default_factory=list)

    def all(self, head: str) -> list[Cell]:
        """The cells of a column, from the top."""
        return [row[head] for row in self.rows if head in row]


def breakdown_of(table: Table) -> tuple[dict[str, Node], Notes, tuple[Finding, ...]]:
    """Keys of a job with their trees, comments by place, and what cannot be taken in."""
    elements, findings = _elements(table)
    findings += [one for each in elements for one in _bad_times(table, each)]
    steps: list[Node] = []
    notes: Notes = {}
    stepless: list[str] = []
    for element in elements:
        said = _said(table, element)
        if element.all(POINT):
            notes[("steps", len(steps))] = said
            steps.append(_step(element, {read_id(one) for one in steps}))
        else:
            stepless += [f"'{element.title.text}' has no key point, so it is no step yet. "
                         f"{' '.join(said)}"]  # fmt: skip
    keys: dict[str, Node] = {}
    if steps:
        keys["steps"] = Listing(tuple(steps), steps[0].place)
        notes[("steps",)] = stepless
    keys |= _trouble(elements) | _rate(table, elements, notes)
    return keys, notes, tuple(findings)


def read_id(step: Node) -> str:
    """The id that was made for a step."""
    found = read.child(step, "id")
    return found.text if isinstance(found, Scalar) else ""


def _elements(table: Table) -> tuple[list[_Element], list[Finding]]:
    elements: list[_Element] = []
    findings = []
    known = set(HEADS)
    for head in table.heads:
        if head and head not in known and not OPERATOR.fullmatch(head):
            findings.append(_problem(
                table.place_of(head), f"'{head}' is no column of '{NAME}'",
                f"columns: {', '.join(HEADS)}; an operator is a column such as 'operator d'",
            ))  # fmt: skip
    for row in table.rows:
        if ELEMENT in row:
            elements.append(_Element(row[ELEMENT]))
        if not elements:
            place = next(iter(row.values())).place
            findings.append(_problem(place, "a row before the first element", "name the element"))
            continue
        elements[-1].rows.append(row)
    return elements, findings


def _problem(place: Place, text: str, *help_lines: str) -> Finding:
    return Finding("R116", Severity.ERROR, place, text, help_lines)


def _operators(table: Table) -> tuple[str, ...]:
    return tuple(one for one in table.heads if OPERATOR.fullmatch(one))


def _bad_times(table: Table, element: _Element) -> Iterator[Finding]:
    for head in _operators(table):
        for cell in element.all(head):
            left = re.sub(r"s\b|[\s;,/]+", "", _TIME.sub("", cell.text))
            zero = [one for one in _TIME.findall(cell.text) if float(one) < _AT_LEAST]
            if left or zero:
                yield _problem(
                    cell.place,
                    f"'{cell.text}' is no time of an element",
                    "write seconds only, such as 12.5; several with spaces between",
                )


def _times(element: _Element, head: str) -> list[float]:
    return [float(one) for cell in element.all(head) for one in _TIME.findall(cell.text)]


def _said(table: Table, element: _Element) -> list[str]:
    """What was watched of an element, as comments."""
    by_operator = {head: _times(element, head) for head in _operators(table)}
    told = [
        f"{head} {mean(times):.1f} s" + (f" ({min(times):g} to {max(times):g}, {len(times)} times)"
                                          if len(times) > 1 else "")
        for head, times in by_operator.items() if times
    ]  # fmt: skip
    lines = [f"watched: {', '.join(told)}."] if told else []
    lines += [f"done otherwise: {one.text}" for one in element.all(OTHERWISE)]
    lines += [f"why: {one.text}" for one in element.all(WHY)]
    lines += [f"it ends when: {one.text}" for one in element.all(ENDS)]
    if element.all(OTHERWISE):
        lines.append("open: agree on one way, and teach that one.")
    return lines


def _step(element: _Element, taken: set[str]) -> Node:
    place = element.title.place
    entries: list[tuple[str, Node]] = [
        ("id", Scalar(_new_id(element.title.text, taken), place)),
        ("title", _scalar(element.title)),
        ("key_points", Listing(tuple(_points(element)), place)),
    ]
    props = [_scalar(Cell(line, one.place)) for one in element.all(PROPS) for line in _lines(one)]
    if props:
        entries.append(("props", Listing(tuple(props), place)))
    return _mapping(entries, place)


def _points(element: _Element) -> Iterator[Node]:
    for row in element.rows:
        if POINT in row:
            keys = (("point", POINT), ("reason", REASON), ("kind", TEST))
            entries = [(key, _scalar(row[head])) for key, head in keys if head in row]
            yield _mapping(entries, row[POINT].place)


def _new_id(title: str, taken: set[str]) -> str:
    """An id from the title's words, not yet taken."""
    words = re.findall(r"[a-z0-9]+", title.lower())
    short = "-".join([one for one in words if one not in ("the", "a", "an")][:4]) or "step"
    ids = (short, *(f"{short}-{number}" for number in range(2, len(taken) + 3)))
    return next(one for one in ids if one not in taken)


def _trouble(elements: Sequence[_Element]) -> dict[str, Node]:
    found = [_one_trouble(row) for element in elements for row in element.rows if TROUBLE in row]
    return {"if_wrong": Listing(tuple(found), found[0].place)} if found else {}


def _one_trouble(row: Mapping[str, Cell]) -> Node:
    entries: list[tuple[str, Node]] = [("sign", _scalar(row[TROUBLE]))]
    if DO in row:
        acts = tuple(_scalar(Cell(line, row[DO].place)) for line in _lines(row[DO]))
        entries.append(("do", Listing(acts, row[DO].place)))
    return _mapping(entries, row[TROUBLE].place)


def _rate(table: Table, elements: Sequence[_Element], notes: Notes) -> dict[str, Node]:
    """The timed elements: the mean of the operators' means, and how far the times spread."""
    timed: list[Node] = []
    counts: dict[str, int] = {}
    for element in elements:
        found = {head: _times(element, head) for head in _operators(table)}
        every = [one for times in found.values() for one in times]
        if not every:
            continue
        for head, times in found.items():
            counts[head] = max(counts.get(head, 0), len(times))
        place = element.title.place
        time = f"{mean(mean(times) for times in found.values() if times):.1f} s"
        spread = f"from {min(every):g} to {max(every):g} s, {len(every)} times in all"
        notes["piece_rate", "elements", len(timed)] = [spread]
        timed.append(_mapping([("what", _scalar(element.title)), ("time", Scalar(time, place))],
                              place))  # fmt: skip
    if not timed:
        return {}
    spans = ", ".join(f"{head} {count} times" for head, count in counts.items() if count)
    source = f"watched at the machine: {spans}; the mean of the operators' means"
    place = timed[0].place
    entries: list[tuple[str, Node]] = [
        ("elements", Listing(tuple(timed), place)),
        ("source", Scalar(source, place)),
    ]
    return {"piece_rate": _mapping(entries, place)}


def _lines(cell: Cell) -> Iterator[str]:
    yield from (line.strip() for line in cell.text.split("\n") if line.strip())


def _scalar(cell: Cell) -> Scalar:
    return Scalar(" ".join(cell.text.split()), cell.place)


def _mapping(entries: Sequence[tuple[str, Node]], place: Place) -> Node:
    return read.Mapping(tuple((Scalar(key, value.place), value) for key, value in entries), place)
