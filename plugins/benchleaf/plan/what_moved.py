"""What people were told and is otherwise now, each with the reason."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.model import PromisedTime, Trainer

from .attempt import Attempt
from .clock import Session, moment, whole
from .lessons import Key
from .promises import Moved, begin_of, session_of, to_come
from .setting import Setting

APART = "it is given otherwise now"


def moves(setting: Setting, made: Attempt) -> tuple[Moved, ...]:
    """In the order of the times that were told."""
    if setting.situation.promised is None or not setting.trainers:
        return ()
    found = (*_lessons(setting, made), *_checks(setting, made))
    return tuple(sorted(found, key=lambda one: (one.was.begin, one.people, one.job)))


def _lessons(setting: Setting, made: Attempt) -> Iterator[Moved]:
    assert setting.situation.promised is not None
    lead = {one.key: talk.key for talk in setting.talks for one in talk.lessons}
    for promise in setting.situation.promised.lessons:
        keys = [lead.get((code, promise.job)) for code in promise.people]
        key = next((one for one in keys if one is not None), (promise.people[0], promise.job))
        now = {(one.begin, one.minutes): one for one in made.given.get(key, ())}
        told = []
        for each in to_come(setting, promise):
            begin, was = _was(setting, promise.trainer, each)
            told.append((begin, was))
        kept = {begin for begin, _ in told if any(begin == at for at, _ in now)}
        new = tuple(session_of(setting, one) for (at, _), one in now.items() if at not in kept)
        for begin, was in told:
            if begin not in kept:
                why = made.kept.lost.get((key, begin, False), APART)
                yield Moved(promise.people, promise.job, False, promise.trainer, was, new, why)


def _checks(setting: Setting, made: Attempt) -> Iterator[Moved]:
    assert setting.situation.promised is not None
    told: dict[Key, list[tuple[int, Session, str]]] = {}
    minutes = whole(setting.situation.shop.manual.teaching.lesson.check_minutes)
    for one in setting.situation.promised.checks:
        if one.day >= setting.situation.today:
            trainer = _trainer(setting, one.trainer)
            begin, _ = begin_of(setting, trainer, one.day, one.starts)
            was = Session(one.day, moment(setting.situation.today, begin), minutes)
            told.setdefault((one.person, one.job), []).append((begin, was, one.trainer))
    for key, mine in told.items():
        now = {one.begin: one for one in made.checks.get(key, ())}
        kept = {begin for begin, _, _ in mine if begin in now}
        free = [session_of(setting, one) for at, one in now.items() if at not in kept]
        for begin, was, code in mine:
            if begin not in kept:
                why = made.kept.lost.get((key, begin, True), APART)
                near = (free.pop(0),) if free else ()
                yield Moved((key[0],), key[1], True, code, was, near, why)


def _was(setting: Setting, code: str, told: PromisedTime) -> tuple[int, Session]:
    begin, _ = begin_of(setting, _trainer(setting, code), told.day, told.starts)
    return begin, Session(told.day, moment(setting.situation.today, begin), told.minutes)


def _trainer(setting: Setting, code: str) -> Trainer:
    return next((one for one in setting.trainers if one.id == code), setting.trainers[0])
