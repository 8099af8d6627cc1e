"""Holds: files by which somebody stops a job at once, held against the shop.

One file a hold, so that two people seldom write into one. Lifting adds to the end of it, and
nothing is ever taken away. A hold knows nothing of meanings, and no meaning knows of a hold.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from benchleaf.diagnose import Finding, Place, Severity, suggestion
from benchleaf.model import Hold, Shop, folded_role, lift_command, same_role
from benchleaf.read import Document, Source, document_of
from benchleaf.validate import Places, build, may_be
from benchleaf.validate.places import locate

HOLDS = "holds"
"""The folder of holds, and the kind of its documents."""


@dataclass(frozen=True, slots=True)
class Held:
    """A hold and where it stands."""

    hold: Hold
    source: Source

    @property
    def file(self) -> str:
        """Its file, from the content folder's name on."""
        return self.source.document.name

    @property
    def stands(self) -> bool:
        """True until the one role that may lift it did: a lift by another is none."""
        lifted = self.hold.lifted
        return lifted is None or not same_role(lifted.by, self.hold.lift_by)

    @property
    def order(self) -> tuple[date, str]:
        """The oldest first; of one day, by their names."""
        return self.hold.day, self.file.removesuffix(".yml")

    def place(self, *path: str | int) -> Place:
        """The place of a value in it."""
        return locate(self.source.tree, path)


def read_holds(documents: Iterable[Document]) -> tuple[tuple[Held, ...], tuple[Finding, ...]]:
    """Every hold, and what is wrong with its keys."""
    found: list[Held] = []
    problems: list[Finding] = []
    for document in documents:
        if document.kind == HOLDS:
            held, slips = _held(document)
            problems += slips
            if held is not None:
                found.append(held)
    return tuple(found), tuple(problems)


def _held(document: Document) -> tuple[Held | None, tuple[Finding, ...]]:
    source = Source(document, (), document.value)
    hold, slips = build(Hold, source)
    return (Held(hold, source) if hold is not None else None), tuple(slips)


def graver(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings of a content folder: what looks like a hold and is not read is an error.

    Elsewhere a warning is enough. Here the job would look free.
    """
    return tuple(
        replace(one, severity=Severity.ERROR) if one.code == "R113" and _is_of_holds(one) else one
        for one in findings
    )


def _is_of_holds(one: Finding) -> bool:
    inside = one.place.file.partition("/")[2]
    return inside.lower().startswith("hold")


def read_hold(text: str, name: str) -> tuple[Held | None, tuple[Finding, ...]]:
    """A hold from the text of its file, and what is wrong with it."""
    document, problems = document_of(text, HOLDS, name)
    if document is None or problems:
        return None, problems
    return _held(document)


def jobs_held(shop: Shop, job_id: str) -> tuple[str, ...]:
    """The jobs that a hold by this number is about: itself, renumbered, on each of its machines."""
    own = (one for one in (job_id, shop.renamed.get(job_id, "")) if one in shop.jobs)
    return tuple(dict.fromkeys((*own, *shop.on_each_machine(job_id))))


def standing_holds(shop: Shop, holds: Iterable[Held]) -> Mapping[str, tuple[Hold, ...]]:
    """The holds that stand, by job, the oldest first."""
    found: dict[str, list[Hold]] = {}
    for one in sorted(holds, key=lambda held: held.order):
        for job_id in jobs_held(shop, one.hold.job) if one.stands else ():
            found.setdefault(job_id, []).append(one.hold)
    return {job_id: tuple(those) for job_id, those in found.items()}


def lifting_roles(shop: Shop) -> tuple[str, ...]:
    """The roles that may lift a hold: those that approve something, and those of manual.yml."""
    approve = [one.approved_by for one in shop.jobs.values()]
    approve += [one.approved_by for one in shop.onboarding.values()]
    return _each_once([*shop.manual.roles, *approve])


def holding_roles(shop: Shop) -> tuple[str, ...]:
    """The roles that may hold a job: whoever signs something, too, for anybody may stop a job."""
    stages = (stage for one in shop.onboarding.values() for stage in one.stages)
    sign = (role for stage in stages for item in stage.items for role in item.signed_by)
    return _each_once([*lifting_roles(shop), *sign])


def _each_once(named: Sequence[str]) -> tuple[str, ...]:
    found = {folded_role(one): " ".join(one.split()) for one in reversed(named) if one.strip()}
    return tuple(sorted(found.values()))


def unknown_role(written: str, known: Sequence[str]) -> tuple[str, ...]:
    """Lines of help for a role that is not among those known; none for one that is."""
    if folded_role(written) in {folded_role(one) for one in known}:
        return ()
    return (*suggestion(written, known), "or name it in manual.yml: roles: [...]")


def check_holds(shop: Shop, holds: Sequence[Held], places: Places) -> Iterator[Finding]:
    """What does not fit in the holds, and a note for each that stands."""
    knows_roles = not places.unbuilt  # else one that nobody knows may stand in what is missing
    known = {"held_by": holding_roles(shop), "lift_by": lifting_roles(shop)}
    for one in holds:
        hold = one.hold
        yield from _wrongly_lifted(one)
        if not one.stands:
            continue
        jobs = jobs_held(shop, hold.job)
        if not jobs and not any(may_be("jobs", hold.job, each) for each in places.unbuilt):
            yield _unknown_job(shop, one)
        if knows_roles:
            yield from _unknown_roles(one, known)
        for job_id in jobs:
            name = hold.job.upper()
            yield Finding(
                "A623",
                Severity.NOTE,
                one.place("job"),
                f"do not run {job_id.upper()}: {hold.reason}",
                (f"once it is put right, that role lifts it: {lift_command(name, hold.lift_by)}",),
            )


def _unknown_job(shop: Shop, one: Held) -> Finding:
    hold = one.hold
    cure = (
        *suggestion(hold.job, shop.jobs),
        f"where the job is gone for good, lift it: {lift_command(hold.job.upper(), hold.lift_by)}",
    )
    text = f"a hold stands for '{hold.job.upper()}', and there is no such job"
    return Finding("A621", Severity.ERROR, one.place("job"), text, cure)


def _unknown_roles(one: Held, known: Mapping[str, Sequence[str]]) -> Iterator[Finding]:
    for key, those in known.items():
        role = getattr(one.hold, key)
        cure = unknown_role(role, those) if role is not None else ()
        if cure:
            text = f"'{role}' is no role that may {_MAY[key]}"
            yield Finding("A622", Severity.ERROR, one.place(key), text, cure)


_MAY = {"held_by": "hold a job in this shop", "lift_by": "lift a hold in this shop"}


def _wrongly_lifted(one: Held) -> Iterator[Finding]:
    hold, lifted = one.hold, one.hold.lifted
    if lifted is None:
        return
    if one.stands:
        text = f"'{lifted.by}' cannot lift this hold: only the {hold.lift_by} may. It stands"
        lift = lift_command(hold.job.upper(), hold.lift_by)
        cure = (f"take `lifted` out; that role lifts it: {lift}",)
        yield Finding("A622", Severity.ERROR, one.place("lifted", "by"), text, cure)
    if lifted.day < hold.day:
        text = f"lifted on {lifted.day}, before it was held on {hold.day}"
        cure = ("write the day on which the job was let go again",)
        yield Finding("A622", Severity.ERROR, one.place("lifted", "day"), text, cure)


def hold_text(job: str, why: str, day: date, held_by: str | None, lift_by: str) -> str:
    """The file of a new hold."""
    lines = [
        "# Nobody runs this job. `benchleaf hold` lifts it, for the role below alone.",
        f"job: {job.upper()}",
        f"why: {_quoted(why)}",
        f"day: {day}",
        *([f"held_by: {_quoted(held_by)}"] if held_by else []),
        f"lift_by: {_quoted(lift_by)}",
    ]
    return "\n".join(lines) + "\n"


def lifted_text(text: str, role: str, day: date, why: str | None) -> str:
    """The file of a hold once it is lifted: all that it held, and the lift at its end."""
    lines = ["lifted:", f"  by: {_quoted(role)}", f"  day: {day}"]
    lines += [f"  why: {_quoted(why)}"] if why else []
    return text.rstrip("\n") + "\n" + "\n".join(lines) + "\n"


def _quoted(text: str) -> str:
    """A text that YAML reads as it is, whatever signs it holds."""
    return json.dumps(" ".join(text.split()), ensure_ascii=False)
