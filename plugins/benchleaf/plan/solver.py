"""A question by days put to a general-purpose constraint solver, where one is installed.

OR-Tools CP-SAT (Apache-2.0, the extra `plan`). It runs on two threads in turns and ends by counted
work, not by the clock: the same question has the same answer on a fast and on a slow computer. What
it proves is a bound, whether or not it finds the best answer.
"""

from __future__ import annotations

import importlib.util
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import Enum, auto
from typing import Any

from .by_days import DayGap, DayQuestion, DayWork
from .lessons import Key

LIBRARY = "ortools"
SEED = 1


class Goal(Enum):
    """What is to be least."""

    COVER = auto()
    """The last day on which cover is missed."""
    LATE = auto()
    """The greatest lateness, in days."""
    TOTAL = auto()
    """All lateness together, in days."""
    SHARE = auto()
    """How unevenly lessons are shared, in minutes; days are left aside."""
    FEWEST = auto()
    """How many lessons change their trainer, for shares no less even than asked."""
    SPREAD = auto()
    """How unevenly lessons are shared, with days."""


@dataclass(frozen=True, slots=True)
class Limits:
    """What an answer must be no worse than."""

    closed: int
    late: int
    total: int
    spread: int = 0


@dataclass(frozen=True, slots=True)
class Given:
    """Where a talk is put."""

    trainer: int
    first: int
    last: int


Parts = Mapping[Key, Mapping[tuple[int, int], int]]
"""Minutes of each talk by trainer and day."""


@dataclass(frozen=True, slots=True)
class DayAnswer:
    """The best answer found, and what none can fall below."""

    bound: int
    value: int | None
    """None where no answer was found."""
    given: Mapping[Key, Given]


def is_there() -> bool:
    """True where the solver is installed. It is not loaded for that."""
    return importlib.util.find_spec(LIBRARY) is not None


def ask(
    question: DayQuestion, goal: Goal, limits: Limits, effort: float, known: Parts
) -> DayAnswer | None:
    """Ask; `known` is an answer to begin with. None where nothing is known of the bound.

    `effort` is the most work, in the solver's own seconds, which are counted and not measured.
    """
    from ortools.sat.python import cp_model

    asked = _Asked(cp_model.CpModel(), question, goal, limits)
    asked.put(known)
    solver = cp_model.CpSolver()
    solver.parameters.max_deterministic_time = effort
    solver.parameters.random_seed = SEED
    solver.parameters.num_workers = 2
    solver.parameters.interleave_search = True
    status = solver.solve(asked.model)
    if status in (cp_model.INFEASIBLE, cp_model.MODEL_INVALID):
        return None
    bound = max(0, round(solver.best_objective_bound))
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return DayAnswer(bound, None, {})
    return DayAnswer(bound, round(solver.objective_value), dict(asked.read(solver)))


@dataclass(slots=True)
class _Asked:
    """The question as the solver's model."""

    model: Any
    question: DayQuestion
    goal: Goal
    limits: Limits
    last: dict[Key, int] = field(default_factory=dict)
    """The last day on which each talk that is asked for may end."""
    is_given: dict[Key, Any] = field(default_factory=dict)
    by: dict[tuple[Key, int], Any] = field(default_factory=dict)
    """Whether a trainer gives a talk."""
    on: dict[tuple[Key, int, int], Any] = field(default_factory=dict)
    """Whether they do on a day."""
    minutes: dict[tuple[Key, int, int], Any] = field(default_factory=dict)
    ends: dict[Key, dict[int, Any]] = field(default_factory=dict)
    """Whether a talk ends on a day."""

    def put(self, known: Parts) -> None:
        """Everything that is asked."""
        works = self.question.works
        if self.goal in (Goal.SHARE, Goal.FEWEST):
            for key, work in works.items():
                self._trainers(key, work, 1)
            most = self._share()
            if self.goal is Goal.FEWEST:
                self.model.add(most <= self.limits.spread)
                self.model.minimize(sum(self._changed(known)))
        else:
            self.last = dict(self._lasts())
            for key in self.last:
                self._talk(works[key])
            self._wait()
            self._rooms()
            self._closed()
            self._goal()
        self._begin_with(known)

    def _lasts(self) -> Iterator[tuple[Key, int]]:
        """Those asked for: with a last day, or that close cover; and what they wait for."""
        works, found = self.question.works, dict[Key, int]()
        for key, work in works.items():
            if self._must(work):
                assert work.due is not None
                found[key] = work.due + self.limits.late
            elif any(key in gap.keys for gap in self.question.gaps):
                found[key] = self.limits.closed
        waiting = list(found)
        while waiting:
            key = waiting.pop()
            for need in works[key].needs:
                if not self._must(works[need]) and found.get(need, -1) < found[key]:
                    found[need] = found[key]
                    waiting.append(need)
        yield from found.items()

    def _must(self, work: DayWork) -> bool:
        return self.goal is not Goal.COVER and work.due is not None

    def _trainers(self, key: Key, work: DayWork, given: Any) -> None:
        numbers = sorted({number for number, _ in work.days})
        for number in numbers:
            self.by[key, number] = self.model.new_bool_var("")
        self.model.add(sum(self.by[key, number] for number in numbers) == given)

    def _talk(self, work: DayWork) -> None:
        key, model, last = work.key, self.model, self.last[work.key]
        given = 1 if self._must(work) else model.new_bool_var("")
        self.is_given[key] = given
        self._trainers(key, work, given)
        for (number, day), most in work.days.items():
            if day <= last:
                on = self.on[key, number, day] = model.new_bool_var("")
                most = min(most, work.minutes)
                part = self.minutes[key, number, day] = model.new_int_var(0, most, "")
                model.add(part <= most * on)
                model.add(part >= min(work.least, most) * on)
                model.add_implication(on, self.by[key, number])
        mine = [(place, part) for place, part in self.minutes.items() if place[0] == key]
        model.add(sum(part for _, part in mine) == work.minutes * given)
        days = work.ends(last)
        ends = self.ends[key] = {day: model.new_bool_var("") for day in days}
        model.add(sum(ends.values()) == given)
        for day in days:
            on_it = [self.on[place] for place, _ in mine if place[2] == day]
            if day != work.kept_day:
                model.add(ends[day] <= sum(on_it))
        for place, _ in mine:
            later = [end for day, end in ends.items() if day >= place[2]]
            model.add(self.on[place] <= sum(later))

    def _wait(self) -> None:
        """What waits begins no day earlier than what it waits for ends."""
        for (key, _, day), on in self.on.items():
            for need in self.question.works[key].needs:
                if need in self.ends:
                    over = [end for at, end in self.ends[need].items() if at <= day]
                    self.model.add(on <= sum(over))

    def _rooms(self) -> None:
        wanted: dict[Any, list[Any]] = {}
        for (key, number, day), part in self.minutes.items():
            for place in (("trainer", number), *self.question.works[key].uses):
                wanted.setdefault((place, day), []).append(part)
        for where, parts in wanted.items():
            self.model.add(sum(parts) <= self.question.room[where])

    def _over(self, gap: DayGap, day: int) -> list[Any]:
        """What of a gap has ended by a day; promised lessons count as they stand."""
        return [
            end for key in gap.keys for at, end in self.ends.get(key, {}).items() if at <= day
        ]  # fmt: skip

    def _closed(self) -> None:
        for gap in self.question.gaps:
            still = gap.missing - sum(day <= self.limits.closed for day in gap.kept)
            if still > 0:
                self.model.add(sum(self._over(gap, self.limits.closed)) >= still)

    def _goal(self) -> None:
        model, limits = self.model, self.limits
        if self.goal is Goal.COVER:
            closed = model.new_int_var(0, max(0, limits.closed), "")
            for gap in self.question.gaps:
                for day in range(limits.closed):
                    still = gap.missing - sum(at <= day for at in gap.kept)
                    if still > 0:
                        is_later = model.new_bool_var("")
                        model.add(sum(self._over(gap, day)) + still * is_later >= still)
                        model.add(closed >= (day + 1) * is_later)
            model.minimize(closed)
            return
        late = dict(self._late())
        if self.goal is Goal.LATE:
            greatest = model.new_int_var(max(self.question.late, default=0), limits.late, "")
            for one in late.values():
                model.add(greatest >= one)
            model.minimize(greatest)
            return
        total = sum(late.values()) + sum(self.question.late)
        if self.goal is Goal.TOTAL:
            model.minimize(total)
            return
        model.add(total <= limits.total)
        for key, work in self.question.works.items():
            if key not in self.last:
                self._trainers(key, work, 1)
        self._share()

    def _late(self) -> Iterator[tuple[Key, Any]]:
        for key, ends in self.ends.items():
            due = self.question.works[key].due
            if due is not None:
                days = [(day - due, end) for day, end in ends.items() if day > due]
                yield key, sum(late * end for late, end in days)

    def _changed(self, known: Parts) -> Iterator[Any]:
        for (key, number), by in self.by.items():
            if any(each[0] == number for each in known.get(key, {})):
                yield 1 - by

    def _share(self) -> Any:
        """As `worth.uneven` reckons it, all in the minutes of all hours together."""
        question, every = self.question, sum(self.question.hours.values())
        total = sum(question.loads.values())
        total += sum(one.minutes for one in question.works.values())
        most = self.model.new_int_var(0, max(1, total), "")
        for number, hours in question.hours.items():
            mine = question.loads[number] + sum(
                one.minutes * self.by[key, number]
                for key, one in question.works.items()
                if (key, number) in self.by
            )
            self.model.add(most * every >= mine * every - hours * total)
        self._keep_trainers()
        self.model.minimize(most)
        return most

    def _keep_trainers(self) -> None:
        """A learner keeps the trainer of their record, and one trainer for what one gives now."""
        first: dict[tuple[str, int], Key] = {}
        for key, work in self.question.works.items():
            numbers = [number for each, number in self.by if each == key]
            if work.is_asked:
                self.model.add(self.by[key, work.with_trainer] == 1)
            mate = first.setdefault(work.learner, key)
            every = {*numbers, *(number for each, number in self.by if each == mate)}
            for number in every if mate != key else ():
                mine, other = self.by.get((key, number), 0), self.by.get((mate, number), 0)
                if not (isinstance(mine, int) and isinstance(other, int)):
                    self.model.add(mine == other)

    def _begin_with(self, known: Parts) -> None:
        for (key, number), by in self.by.items():
            self.model.add_hint(by, any(each[0] == number for each in known.get(key, {})))
        for (key, number, day), part in self.minutes.items():
            minutes = known.get(key, {}).get((number, day), 0)
            self.model.add_hint(part, minutes)
            self.model.add_hint(self.on[key, number, day], minutes > 0)
        for key, ends in self.ends.items():
            days = [day for _, day in known.get(key, {})]
            last = max((*days, self.question.works[key].kept_day))
            for day, end in ends.items():
                self.model.add_hint(end, day == last)

    def read(self, solver: Any) -> Iterator[tuple[Key, Given]]:
        """Each talk that is put somewhere."""
        for (key, number), by in self.by.items():
            if solver.boolean_value(by):
                days = [
                    day for (one, _, day), on in self.on.items()
                    if one == key and solver.boolean_value(on)
                ]  # fmt: skip
                yield key, Given(number, min(days, default=-1), max(days, default=-1))
