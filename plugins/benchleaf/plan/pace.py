"""A learner's pace at a job, and the checks that it and the shop's rule ask for."""

from __future__ import annotations

from datetime import date

from benchleaf.compute.practice import Curve, NoCurve, NoStandard, Standard, curve_of, standard_of
from benchleaf.model import Checked, Job, Person, SignOff

from .follow_up import FollowUp, Pace, Record, follow_up
from .looked import looked, revisit
from .presence import Presence
from .situation import Situation


def curve_and_standard(
    situation: Situation, person: Person, job: Job
) -> tuple[Curve | NoCurve, Standard | NoStandard]:
    """What the learner's timed pieces and the job's elements give."""
    record = person.sign_off(job.id) or person.lesson(job.id)
    percent = situation.shop.manual.teaching.learning_percent
    curve = curve_of(record.timed if record else (), percent)
    return curve, standard_of(job, situation.sheets(job))


def follow_up_of(
    situation: Situation,
    presence: Presence,
    pair: tuple[Person, Job],
    start: date,
    *,
    again: bool,
) -> FollowUp:
    """The checks on somebody who is on their own from the working day after `start` on.

    Days on which they are away are no working days of theirs.
    """
    person, job = pair
    curve, standard = curve_and_standard(situation, person, job)
    absent = (NoStandard, NoCurve)
    missing = " and ".join(one.missing for one in (standard, curve) if isinstance(one, absent))
    pace = None
    if isinstance(curve, Curve) and isinstance(standard, Standard):
        pace = Pace(curve, standard.basic_s, curve.observed[-1][0], standard.allowance_percent)
    crew = situation.crew
    shift = crew.shift(person.shift)
    rule = situation.shop.manual.teaching.follow_up
    closed = {*crew.facts.closed, *presence.away(person)}
    sign_off = person.sign_off(job.id)
    checks = _checks_of(sign_off, start) if sign_off is not None else ()
    record = Record(situation.today, looked(job, checks), revisit(job, checks))
    return follow_up(rule, shift, closed, start, pace, missing, again=again, record=record)


def _checks_of(sign_off: SignOff, start: date) -> tuple[Checked, ...]:
    """The checks on record of a follow-up that began on a day; none of one that is planned."""
    if start == sign_off.judged:
        return sign_off.checks_since
    told = sign_off.last_told
    if told is None or told.day != start:
        return ()
    return tuple(one for one in sign_off.checks_since if one.day > start)


def followed_from(
    situation: Situation, presence: Presence, person: Person, job: Job, sign_off: SignOff
) -> tuple[date, str, bool]:
    """From which day somebody proved is followed up, who looks first, and whether again.

    Who is taught what changed while their checks still go on goes on with them; else the checks of
    somebody taught again follow.
    """
    again, told = sign_off.first_proved is not None, sign_off.last_told
    proved = (sign_off.judged, sign_off.judged_by, again)
    if told is None:
        return proved
    first = follow_up_of(situation, presence, (person, job), sign_off.judged, again=again)
    if any(one.day > told.day for one in first.days):
        return proved
    return told.day, told.by, True
