"""What a learner's curve says of the pieces to come, with its range."""

from __future__ import annotations

from benchleaf.compute.practice import ENOUGH, Curve, Standard
from benchleaf.html.dates import hours

NO_END = 20
"""Where the latest piece is so many times the soonest one, no end is told. A house value."""


def to_basic_time(curve: Curve | None, standard: Standard | None) -> str:
    """Between which pieces the basic time is reached; never one number without its range."""
    if curve is None or standard is None:
        return ""
    found = curve.pieces_at(standard.basic_s)
    if found is None:
        return (
            "With the shop's own percentage no range is known, so that it is not computed with "
            "which piece they reach the basic time."
        )
    done = curve.observed[-1][0]
    if found.high is None or found.high > NO_END * found.low:
        soonest = (
            f"is not reached before piece {found.low}"
            if found.low > done
            else "may be reached already"
        )
        return f"By this curve the basic time {soonest}; how late it comes cannot be told."
    between = f"between piece {found.low} and piece {found.high}, nine times in ten"
    if found.low == found.high:
        between = f"with piece {found.low}"
    if found.high <= done:
        return f"By this curve the basic time was reached {between}."
    most = f"{found.high - done} more at most, {_work(curve, done, found.high)}"
    if found.low <= done:
        return f"By this curve the basic time is reached {between}: {most}."
    least = f"{found.low - done} more at least, {_work(curve, done, found.low)}"
    return f"By this curve the basic time is reached {between}: {least}; {most}."


def _work(curve: Curve, done: int, piece: int) -> str:
    """Time at work until a piece is made."""
    return hours(sum(curve.expected_s(n) for n in range(done + 1, piece + 1)) / 60)


def pieces_to_time(curve: Curve | None, standard: Standard | None) -> str:
    """Which pieces to time next, and why; nothing where the curve says enough."""
    if curve is None:
        return f"Time {ENOUGH} pieces of this learner, some of the first among them."
    pieces = curve.pieces_to_time(standard.basic_s if standard else None)
    if not pieces:
        return ""
    known = len({piece for piece, _ in curve.observed})
    which = ", ".join(str(one) for one in pieces)
    words = f"Please time piece{'s' if len(pieces) > 1 else ''} {which} or near"
    if known < ENOUGH:
        return f"{words}: {known} timed piece{'s are' if known > 1 else ' is'} too few to plan by."
    return f"{words}: the range is wide."
