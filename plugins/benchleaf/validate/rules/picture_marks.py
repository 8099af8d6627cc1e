"""V405: every mark over a picture is whole, and lies on the picture."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import (
    KeyPath,
    MarkKind,
    Picture,
    PictureFile,
    PictureMark,
    Record,
    Shop,
    pictures,
)

from ..places import Places
from ..rule import RecordRule

CODE = Code(
    "V405",
    "A mark over a picture is not whole, or does not lie on it",
    why="The learner would look for the place that it points to, and find none.",
    instead=(
        "Read the place off in a program that shows pictures: pixels from the left edge and from "
        "the upper edge, of the picture as it stands upright."
    ),
    bad=(
        Sample(
            """
            # A ring of which half is outside, and an arrow without a beginning.
            - file: jobs/vg-0010.yml
              find: "file: clamped-plate.svg"
              put: |-
                file: clamped-plate.svg
                      marks:
                        - {mark: ring, at: {across: 10, down: 40}, radius: 20}
                        - {mark: arrow, at: {across: 60, down: 40}}
            """,
            """
            content/jobs/vg-0010.yml:68:28: error V405 the ring goes beyond the picture:
                    'clamped-plate.svg' is 240 pixels wide and 120 high
                pixels count from the upper left
            content/jobs/vg-0010.yml:69:11: error V405 the arrow has no 'tail'
                write tail: {across: ..., down: ...}, where the arrow begins
            """,
        ),
    ),
    good="""
        # A ring around the place of which the text speaks.
        - file: jobs/vg-0010.yml
          find: "file: clamped-plate.svg"
          put: |-
            file: clamped-plate.svg
                  marks:
                    - {mark: ring, at: {across: 60, down: 40}, radius: 20}
                    - {mark: number, at: {across: 60, down: 40}, number: 1}
                    - {mark: arrow, at: {across: 60, down: 40}, tail: {across: 20, down: 20}}
    """,
)

_NEEDS = {MarkKind.ARROW: "tail", MarkKind.RING: "radius", MarkKind.NUMBER: "number"}
"""The key that a mark of each kind needs besides its place; the others belong to other kinds."""


def check(
    shop: Shop, places: Places, kind: str, record_id: str, record: Record
) -> Iterator[Finding]:
    """A finding for each mark that cannot be drawn where it says."""
    for path, picture in pictures(record):
        size = shop.pictures.get(picture.file)
        for index, mark in enumerate(picture.marks):
            at: KeyPath = (*path, "marks", index)
            for below, problem, cure in (*_keys(mark), *_outside(mark, picture, size)):
                place = places.of(kind, record_id, (*at, *below))
                yield Finding(CODE.id, Severity.ERROR, place, problem, (cure,))


def _keys(mark: PictureMark) -> Iterator[tuple[KeyPath, str, str]]:
    needed = _NEEDS[mark.mark]
    if getattr(mark, needed) is None:
        yield (), f"the {mark.mark} has no '{needed}'", f"write {needed}: {_MEANT[needed]}"
    for key in _NEEDS.values():
        if key != needed and getattr(mark, key) is not None:
            owner = next(one for one, its in _NEEDS.items() if its == key)
            yield (key,), f"'{key}' belongs to the mark '{owner}'", f"take '{key}' out"
    if mark.mark is MarkKind.ARROW and mark.tail == mark.at:
        yield ("tail",), "the arrow ends where it begins", "let it begin beside what it points to"


_MEANT = {
    "tail": "{across: ..., down: ...}, where the arrow begins",
    "radius": "from the middle of the ring to its line, in pixels",
    "number": "the number that is shown",
}


def _outside(
    mark: PictureMark, picture: Picture, size: PictureFile | None
) -> Iterator[tuple[KeyPath, str, str]]:
    if size is None or not size.width:
        return  # told by the rule about files
    whole = f"'{picture.file}' is {size.width} pixels wide and {size.height} high"
    reach = mark.radius or 0 if mark.mark is MarkKind.RING else 0
    for key, point in (("at", mark.at), ("tail", mark.tail)):
        if point is None:
            continue
        far = reach if key == "at" else 0
        inside = far <= point.across <= size.width - far and far <= point.down <= size.height - far
        if not inside:
            what = "ring goes beyond" if far else f"{mark.mark} lies outside"
            yield (key,), f"the {what} the picture: {whole}", "pixels count from the upper left"


RULE = RecordRule(check, (CODE,))
