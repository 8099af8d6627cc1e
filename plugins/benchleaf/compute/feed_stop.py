"""What is a stop on the feed: something of the machine, never a hand, a spring or a depth stop."""

from __future__ import annotations

import re

from benchleaf.model import DrillingSetUp, FeedStop

_BY_MACHINE = re.compile(
    r"\b(?:power(?:ed)?|gears?|geared|screw|nut|clutch|servo|motor|hydraulic\w*|oil check|damper|"
    r"dashpot|air[- ]oil|cylinder|cam|worm)\b",
    re.IGNORECASE,
)
"""What forces a feed upon a tool, or holds it back at any pull."""
_NO_STOP = re.compile(
    r"\b(?:(?<!-)hands?(?!-| ?wheel)|fingers?|arms?|feel|eas(?:e|es|ed|ing)|careful(?:ly)?|"
    r"slow(?:ly)?|gently|attention|skill|depth[- ]stop|stop (?:collar|ring|nuts?)|springs?|"
    r"quill (?:lock|brake|clamp)|"
    r"(?:operator|setter|trainer|you) (?:is|are|holds?|keeps?|watch\w*))\b",
    re.IGNORECASE,
)
"""What gives way to a drill that draws itself in: a depth stop ends the way, and slows nothing."""


def feed_stop_of(operation: DrillingSetUp) -> FeedStop | None:
    """The feed stop that may be counted; None where what is entered gives way."""
    stop = operation.feed_stop
    return None if stop is None or gives_way(stop) else stop


def gives_way(stop: FeedStop) -> bool:
    """Whether the words of a feed stop name a hand, a spring, a depth stop, and no drive.

    >>> told = FeedStop.model_construct
    >>> [gives_way(told(how=how)) for how in ("The feed runs by power.", "The return spring.")]
    [False, True]
    """
    return bool(_NO_STOP.search(stop.how)) and not _BY_MACHINE.search(stop.how)
