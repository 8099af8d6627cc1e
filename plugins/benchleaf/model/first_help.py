"""Words by which somebody asks for help before anything else, and where that help stands."""

from __future__ import annotations

from typing import Annotated

from .marks import Area, Example, Order
from .record import Record


class FirstHelp(Record):
    """What search puts before all results: words of the shop's own, and one page of it."""

    about = Area.NAMES

    page: Annotated[str | None, Example("safety.md#if-something-goes-wrong")] = None
    """The place of a free page that says what to do first; left out, the safety preface."""
    hurt: Annotated[tuple[str, ...], Order.FREE, Example("plaster")] = ()
    """More words for somebody who is hurt; with * at the end, also among other words."""
    stop: Annotated[tuple[str, ...], Order.FREE, Example("red mushroom")] = ()
    """More words for a machine that does not stop."""
    fire: Annotated[tuple[str, ...], Order.FREE, Example("extinguisher")] = ()
    """More words for fire and smoke."""
    stuck: Annotated[tuple[str, ...], Order.FREE, Example("drill seized")] = ()
    """More words for what is stuck or broken."""

    @property
    def words(self) -> dict[str, tuple[str, ...]]:
        """The shop's own words of each kind of trouble."""
        return {"hurt": self.hurt, "stop": self.stop, "fire": self.fire, "stuck": self.stuck}
