"""V530 no trick on a learner, V531 a fault set on purpose is written as `planted`. House rules.

Narrow on purpose: samples to sort, questions, and a learner who works in silence are good teaching.
tests/validate/test_trainer_notes.py holds the sentences that the words were measured on.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from benchleaf.diagnose import Finding
from benchleaf.model import Step

from ..case import JobCase
from .sentence_length import sentences

_NOT = re.compile(r"\b(?:never|not|don't|nobody|no one|no|nothing|without|if|instead of)\b", re.I)


def _seen(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern, re.IGNORECASE)


_TRICKS = (
    (_seen(r"\bturn\s+away\b(?!\s+from\s+(?:the\s+)?(?:sparks?|dust|chips?|light|noise))"),
     "turns away"),
    (_seen(r"\b(?:with\s+)?(?:your|his|her|their|a)\s+backs?\s+(?:is\s+|are\s+)?turned\b|"
           r"\bturn\s+(?:your|the|their)\s+backs?\b|\bwith\s+(?:your|their)\s+backs?\s+to\s+the\s+"
           r"(?:learner|drill|machine|grinder|spindle|wheel)\b"),
     "turns the back"),
    (_seen(r"\blook\s+(?:the\s+other\s+way|away(?!\s+from\s+[^.;]*\bto\b))\b"), "looks away"),
    (_seen(r"(?:^|[,;:]\s+|\b(?:and|then|you|to|trainer)\s+)hide\s+(?!nothing\b|no\b)\w+"),
     "hides something"),
    (_seen(r"\bhidden\s+(?:by\s+the\s+trainer|by\s+you|before\s+the\s+lesson)\b"),
     "hides something"),
    (_seen(r"\bpretend\b|\bas\s+if\s+you\s+(?:were|are|had|did)\b|\bact\s+as\s+if\b"), "pretends"),
    (_seen(r"\b(?:unseen|unnoticed)\b|\bbehind\s+(?:the\s+learner's|their|his|her)\s+back\b|"
           r"\bwhile\s+(?:the\s+learner|they|nobody)\s+(?:is\s+not\s+looking|are\s+not\s+looking|"
           r"looks?\s+away|is\s+looking)\b"),
     "does something unseen"),
)  # fmt: skip
_SILENT = _seen(
    r"\bwithout\s+(?:a\s+word|a\s+warning|warning|telling|saying|being\s+told)\b|"
    r"\bsay(?:ing)?\s+nothing\b|\btell\s+(?:nobody|no\s+one)\b|\b(?:keep|stay)\s+(?:quiet|silent)\b|"
    r"\b(?:do\s+not|don't|never)\s+(?:tell|warn)\s+(?:the\s+learner|them)\b(?!\s+(?:which|what|how))"
)
_SETS = (
    r"(?:set|turn|leave|plant|put|lay|slip|place|loosen|slacken|hang|move|swap|keep|clamp|fit|unplug|"
    r"take\s+off|remove|open|raise|shift|push)"
)
_PLANTS = _seen(rf"(?:^|[,;:]\s+|\b(?:and|then|you|trainer)\s+)(?:once,?\s+)?{_SETS}\b")
_DANGER = _seen(
    r"\b(?:chuck\s+key|key\s+in\s+the\s+chuck|loose|loosen|slacken|oily|rags?|guard|wrong|isolator|"
    r"interlock|belt|emergency\s+stop|cracked?|unclamped|overhang|gap|chip|wheel|start)\b"
)
_REST = r"(?:[^.;:]|\.\d)*?"
"""The rest of a sentence, as far as wanted; a decimal point does not end it."""
_WRONG = (
    _seen(rf"\b(?:set|turn|leave|put|plant|hang|move|fit)\s+{_REST}\b(?:to|on|in|at|by)\s+"
          r"(?:a|an|the|its|one)\s+wrong\s+\w+"),
    _seen(rf"\b(?:set|put|leave|plant|turn)\s+{_REST}\bwrong(?:ly)?\b(?=\s*(?:[.,;:]|once|and\s|"
          r"before|on\s+purpose|for\s+the|$))"),
    _seen(r"\b(?:leave|put|place|slip|lay|set|plant)\s+(?:\w+\s+){0,3}?(?:chips?|swarf|paper|shim|"
          r"strip)\s+(?:of\s+\w+\s+)?(?:under|behind|beneath|between)\b"),
    _seen(rf"\b(?:clamp|seat)\s+{_REST}\bon\s+(?:a|one|some)\s+(?:\w+\s+)?chips?\b"),
    _seen(r"\b(?:set|put|leave|plant|make)\s+(?:\w+\s+){0,2}?faults?\b(?!\s+(?:report|book|list))"),
    _seen(r"\b(?:leave|put|keep|forget)\s+the\s+(?:chuck\s+)?key\s+(?:in\s+the\s+chuck|off\s+its\s+"
          r"hook|in\s+your\s+(?:hand|pocket))\b"),
    _seen(r"\b(?:leave|set)\s+(?:\w+\s+){0,6}?(?:loose|unlocked|unclamped|slack|half\s+tight)"
          r"(?=\s*(?:[.,;:]|once|and\s|before|on\s+purpose|$))"),
    _seen(rf"\b(?:put|lay|hang)\s+{_REST}\bin\s+the\s+place\s+of\s+(?:the|another)\b"),
)  # fmt: skip
_SHOWN = _seen(
    r"\b(?:show|scrap|sample|training\s+(?:piece|card|table|block)|on\s+the\s+bench|among|let\s+the|"
    r"together|back\s+(?:to|in|on)|right\s+again)\b"
)
"""Shown openly, on scrap, or among samples to be sorted: nothing is set wrong at the machine."""


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each note that tricks, or sets a fault outside `planted`."""
    for number, step in enumerate(case.job.steps):
        for key, text in _notes(step):
            yield from _tricks(case, ("steps", number, *key), text)
        if step.trainer is not None and step.planted is None:
            yield from _unwritten(case, number, step.trainer)


def _notes(step: Step) -> Iterator[tuple[tuple[str, ...], str]]:
    if step.trainer is not None:
        yield ("trainer",), step.trainer
    if step.planted is not None:
        yield ("planted", "what"), step.planted.what


def _tricks(case: JobCase, path: tuple[str | int, ...], text: str) -> Iterator[Finding]:
    found = trick_in(text, is_planted=path[-1] == "what")
    if found:
        yield from case.practice(
            "V530",
            path,
            f"the trainer {found} here: a trick on the learner",
            "stand in reach of the stop, say beforehand that one thing will be wrong, and write it "
            "under planted",
        )


def trick_in(text: str, *, is_planted: bool = False) -> str:
    """What the trainer does there that is a trick; empty where nothing is."""
    every = sentences(text)
    for one in every:
        for pattern, what in _TRICKS:
            match = pattern.search(one)
            if match is not None and not _NOT.search(one[: match.start()]):
                return what
    pairs = [f"{one} {after}" for one, after in zip(every, [*every[1:], ""], strict=True)]
    if any(_SILENT.search(pair) and (is_planted or _sets_danger(pair)) for pair in pairs):
        return "says nothing while a danger stands"
    return ""


def _sets_danger(text: str) -> bool:
    return any(_PLANTS.search(one) and _DANGER.search(one) for one in sentences(text))


def _unwritten(case: JobCase, number: int, text: str) -> Iterator[Finding]:
    if fault_in(text):
        yield from case.practice(
            "V531",
            ("steps", number, "trainer"),
            f"the trainer sets something wrong here, and step '{case.job.steps[number].id}' has no "
            "planted",
            "write it under planted, with what is put right again: it becomes a line to tick",
        )


def fault_in(text: str) -> bool:
    """True where a note has the trainer set something wrong at the machine."""
    return any(_sets_wrong(one) for one in sentences(text))


def _sets_wrong(sentence: str) -> bool:
    for pattern in _WRONG:
        match = pattern.search(sentence)
        if match is None or _SHOWN.search(sentence) or _NOT.search(sentence[: match.start()]):
            continue
        return True
    return False
