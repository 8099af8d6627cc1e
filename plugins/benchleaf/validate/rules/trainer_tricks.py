"""V530: no trick is played on a learner. A house rule.

Narrow on purpose: samples to sort, questions, and a learner who works in silence are good teaching.
tests/validate/test_trainer_notes.py holds the sentences that the words were measured on.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Code, Finding, Sample
from benchleaf.model import Step

from ..case import JobCase
from ..rule import JobRule
from .sentence_length import sentences
from .wording import NOT_IN_NOTES, seen

CODE = Code(
    "V530",
    "A trainer's note plays a trick on the learner",
    why=(
        "House rule. Who is tricked at a machine learns to watch the trainer, not the work; and a "
        "trainer who turns away or says nothing cannot stop what he has set up."
    ),
    instead=(
        "Stand in reach of the stop, say beforehand that one thing will be wrong, and write it "
        "under `planted`."
    ),
    bad=(
        Sample(
            """
            # The trainer turns away.
            - file: jobs/vg-0010.yml
              find: Let the learner push against the plate.
              put: Turn away while the learner looks for the key.
            """,
            """
            content/jobs/vg-0010.yml:68:14: warning V530 the trainer turns away here: a
                    trick on the learner
                stand in reach of the stop, say beforehand that one thing will be wrong, and
                    write it under planted
                where it does not fit this job: accept: [{code: V530, reason: ...}]
            """,
        ),
        Sample(
            """
            # A planted fault, and nobody is told.
            - file: jobs/vg-0010.yml
              find: |2
                    trainer: Let the learner push against the plate.
              put: |2
                    trainer: Let the learner push against the plate.
                    planted:
                      what: The chuck key stays in the chuck, without a word to the learner.
                      put_right: Hang the key on its hook.
            """,
            """
            content/jobs/vg-0010.yml:70:13: warning V530 the trainer says nothing while a
                    danger stands here: a trick on the learner
                stand in reach of the stop, say beforehand that one thing will be wrong, and
                    write it under planted
                where it does not fit this job: accept: [{code: V530, reason: ...}]
            """,
        ),
    ),
    good="""
        # The fault is planted, and the page says what the trainer does.
        - file: jobs/vg-0010.yml
          find: |2
                trainer: Let the learner push against the plate.
          put: |2
                trainer: Let the learner push against the plate.
                planted:
                  what: The plate lies on one parallel only.
                  put_right: Clamp the plate anew on both parallels, together.
    """,
)

_TRICKS = (
    (seen(r"\bturn\s+away\b(?!\s+from\s+(?:the\s+)?(?:sparks?|dust|chips?|light|noise))"),
     "turns away"),
    (seen(r"\b(?:with\s+)?(?:your|his|her|their|a)\s+backs?\s+(?:is\s+|are\s+)?turned\b|"
          r"\bturn\s+(?:your|the|their)\s+backs?\b|\bwith\s+(?:your|their)\s+backs?\s+to\s+the\s+"
          r"(?:learner|drill|machine|grinder|spindle|wheel)\b"),
     "turns the back"),
    (seen(r"\blook\s+(?:the\s+other\s+way|away(?!\s+from\s+[^.;]*\bto\b))\b"), "looks away"),
    (seen(r"(?:^|[,;:]\s+|\b(?:and|then|you|to|trainer)\s+)hide\s+(?!nothing\b|no\b)\w+"),
     "hides something"),
    (seen(r"\bhidden\s+(?:by\s+the\s+trainer|by\s+you|before\s+the\s+lesson)\b"),
     "hides something"),
    (seen(r"\bpretend\b|\bas\s+if\s+you\s+(?:were|are|had|did)\b|\bact\s+as\s+if\b"), "pretends"),
    (seen(r"\b(?:unseen|unnoticed)\b|\bbehind\s+(?:the\s+learner's|their|his|her)\s+back\b|"
          r"\bwhile\s+(?:the\s+learner|they|nobody)\s+(?:is\s+not\s+looking|are\s+not\s+looking|"
          r"looks?\s+away|is\s+looking)\b"),
     "does something unseen"),
)  # fmt: skip
_SILENT = seen(
    r"\bwithout\s+(?:a\s+word|a\s+warning|warning|telling|saying|being\s+told)\b|"
    r"\bsay(?:ing)?\s+nothing\b|\btell\s+(?:nobody|no\s+one)\b|\b(?:keep|stay)\s+(?:quiet|silent)\b|"
    r"\b(?:do\s+not|don't|never)\s+(?:tell|warn)\s+(?:the\s+learner|them)\b(?!\s+(?:which|what|how))"
)
_SETS = (
    r"(?:set|turn|leave|plant|put|lay|slip|place|loosen|slacken|hang|move|swap|keep|clamp|fit|unplug|"
    r"take\s+off|remove|open|raise|shift|push)"
)
_PLANTS = seen(rf"(?:^|[,;:]\s+|\b(?:and|then|you|trainer)\s+)(?:once,?\s+)?{_SETS}\b")
_DANGER = seen(
    r"\b(?:chuck\s+key|key\s+in\s+the\s+chuck|loose|loosen|slacken|oily|rags?|guard|wrong|isolator|"
    r"interlock|belt|emergency\s+stop|cracked?|unclamped|overhang|gap|chip|wheel|start)\b"
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each note that tricks the learner."""
    for number, step in enumerate(case.job.steps):
        for key, text in _notes(step):
            yield from _tricks(case, ("steps", number, *key), text)


def _notes(step: Step) -> Iterator[tuple[tuple[str, ...], str]]:
    if step.trainer is not None:
        yield ("trainer",), step.trainer
    if step.planted is not None:
        yield ("planted", "what"), step.planted.what


def _tricks(case: JobCase, path: tuple[str | int, ...], text: str) -> Iterator[Finding]:
    found = trick_in(text, is_planted=path[-1] == "what")
    if found:
        yield from case.practice(
            CODE,
            path,
            f"the trainer {found} here: a trick on the learner",
            "stand in reach of the stop, say" * case.is_driven
            + "say" * (not case.is_driven)
            + " beforehand that one thing will be wrong, and write it under planted",
        )


def trick_in(text: str, *, is_planted: bool = False) -> str:
    """What the trainer does there that is a trick; empty where nothing is."""
    every = sentences(text)
    for one in every:
        for pattern, what in _TRICKS:
            match = pattern.search(one)
            if match is not None and not NOT_IN_NOTES.search(one[: match.start()]):
                return what
    pairs = [f"{one} {after}" for one, after in zip(every, [*every[1:], ""], strict=True)]
    if any(_SILENT.search(pair) and (is_planted or _sets_danger(pair)) for pair in pairs):
        return "says nothing while a danger stands"
    return ""


def _sets_danger(text: str) -> bool:
    return any(_PLANTS.search(one) and _DANGER.search(one) for one in sentences(text))


RULE = JobRule(check, (CODE,))
