"""Links and hazard messages from records: what every view needs."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace

from benchleaf.compute import SetUpSheet, reasons_not_to_run
from benchleaf.link import Route, Use, Uses, address, routes
from benchleaf.model import (
    Hazard,
    Job,
    Picture,
    Record,
    Shop,
    SignalWord,
    Step,
    control_shown,
    copies,
    name_of,
    place_word,
    work_of,
)

from .marked import mark_views
from .values import HazardMessage, HazardPanel, Link, PictureView


@dataclass(frozen=True, slots=True)
class Lookup:
    """The shop as pages see it."""

    shop: Shop
    uses: Uses
    set_ups: Mapping[str, tuple[SetUpSheet, ...]]
    """The computed set-ups of each job, in the units that its readers have first."""
    free_pages: tuple[Link, ...] = ()
    term_uses: Mapping[str, tuple[Use, ...]] = field(default_factory=dict)
    edition: str = "kiosk"
    fingerprints: Mapping[str, str] = field(default_factory=dict)
    """The fingerprint of each job's meaning."""
    as_meant: tuple[Shop, Mapping[str, tuple[SetUpSheet, ...]]] | None = None
    """Shop and set-ups as a meaning is taken from them, whatever units are read first."""
    machine: str = ""
    """The id of the machine at which the screen stands; empty where it shows all of them."""

    elsewhere: frozenset[str] = frozenset()
    """Jobs that this screen does not show, since it shows them on its own machine."""

    @property
    def jobs(self) -> tuple[Job, ...]:
        """The jobs that lists name."""
        jobs = self.shop.jobs.values()
        return tuple(job for job in jobs if job.id not in self.elsewhere)

    @property
    def routes(self) -> tuple[Route, ...]:
        """Every part with the jobs that lists name, in the order in which it meets them."""
        return tuple(
            replace(one, jobs=tuple(job for job in one.jobs if job.id not in self.elsewhere))
            for one in routes(self.shop)
        )

    @property
    def place(self) -> str:
        """What the places of the shop are called together: machines, or stations of any kind."""
        return place_word(self.shop)

    def kind_words(self, kind: str) -> str:
        """What all records of a kind are called on the page."""
        return f"{self.place.capitalize()}s" if kind == "machines" else KIND_WORDS[kind]

    def link(self, kind: str, record_id: str, anchor: str | None = None) -> Link:
        """A link to a record that exists."""
        record = self.shop.of_kind(kind)[record_id]
        number = f"{record_id.upper()} " if kind == "jobs" else ""
        return Link(address(kind, record_id, anchor), number + name_of(record))

    def links(self, kind: str, ids: Iterable[str]) -> tuple[Link, ...]:
        """Links to records of one kind."""
        return tuple(self.link(kind, record_id) for record_id in ids)

    def sheets(self, job: Job) -> tuple[SetUpSheet, ...]:
        """The computed set-ups of a job."""
        return self.set_ups[job.id]

    def not_to_run(self, job: Job) -> tuple[str, ...]:
        """Every reason not to run a job: its holds, and the limits that its set-ups break."""
        return reasons_not_to_run(self.shop, job.id, self.sheets(job))

    def meant(self, job: Job) -> tuple[Shop, Job, tuple[SetUpSheet, ...]]:
        """Shop, job and set-ups from which the job's meaning is taken."""
        shop, sheets = self.as_meant or (self.shop, self.set_ups)
        return shop, shop.jobs[job.id], sheets[job.id]

    def picture(self, picture: Picture | None) -> PictureView | None:
        """A picture that is there, as the page shows it."""
        if picture is None:
            return None
        size = self.shop.pictures[picture.file]
        return PictureView(
            f"pictures/{picture.file}",
            picture.text,
            picture.caption,
            size.width,
            size.height,
            tuple((one.address, one.width) for one in copies(picture.file, size)),
            mark_views(picture.marks, size),
        )

    def panels(
        self,
        hazard_ids: Iterable[str],
        grab: str = "",
        measured: Collection[str] = (),
        step: Step | None = None,
    ) -> tuple[HazardPanel, ...]:
        """Safety messages: danger, warning, caution, notice, each word once over its messages.

        Several messages may share one heading (MIL-DTL-23618H); gravest first. `grab` is what a
        step's tool can do as it comes through; `measured` are hazards at whose steps that is told;
        `step` is where they stand.
        """
        hazards = [self.shop.hazards[hazard_id] for hazard_id in dict.fromkeys(hazard_ids)]
        return panels(hazards, grab, measured, step)

    def used_by(self, kind: str, record: Record) -> tuple[UsedBy, ...]:
        """What uses a record, by kind, in the order of the manual."""
        found: dict[str, list[Link]] = {}
        record_id = str(getattr(record, "id", ""))
        uses = self.uses.get((kind, record_id), ())
        if kind == "terms":
            uses = (*uses, *self.term_uses.get(record_id, ()))
        for use in uses:
            if use.kind != "jobs" or use.id not in self.elsewhere:
                found.setdefault(use.kind, []).append(self._use_link(use.kind, use.id, use.step))
        return tuple(
            UsedBy(self.kind_words(kind_), tuple(dict.fromkeys(links)))
            for kind_, links in found.items()
        )

    def _use_link(self, kind: str, record_id: str, step_id: str | None) -> Link:
        link = self.link(kind, record_id)
        if step_id is None:
            return link
        steps = self.shop.jobs[record_id].steps
        number, step = next((n, s) for n, s in enumerate(steps, 1) if s.id == step_id)
        return Link(address(kind, record_id, step_id), link.words, f"step {number}: {step.title}")


def jobs_elsewhere(shop: Shop, machine_id: str) -> frozenset[str]:
    """The jobs of groups on other machines than one, where that machine has them too."""
    jobs = shop.jobs.values()
    here = {work_of(shop.made, job.id) for job in jobs if job.machine == machine_id}
    others = (job.id for job in jobs if job.machine != machine_id)
    return frozenset(one for one in others if work_of(shop.made, one) in here)


@dataclass(frozen=True, slots=True)
class UsedBy:
    """The uses of a record in records of one kind."""

    title: str
    links: tuple[Link, ...]


FIND_WORDS = "Everything from A to Z"
"""The title of the page that lists every page by its first letter."""

SEE_WORDS = "What do you see?"
"""The title of the page on which everything is found by its picture."""

KIND_WORDS = {
    "jobs": "Jobs",
    "parts": "Parts",
    "operations": "Operations and formulas",
    "charts": "Charts for the wall",
    "machines": "Machines",
    "materials": "Materials",
    "tools": "Tools and gauges",
    "fluids": "Cutting fluids",
    "hazards": "Hazards",
    "onboarding": "Lists for new people",
    "terms": "Words of the trade",
}
"""What each kind is called on the page; see `Lookup.kind_words` for machines."""


COMES_THROUGH = "It bites as the tool comes through."
ONLY = "Only {} meet it."


def message(
    hazard: Hazard, grab: str = "", step: Step | None = None, *, is_measured: bool = False
) -> HazardMessage:
    """The safety message of a hazard, as it stands before a step or elsewhere."""
    return HazardMessage(
        hazard.id,
        Link(address("hazards", hazard.id), hazard.title),
        hazard.signal_word,
        hazard.what,
        hazard.consequence,
        hazard.avoid,
        grab if hazard.at_break_through else "",
        _when(hazard, is_told=bool(grab) or is_measured),
        control_shown(hazard, step),
    )


def _when(hazard: Hazard, *, is_told: bool) -> str:
    """When a hazard bites and whom, where that is not plain; `is_told` where figures say when."""
    when = COMES_THROUGH if hazard.at_break_through and not is_told else ""
    whom = ONLY.format(hazard.only_for) if hazard.only_for else ""
    return " ".join(part for part in (when, whom) if part)


def panels(
    hazards: Sequence[Hazard],
    grab: str = "",
    measured: Collection[str] = (),
    step: Step | None = None,
) -> tuple[HazardPanel, ...]:
    """One panel for each signal word that the hazards give, gravest first."""
    by_word = {word: [one for one in hazards if one.signal_word is word] for word in SignalWord}
    return tuple(
        HazardPanel(
            word, tuple(message(one, grab, step, is_measured=one.id in measured) for one in found)
        )
        for word, found in by_word.items()
        if found
    )
