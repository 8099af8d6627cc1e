"""The rule's plan made better by a solver, and bounds that no plan can fall below.

The solver answers by days (`by_days.py`, `solver.py`); the clock stays with the books: each answer
gives an order of lessons and a trainer for each, by which a plan is made as ever (`attempt.py`).
What ends later than the answer has it is put earlier, and tried again. A plan is only taken where
it is worth more (`worth.py`), so that no answer can break a rule or move what people were told.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from . import solver
from .attempt import Attempt, attempt
from .bounds import Least
from .by_days import DayQuestion, questions
from .lessons import Key
from .order import Work, in_order
from .setting import Setting
from .solver import Given, Goal, Limits
from .worth import Gap, last_closed, late_days, spread, value_of

EFFORT = 0.5
"""For one shift and one question, in the solver's counted seconds. House values, as are these:"""
MOST_PLACES = 6000
"""A question of more lessons, trainers and days is asked about a neighbourhood only."""
NEIGHBOURS, NEIGHBOURHOODS = 25, 4
"""Lessons that are moved at once in a large crew, and how many times that is tried."""
MOST_TRIES, MOST_TALKS = 6, 1000
"""Plans made of one answer; and those times talks, so that a large crew does not wait for long."""


@dataclass(slots=True)
class _Improving:
    setting: Setting
    cover: Sequence[Gap]
    best: Attempt
    least: Least

    def run(self) -> None:
        """What counts most first; each is asked where it is not proved to be the best already."""
        if last_closed(self.best, self.cover) > self.least.last_closed:
            found = self._bound(Goal.COVER)
            self.least = replace(self.least, last_closed=max(self.least.last_closed, found))
            if last_closed(self.best, self.cover) > self.least.last_closed:
                self._search(Goal.COVER)
        searched = False
        if self._late > self.least.late:
            self.least = replace(self.least, late=max(self.least.late, self._bound(Goal.LATE)))
            if self._late > self.least.late:
                self._search(Goal.TOTAL)
                searched = True
        if self._total > self.least.total_late:
            found = self._bound(Goal.TOTAL)
            self.least = replace(self.least, total_late=max(self.least.total_late, found))
            if self._total > self.least.total_late and not searched:
                self._search(Goal.TOTAL)
        if spread(self.best) > self.least.spread:
            self._share()

    @property
    def _late(self) -> int:
        return max(late_days(self.best).values(), default=0)

    @property
    def _total(self) -> int:
        return sum(late_days(self.best).values())

    @property
    def _limits(self) -> Limits:
        return Limits(last_closed(self.best, self.cover), self._late, self._total)

    def _bound(self, goal: Goal) -> int:
        """What no plan falls below, of all that are as good in what counts more.

        Nothing is asked about a shift that is too large; there only promised lessons are sure.
        """
        parts, found = _parts(self.best), []
        for question in questions(self.setting, self.best, self.cover):
            limits = self._limits_of(question)
            answer = None
            if _is_small(question, limits):
                answer = solver.ask(question, goal, limits, EFFORT, parts)
            found.append(answer.bound if answer else 0)
        return sum(found) if goal is Goal.TOTAL else max(found, default=0)

    def _limits_of(self, question: DayQuestion) -> Limits:
        """Of one shift, all lateness counts with its own lessons."""
        mine = set(question.works)
        total = sum(days for key, days in late_days(self.best).items() if key in mine)
        return replace(self._limits, total=total + sum(question.late))

    def _search(self, goal: Goal) -> None:
        """Make plans of the answers: about all lessons, in a large crew about those around one."""
        sizes = (
            _is_small(one, self._limits_of(one))
            for one in questions(self.setting, self.best, self.cover)
        )
        if all(sizes):
            for spare in (True, False):
                self._answer(goal, None, spare=spare)
            return
        tried: set[Key] = set()
        for _ in range(NEIGHBOURHOODS):
            free = self._around(tried)
            if not free:
                return
            self._answer(goal, free, spare=True)

    def _answer(self, goal: Goal, free: frozenset[Key] | None, *, spare: bool) -> None:
        parts, given = _parts(self.best), dict[Key, Given]()
        if free is not None:
            given = {key: _as_it_is(self.best, key) for key in self.best.given}
        for question in questions(self.setting, self.best, self.cover, spare=spare, free=free):
            limits = self._limits_of(question)
            if question.works and _is_small(question, limits):
                answer = solver.ask(question, goal, limits, EFFORT, parts)
                given |= answer.given if answer else {}
        if given:
            self._try(given, may_be_later=goal is Goal.COVER)

    def _around(self, tried: set[Key]) -> frozenset[Key]:
        """The latest lesson not tried before, and those given before it that are nearest."""
        made, late = self.best, late_days(self.best)
        mine = [key for key in sorted(late, key=lambda key: (-late[key], key)) if key not in tried]
        if not mine:
            return frozenset()
        tried.add(mine[0])
        shift, end = made.given[mine[0]][0].trainer.shift, made.given[mine[0]][-1].end
        same = [
            key for key, found in made.given.items()
            if found[0].trainer.shift == shift and found[0].begin <= end
        ]  # fmt: skip
        same.sort(key=lambda key: (end - made.given[key][-1].end, key))
        return frozenset((mine[0], *same[:NEIGHBOURS]))

    def _share(self) -> None:
        """As few lessons as can be go to another trainer, so that shares are even."""
        parts, given, bounds = _parts(self.best), dict[Key, Given](), []
        every = tuple(questions(self.setting, self.best, self.cover))
        for question in every:
            limits = self._limits_of(question)
            answer = solver.ask(question, Goal.SHARE, limits, EFFORT, parts)
            bounds.append(answer.bound if answer else 0)
            if answer is not None and answer.value is not None:
                limits = replace(limits, spread=answer.value)
                fewest = solver.ask(question, Goal.FEWEST, limits, EFFORT, parts)
                given |= (fewest or answer).given
        self.least = replace(self.least, spread=max(bounds, default=0))
        if spread(self.best) > self.least.spread and given:
            wanted = {
                key: replace(_as_it_is(self.best, key), trainer=one.trainer)
                for key, one in given.items()
            }
            self._try(wanted, may_be_later=False)
        if spread(self.best) > self.least.spread:
            limits = self._limits
            if all(_is_small(one, limits) for one in every):
                self._answer(Goal.SPREAD, None, spare=True)

    def _try(self, wanted: Mapping[Key, Given], *, may_be_later: bool) -> None:
        setting = self.setting
        trainers = {
            one.key: wanted[talk.key].trainer
            for talk in setting.talks
            if talk.key in wanted
            for one in talk.lessons
        }
        asked = replace(setting, given={**setting.given, **trainers})
        early = dict.fromkeys(wanted, 0)
        for _ in range(max(1, min(MOST_TRIES, MOST_TALKS // max(1, len(setting.talks))))):
            made = attempt(asked, _order(asked, wanted, early))
            late = max(late_days(made).values(), default=0)
            is_better = value_of(made, self.cover) < value_of(self.best, self.cover)
            if is_better and (may_be_later or late <= self._late):
                self.best = made
            over = {
                key: made.given[key][-1].day - one.last
                for key, one in wanted.items()
                if key in made.given and made.given[key][-1].day > one.last >= 0
            }
            if not over:
                break
            for key, days in over.items():
                early[key] += days


def improved(
    setting: Setting, best: Attempt, least: Least, cover: Sequence[Gap]
) -> tuple[Attempt, Least]:
    """A plan that is worth more, or the same one; and what is known of all plans."""
    found = _Improving(setting, cover, best, least)
    found.run()
    return found.best, found.least


def _is_small(question: DayQuestion, limits: Limits) -> bool:
    dues = (one.due for one in question.works.values() if one.due is not None)
    last = max(limits.closed, max(dues, default=0) + limits.late)
    return question.size(last) <= MOST_PLACES


def _as_it_is(made: Attempt, key: Key) -> Given:
    found = made.given[key]
    number = next(n for n, one in enumerate(made.setting.trainers) if one is found[-1].trainer)
    return Given(number, found[0].day, found[-1].day)


def _order(
    setting: Setting, wanted: Mapping[Key, Given], early: Mapping[Key, int]
) -> tuple[Key, ...]:
    """By the last day that the answer has for each; what it leaves aside comes after."""

    def rank(key: Key) -> tuple[float, ...]:
        one = wanted.get(key)
        if one is None or one.last < 0:
            return 1, setting.ranks[key], 0, 0
        return 0, one.last - early[key], one.first, setting.ranks[key]

    works = [Work(one.key, one.minutes, 0.0, one.needs) for one in setting.talks]
    order = in_order(works, {one.key: (rank(one.key), one.key) for one in setting.talks})
    there = set(order)
    return (*order, *(one.key for one in setting.talks if one.key not in there))


def _parts(made: Attempt) -> dict[Key, dict[tuple[int, int], int]]:
    """What a plan gives on which day, promised sessions apart."""
    return {key: dict(_by_day(made, key)) for key in made.given}


def _by_day(made: Attempt, key: Key) -> Iterator[tuple[tuple[int, int], int]]:
    places = {id(one): number for number, one in enumerate(made.setting.trainers)}
    kept = {id(one) for one in made.kept.lessons.get(key, ())}
    found: dict[tuple[int, int], int] = {}
    for one in made.given[key]:
        if id(one) not in kept:
            place = (places[id(one.trainer)], one.day)
            found[place] = found.get(place, 0) + one.minutes
    yield from found.items()
