"""The file of a new family: the breakdown of a new job, and a table with one row to fill in."""

from __future__ import annotations

from benchleaf.model import Job

from .skeleton import skeleton

HEAD = """\
# One breakdown for several sizes: each row below is a job with an id of its own.
# Where a value differs from row to row, write "[[row:COLUMN]]" in its place, in quotes.
# Fill in every key that stands empty; what it holds is written above it.
# Keys after a # are examples: take the # and one space away to use them.
"""
_ROWS = """\

## In each row the job's id, and a value for every column that the breakdown shows.
rows:
  - id:  # for example: TR-0620
    # size: 8.5 mm
"""


def family_skeleton(name: str, *, is_issued: bool) -> str:
    """The text of the file; `is_issued` where `benchleaf release` gives revisions."""
    job = skeleton(Job, "none", head="", is_issued=is_issued).split("\n")[1:]
    inside = "\n".join(f"  {line}" if line else "" for line in job).rstrip("\n")
    return (
        f"{HEAD}id: {name}\n\n## The breakdown, as in jobs/, without its id.\njob:{inside}\n{_ROWS}"
    )
