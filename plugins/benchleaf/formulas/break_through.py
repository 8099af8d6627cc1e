"""The torque to which a kept pull can grow as a drill comes through: the grab, to its end.

While the lips leave, ever less of them carries the pull, so the drill draws itself in ever faster.
What is left of the lips sits at the rim, where it turns the work hardest. The torque therefore goes
on rising after the chisel edge is out, towards a limit that no feed passes.

Derived here by statics from the loads of feel.py; no measurement of it is known. It bounds work of
every shape: at a given share of the lips left, none turns harder than a ring at the rim.
"""

from .domain import positive, within
from .drill_factors import FEED_EXPONENT, FEED_RANGE_MM_REV, OPEN_PART_RANGE

END_FEED_MM_REV = FEED_RANGE_MM_REV[1]
"""The coarsest feed that the handbook's factors cover (source mh31-table-8, read)."""
NOISE = 1e-9
KEPT_RANGE = (1.0, 100.0)
"""Pull over what the lips alone ask. Our own judgement: Table 7's longest chisel edge gives 4."""


def kept_ratio(thrust_n: float, lips_n: float) -> float:
    """Find how many times the thrust of the lips the hand presses with.

    Args:
        thrust_n: [N] greatest thrust until the point comes through, which the hand keeps
        lips_n: [N] thrust of the lips alone in full cut, at the set feed

    Returns:
        [-] ratio, 1 behind a pilot hole

    Valid: thrust at least that of the lips

    >>> kept_ratio(2477.0, 1176.0)
    2.106

    Source: statics [statics, geometry]; the split [chisel-share, our own judgement]
    """
    kept = positive("thrust_n", thrust_n) / positive("lips_n", lips_n)
    # Behind a pilot hole the two are one force, found in two ways that differ by a last digit.
    return 1.0 if abs(kept - 1) < NOISE else within("thrust_n / lips_n", kept, *KEPT_RANGE)


def exit_torque_limit_nm(torque_nm: float, kept: float, open_part: float) -> float:
    """Find the torque that a kept pull reaches at most before the lips have left.

    Args:
        torque_nm: [N.m] torque in full cut at the set feed
        kept: [-] pull over the thrust of the lips, of kept_ratio
        open_part: [-] chisel edge, or pilot hole, over the diameter

    Returns:
        [N.m] torque, approached as the feed grows without end

    Valid: open part 0.03 to 0.50; a pull that is kept and no greater than that of the full cut;
        thrust even along the radius, torque in proportion to it. The last metal cuts: where it
        tears, or a lip hooks, the grab is worse

    >>> exit_torque_limit_nm(6.83, 2.106, 0.18)
    24.4

    Source: statics [statics, geometry]; the spread along the lip [feel-spread, our own judgement]
    """
    dragged = positive("torque_nm", torque_nm) * within("kept", kept, *KEPT_RANGE)
    return dragged * 2 / (1 + within("open_part", open_part, *OPEN_PART_RANGE))


def lips_left(kept: float, feed_mm_rev: float, most_feed_mm_rev: float) -> float:
    """Find the part of the lips that still cuts when a kept pull reaches a feed.

    Equation: s = q (f / F)^0.8, and 1 where the whole lips reach it

    Args:
        kept: [-] pull over the thrust of the lips q
        feed_mm_rev: [mm/rev] set feed f
        most_feed_mm_rev: [mm/rev] feed F that is reached

    Returns:
        [-] part s, from above 0 to 1

    Valid: both feeds 0.01 to 1.27 mm/rev, the one reached no finer than the set one

    >>> lips_left(2.106, 0.11, 1.27)
    0.298

    Source: statics [statics, geometry]; Machinery's Handbook 31st ed., p. 1153, Table 8
        [mh31-table-8, read]
    """
    within("feed_mm_rev", feed_mm_rev, *FEED_RANGE_MM_REV)
    within("most_feed_mm_rev", most_feed_mm_rev, feed_mm_rev, END_FEED_MM_REV)
    share = within("kept", kept, *KEPT_RANGE) * (feed_mm_rev / most_feed_mm_rev) ** FEED_EXPONENT
    return min(1.0, float(share))


def exit_torque_at_feed_nm(
    torque_nm: float,
    kept: float,
    open_part: float,
    feed_mm_rev: float,
    most_feed_mm_rev: float,
) -> float:
    """Find the greatest torque of a kept pull while the feed is held to a most.

    Args:
        torque_nm: [N.m] torque M in full cut at the set feed
        kept: [-] pull over the thrust of the lips q
        open_part: [-] chisel edge, or pilot hole, over the diameter x
        feed_mm_rev: [mm/rev] set feed f
        most_feed_mm_rev: [mm/rev] feed F that nothing passes

    Returns:
        [N.m] torque

    Valid: as exit_torque_limit_nm and lips_left; once F is reached the torque falls

    >>> exit_torque_at_feed_nm(6.83, 2.106, 0.18, 0.11, 1.27)
    21.4

    Source: statics [statics, geometry]; the spread along the lip [feel-spread, our own judgement];
        Machinery's Handbook 31st ed., p. 1153, Table 8 [mh31-table-8, read]
    """
    left = lips_left(kept, feed_mm_rev, most_feed_mm_rev)
    if left == 1.0:
        ratio = (most_feed_mm_rev / feed_mm_rev) ** FEED_EXPONENT
        return positive("torque_nm", torque_nm) * float(ratio)
    limit = exit_torque_limit_nm(torque_nm, kept, open_part)
    return limit * (2 - left * (1 - open_part)) / 2


def most_feed_mm_rev(
    torque_nm: float, kept: float, open_part: float, feed_mm_rev: float, capacity_nm: float
) -> float:
    """Find the feed at which a stop on the feed keeps the torque to a capacity.

    Equation: s = (2 - c (1 + x) / (M q)) / (1 - x), F = f (q / s)^(1 / 0.8), for a capacity c above
        M q; F = f (c / M)^(1 / 0.8) for one below

    Args:
        torque_nm: [N.m] torque M in full cut at the set feed
        kept: [-] pull over the thrust of the lips q
        open_part: [-] chisel edge, or pilot hole, over the diameter x
        feed_mm_rev: [mm/rev] set feed f
        capacity_nm: [N.m] torque c that the holding resists

    Returns:
        [mm/rev] feed F, the coarsest that the handbook covers at most

    Valid: capacity at least the torque in full cut; below it no stop on the feed helps

    >>> most_feed_mm_rev(6.83, 2.106, 0.18, 0.11, 18.0)
    0.489

    Source: as exit_torque_at_feed_nm [statics, geometry] [feel-spread, our own judgement]
        [mh31-table-8, read]
    """
    limit = exit_torque_limit_nm(torque_nm, kept, open_part)
    if capacity_nm >= limit:
        return END_FEED_MM_REV
    within("capacity_nm", capacity_nm, torque_nm, limit)
    dragged = torque_nm * kept
    share = min(1.0, (2 - capacity_nm * (1 + open_part) / dragged) / (1 - open_part))
    whole = min(kept, capacity_nm / torque_nm)
    feed = feed_mm_rev * float((whole / share) ** (1 / FEED_EXPONENT))
    return min(feed, END_FEED_MM_REV)
