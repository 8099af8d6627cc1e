"""Links and hazard messages from records: what every view needs."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from benchleaf.compute import SetUpSheet
from benchleaf.link import Use, Uses, address
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
)

from .marked import mark_views
from .values import HazardMessage, HazardPanel, Link, PictureView


@dataclass(frozen=True, slots=True)
class Lookup:
    """The shop as pages see it."""

    shop: Shop
    uses: Uses
    set_ups: Mapping[str, tuple[SetUpSheet, ...]]
    """The computed set-ups of each job."""
    free_pages: tuple[Link, ...] = ()
    term_uses: Mapping[str, tuple[Use, ...]] = field(default_factory=dict)
    edition: str = "kiosk"
    fingerprints: Mapping[str, str] = field(default_factory=dict)
    """The fingerprint of each job's meaning."""

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
        self, hazard_ids: Iterable[str], grab: str = "", step: Step | None = None
    ) -> tuple[HazardPanel, ...]:
        """Safety messages: danger, warning, caution, notice, each word once over its messages.

        Several messages may share one heading (MIL-DTL-23618H); gravest first. `grab` is what a
        step's tool can do as it comes through; `step` is where they stand.
        """
        hazards = [self.shop.hazards[hazard_id] for hazard_id in dict.fromkeys(hazard_ids)]
        return panels(hazards, grab, step)

    def used_by(self, kind: str, record: Record) -> tuple[UsedBy, ...]:
        """What uses a record, by kind, in the order of the manual."""
        found: dict[str, list[Link]] = {}
        record_id = str(getattr(record, "id", ""))
        uses = self.uses.get((kind, record_id), ())
        if kind == "terms":
            uses = (*uses, *self.term_uses.get(record_id, ()))
        for use in uses:
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


@dataclass(frozen=True, slots=True)
class UsedBy:
    """The uses of a record in records of one kind."""

    title: str
    links: tuple[Link, ...]


FIND_WORDS = "Everything from A to Z"
"""The title of the page that lists every page by its first letter."""

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


def message(hazard: Hazard, grab: str = "", step: Step | None = None) -> HazardMessage:
    """The safety message of a hazard, as it stands before a step or elsewhere."""
    return HazardMessage(
        hazard.id,
        Link(address("hazards", hazard.id), hazard.title),
        hazard.signal_word,
        hazard.what,
        hazard.consequence,
        hazard.avoid,
        grab if hazard.at_break_through else "",
        control_shown(hazard, step),
    )


def panels(
    hazards: Sequence[Hazard], grab: str = "", step: Step | None = None
) -> tuple[HazardPanel, ...]:
    """One panel for each signal word that the hazards give, gravest first."""
    by_word = {word: [one for one in hazards if one.signal_word is word] for word in SignalWord}
    return tuple(
        HazardPanel(word, tuple(message(one, grab, step) for one in found))
        for word, found in by_word.items()
        if found
    )
