"""An independent reader of plans: what the records forbid and the plan does all the same.

It reads the records and the plan that came out, and takes nothing from `benchleaf.plan` but the
plan. Everything is put on the clock anew: shifts, breaks, absences, who is where, how stations
stand.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import pairwise

from benchleaf.compute import set_up_sheets
from benchleaf.model import Absence, Job, Person, Shift, Trainer, stations_of
from benchleaf.plan import LessonKind, Timetable

Times = tuple[datetime, datetime]


@dataclass(frozen=True)
class Meeting:
    """A session of a lesson, or a check."""

    job: Job
    trainer: Trainer
    people: tuple[Person, ...]
    day: date
    begin: datetime
    end: datetime
    change: int
    is_check: bool

    @property
    def change_begins(self) -> datetime:
        return self.begin - timedelta(minutes=self.change)

    def __str__(self) -> str:
        codes = ", ".join(one.id for one in self.people)
        what = "check" if self.is_check else "lesson"
        return f"{what} {self.job.id} {self.trainer.id} with {codes} {self.begin:%d %b %H:%M}"


def meetings(plan: Timetable) -> list[Meeting]:
    """Everything that a plan books, each talk once."""
    crew, jobs = plan.situation.crew, plan.situation.shop.jobs
    found = [
        Meeting(one.lesson.job, one.trainer, tuple(crew.people[code] for code in one.people),
                each.day, each.begin, each.end, each.change_minutes, False)
        for one in plan.schedule.planned if one.leads
        for each in one.sessions
    ]  # fmt: skip
    for one in plan.schedule.checks:
        person = crew.people[one.person]
        trainer = next(each for each in crew.facts.trainers
                       if (each.id, each.shift) == (one.trainer, person.shift))  # fmt: skip
        at = one.session
        found.append(Meeting(jobs[one.job], trainer, (person,), at.day, at.begin, at.end,
                             at.change_minutes, True))  # fmt: skip
    return sorted(found, key=lambda one: one.begin)


def faults(plan: Timetable) -> list[str]:
    """Everything that a plan does against the records, in words."""
    every = meetings(plan)
    return [
        *_there(plan, every), *_twice(every), *_set_ups(plan, every), *_hours(every),
        *_lessons(plan), *_pieces(plan), *_checks(plan), *_on_record(plan, every),
    ]  # fmt: skip


def _window(shift: Shift, day: date) -> Times:
    begin = datetime.combine(day, shift.starts)
    return begin, begin + timedelta(seconds=shift.hours.value)


def _breaks(shift: Shift, day: date) -> Iterator[Times]:
    begin, end = _window(shift, day)
    if shift.breaks_at:
        for one in shift.breaks_at:
            at = datetime.combine(day, one.starts)
            at += timedelta(days=at < begin)
            yield at, at + timedelta(seconds=one.lasts.value)
    elif shift.breaks is not None:
        lasts = timedelta(seconds=shift.breaks.value)
        rest = int((end - begin - lasts).total_seconds() // 60)
        at = begin + timedelta(minutes=rest // 10 * 5)
        yield at, at + lasts


def _away(absence: Absence, shift: Shift, day: date) -> Iterator[Times]:
    """On whichever of the two dates of a shift the hours lie."""
    if not absence.first <= day <= (absence.last or absence.first):
        return
    begin, end = _window(shift, day)
    minute = begin
    gone = None
    while minute < end:  # minute by minute: slow, and nothing can be got wrong
        if _is_away(absence, (begin, end), minute):
            gone = gone or minute
        elif gone is not None:
            yield gone, minute
            gone = None
        minute += timedelta(minutes=1)
    if gone is not None:
        yield gone, end


def _is_away(absence: Absence, window: Times, now: datetime) -> bool:
    """One time alone counts on the date of the shift, or past midnight where the shift lasts on."""
    clock, (begin, end) = now.time(), window
    if absence.starts is not None and absence.ends is not None:
        if absence.starts < absence.ends:
            return absence.starts <= clock < absence.ends
        return clock >= absence.starts or clock < absence.ends
    if absence.starts is not None:
        at = datetime.combine(begin.date(), absence.starts)
        is_next_day = at < begin and at + timedelta(days=1) < end
        return now >= at + timedelta(days=is_next_day)
    if absence.ends is not None:
        at = datetime.combine(begin.date(), absence.ends)
        is_next_day = begin < at + timedelta(days=1) <= end and at <= begin
        return now < at + timedelta(days=is_next_day)
    return True


def _there(plan: Timetable, every: Sequence[Meeting]) -> Iterator[str]:
    crew = plan.situation.crew
    for one in every:
        if one.day < plan.situation.today:
            yield f"{one}: before the plan begins"
        if one.begin.minute % 5 or (one.end - one.begin).seconds % 300:
            yield f"{one}: not at whole five minutes"
        if one.trainer.teaches and one.job.id not in one.trainer.teaches:
            yield f"{one}: the trainer may not teach it"
        everybody: tuple[Trainer | Person, ...] = (one.trainer, *one.people)
        for who in everybody:
            shift = crew.shift(who.shift)
            begin = one.change_begins if who is one.trainer else one.begin
            if who.shift != one.trainer.shift or (
                who is not one.trainer and who.id == one.trainer.id
            ):
                yield f"{one}: not with {who.id}"
            yield from (
                f"{one}: {why}" for why in _absent(plan, who, shift, one.day, begin, one.end)
            )
        facts = crew.lesson_facts(one.job.id)
        if facts is not None and facts.done_at is not None:
            first, last = _window(crew.shift(one.trainer.shift), one.day)
            edge = timedelta(minutes=120)
            is_start = facts.done_at.value == "start of shift"
            if (one.end > first + edge) if is_start else (one.begin < last - edge):
                yield f"{one}: not at the {facts.done_at.value}"


def _absent(
    plan: Timetable, who: Person | Trainer, shift: Shift, day: date, begin: datetime, end: datetime
) -> Iterator[str]:
    crew = plan.situation.crew
    names = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
    if day in crew.facts.closed or names[day.weekday()] not in {one.value for one in shift.days}:
        yield f"{who.id}'s shift does not work"
    if (who.first_day and day < who.first_day) or (who.last_day and day > who.last_day):
        yield f"{who.id} has not begun, or has left"
    first, last = _window(shift, day)
    if begin < first or end > last:
        yield f"outside of {who.id}'s shift"
    gone = [*_breaks(shift, day), *(each for one in who.absent for each in _away(one, shift, day))]
    if any(begin < away[1] and end > away[0] for away in gone):
        yield f"{who.id} is not there"


def _twice(every: Sequence[Meeting]) -> Iterator[str]:
    busy: dict[str, list[tuple[datetime, datetime, Meeting]]] = defaultdict(list)
    for one in every:
        busy[one.trainer.id].append((one.change_begins, one.end, one))
        for person in one.people:
            busy[person.id].append((one.begin, one.end, one))
    for name, found in busy.items():
        found.sort(key=lambda each: each[:2])
        for (_, end, one), (begin, _, other) in pairwise(found):
            if begin < end:
                yield f"{name} is in two places: {one}; {other}"


def how_set(plan: Timetable, job: Job) -> tuple[object, ...]:
    """What a station is changed for between two jobs: how work is held, at what speeds."""
    held = {
        (one.method, one.how, one.bolted_down)
        for one in ([each.holding or job.holding for each in job.set_ups] or [job.holding])
        if one is not None
    }
    sheets = set_up_sheets(plan.situation.shop, job)
    speeds = {step.rpm for sheet in sheets for step in sheet.speed_steps if step.chosen}
    return (*sorted(map(str, held)), *sorted(speeds), *([job.id] if sheets and not speeds else []))


def _set_ups(plan: Timetable, every: Sequence[Meeting]) -> Iterator[str]:
    rule = plan.situation.shop.manual.teaching.lesson
    at: dict[str, list[Meeting]] = defaultdict(list)
    for one in every:
        for station in stations_of(plan.situation.shop, one.job.machine):
            at[station.id].append(one)
    needs: dict[int, bool] = defaultdict(bool)
    set_as = {job.id: how_set(plan, job) for job in {one.job.id: one.job for one in every}.values()}
    for name, found in at.items():
        for one, other in pairwise(found):
            if other.change_begins < one.end:
                yield f"{name} is used twice: {one}; {other}"
        setting = [one for one in found if set_as[one.job.id]]
        for one, other in pairwise(setting):
            is_other = set_as[one.job.id] != set_as[other.job.id]
            needs[id(other)] |= is_other and other.begin - one.end < timedelta(hours=4)
    for one in every:
        wanted = rule.change_minutes if needs[id(one)] else 0
        if not wanted <= one.change < wanted + 5:
            yield f"{one}: {one.change} min to change the station, not {wanted}"


def _hours(every: Sequence[Meeting]) -> Iterator[str]:
    spent: dict[tuple[str, date], float] = defaultdict(float)
    hours = {}
    for one in every:
        key = (f"{one.trainer.id} {one.trainer.shift}", one.day)
        spent[key] += (one.end - one.change_begins).total_seconds()
        hours[key] = one.trainer.hours.value
    for key, seconds in spent.items():
        if seconds > hours[key] + 1:
            yield f"{key[0]} is booked for {seconds / 60:g} min on {key[1]}"


def _lessons(plan: Timetable) -> Iterator[str]:
    least = plan.situation.shop.manual.teaching.lesson.least_session_minutes
    planned = {one.lesson.key: one for one in plan.schedule.planned}
    told = [*planned, *(one.lesson.key for one in plan.schedule.unplanned)]
    if sorted(told) != sorted(one.key for one in plan.lessons):
        yield "not every lesson is told once"
    was_told = plan.situation.promised is not None
    for job in {one.lesson.job.id: one.lesson.job for one in planned.values()}.values():
        if any(not sheet.may_run for sheet in set_up_sheets(plan.situation.shop, job)):
            yield f"{job.id} must not run"
        if job.id in plan.situation.shop.holds:
            yield f"{job.id} is on hold"
    for key, one in planned.items():
        talk = [planned[code, one.lesson.job.id].lesson for code in one.people]
        wanted = talk[0].minutes + sum(each.own_minutes for each in talk[1:])
        if not was_told and not wanted - 0.01 <= one.minutes < wanted + 5:
            yield f"{key}: {one.minutes:g} min booked, {wanted:g} wanted"
        if len(one.sessions) > 1 and any(each.minutes < least for each in one.sessions):
            yield f"{key}: a part of less than {least:g} min"
        for need in one.lesson.needs:
            before = planned.get((one.lesson.person.id, need))
            if before is None or before.sessions[-1].end > one.sessions[0].begin:
                yield f"{key}: before {need}"


def _pieces(plan: Timetable) -> Iterator[str]:
    facts = plan.situation.crew.facts
    for said in facts.lessons:
        batches = [one for one in facts.batches if one.job == said.job]
        if not batches or not said.pieces:
            continue
        used = 0
        for one in plan.schedule.planned:
            if one.lesson.job.id == said.job:
                is_new = one.lesson.kind in (LessonKind.NEW, LessonKind.GO_ON)
                used += said.pieces if is_new else 1
                for each in one.sessions:
                    if not any(b.first <= each.day <= (b.last or date.max) for b in batches):
                        yield f"{one.lesson.key}: no pieces on {each.day}"
        if used > sum(one.pieces for one in batches):
            yield f"{said.job}: {used} pieces used up"


def _checks(plan: Timetable) -> Iterator[str]:
    """As many as the rule asks for, on working days after the lesson; what has no time is told."""
    rule = plan.situation.shop.manual.teaching.follow_up
    usual = sum(one.days * one.checks for one in rule.stages) + rule.then_checks
    booked: dict[tuple[str, str], list[datetime]] = defaultdict(list)
    for check in plan.schedule.checks:
        booked[check.person, check.job].append(check.session.begin)
    for one in plan.schedule.planned:
        found = plan.schedule.follow_ups[one.lesson.key]
        again = one.lesson.kind in (LessonKind.AGAIN, LessonKind.CHECK)
        wanted = rule.again_checks if again else usual
        asked = found.checks + sum(day.unmet for day in found.days)
        if asked < wanted and one.lesson.person.last_day is None:
            yield f"{one.lesson.key}: {asked} checks, {wanted} by the rule"
        if any(at.date() <= one.last for at in booked[one.lesson.key]):
            yield f"{one.lesson.key}: a check before they are on their own"
    for key, times in booked.items():
        shown = [at for day in plan.schedule.follow_ups[key].days for at in day.times]
        if not set(times) <= set(shown):
            yield f"{key}: booked at other times than shown"


def _on_record(plan: Timetable, every: Sequence[Meeting]) -> Iterator[str]:
    """Once anybody may teach by record, each trainer must, and be signed off for the job today."""
    crew, today, rule = plan.situation.crew, plan.situation.today, plan.situation.shop.manual
    records = [(who.id, each) for who in crew.people.values() for each in who.authorities
               if each.may == "teach"]  # fmt: skip
    for one in every if records else ():
        days = [
            (each.given, each.until)
            for code, each in records
            if code == one.trainer.id and (not each.jobs or one.job.id in each.jobs)
        ]
        if not any(first <= today <= last and one.day <= last for first, last in days):
            yield f"{one}: no authority to teach it then"
        proof = [each for each in crew.people[one.trainer.id].can_do
                 if each.job == one.job.id] if one.trainer.id in crew.people else []  # fmt: skip
        unused = timedelta(days=rule.teaching.recheck_after_unused_days)
        if not proof or proof[0].judged + unused < today or proof[0].fingerprint == "1" * 8:
            yield f"{one}: the trainer is not signed off for it"
