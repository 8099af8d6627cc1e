"""A list for new people as one person follows it: the day of each stage, and what the plan says."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from benchleaf.html.dates import short_date, week_date
from benchleaf.html.list_lines import item_link
from benchleaf.html.lookup import Lookup
from benchleaf.html.values import Link
from benchleaf.model import DoneWhen, Follows, Item, Onboarding, Person, Stage
from benchleaf.plan import TEACHES, Planned, Timetable, stage_days

from .plan_words import when


def list_address(code: str, list_id: str) -> str:
    """The page of a person and a list that they follow."""
    return f"people/{code}-list-{list_id}.html"


@dataclass(frozen=True, slots=True)
class ListItem:
    """One line of the list."""

    link: Link | None
    do: str | None
    done_when: str
    signed_by: tuple[str, ...]
    plan: str
    """What the plan or the record says of it; empty where they say nothing."""
    is_late: bool
    """True where the plan has it after the day of its stage."""


@dataclass(frozen=True, slots=True)
class ListStage:
    """A stage of the list."""

    title: str
    note: str | None
    day: str
    """Its day, and whether list or plan says so."""
    items: tuple[ListItem, ...]


@dataclass(frozen=True, slots=True)
class ListView:
    """The list as somebody follows it."""

    person: Person
    person_link: Link
    record: Onboarding
    list_link: Link
    first_day: date
    cannot: tuple[str, ...]
    """Where the plan cannot keep the list, in sentences."""
    stages: tuple[ListStage, ...]


def list_view(lookup: Lookup, plan: Timetable, person: Person, follows: Follows) -> ListView:
    """The view of one person and one list."""
    record = lookup.shop.onboarding[follows.list]
    days = stage_days(plan.presence, person, follows, record)
    return ListView(
        person,
        Link(f"people/{person.id}.html", person.id),
        record,
        lookup.link("onboarding", record.id),
        follows.first_day,
        tuple(cannot_keep(plan, person, record)),
        tuple(
            _stage(lookup, plan, person, stage, day)
            for stage, day in zip(record.stages, days, strict=True)
        ),
    )


def cannot_keep(plan: Timetable, person: Person, record: Onboarding) -> Iterator[str]:
    """Jobs of the list that the plan teaches too late for it, or not at all."""
    taught = dict.fromkeys(
        item.job for _, _, item in record.items() if item.job and item.done_when in TEACHES
    )
    for job_id in taught:
        job = plan.situation.shop.jobs[job_id]
        listed = plan.situation.by_list(person, job)
        found = plan.planned(person.id, job_id)
        lost = (one for one in plan.schedule.unplanned if one.lesson.key == (person.id, job_id))
        why = next((one.why for one in lost), None)
        if why is not None:
            yield f"{job_id.upper()} has no lesson: {why}."
        elif found and listed and listed.due and found.last > listed.due:
            yield (
                f"{job_id.upper()} ends on {week_date(found.last)}; the list has it on "
                f"{week_date(listed.due)}."
            )


def _stage(
    lookup: Lookup, plan: Timetable, person: Person, stage: Stage, day: date | None
) -> ListStage:
    told: set[str] = set()
    items = tuple(_item(lookup, plan, person, item, day, told) for item in stage.items)
    return ListStage(stage.title, stage.note, _day_words(plan, person, stage, day), items)


def _day_words(plan: Timetable, person: Person, stage: Stage, day: date | None) -> str:
    if day is not None:
        return f"{week_date(day)}, by the list"
    found = [one for item in stage.items if (one := _planned(plan, person, item))]
    if not found:
        return "no day: neither the list nor the plan says one"
    first, last = min(one.first for one in found), max(one.last for one in found)
    days = week_date(first) if first == last else f"{week_date(first)} to {week_date(last)}"
    return f"{days}, by the plan"


def _planned(plan: Timetable, person: Person, item: Item) -> Planned | None:
    if item.job is None or item.done_when not in TEACHES:
        return None
    return plan.planned(person.id, item.job)


def _item(
    lookup: Lookup,
    plan: Timetable,
    person: Person,
    item: Item,
    day: date | None,
    told: set[str],
) -> ListItem:
    found = _planned(plan, person, item)
    is_whole = item.done_when is DoneWhen.DONE_ALONE
    is_late = (
        found is not None and day is not None and (found.last if is_whole else found.first) > day
    )
    return ListItem(
        item_link(lookup, item),
        item.do,
        item.done_when.value,
        item.signed_by,
        _says(plan, person, item, found, told),
        is_late,
    )


def _says(
    plan: Timetable, person: Person, item: Item, found: Planned | None, told: set[str]
) -> str:
    """What the plan or the record says; the sessions of a lesson once."""
    if found is not None and found.lesson.job.id in told:
        return "the same lesson"
    if found is not None:
        told.add(found.lesson.job.id)
        return f"lesson with {found.trainer.id}: {when(found.sessions)}"
    if item.job is not None and item.done_when in TEACHES:
        standing = plan.standings[person.id, item.job]
        return f"{standing.state.value}: {standing.why}" if standing.why else "no lesson is planned"
    if item.page is not None and (signing := person.signing(item.page)) is not None:
        return f"signed on {short_date(signing.signed)}"
    return ""
