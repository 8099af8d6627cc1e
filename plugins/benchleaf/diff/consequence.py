"""What must follow from a change, for each job that it touches. The rule, in the order it asks:

1. *Nothing* for what no reader is taught: facts of the revision, the trainer's notes, warnings
   accepted, the order of a list without order; and for a shared record that no job uses.
2. *Nothing* where the author declares wording only (`benchleaf register --wording-only JOB`) and
   no number, unit, negation, hazard text or id changed; this is checked, see `wording.py`.
3. *Tell* for a figure put in, where every set-up figure of the job moves within the shop's
   tolerance and no limit is touched; for pictures, other names, trade terms, free pages, the
   shop's facts, lists for new people, and a help text that is added; where a job is gone, and
   where a thing is the same under another id.
4. *Teach again before next run* for everything else: the default.

A shop may make single kinds stricter or milder (`retraining` in manual.yml).

Published triggers that the rule follows: 29 CFR 1910.147(c)(7)(iii), retrain when job assignment,
machine, process with a new hazard, or procedure changes; 1910.132(f)(3), when workplace or
protective equipment makes the training obsolete; 1910.1200(h)(1), when a new chemical hazard
arrives; ISO 9001:2015 7.2 and 8.5.6, competence and review of changes; IATF 16949 7.2.2, training
for changed responsibilities. 1910.38(f), review of the emergency plan when it changes, is from
memory. Tolerance, days, and the milder sorts are this house's own rule, with no published source.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from benchleaf.model import Retraining, Taught, Told

from .area import Area
from .change import Change, ChangeKind, Consequence, gravest
from .differences import is_order_only
from .same_meaning import says_the_same

Verdict = tuple[Consequence, str]

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
    Area.PAGE: ("a free page", Told.PAGES),
    Area.SHOP: ("a fact of the shop", None),
    Area.LIST: ("a list for new people, not what a job asks", None),
}
_NOT_TAUGHT = frozenset((*_NOTHING, *_TELL))

_TEACH = {
    Area.HAZARD: "hazard (29 CFR 1910.147(c)(7)(iii), 1910.1200(h)(1): a new hazard)",
    Area.WORN: "protective equipment (29 CFR 1910.132(f)(3))",
    Area.MACHINE: "machine (29 CFR 1910.147(c)(7)(iii): a change of machine)",
    Area.FLUID: "fluid (29 CFR 1910.1200(h)(1): a chemical hazard may be new)",
    Area.TOOL: "tool (29 CFR 1910.147(c)(7)(iii): a change of process)",
    Area.MATERIAL: "material (29 CFR 1910.147(c)(7)(iii): a change of process)",
    Area.STEP: "step (29 CFR 1910.147(c)(7)(iii): a change of procedure)",
    Area.KEY_POINT: "key point (ISO 9001:2015 7.2 and 8.5.6: competence for the changed job)",
    Area.REASON: "reason (the learner explains it back when judged)",
    Area.EMERGENCY: "whom to call and what to do (29 CFR 1910.38(f), from memory)",
    Area.PREFACE: "the safety preface is read and explained back first",
    Area.JOB: "a new job: nobody has been taught it",
}
_MILDER = {
    Area.KEY_POINT: Taught.EASIER,
    Area.REASON: Taught.EASIER,
    Area.BREAKDOWN: Taught.TROUBLE,
    Area.PART: Taught.PART,
}


_USED_BY_JOBS = ("machines", "materials", "tools", "fluids", "hazards", "files")
"""Kinds that mean something to people only through the jobs that use them."""


def is_meaning(area: Area) -> bool:
    """True for what a reader is taught: a change of it is a change of meaning."""
    return area not in _NOT_TAUGHT


@dataclass(frozen=True, slots=True)
class Facts:
    """What the rule asks besides the change itself."""

    rule: Retraining
    is_wording: bool
    """True where the text is one in which wording may change: no hazard text."""
    declared: frozenset[str]
    """Jobs whose new state is declared as wording only."""
    easier: bool = False
    """True for a key point that, on both sides, only makes the job easier."""


def judged(change: Change, jobs: tuple[str, ...], facts: Facts) -> Change:
    """The change with what follows, for each job and in all."""
    verdicts = {job_id: verdict(change, job_id, facts) for job_id in jobs}
    if jobs:
        overall = gravest([one for one, _ in verdicts.values()])
        why = next(why for one, why in verdicts.values() if one is overall)
    elif change.record[0] not in _USED_BY_JOBS:
        overall, why = verdict(change, "", facts)
    else:
        overall, why = Consequence.NOTHING, "no job uses it"
    consequences = {job_id: one for job_id, (one, _) in verdicts.items()}
    return replace(change, consequence=overall, why=why, jobs=consequences)


def verdict(change: Change, job_id: str, facts: Facts) -> Verdict:
    """What follows for one job, and why."""
    area = Area(change.area)
    if is_order_only(change.record[0], change.difference):
        return Consequence.NOTHING, "the order of this list carries no meaning"
    if area in _NOTHING:
        return Consequence.NOTHING, _NOTHING[area]
    if job_id in facts.declared and change.kind is ChangeKind.REWORDED:
        return _wording(change, facts)
    if change.kind is ChangeKind.RENAMED:
        return Consequence.TELL, "the same under another id; lists and sign-offs name the old one"
    if area is Area.JOB and change.kind is ChangeKind.REMOVED:
        return Consequence.TELL, "the job is gone, and its sign-offs with it"
    if area is Area.FIGURE and change.kind is not ChangeKind.MOVED:
        return _figure(change, job_id, facts.rule)
    return _told(change, area, facts.rule) or _taught(area, facts)


def _wording(change: Change, facts: Facts) -> Verdict:
    before, after = change.difference.before, change.difference.after
    if not facts.is_wording:
        return Consequence.TEACH, "declared wording only, but this is hazard text"
    if says_the_same(before, after):
        return Consequence.NOTHING, "declared wording only, and checked"
    return Consequence.TEACH, "declared wording only, but more than the wording changed"


def _figure(change: Change, job_id: str, rule: Retraining) -> Verdict:
    tolerance = rule.figure_tolerance
    effects = [one for one in change.effects if one.record == ("jobs", job_id)]
    if any(one.touches_a_limit for one in effects):
        return Consequence.TEACH, "a limit is touched, or a figure comes or goes"
    most = max((abs(one.percent or 0) for one in effects), default=0.0)
    if most > tolerance:
        return Consequence.TEACH, f"a set-up figure moves by more than {tolerance:g} %"
    if Told.FIGURES in rule.teach_again_for:
        return Consequence.TEACH, "this shop teaches every figure again"
    moved = f"every set-up figure stays within {tolerance:g} %" if effects else "no figure moves"
    return Consequence.TELL, f"{moved}, and no limit is touched"


def _told(change: Change, area: Area, rule: Retraining) -> Verdict | None:
    if area is Area.HELP and change.kind is ChangeKind.ADDED:
        why, sort = "a help text is added", Told.HELP
    elif area in _TELL:
        why, sort = _TELL[area]  # type: ignore[assignment]
    else:
        return None
    if sort in rule.teach_again_for:
        return Consequence.TEACH, f"{why}; this shop teaches it again"
    return Consequence.TELL, why


def _taught(area: Area, facts: Facts) -> Verdict:
    sort = _MILDER.get(area)
    is_milder = sort is not Taught.EASIER or facts.easier
    if sort is not None and is_milder and sort in facts.rule.tell_only_for:
        return Consequence.TELL, f"this shop only tells of {sort.value}"
    return Consequence.TEACH, _TEACH.get(area, f"{area.value}: a change of meaning")
