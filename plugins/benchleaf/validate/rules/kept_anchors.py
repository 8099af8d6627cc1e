"""L306: no step, set-up, term or job bears an id that its page has for a part of its own."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample, Severity
from benchleaf.link import EVERY_ANCHORS, JOB_ANCHORS, LIST_ANCHORS, is_kept
from benchleaf.model import Job, KeyPath, Record, Shop, Term

from ..places import Places
from ..rule import RecordRule

CODE = Code(
    "L306",
    "An id is kept for a part of the page",
    why="Two places of a page would share one address, and a link could lead to the wrong one.",
    instead="Give the step, set-up, term or job another id.",
    bad=(
        Sample(
            """
            # A step that takes an anchor of the full edition.
            - file: jobs/vg-0010.yml
              find: "- id: gauge"
              put: "- id: sheets"
            - file: addresses.yml
              find: "#gauge"
              put: "#sheets"
            """,
            """
            content/jobs/vg-0010.yml:88:9: error L306 'sheets' is kept for a part of the
                    page itself
                give it another id
            """,
        ),
        Sample(
            """
            # A step that takes the place from which the steps are followed.
            - file: jobs/vg-0010.yml
              find: "- id: gauge"
              put: "- id: follow"
            - file: addresses.yml
              find: "#gauge"
              put: "#follow"
            """,
            """
            content/jobs/vg-0010.yml:88:9: error L306 'follow' is kept for a part of the
                    page itself
                give it another id
            """,
        ),
        Sample(
            """
            # A set-up whose id begins as our own do.
            - file: jobs/vg-0010.yml
              find: "    id: guide-hole"
              put: "    id: bl-values"
            - file: addresses.yml
              find: "#guide-hole"
              put: "#bl-values"
            - file: jobs/vg-0010.yml
              find: "set_up: guide-hole"
              put: "set_up: bl-values"
            """,
            """
            content/jobs/vg-0010.yml:44:9: error L306 'bl-values' is kept for a part of the
                    page itself
                give it another id
            """,
        ),
        Sample(
            """
            # A term that takes an anchor of every page.
            - file: terms.yml
              find: "- id: rack-plate"
              put: "- id: main"
            - file: addresses.yml
              find: "#rack-plate"
              put: "#main"
            """,
            """
            content/terms.yml:10:9: error L306 'main' is kept for a part of the page itself
                give it another id
            """,
        ),
    ),
    good="""
        # An id that only begins as a section of the page.
        - file: jobs/vg-0010.yml
          find: "- id: gauge"
          put: "- id: sheets-of-metal"
        - file: addresses.yml
          find: "#gauge"
          put: "#sheets-of-metal"
    """,
)


def check(
    shop: Shop, places: Places, kind: str, record_id: str, record: Record
) -> Iterator[Finding]:
    """A finding at each id that is kept."""
    for path, anchor, kept in _anchors(record):
        if is_kept(anchor, kept):
            yield Finding(
                CODE.id,
                Severity.ERROR,
                places.of(kind, record_id, path),
                f"'{anchor}' is kept for a part of the page itself",
                ("give it another id",),
            )


def _anchors(record: Record) -> Iterator[tuple[KeyPath, str, tuple[str, ...]]]:
    """Each anchor that a record brings to a page, with those that the page has already."""
    if isinstance(record, Term):
        yield ("id",), record.id, EVERY_ANCHORS
    if isinstance(record, Job):
        yield ("id",), record.id, LIST_ANCHORS
        for index, step in enumerate(record.steps):
            yield ("steps", index, "id"), step.id, JOB_ANCHORS
        for index, set_up in enumerate(record.set_ups):
            yield ("set_ups", index, "id"), set_up.id, JOB_ANCHORS


RULE = RecordRule(check, (CODE,))
