"""V531: a fault set on purpose is written as `planted`. A house rule.

Narrow on purpose: samples to sort, questions, and a learner who works in silence are good teaching.
tests/validate/test_trainer_notes.py holds the sentences that the words were measured on.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample

from ..case import JobCase
from ..rule import JobRule
from .sentence_length import sentences
from .wording import NOT_IN_NOTES, seen

CODE = Code(
    "V531",
    "A fault is set on purpose and not written as planted",
    why=(
        "House rule. What is set wrong for a lesson and forgotten meets the next operator as a "
        "real fault."
    ),
    instead=(
        "Write it under `planted` with `what` and `put_right`: the get-ready list and the try-out "
        "record then show a line to tick. Samples to sort are no planted fault: list them under "
        "`props`."
    ),
    bad=(
        Sample(
            """
            # A wrong speed, and nobody puts it right.
            - file: jobs/vg-0010.yml
              find: Let the learner push against the plate.
              put: Turn the speed card to a wrong speed once.
            """,
            """
            content/jobs/vg-0010.yml:68:14: warning V531 the trainer sets something wrong
                    here, and step 'clamp' has no planted
                write it under planted, with what is put right again: it becomes a line to tick
                where it does not fit this job: accept: [{code: V531, reason: ...}]
            """,
        ),
    ),
    good="""
        # The same as a planted fault.
        - file: jobs/vg-0010.yml
          find: |2
                trainer: Let the learner push against the plate.
          put: |2
                planted:
                  what: The speed card shows a wrong speed.
                  put_right: Turn the card back, and read it together.
    """,
)

_REST = r"(?:[^.;:]|\.\d)*?"
"""The rest of a sentence, as far as wanted; a decimal point does not end it."""
_WRONG = (
    seen(rf"\b(?:set|turn|leave|put|plant|hang|move|fit)\s+{_REST}\b(?:to|on|in|at|by)\s+"
         r"(?:a|an|the|its|one)\s+wrong\s+\w+"),
    seen(rf"\b(?:set|put|leave|plant|turn)\s+{_REST}\bwrong(?:ly)?\b(?=\s*(?:[.,;:]|once|and\s|"
         r"before|on\s+purpose|for\s+the|$))"),
    seen(r"\b(?:leave|put|place|slip|lay|set|plant)\s+(?:\w+\s+){0,3}?(?:chips?|swarf|paper|shim|"
         r"strip)\s+(?:of\s+\w+\s+)?(?:under|behind|beneath|between)\b"),
    seen(rf"\b(?:clamp|seat)\s+{_REST}\bon\s+(?:a|one|some)\s+(?:\w+\s+)?chips?\b"),
    seen(r"\b(?:set|put|leave|plant|make)\s+(?:\w+\s+){0,2}?faults?\b(?!\s+(?:report|book|list))"),
    seen(r"\b(?:leave|put|keep|forget)\s+the\s+(?:chuck\s+)?key\s+(?:in\s+the\s+chuck|off\s+its\s+"
         r"hook|in\s+your\s+(?:hand|pocket))\b"),
    seen(r"\b(?:leave|set)\s+(?:\w+\s+){0,6}?(?:loose|unlocked|unclamped|slack|half\s+tight)"
         r"(?=\s*(?:[.,;:]|once|and\s|before|on\s+purpose|$))"),
    seen(rf"\b(?:put|lay|hang)\s+{_REST}\bin\s+the\s+place\s+of\s+(?:the|another)\b"),
)  # fmt: skip
_SHOWN = seen(
    r"\b(?:show|scrap|sample|training\s+(?:piece|card|table|block)|on\s+the\s+bench|among|let\s+the|"
    r"together|back\s+(?:to|in|on)|right\s+again)\b"
)
"""Shown openly, on scrap, or among samples to be sorted: nothing is set wrong at the machine."""


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each note that sets a fault outside `planted`."""
    for number, step in enumerate(case.job.steps):
        if step.trainer is not None and step.planted is None and fault_in(step.trainer):
            yield from case.practice(
                CODE,
                ("steps", number, "trainer"),
                f"the trainer sets something wrong here, and step '{step.id}' has no planted",
                "write it under planted, with what is put right again: it becomes a line to tick",
            )


def fault_in(text: str) -> bool:
    """True where a note has the trainer set something wrong at the machine."""
    return any(_sets_wrong(one) for one in sentences(text))


def _sets_wrong(sentence: str) -> bool:
    for pattern in _WRONG:
        match = pattern.search(sentence)
        if match is None or _SHOWN.search(sentence):
            continue
        if NOT_IN_NOTES.search(sentence[: match.start()]):
            continue
        return True
    return False


RULE = JobRule(check, (CODE,))
