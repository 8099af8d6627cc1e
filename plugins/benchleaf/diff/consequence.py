"""What must follow from a change, for each job that it touches.

A job is touched where a statement of its meaning rests on what changed, or where a figure or limit
of it moved; `meaning/verdicts.py` says what follows then. Here stands what touches no statement:
facts of the revision, pictures, names, terms, pages, and what no job shows.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace

from benchleaf.meaning import Consequence, Verdict, gravest_of, page_move, stands_apart, verdict
from benchleaf.model import KINDS, Retraining, Told, Trait, class_of, has_along

from .area import Area
from .change import Change, ChangeKind, EffectKind
from .differences import is_order_only

_NOTHING = {
    Area.REVISION: "facts of the revision; what is taught stays",
    Area.TRAINER: "only trainers see it",
    Area.CHECKS_ONLY: "only the checks read it",
    Area.RULE: "a rule for planning training, not what is taught",
    Area.RATE: "how fast it is done, not how",
    Area.SCREEN: "how screen and paper look, not what is taught",
}
_TELL = {
    Area.PICTURE: ("a picture only shows what the words say", Told.PICTURES),
    Area.NAMES: ("another name for the same thing", Told.NAMES),
    Area.TERM: ("a word is explained otherwise", Told.TERMS),
    Area.SHOP: ("a fact of the shop", None),
    Area.LIST: ("a list for new people, not what a job asks", None),
}
_USED_BY_JOBS = ("parts", "machines", "materials", "tools", "fluids", "hazards", "files")
"""Kinds that mean something to people only through the jobs that use them."""


def judged(
    change: Change,
    moved: Mapping[str, Verdict],
    near: Collection[str],
    rule: Retraining,
    *,
    is_used: bool,
) -> Change:
    """The change with what follows, for each job and in all.

    `moved` is what follows for the jobs of which a statement moved by it, `near` are the jobs that
    it touches though no statement moved, such as those that show a picture.
    """
    if moved:
        gravest = gravest_of(tuple(moved.values()))
        jobs = {job_id: one.what for job_id, one in moved.items()}
        return replace(change, consequence=gravest.what, why=gravest.why, jobs=jobs)
    found = _unmoved(change, rule, is_used=is_used)
    jobs = dict.fromkeys(near, found.what)
    return replace(change, consequence=found.what, why=found.why, jobs=jobs)


def _unmoved(change: Change, rule: Retraining, *, is_used: bool) -> Verdict:
    """What follows where no statement of a job moved."""
    area, kind = Area(change.area), change.record[0]
    if is_order_only(kind, change.difference):
        return _nothing("the order of this list carries no meaning")
    if area in _NOTHING:
        return _nothing(_NOTHING[area])
    if change.kind is ChangeKind.RENAMED:
        return _renamed(change)
    if area is Area.JOB and change.difference.path == ():
        return _whole_job(change)
    if kind == "pages":
        is_preface = area is Area.PREFACE
        return verdict(page_move(change.record[1], is_preface=is_preface), rule)
    if area is Area.PREFACE:
        return Verdict(Consequence.TEACH, "another page is the safety preface")
    if kind in _USED_BY_JOBS and not is_used:
        return _nothing("no job uses it")
    if area in _TELL:
        why, sort = _TELL[area]
        if sort in rule.teach_again_for:
            return Verdict(Consequence.TEACH, f"{why}; this shop teaches it again")
        return Verdict(Consequence.TELL, why)
    return _not_shown(change)


def _nothing(why: str) -> Verdict:
    return Verdict(Consequence.NOTHING, why)


def _renamed(change: Change) -> Verdict:
    if change.record[0] == "jobs" and change.difference.path == ("id",):
        why = "the same job under another number; lists and sign-offs name the old one"
        return Verdict(Consequence.TELL, why)
    return _nothing("the same thing under another id")


def _whole_job(change: Change) -> Verdict:
    if change.kind is ChangeKind.REMOVED:
        return Verdict(Consequence.TELL, "the job is gone, and its sign-offs with it")
    broken = [one for one in change.effects if one.kind is EffectKind.LIMIT_BROKEN]
    if broken:
        return Verdict(Consequence.NOBODY_RUNS, f"a new job breaks a limit: {broken[0].after}")
    return Verdict(Consequence.TEACH, "a new job: nobody has been taught it")


def _not_shown(change: Change) -> Verdict:
    """A value that is part of no statement, or that says the same as before."""
    kind, path = change.record[0], change.difference.path
    cls = class_of(kind) if kind in KINDS else None
    if cls is not None and kind != "jobs" and path:
        if stands_apart(cls, path):
            why = "it stands on its own page only; no job's page shows it"
            return Verdict(Consequence.TELL, why)
        if has_along(cls, path, Trait.ONLY_RECKONED) or change.area == Area.FIGURE:
            return _nothing("only the reckoning reads it, and no figure of a job moves")
    if change.area == Area.FIGURE:
        return _nothing("no figure moves")
    if cls is not None and path == ():
        return _nothing("no job uses it")
    if kind != "jobs":
        return _nothing("no job's page says anything else")
    return _nothing("the same as before, written otherwise")
