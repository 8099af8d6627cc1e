"""Hazards, and the signal word that their three inputs give."""

from __future__ import annotations

from datetime import date
from enum import StrEnum
from functools import cached_property
from typing import Annotated

from pydantic import Field

from .accepted import Accepted
from .ids import Id, Text, Title
from .marks import Area, Each, Example, Order, Trait
from .record import Record
from .still_open import StillOpen


class Severity(StrEnum):
    """The worst credible harm."""

    DEATH_OR_SERIOUS = "death or serious injury"
    MINOR_OR_MODERATE = "minor or moderate injury"
    NO_INJURY = "no injury"


class Certainty(StrEnum):
    """How sure it is."""

    WILL = "will"
    COULD = "could"


class SignalWord(StrEnum):
    """The four words, gravest first. ANSI Z535.6-2006 Annex C4.1 (read in part, rest by memory)."""

    DANGER = "DANGER"
    WARNING = "WARNING"
    CAUTION = "CAUTION"
    NOTICE = "NOTICE"

    @property
    def rank(self) -> int:
        """0 for the gravest: messages stand in this order."""
        return list(SignalWord).index(self)

    @property
    def has_alert_symbol(self) -> bool:
        """The alert symbol means injury; a notice never carries it."""
        return self is not SignalWord.NOTICE


def signal_word(
    severity: Severity, accident_if_not_avoided: Certainty, harm_if_accident: Certainty
) -> SignalWord:
    """The signal word from worst credible harm and the two certainties.

    DANGER only where an accident will happen if the hazard is not avoided, and death or serious
    injury will follow from it. Minor or moderate harm is CAUTION at every probability.

    >>> signal_word(Severity.DEATH_OR_SERIOUS, Certainty.WILL, Certainty.COULD).value
    'WARNING'

    Source: ANSI Z535.6-2006 Annex C4.1; the exact split of WARNING and DANGER from memory.
    """
    if severity is Severity.NO_INJURY:
        return SignalWord.NOTICE
    if severity is Severity.MINOR_OR_MODERATE:
        return SignalWord.CAUTION
    both_certain = accident_if_not_avoided is harm_if_accident is Certainty.WILL
    return SignalWord.DANGER if both_certain else SignalWord.WARNING


class Controls(Record):
    """What keeps the harm away, in the published order: strongest first, equipment worn last.

    Source of the order: MIL-STD-882E 4.3.4; ISO 45001 8.1.2 gives the same.
    """

    design_out: Annotated[
        tuple[Text, ...],
        Order.COUNTS,
        Example("The drill is short enough never to reach the table."),
    ] = ()
    """Done by the way the job, tool or machine is built."""
    guard: Annotated[
        tuple[Text, ...],
        Order.COUNTS,
        Example("The chuck guard is closed while the spindle turns."),
    ] = ()
    """A guard, clamp, interlock or other fixed device."""
    warn: Annotated[
        tuple[Text, ...], Order.COUNTS, Example("A red lamp burns while the spindle turns.")
    ] = ()
    """A light, sound or sign that warns."""
    procedure: Annotated[
        tuple[Text, ...], Order.COUNTS, Example("Stop the spindle before you reach in.")
    ] = ()
    """A way of working that is taught."""
    wear: Annotated[
        tuple[Text, ...], Order.FREE, Each("to wear"), Example("Safety glasses with side shields")
    ] = ()
    """Equipment worn: the last resort, never the only control where another is possible."""


class WrongAnswers(Record):
    """What does not keep a hazard away, for the question that the step view asks.

    None may be a control of any hazard, step, job or machine beside which it is offered (V538).
    """

    answers: Annotated[
        tuple[str, ...], Order.FREE, Example("Let the chips lie until the shift ends.")
    ] = Field(min_length=1)
    """Acts that keep nobody from this harm, and that nobody is hurt by who does them."""
    approved_by: Annotated[str, Example("production engineer")]
    """The role of the engineer who read each of them against the jobs of the hazard."""
    approved: Annotated[date, Example("2026-03-09")]
    """The day on which they were approved."""


class Hazard(Record):
    """One hazard with its message: what it is, what happens, how to avoid it."""

    about = Area.HAZARD

    id: Id
    """The hazard's id, such as `work-turns`."""
    title: Annotated[Title, Trait.NAME, Example("Work that turns with the drill")]
    """A few words for lists, such as `Gloves at a turning spindle`."""
    severity: Annotated[Severity, Trait.GIVES_SIGNAL_WORD, Trait.ONLY_RECKONED]
    """Worst credible harm."""
    accident_if_not_avoided: Annotated[Certainty, Trait.GIVES_SIGNAL_WORD, Trait.ONLY_RECKONED]
    """Whether an accident will or could happen if nobody avoids it."""
    harm_if_accident: Annotated[Certainty, Trait.GIVES_SIGNAL_WORD, Trait.ONLY_RECKONED]
    """Whether that harm will or could follow from an accident."""
    answers_because: Annotated[
        Text | None,
        Area.HELP,
        Trait.NOT_TAUGHT,
        Example("Most loose plates are caught by the stop, so it could happen."),
    ] = None
    """Why the three questions are answered so."""
    what: Annotated[Text, Example("Loose work is swung round by the drill.")]
    """The hazard itself, in a sentence."""
    consequence: Annotated[Text | None, Example("It can break fingers.")] = None
    """How it injures, or what it damages; may be left out where obvious."""
    avoid: Annotated[
        tuple[Text, ...], Order.COUNTS, Example("Clamp the work before you press start.")
    ]
    """How to avoid it, each a command."""
    controls: Annotated[Controls, Trait.CONTROL]
    """What keeps the harm away, strongest first."""
    bites_at: Annotated[tuple[str, ...], Area.CHECKS_ONLY, Order.FREE, Example("press start")] = ()
    """Words in a step, such as `press start`, at which it bites. Name it in the hazards of that
    step; the check tells where a job shows it later."""
    at_break_through: Annotated[bool, Trait.LATER, Example("false")] = False
    """True where a tool that draws itself in brings it: a step's message then says the torque."""
    source: Annotated[str | None, Trait.ON_ITS_OWN_PAGE, Example("common trade practice")] = None
    """Where the rule comes from, in plain words."""
    only_for: Annotated[Title | None, Trait.LATER, Example("setters")] = None
    """Who alone meets it, where no operator does, such as `setters`. It then comes after the others
    on the pages of jobs in which it does not bite."""
    wrong_answers: Annotated[WrongAnswers | None, Trait.NOT_TAUGHT, Trait.LATER] = None
    """Wrong answers to *what keeps it away here?*. Without them the learner only confirms."""
    accept: Annotated[tuple[Accepted, ...], Area.CHECKS_ONLY, Order.FREE, Trait.LATER] = ()
    """Warnings that do not fit this hazard, each with the reason."""
    still_open: StillOpen = ()
    """What is still to be given, a line each; while one is left, nobody is taught from it."""

    @cached_property
    def signal_word(self) -> SignalWord:
        """Computed from the three inputs, never typed."""
        return signal_word(self.severity, self.accident_if_not_avoided, self.harm_if_accident)
