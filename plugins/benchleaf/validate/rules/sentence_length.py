"""V514: sentences that a newcomer can take in at once."""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample
from benchleaf.model import texts

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V514",
    "A sentence is too long",
    why=(
        "Published lengths of simplified technical English: 20 words in a procedure, 25 in a "
        "description. A longer sentence is lost on who reads in a second language."
    ),
    instead="Make two sentences, or leave words out.",
    bad=(
        Sample(
            """
            # An order of 30 words.
            - file: jobs/vg-0010.yml
              find: Push the plate down on both parallels.
              put: Push the plate down on both of the parallels with the flat of your hand until
                you feel that it cannot rock any more at either of its two ends.
            """,
            """
            content/jobs/vg-0010.yml:56:16: warning V514 a sentence of 30 words: 'Push the
                    plate down on …'
                at most 20 words here: make two sentences, or leave words out
                where it does not fit this job: accept: [{code: V514, reason: ...}]
            """,
        ),
    ),
    good="""
        # The same in two sentences.
        - file: jobs/vg-0010.yml
          find: Push the plate down on both parallels.
          put: Push the plate down on both parallels with the flat of your hand. Go on until it
            cannot rock any more at either end.
    """,
)

PROCEDURE_WORDS, DESCRIPTION_WORDS = 20, 25
"""The published lengths of simplified technical English: a sentence that tells what to do, and
one that describes. Lengths only are looked at; nothing is claimed beyond that."""

_SENTENCE = re.compile(r"(?<=[.!?])[\"')]*\s+(?=[\"'(]*[A-Z\[])")
_LINK = re.compile(r"\[\[(?:[^\]]*)\]\]")
_ORDERS = ("title", "point", "do", "avoid")
"""Keys whose texts tell what to do."""


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each sentence of a job that is too long."""
    titles = ((("steps", at, "title"), step.title) for at, step in enumerate(case.job.steps))
    for path, text in (*titles, *texts(case.job)):
        key = next(str(part) for part in reversed(path) if isinstance(part, str))
        most = PROCEDURE_WORDS if key in _ORDERS else DESCRIPTION_WORDS
        if text.count(" ") < most:
            continue
        longest = max(sentences(text), key=words_in)
        if words_in(longest) > most:
            yield from case.practice(
                CODE,
                path,
                f"a sentence of {words_in(longest)} words: '{_start(longest)} …'",
                f"at most {most} words here: make two sentences, or leave words out",
            )


def sentences(text: str) -> list[str]:
    """The sentences of a text."""
    return [one for one in _SENTENCE.split(" ".join(text.split())) if one]


def words_in(sentence: str) -> int:
    """How many words a sentence has; a link or a number with its unit is one word."""
    folded = re.sub(r"(\d) (?=[a-zA-Z%°/]+\b)", r"\1", _LINK.sub("link", sentence))
    return sum(any(map(str.isalnum, word)) for word in folded.split())


def _start(sentence: str) -> str:
    return " ".join(sentence.split()[:5])


RULE = JobRule(check, (CODE,))
