"""How much of a job is warning, and how many touches it asks for, reckoned without a browser.

It goes through the four rounds in one sitting, by the rules of `html/assets/hazards.js`;
`tests/bench/hazards.py` counts the same on the screen, and a test holds the two to each other.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

from benchleaf.html.values import HazardMessage, HazardPanel
from benchleaf.model import ROUNDS, SignalWord

from .job_view import GRAVEST, JobView, StepView

Plain = Callable[[str], str]
ASKED_EACH_ROUND = (SignalWord.DANGER,)


@dataclass(frozen=True, slots=True)
class HazardShare:
    """What four rounds of one job are, in words and touches."""

    warned: int
    """Words of hazards: whole where they are told, their line in the strip elsewhere."""
    work: int
    """Words of the steps themselves, once a round."""
    touches: tuple[int, ...]
    """Touches that answer a hazard, in each round."""

    @property
    def share(self) -> float:
        """Words of hazard to one word of work."""
        return self.warned / (self.work or 1)


@dataclass(slots=True)
class _Sitting:
    """What was told, and what was answered in which round."""

    plain: Plain
    bites: Mapping[str, tuple[int, ...]]
    told: set[str] = field(default_factory=set)
    read: set[tuple[int, str]] = field(default_factory=set)
    warned: int = 0
    touches: dict[int, int] = field(default_factory=lambda: {one.number: 0 for one in ROUNDS})

    def meet(self, turn: int, panels: tuple[HazardPanel, ...], step: StepView | None) -> None:
        """Come to a screen, answer it, and see its strip."""
        met = [(panel.word, one) for panel in panels for one in panel.messages]
        here = [(word, one) for word, one in met if step or one.id not in self.bites]
        new = [(word, one) for word, one in here if one.id not in self.told]
        asked = [
            one for word, one in here
            if word in ASKED_EACH_ROUND and (turn, one.id) not in self.read
        ]  # fmt: skip
        if new or asked:
            news = {one.id for _, one in new}
            self.warned += sum(self._shut(panel, news, step) for panel in panels)
            self.touches[turn] += bool(asked or [word for word, _ in new if word in GRAVEST])
            self.told |= {one.id for _, one in here}
            self.read |= {(turn, one.id) for _, one in here}
        if step or not (new or asked):  # a screen of hazards alone is left when it is answered
            self.warned += sum(self._strip(panel, panel.messages, step) for panel in panels)

    def _shut(self, panel: HazardPanel, news: set[str], step: StepView | None) -> int:
        """A panel with what is new in it whole, the rest in the strip."""
        whole = [one for one in panel.messages if one.id in news]
        rest = tuple(one for one in panel.messages if one.id not in news)
        words = sum(_count(text, self.plain) for one in whole for text in _whole(one))
        return words + bool(whole) + self._strip(panel, rest, step)

    def _strip(
        self, panel: HazardPanel, messages: tuple[HazardMessage, ...], step: StepView | None
    ) -> int:
        """The signal word once, and the line of each message."""
        return bool(messages) + sum(self._line(one, step) for one in messages)

    def _line(self, one: HazardMessage, step: StepView | None) -> int:
        steps = () if step else self.bites.get(one.id, ())  # told there: *At steps 1, 2*
        control = f"At steps {' '.join(map(str, steps))}" if steps else one.control
        return sum(_count(text, self.plain) for text in (one.link.words, control, one.measured))


def hazard_share(view: JobView, plain: Plain) -> HazardShare:
    """The four rounds of one job."""
    sitting = _Sitting(plain, view.bites)
    work = sum(_count(text, plain) for step in view.steps for text in _work(step))
    for turn in (one.number for one in ROUNDS):
        sitting.meet(turn, view.hazards, None)
        for step in view.steps:
            if step.hazards:
                sitting.meet(turn, step.hazards, step)
    return HazardShare(sitting.warned, work * len(ROUNDS), tuple(sitting.touches.values()))


def _whole(one: HazardMessage) -> Iterator[str]:
    yield from (one.what, one.measured, one.when, one.consequence or "", *one.avoid)


def _work(one: StepView) -> Iterator[str]:
    """Title, key points and reasons: what is done, and why."""
    yield one.step.title
    for point in one.step.key_points:
        yield from (point.point, point.reason)


def _count(text: str, plain: Plain) -> int:
    return len(plain(text).split())
