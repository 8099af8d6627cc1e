"""Two shops, already read and reckoned, to every change of meaning with its effects."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import Any

from benchleaf.compute import shown_shop
from benchleaf.meaning import Move, MoveKind, Verdict, gravest_of, page_fingerprint, verdict
from benchleaf.meaning.prose import text_paths
from benchleaf.model import KINDS, Record, Shop, class_of, files, references

from .area import Area, area_of
from .causes import Context, with_figure_effects
from .change import (
    Change,
    ChangeKind,
    Comparison,
    Difference,
    JobState,
    RecordKey,
    Side,
)
from .consequence import judged
from .differences import differences, plain
from .following import with_following
from .pictured import file_words
from .readers_words import has_inches, in_readers_words
from .renames import Renames, find_renames
from .shown import place_of, record_name, value_in_words, where_of
from .states import job_states
from .taught_otherwise import taught_otherwise, with_new_ids


def compare(old: Side, new: Side) -> Comparison:
    """Every change between two sides, judged by the new shop's rule."""
    unshown = old, new
    old, new = (replace(side, shop=shown_shop(side.shop, side.sheets)) for side in unshown)
    renames = find_renames(old.shop, new.shop)
    was = with_new_ids(old, renames)
    was = replace(was, shop=replace(was.shop, renamed=new.shop.renamed))
    changes = [*_renamed(renames, new.shop), *_of_records(was.shop, new.shop)]
    changes += [*_of_pages(was, new), *_of_pictures(was, new)]
    sides, reads_inches = (was, new), has_inches(*unshown)
    if reads_inches:
        raw = with_new_ids(unshown[0], renames)  # a sentence finds its readers' words by itself
        sides = (replace(raw, shop=replace(raw.shop, renamed=new.shop.renamed)), unshown[1])
    taught = {one.job: one for one in taught_otherwise(*sides)}
    moved = {job_id: one.moves for job_id, one in taught.items()}
    context = Context(was, new, _uses(was.shop, new.shop), moved)
    changes = with_following(with_figure_effects(changes, context), was.shop, new.shop)
    states = job_states(old, new, renames)
    declared = frozenset(
        one.id for one in states if (one.id, one.new_fingerprint or "") in new.declared
    )
    found = tuple(_judged(one, context, declared) for one in changes)
    if reads_inches:
        found = tuple(in_readers_words(found, *sides))
    lessons = {
        job_id: one.lesson(new.shop.manual.retraining, is_declared=job_id in declared)
        for job_id, one in taught.items()
        if one.moves
    }
    return Comparison(found, _settled(states, found, context, declared), lessons)


def _renamed(renames: Renames, now: Shop) -> Iterator[Change]:
    for (kind, old_id), new_id in renames.records.items():
        difference = Difference(ChangeKind.RENAMED, ("id",), ("id",), old_id, new_id)
        area = area_of(kind, ())
        yield Change((kind, new_id), difference, area, "id", "id", old_id, new_id)
    for (job_id, key, old_id), new_id in renames.nested.items():
        entries = [one.id for one in getattr(now.jobs[job_id], key)]
        path = (key, entries.index(new_id), "id")
        difference = Difference(ChangeKind.RENAMED, path, path, old_id, new_id)
        yield _described(difference, ("jobs", job_id), plain(now.jobs[job_id]), now, now)


def _of_records(was: Shop, now: Shop) -> Iterator[Change]:
    if was.manual is not now.manual:
        yield from _of_record(("manual", "manual"), was.manual, now.manual, was, now)
    for kind in KINDS:
        olds, news = was.of_kind(kind), now.of_kind(kind)
        for record_id in dict.fromkeys((*olds, *news)):
            key = (kind, record_id)
            if record_id in olds and record_id in news:
                yield from _of_record(key, olds[record_id], news[record_id], was, now)
            elif record_id in news:
                yield _whole(ChangeKind.ADDED, key, news[record_id])
            else:
                yield _whole(ChangeKind.REMOVED, key, olds[record_id])


def _whole(kind: ChangeKind, key: RecordKey, record: Record) -> Change:
    """A record that is there on one side only."""
    is_new = kind is ChangeKind.ADDED
    name = getattr(record, "title", None) or getattr(record, "name", None)
    words = str(name or getattr(record, "word", ""))
    values = plain(record)
    difference = Difference(kind, (), (), None if is_new else values, values if is_new else None)
    before, after = (None, words) if is_new else (words, None)
    return Change(key, difference, area_of(key[0], ()), "", "", before, after)


def _of_record(key: RecordKey, old: Record, new: Record, was: Shop, now: Shop) -> Iterator[Change]:
    if old is new:
        return
    values = plain(old), plain(new)
    found = list(differences(*values)) if values[0] != values[1] else []
    prose = text_paths(new) if found else frozenset()
    for one in found:
        if one.kind is ChangeKind.CHANGED and one.new_path in prose:
            one = replace(one, kind=ChangeKind.REWORDED)
        yield _described(one, key, values[one.kind is not ChangeKind.REMOVED], was, now)


def _described(
    difference: Difference, key: RecordKey, values: dict[str, Any], was: Shop, now: Shop
) -> Change:
    path = difference.path
    cls = class_of(key[0])
    before = value_in_words(difference.before, cls, difference.old_path, was)
    after = value_in_words(difference.after, cls, difference.new_path, now)
    place, where = place_of(values, path), where_of(cls, values, path)
    return Change(key, difference, area_of(key[0], path), place, where, before, after)


def _of_pages(was: Side, now: Side) -> Iterator[Change]:
    for name in sorted({*was.pages, *now.pages}):
        before, after = was.pages.get(name), now.pages.get(name)
        if before is None or after is None or _says_otherwise(before, after):
            kind = (
                ChangeKind.ADDED if before is None
                else ChangeKind.REMOVED if after is None
                else ChangeKind.REWORDED
            )  # fmt: skip
            is_preface = name in (was.shop.manual.preface, now.shop.manual.preface)
            area = Area.PREFACE if is_preface else Area.PAGE
            shown = page_words(before or "", after or "")
            yield Change(
                ("pages", name), Difference(kind, (), (), before, after), area, "", "", *shown
            )


def _says_otherwise(before: str, after: str) -> bool:
    return page_fingerprint(before) != page_fingerprint(after)


def page_words(before: str, after: str) -> tuple[str | None, str | None]:
    """The paragraphs and entries of lists of a page that are on one side only, each on a line.

    >>> page_words("- Stop.\\n- Wait.", "- Stop.\\n- Wait long.\\n- Look.")
    ('- Wait.', '- Wait long.\\n- Look.')
    """
    olds, news = _paragraphs(before), _paragraphs(after)
    gone = [one for one in olds if one not in news]
    come = [one for one in news if one not in olds]
    if not gone and not come:  # the same in another order
        gone, come = olds, news
    return "\n".join(gone) or None, "\n".join(come) or None


def _paragraphs(text: str) -> list[str]:
    """Paragraphs and entries of lists, each on one line: where a line breaks is layout."""
    parts = (" ".join(one.split()) for one in _BREAK.split(text))
    return [one for one in parts if one]


_BREAK = re.compile(r"\n\s*\n|\n(?=[ \t]*(?:[-*+]|\d+[.)])[ \t])|\n(?=#)")
"""Where a paragraph, an entry of a list, or a heading begins."""


def _of_pictures(was: Side, now: Side) -> Iterator[Change]:
    """Files of the same name with other bytes, where a record names them on both sides."""
    named = set(was.shop.named_files()) & set(now.shop.named_files())
    for name in sorted("/".join(one) for one in named):
        before, after = was.files.get(name), now.files.get(name)
        if before != after and before is not None and after is not None:
            difference = Difference(ChangeKind.CHANGED, (), (), before, after)
            words = file_words(name, was), file_words(name, now)
            area = Area.PICTURE if name.startswith("pictures/") else Area.FLUID
            yield Change(("files", name), difference, area, "", "", *words)


def _uses(was: Shop, now: Shop) -> Mapping[str, frozenset[RecordKey]]:
    """Every job of either side -> the records that it uses on either, and what those name."""
    named = [
        {(kind, name): _named_by(one) for kind, name, one in side.every()} for side in (was, now)
    ]
    return {
        job_id: frozenset(key for side in named for key in _reached(("jobs", job_id), side))
        for job_id in (*now.jobs, *(one for one in was.jobs if one not in now.jobs))
    }


def _named_by(record: Record) -> frozenset[RecordKey]:
    return frozenset((kind, name) for _, kind, name in references(record) if kind != "jobs")


def _reached(start: RecordKey, named: Mapping[RecordKey, frozenset[RecordKey]]) -> set[RecordKey]:
    found: set[RecordKey] = set()
    waiting = list(named.get(start, ()))
    while waiting:
        key = waiting.pop()
        if key not in found and key in named:
            found.add(key)
            waiting += named[key]
    return found


def _judged(change: Change, context: Context, declared: frozenset[str]) -> Change:
    now = context.now.shop
    is_gone = change.record[0] in KINDS and _record(now, change.record) is None
    named = replace(change, name=record_name(context.was.shop if is_gone else now, *change.record))
    moved = {}
    for job_id, found in context.moves.items():
        touching = [one for one in found if _follows(one, job_id, change)]
        if touching:
            moved[job_id] = _verdict(touching, context, is_declared=job_id in declared)
    is_used = any(change.record in one for one in context.uses.values())
    if change.record[0] == "files":
        is_used = _is_shown(change.record[1], context)
    near = tuple(_near(change, context))
    return judged(named, moved, near, now.manual.retraining, is_used=is_used)


def _verdict(found: Sequence[Move], context: Context, *, is_declared: bool) -> Verdict:
    rule = context.now.shop.manual.retraining
    return gravest_of([verdict(one, rule, is_declared=is_declared) for one in found])


def _follows(move: Move, job_id: str, change: Change) -> bool:
    """True where a statement moved by a change: it rests on it, or its figure moved by it."""
    effects = (one.subject for one in change.effects if one.record == ("jobs", job_id))
    if move.one.subject in effects:
        return True
    is_move = change.kind is ChangeKind.MOVED
    # Two kinds of key points that change places are two values written otherwise.
    if is_move is not (move.kind is MoveKind.MOVED) and change.kind is not ChangeKind.CHANGED:
        return False
    one = change.difference
    old = None if change.kind is ChangeKind.ADDED else (change.record, one.old_path)
    new = None if change.kind is ChangeKind.REMOVED else (change.record, one.new_path)
    return move.rests_on(old, new)


def _record(shop: Shop, key: RecordKey) -> Record | None:
    return shop.of_kind(key[0]).get(key[1]) if key[0] in KINDS else None


def _near(change: Change, context: Context) -> Iterator[str]:
    """The jobs that a change is about though none of their statements moved."""
    kind, record_id = change.record
    if kind == "jobs":
        yield record_id
    elif kind == "terms":
        sides = (context.was, context.now)
        yield from sorted({job for one in sides for job in one.term_uses.get(record_id, ())})
    elif kind == "files":
        yield from _naming(record_id, context)


def _naming(file: str, context: Context) -> Iterator[str]:
    """Jobs that show a file themselves; one on the page of a machine or tool touches none."""
    for job_id, job in context.now.shop.jobs.items():
        if any(f"{folder}/{one}" == file for _, folder, one in files(job)):
            yield job_id


def _is_shown(file: str, context: Context) -> bool:
    """True where the page of a job shows a file, or that of a record which a job uses."""
    used = {key for one in context.uses.values() for key in one}
    used |= {("jobs", job_id) for job_id in context.now.shop.jobs}
    records = (one for key in used if (one := _record(context.now.shop, key)) is not None)
    return any(f"{folder}/{name}" == file for one in records for _, folder, name in files(one))


def _settled(
    states: tuple[JobState, ...],
    changes: tuple[Change, ...],
    context: Context,
    declared: frozenset[str],
) -> tuple[JobState, ...]:
    """The states of the jobs that a change touches, with the gravest of what follows."""
    found = []
    for state in states:
        verdicts = [Verdict(one.jobs[state.id], one.why) for one in changes if state.id in one.jobs]
        moved = context.moves.get(state.id, ())
        if moved:
            verdicts.append(_verdict(moved, context, is_declared=state.id in declared))
        if verdicts:
            must = state.must_advance and state.id not in declared
            last = gravest_of(verdicts)
            found.append(replace(state, consequence=last.what, why=last.why, must_advance=must))
    return tuple(found)
