"""The job page as plain data, in the order in which a learner needs it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from benchleaf.compute import Row, SetUpSheet, fit_limits_mm, span, told, told_entered
from benchleaf.compute.worst import no_less, no_more
from benchleaf.drawings.figure_tray import tray_figure
from benchleaf.drawings.part_plan import part_plan
from benchleaf.drawings.scene_picture import Scene
from benchleaf.drawings.scenes import scenes_of
from benchleaf.drawings.set_up_drawings import figures
from benchleaf.html.grab import grab_line, grab_words
from benchleaf.html.issue import in_force_of, issue_of
from benchleaf.html.lookup import Lookup
from benchleaf.html.values import HANDING_ON, HazardPanel, Link, PictureView, Section
from benchleaf.link import address
from benchleaf.model import (
    Check,
    Job,
    Machine,
    ReamingSetUp,
    SetUp,
    Shop,
    SignalWord,
    StationKind,
    Step,
    Units,
    WorkPiece,
    hazards_met,
    not_met,
    units_at,
    workplace,
)

from .alike import Alike, alike_view
from .at_work import CheckAtWork, checks_at_work
from .made_safe import MadeSafe, made_safe, safe_title
from .self_check import ValueQuestion, value_questions
from .wrong_view import WrongView, wrong_view

SET_KEYS = (
    "spindle_speed",
    "depth_stop",
    "time",
    "drilled_depth",
    "turns",
    "sink_depth",
    "bore_depth",
)
"""The figures an operator sets or counts; they stand large above the others."""

GRAVEST = (SignalWord.DANGER, SignalWord.WARNING)
"""The words of the hazards that a job page begins with."""


@dataclass(frozen=True, slots=True)
class SetUpView:
    """A computed set-up: the figures to set, then all others with their working."""

    sheet: SetUpSheet
    tool: Link
    to_set: tuple[Row, ...]
    where: str = ""
    """The spindle, and the station of a cell, where it needs saying."""
    held: str | None = None
    """What the holding resists against what is wanted, in words."""
    grab: tuple[str, ...] = ()
    """What the drill can do as it comes through, in words."""
    figures: tuple[Markup, ...] = ()
    """Drawings to scale, from the same results."""
    deep: str = ""
    """How deep the size goes, where it is entered and no figure tells it."""


@dataclass(frozen=True, slots=True)
class CheckView:
    """What is checked, between what limits, with which gauge."""

    what: str
    how: str | None
    limits: str | None
    limits_low_high: str | None
    gauge: Link | None
    between_mm: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class StepView:
    """One important step with the hazards that bite in it."""

    number: int
    step: Step
    hazards: tuple[HazardPanel, ...]
    picture: PictureView | None
    checks: tuple[CheckView, ...]
    set_up: SetUpView | None
    at: str
    """The station of a cell, or the spindle, at which it is done; else empty."""
    scene: Scene | None = None
    """What the hand does, drawn from the records; None where the step has its own picture."""
    pairs: tuple[Markup | None, ...] = ()
    """For each key point, so and not so; None where it has no such pair."""


@dataclass(frozen=True, slots=True)
class Unmet:
    """Hazards of the machine that a job never meets, and why."""

    hazards: tuple[Link, ...]
    because: str
    """A sentence that begins small."""


@dataclass(frozen=True, slots=True)
class JobView:
    """Everything on a job page."""

    job: Job
    number: str
    machine: Machine
    made_safe: tuple[MadeSafe, ...]
    """Every station of the job that has something to stop or to cut off."""
    machine_link: Link
    material: Link | None
    tools: tuple[Link, ...]
    fluid: Link | None
    know_first: tuple[Link, ...]
    before: Link | None
    after: Link | None
    hazards: tuple[HazardPanel, ...]
    """Of steps, job and machine, each once, the gravest word first; then those that no operator
    of this job meets."""
    wrong_answers: Mapping[str, tuple[str, ...]]
    """Hazard id -> what may be offered as wrong where it bites at a step."""
    bites: Mapping[str, tuple[int, ...]]
    """Hazard id -> the steps at which it bites."""
    not_met: tuple[Unmet, ...]
    picture: PictureView | None
    part: Link | None
    piece: WorkPiece | None
    """The part as the job meets it."""
    needed_by: tuple[Link, ...]
    """Jobs that ask for this one first."""
    set_ups: tuple[SetUpView, ...]
    steps: tuple[StepView, ...]
    sections: tuple[Section, ...]
    value_questions: tuple[ValueQuestion, ...]
    """Questions of the self-check on what to set."""
    tray: Markup | None = None
    """The tray or board that parts are handed on in, drawn from above."""
    sheets: tuple[Link, ...] = ()
    """What a trainer prints; in the full edition only."""
    fingerprint: str = ""
    """Of the job's meaning; the page shows its first eight digits."""
    plan: str = ""
    """The part from above as the job leaves it, what the job makes as the strong line."""
    scene_lines: str = ""
    """Lines that several scenes share; they stand once on the page, before the steps."""
    alike: Alike | None = None
    """The same job on other machines of a group; None for a job of one machine."""
    reasons_not_to_run: tuple[str, ...] = ()
    """Every reason, in order: holds, then limits that set-ups break."""

    @property
    def wrong(self) -> WrongView:
        """What is done when something is wrong."""
        return wrong_view(self.job.if_wrong, self.made_safe)

    @property
    def checks(self) -> tuple[CheckAtWork, ...]:
        """Every check of the job, as one needs it at work."""
        return checks_at_work(self.steps)

    @property
    def stop_words(self) -> str:
        """What stands over the reasons not to run."""
        return "Do not run on this machine" if self.alike else "Do not run"

    @property
    def may_run(self) -> bool:
        """False where it is on hold, or any set-up must not be run."""
        return not self.reasons_not_to_run

    @property
    def gravest(self) -> tuple[HazardPanel, ...]:
        """Of the hazards those that can kill or seriously injure."""
        return tuple(one for one in self.hazards if one.word in GRAVEST)

    @property
    def is_driven(self) -> bool:
        """True where anything starts and stops."""
        return any(one.controls for one in self.made_safe)

    @property
    def safe_title(self) -> str:
        """What stands above how the station is made safe."""
        return safe_title(self.made_safe)

    @property
    def has_hand_contact(self) -> bool:
        """True where the trainer may touch the learner's hand in any step."""
        return any(one.step.hand_contact for one in self.steps)


def paper_foot(job: Job, drafts: Mapping[str, str]) -> str:
    """What the foot of each printed page of a job says of it."""
    return f"{job.id.upper()}, {issue_of(job, drafts)}, {in_force_of(job, drafts)}"


def job_view(lookup: Lookup, job: Job) -> JobView:
    """The view of one job."""
    shop = lookup.shop
    machine, piece, units = workplace(shop, job), shop.piece(job), units_at(shop, job)
    safe = made_safe(shop, job.machine)
    set_ups = tuple(_set_up_view(lookup, job, sheet) for sheet in lookup.sheets(job))
    by_id = {view.sheet.id: view for view in set_ups}
    drawn = scenes_of(shop, job, lookup.sheets(job))
    return JobView(
        job=job,
        number=job.id.upper(),
        machine=machine,
        made_safe=safe,
        machine_link=lookup.link("machines", machine.id),
        material=lookup.link("materials", piece.part.material) if piece else None,
        tools=lookup.links("tools", job.tools),
        fluid=lookup.link("fluids", job.fluid) if job.fluid else None,
        know_first=lookup.links("jobs", job.know_first),
        before=_job_link(lookup, job.operation_before),
        after=_job_link(lookup, job.operation_after),
        hazards=tuple(_hazards(lookup, job, machine, _measured(job, by_id))),
        wrong_answers=_wrong_answers(shop, job),
        bites=_bites(job),
        not_met=tuple(_unmet(lookup, job, machine)),
        picture=lookup.picture(job.picture),
        part=Link(address("parts", piece.part.id), piece.part.number) if piece else None,
        piece=piece,
        needed_by=_needed_by(lookup, job),
        set_ups=set_ups,
        steps=tuple(
            replace(
                _step_view(lookup, number, step, by_id.get(step.set_up or ""), units),
                scene=scene,
                pairs=pairs,
            )
            for number, (step, scene, pairs) in enumerate(
                zip(job.steps, drawn.scenes, drawn.pairs, strict=True), 1
            )
        ),
        scene_lines=drawn.lines,
        plan=part_plan(piece.part, piece.leaves.id, units) if piece and piece.leaves else "",
        sections=_sections(job, machine.kind, safe),
        value_questions=value_questions(lookup.sheets(job)),
        tray=tray_figure(job.tray, job.id, units) if job.tray else None,
        fingerprint=lookup.fingerprints.get(job.id, ""),
        alike=alike_view(lookup, job),
        reasons_not_to_run=lookup.not_to_run(job),
    )


def _measured(job: Job, set_ups: Mapping[str, SetUpView]) -> set[str]:
    """Hazards at whose steps it is told how hard the tool turns as it comes through."""
    grabs = {name for name, one in set_ups.items() if grab_line(one.sheet)}
    return {hazard for step in job.steps if step.set_up in grabs for hazard in step.hazards}


def _hazards(
    lookup: Lookup, job: Job, machine: Machine, measured: set[str]
) -> Iterator[HazardPanel]:
    """What only others meet comes last, unless it bites at a step or the job is theirs."""
    met, bites = hazards_met(job, machine), _bites(job)
    hazards = lookup.shop.hazards
    others = {
        one for one in met if hazards[one].only_for and one not in bites and not job.authorised_only
    }
    yield from lookup.panels((one for one in met if one not in others), measured=measured)
    yield from lookup.panels((one for one in met if one in others), measured=measured)


def _wrong_answers(shop: Shop, job: Job) -> dict[str, tuple[str, ...]]:
    found = ((one, shop.hazards[one].wrong_answers) for one in _bites(job))
    return {one: answers.answers for one, answers in found if answers}


def _bites(job: Job) -> dict[str, tuple[int, ...]]:
    found: dict[str, tuple[int, ...]] = {}
    for number, step in enumerate(job.steps, 1):
        for hazard in dict.fromkeys(step.hazards):
            found[hazard] = (*found.get(hazard, ()), number)
    return found


def _unmet(lookup: Lookup, job: Job, machine: Machine) -> Iterator[Unmet]:
    """Hazards of the machine that the job leaves out; those of one reason in one line."""
    by_reason: dict[str, list[Link]] = {}
    for one in not_met(job):
        if one.hazard in machine.hazards:
            link = lookup.link("hazards", one.hazard)
            by_reason.setdefault(one.reason, []).append(link)
    for reason, links in by_reason.items():
        yield Unmet(tuple(links), _after_because(reason))


def _after_because(reason: str) -> str:
    """A sentence as it stands after `because`; an abbreviation keeps its capital."""
    if reason[:1].isupper() and not reason[1:2].isupper():
        return reason[0].lower() + reason[1:]
    return reason


def _needed_by(lookup: Lookup, job: Job) -> tuple[Link, ...]:
    uses = lookup.uses.get(("jobs", job.id), ())
    ids = (use.id for use in uses if use.kind == "jobs")
    wanting = (one for one in dict.fromkeys(ids) if job.id in lookup.shop.jobs[one].know_first)
    return lookup.links("jobs", wanting)


def _job_link(lookup: Lookup, job_id: str | None) -> Link | None:
    return lookup.link("jobs", job_id) if job_id else None


def _set_up_view(lookup: Lookup, job: Job, sheet: SetUpSheet) -> SetUpView:
    to_set = tuple(row for key in SET_KEYS if (row := sheet.row(key)) is not None)
    set_up = next(one for one in job.set_ups if one.id == sheet.id)
    tool, drawings = lookup.link("tools", sheet.tool), figures(sheet, set_up)
    where = _where(lookup.shop, job, set_up)
    deep = set_up.depth.text if isinstance(set_up, ReamingSetUp) else ""
    return SetUpView(sheet, tool, to_set, where, _held(sheet), grab_words(sheet), drawings, deep)


def _where(shop: Shop, job: Job, set_up: SetUp) -> str:
    """The spindle, and the station of a cell; its figures are true there alone."""
    machine = shop.machines[set_up.station or job.machine]
    names = [machine.name] if set_up.station else []
    names += [one.name for one in machine.spindles if one.id == set_up.spindle]
    return ", ".join(names)


def _held(sheet: SetUpSheet) -> str | None:
    capacity, wanted = sheet.found.capacity, sheet.found.wanted
    if capacity is None or wanted is None or not sheet.may_run:
        return None
    return told(
        f"It resists {no_more(capacity, 'N m')}. Wanted are {no_less(wanted, 'N m')}, with the "
        f"margin. In the cut the work is {sheet.found.held}. "
        "That is strong enough, as long as nothing is changed.",
        sheet.units,
    )


def _step_view(
    lookup: Lookup, number: int, step: Step, set_up: SetUpView | None, units: Units
) -> StepView:
    checks = tuple(check_view(lookup, check, units) for check in step.checks)
    grab = grab_line(set_up.sheet) if set_up else ""
    hazards = lookup.panels(step.hazards, grab, step=step)
    at = lookup.shop.machines[step.station].name if step.station else ""
    at = (set_up.where if set_up else "") or at
    return StepView(number, step, hazards, lookup.picture(step.picture), checks, set_up, at)


def check_view(lookup: Lookup, check: Check, units: Units) -> CheckView:
    """The view of one check, its limits in the units that stand first and never wider than true."""
    limits, good, ends = None, None, None
    if check.limits is not None:
        limits = told_entered(check.limits, units)
        ends = check.limits.low, check.limits.high
        good = told(span(*ends, "mm"), units)
    elif check.size is not None and check.fit is not None:
        ends = fit_limits_mm(check.fit, check.size.value)
        limits = f"{told_entered(check.size, units)} {check.fit}"
        good = told(span(*ends, "mm", 3), units)
    gauge = lookup.link("tools", check.gauge) if check.gauge else None
    return CheckView(check.what, check.how, limits, good, gauge, ends)


def _sections(job: Job, kind: StationKind, safe: Sequence[MadeSafe]) -> tuple[Section, ...]:
    """The parts of the page, always the same and in the same order."""
    set_up = (Section("set-up", f"Set up the {kind.noun}"),) if job.set_ups else ()
    return (
        Section("wear", "Wear this, take that off"),
        Section("machine-controls", safe_title(safe)),
        Section("makes", "What this job makes"),
        Section("know-first", "Know this first"),
        Section("hazards", f"Hazards of this {kind.noun} and job"),
        Section("have-ready", "Have this ready"),
        *set_up,
        Section("steps", "The steps"),
        Section("if-wrong", "Something is wrong"),
        Section("hand-on", HANDING_ON),
        Section("revision", "Revision"),
    )
