"""V525: the text of a picture stands for the picture."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import PurePosixPath

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.model import Picture, Record, Shop, pictures

from ..places import Places
from ..rule import RecordRule

CODE = Code(
    "V525",
    "The text of a picture does not stand for it",
    why="Who cannot see the picture, or prints without it, gets nothing.",
    instead="Say in words all that the picture shows.",
    bad=(
        Sample(
            """
            # Only the file's name.
            - file: jobs/vg-0010.yml
              find: >-
                text: A plate lies flat on two parallels,
                its long edges in the jaws of the vice.
              put: 'text: clamped plate'
            """,
            """
            content/jobs/vg-0010.yml:67:13: warning V525 the text of 'clamped-plate.svg' is
                    only its file's name
                say in words all that the picture shows and a learner must see
            """,
        ),
    ),
    good="""
        # In fewer words, but all of it.
        - file: jobs/vg-0010.yml
          find: >-
            text: A plate lies flat on two parallels,
            its long edges in the jaws of the vice.
          put: 'text: The plate lies flat in the jaws.'
    """,
)

FEWEST_WORDS = 5
"""In fewer words nothing can be said that replaces a picture: our own judgement."""


def check(
    shop: Shop, places: Places, kind: str, record_id: str, record: Record
) -> Iterator[Finding]:
    """A finding for each picture whose text would not help who cannot see it."""
    for path, picture in pictures(record):
        problem = _problem(picture)
        if problem:
            yield Finding(
                CODE.id,
                Severity.WARNING,
                places.of(kind, record_id, (*path, "text")),
                f"the text of '{picture.file}' {problem}",
                ("say in words all that the picture shows and a learner must see",),
            )


def _problem(picture: Picture) -> str:
    said = _words(picture.text)
    if said == _words(PurePosixPath(picture.file).stem):
        return "is only its file's name"
    if picture.caption and said == _words(picture.caption):
        return "only says the caption again"
    return "" if len(said) >= FEWEST_WORDS else f"has {len(said)} words"


def _words(text: str) -> list[str]:
    return re.findall(r"\w+", text.lower())


RULE = RecordRule(check, (CODE,))
