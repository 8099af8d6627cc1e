"""V901: what nobody has written yet. Until it is, pages say *draft, teach nobody*."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Place, Sample, Severity
from benchleaf.model import OPEN_KEY, OPEN_MARK, Record, Shop, open_in

from ..places import Places
from ..rule import RecordRule

CODE = Code(
    "V901",
    "Something is still to be written",
    why=(
        "A learner who meets a gap guesses, and a guessed speed, stop or control can injure. Until "
        "nothing is left, the pages say draft, teach nobody, and nobody can be signed off."
    ),
    instead=f"Write the text in place of {OPEN_MARK}, or give what {OPEN_KEY} names.",
    bad=(
        Sample(
            """
            # Nobody has written yet what the machine is.
            - file: machines/bench-drill.yml
              find: "what: A drill"
              put: "what: (to be written) A drill"
            """,
            """
            content/machines/bench-drill.yml:3:7: warning V901 still open: A drill on a
                    short column. You bring the [[term:quill]] down with the feed lever.
                write it in place of (to be written); until then it, and each job that uses
                        it, is a draft
            """,
        ),
        Sample(
            """
            # A number is still to be given.
            - file: machines/bench-drill.yml
              find: "id: bench-drill"
              put: |
                id: bench-drill
                still_open:
                  - The rated thrust, from its plate.
            """,
            """
            content/machines/bench-drill.yml:3:5: warning V901 still open: The rated thrust,
                    from its plate.
                give it, and take this line out; until then it, and each job that uses it, is a
                        draft
            """,
        ),
        Sample(
            """
            # A line of the safety preface was never written.
            - file: pages/safety.md
              find: Gloves off
              put: (To be written) Gloves off
            """,
            """
            content/pages/safety.md:3:1: warning V901 still open: Gloves off, hair tied
                    back, safety glasses on. Ask before you touch a machine.
                write it in place of (to be written); until then every page is a draft
            """,
        ),
    ),
    good="""
        # The words alone, in a text that is written.
        - file: machines/bench-drill.yml
          find: "what: A drill"
          put: "what: A drill with a label to be written on,"
    """,
)
_PART = "until then it, and each job that uses it, is a draft"
_GIVE = "give it, and take this line out"
_WRITE = f"write it in place of {OPEN_MARK}"
_WHOLE = "until then every page is a draft"


def check(
    shop: Shop, places: Places, kind: str, record_id: str, record: Record
) -> Iterator[Finding]:
    """A finding for each text that is not written, and each number that is not given.

    What to do, and what follows until then, stands at the first of each sort in a file: the same
    words under each of them would hide what they are.
    """
    follows = _WHOLE if kind == "manual" else _PART
    told: set[str] = set()
    for one in open_in(record):
        cure = _GIVE if one.is_listed else _WRITE
        place = places.of(kind, record_id, one.path)
        yield _finding(place, one.what, *(() if cure in told else (f"{cure}; {follows}",)))
        told.add(cure)
    if kind == "manual":
        pages = places.of(kind, record_id).file.replace("manual.yml", "pages")
        for name, lines in shop.open_pages.items():
            follows = _WHOLE if name == shop.manual.preface else "until then it is a draft"
            for at, (line, column, text) in enumerate(lines):
                help_lines = () if at else (f"{_WRITE}; {follows}",)
                yield _finding(Place(f"{pages}/{name}", line, column), text, *help_lines)


def _finding(place: Place, what: str, *cure: str) -> Finding:
    words = re.sub(re.escape(OPEN_MARK), "", what, flags=re.IGNORECASE).strip("#*- ")
    return Finding(CODE.id, Severity.WARNING, place, f"still open: {words}", cure)


RULE = RecordRule(check, (CODE,))
