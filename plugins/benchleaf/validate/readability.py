"""How hard a text reads, by the published formulas, and how much there is to teach. No gate.

The formulas count words, sentences and syllables. Part numbers, units and single sentences break
them, and the navy's own writers later advised against them (Kern 1979, Duffy 1985): so a figure
here only says where to look first.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from benchleaf.model import Job, KeyPointKind, Shop, Step, texts

from .rules.sentence_length import sentences

_WORD = re.compile(r"[A-Za-z]+(?:['’][A-Za-z]+)?")
_VOWELS = re.compile(r"[aeiouy]+")


@dataclass(frozen=True, slots=True)
class Readability:
    """Counts of a text, and the two published figures."""

    words: int
    sentences: int
    syllables: int

    @property
    def grade(self) -> float:
        """Flesch-Kincaid grade: 0.39 words/sentence + 11.8 syllables/word - 15.59 (1975)."""
        return 0.39 * self.words / self.sentences + 11.8 * self.syllables / self.words - 15.59

    @property
    def ease(self) -> float:
        """Flesch reading ease: 206.835 - 1.015 words/sentence - 84.6 syllables/word."""
        return 206.835 - 1.015 * self.words / self.sentences - 84.6 * self.syllables / self.words


def readability_of(found: Iterable[str]) -> Readability | None:
    """The counts of some texts together; None where they hold no word."""
    every = [one for text in found for one in sentences(text) if _WORD.search(one)]
    words = [word for one in every for word in _WORD.findall(one)]
    if not words:
        return None
    return Readability(len(words), len(every), sum(syllables(word) for word in words))


def syllables(word: str) -> int:
    """Syllables of an English word, by its groups of vowels: right for most, at least 1.

    >>> [syllables(word) for word in ("drill", "table", "machine", "operator", "clamped")]
    [1, 2, 2, 4, 1]
    """
    lowered = word.lower().replace("’", "'").removesuffix("'s")
    groups = len(_VOWELS.findall(lowered))
    if re.search(r"[^aeiouy]e$|[^aeiouytd]ed$|[^aeiouyscxzhg]es$", lowered) and not re.search(
        r"[^aeiouy]le$|[^aeiouy]les$", lowered
    ):
        groups -= 1
    groups += len(re.findall(r"i[ao](?!u)|eo(?!u)|ua(?!r)|[^q]uou", lowered)) - len(
        re.findall(r"[tsc]i[ao]|lian", lowered)
    )
    return max(groups, 1)


@dataclass(frozen=True, slots=True)
class Teachable:
    """How much there is to teach in some steps: counts of steps and key points."""

    steps: int
    points: tuple[int, ...]
    """Key points of each step."""
    kinds: tuple[int, ...]
    """Key points of each kind, in the order of the three tests."""

    @classmethod
    def of(cls, steps: Sequence[Step]) -> Teachable:
        """The counts of these steps."""
        kinds = Counter(one.kind for step in steps for one in step.key_points)
        points = tuple(len(step.key_points) for step in steps)
        return cls(len(steps), points, tuple(kinds[kind] for kind in KeyPointKind))

    @property
    def cells(self) -> str:
        """The counts as the right half of a line."""
        least, most = min(self.points), max(self.points)
        spread = f"{least}" if least == most else f"{least} to {most}"
        counts = "".join(f"{count:9d}" for count in self.kinds)
        return f"{self.steps:6d} {sum(self.points):7d} {spread:>8}{counts}"


def readability_lines(shop: Shop) -> Iterator[str]:
    """One line a job, the hardest first, and one of all together."""
    found = [(job, readability_of(_prose(job))) for job in shop.jobs.values()]
    known = [(job, one) for job, one in found if one is not None]
    yield (
        "job        grade   ease   words  a sentence  steps  points   a step   breaks  injures"
        "   easier"
    )
    for job, one in sorted(known, key=lambda pair: -pair[1].grade):
        yield f"{job.id.upper():<10} {_reading(one)}{Teachable.of(job.steps).cells}"
    every = readability_of(text for job, _ in known for text in _prose(job))
    if every is not None:
        steps = [step for job, _ in known for step in job.steps]
        yield f"{f'all {len(known)}':<10} {_reading(every)}{Teachable.of(steps).cells}"
    yield "Flesch-Kincaid grade and Flesch reading ease, US Navy 1975. A report, no rule:"
    yield "part numbers and units disturb it, and a good text may have a high grade."
    yield "Key points: how many a step has; makes or breaks the job, can injure, makes it easier."


def _reading(one: Readability) -> str:
    mean = one.words / one.sentences
    return f"{one.grade:5.1f} {one.ease:6.1f} {one.words:7d} {mean:11.1f} "


def _prose(job: Job) -> Iterator[str]:
    yield from (step.title for step in job.steps)
    yield from (re.sub(r"\[\[[^\]]*\]\]", "", text) for _, text in texts(job))
