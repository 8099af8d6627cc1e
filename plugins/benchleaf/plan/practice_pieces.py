"""Pieces that lessons use up for practice, of each batch; those of promised lessons come first."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from .books import Booking
from .lessons import Key
from .setting import Setting
from .talks import Talk


@dataclass(slots=True)
class PracticePieces:
    """What is left of each batch while a plan is made."""

    setting: Setting
    _used: dict[int, int] = field(default_factory=dict)
    _promised: dict[Key, int] = field(default_factory=dict)
    """The batch of each promised lesson."""

    def left(self, batch: int) -> int:
        """Pieces of a batch that nobody has used up."""
        return self.setting.situation.crew.facts.batches[batch].pieces - self._used.get(batch, 0)

    def use(self, talk: Talk, batch: int) -> None:
        """A lesson takes its pieces from a batch; -1 where it needs none."""
        if batch >= 0:
            self._used[batch] = self._used.get(batch, 0) + self.setting.pieces(talk)

    def promise(self, kept: Mapping[Key, Sequence[Booking]]) -> None:
        """Put the pieces of promised lessons aside, in the order of their days."""
        talks = {one.key: one for one in self.setting.talks}
        for key in sorted(
            (one for one in kept if one in talks), key=lambda one: kept[one][0].begin
        ):
            pieces = self.setting.pieces(talks[key])
            for batch in self._batches(talks[key]):
                if self.left(batch) >= pieces and self._is_there(batch, kept[key]):
                    self.use(talks[key], batch)
                    self._promised[key] = batch
                    break

    def suffice(self, talk: Talk) -> bool:
        """Whether a promised lesson has its pieces, or needs none."""
        return not self._batches(talk) or talk.key in self._promised

    def give_back(self, talk: Talk) -> None:
        """The pieces of a promised lesson that is placed anew."""
        batch = self._promised.pop(talk.key, None)
        if batch is not None:
            self._used[batch] -= self.setting.pieces(talk)

    def _batches(self, talk: Talk) -> Sequence[int]:
        return self.setting.jobs[talk.lessons[0].job.id].batches

    def _is_there(self, batch: int, kept: Sequence[Booking]) -> bool:
        one = self.setting.situation.crew.facts.batches[batch]
        return all(one.is_there(self.setting.presence.day(each.day)) for each in kept)
