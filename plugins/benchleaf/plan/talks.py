"""Lessons that are given together: one talk of what changed in a job serves several people.

A talk is of one job and of what changed since one revision; the trainer tells it once, and each of
the people does it once and explains it back. They wait for the same lessons of the same trainers,
so that nobody is held up by another.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from .lessons import Key, Lesson

Teller = tuple[str, str]
"""The job of a talk, and the revision since which it tells what changed."""


@dataclass(frozen=True, slots=True)
class Talk:
    """What a trainer gives in one: a lesson, or one talk for several people."""

    lessons: tuple[Lesson, ...]
    needs: tuple[Key, ...]
    """The talks that must be over before."""

    @property
    def key(self) -> Key:
        """The person who stands first, and the job."""
        return self.lessons[0].key

    @property
    def minutes(self) -> float:
        """The trainer's time: the talk once, and what each person alone asks for."""
        first, *others = self.lessons
        return first.minutes + sum(one.own_minutes for one in others)

    @property
    def due(self) -> date | None:
        """The first of their last days."""
        return min((one.due for one in self.lessons if one.due is not None), default=None)

    @property
    def opens(self) -> date | None:
        """The first day on which it may begin; None where any day will do."""
        return max((one.opens for one in self.lessons if one.opens is not None), default=None)

    @property
    def people(self) -> tuple[str, ...]:
        """The codes of those whom one talk serves; empty for a lesson of one person."""
        is_one = len(self.lessons) == 1
        return () if is_one else tuple(one.person.id for one in self.lessons)


def talks(
    lessons: Sequence[Lesson], given: Mapping[Key, int], apart: Mapping[Key, object] | None = None
) -> tuple[Talk, ...]:
    """The lessons that some trainer gives, in talks; `given` is which one gives each.

    Only those for whom `apart` says the same hear one together: who was told of a talk keeps it,
    and nobody waits for somebody who is away.
    """
    apart = apart or {}
    by_key = {one.key: one for one in lessons if one.key in given}
    groups: dict[object, list[Lesson]] = {}
    for one in by_key.values():
        is_one = _is_sure(one, by_key)
        same = (_together(one, given), apart.get(one.key)) if is_one else one.key
        groups.setdefault(same, []).append(one)
    lead = {one.key: found[0].key for found in groups.values() for one in found}
    return tuple(
        Talk(
            tuple(found),
            tuple(dict.fromkeys(lead.get(need, need) for one in found for need in _needs(one))),
        )
        for found in groups.values()
    )


def teller(lesson: Lesson) -> Teller:
    """What a talk for this lesson tells."""
    return lesson.job.id, lesson.talk


def _together(lesson: Lesson, given: Mapping[Key, int]) -> object:
    """Lessons for which this is the same are one talk."""
    if not lesson.talk:
        return lesson.key
    before = tuple((job, given[person, job]) for person, job in _needs(lesson))
    return given[lesson.key], teller(lesson), before


def _is_sure(lesson: Lesson, by_key: Mapping[Key, Lesson]) -> bool:
    """True where all that must come before is given by somebody."""
    return all(need in by_key and _is_sure(by_key[need], by_key) for need in _needs(lesson))


def _needs(lesson: Lesson) -> tuple[Key, ...]:
    return tuple((lesson.person.id, job_id) for job_id in lesson.needs)
