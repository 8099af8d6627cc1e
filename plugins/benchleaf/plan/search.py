"""Which order of lessons gives the best plan: first that of due days, then others, by what is late.

`worth.py` says what counts. What was promised stays in every attempt, so that none moves it for the
sake of something else. The search ends where no plan can be better (`bounds.py`), or nothing helps.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from . import solver
from .attempt import Attempt, attempt
from .bounds import Known, Least, known, least_of
from .improving import improved
from .lessons import Key
from .order import Work, in_order
from .setting import Setting
from .talks import Talk
from .worth import Gap, gaps, late_days, value_of

MOST_ATTEMPTS = 12
MOST_IN_VAIN = 4
MOST_TALKS = 2000
"""Attempts times talks that are tried at most, so that a large crew has its plan at once."""


def best_attempt(setting: Setting, *, use_solver: bool = True) -> tuple[Attempt, Known]:
    """The best plan that a few orders give, and how good it is known to be.

    Where a solver is installed and something may be better, it is asked too.
    """
    cover = gaps(setting)
    by_key = {one.key: one for one in setting.talks}
    due = {key: (setting.ranks[key], key) for key in by_key}
    best = _try(setting, due)
    least = least_of(setting, best, cover)
    if not _is_done(best, least, cover):
        closing = _with_needs({key for gap in cover for key in gap.talks}, by_key)
        first = {key: (key not in closing, *due[key]) for key in by_key}
        best = _better(best, _try(setting, first), cover) if closing else best
        best = _pulled_forward(setting, best, least, cover)
    told = known(best, least, cover)
    if use_solver and not told.is_all_best and solver.is_there():
        best, least = improved(setting, best, least, cover)
        told = known(best, least, cover)
    return best, told


def _is_done(made: Attempt, least: Least, cover: Sequence[Gap]) -> bool:
    """True where no plan is better in what counts most."""
    return known(made, least, cover).is_best and not made.unmet_checks and not made.never


def _pulled_forward(setting: Setting, best: Attempt, least: Least, cover: Sequence[Gap]) -> Attempt:
    """What is latest is put first, with all that it needs, for as long as that may help."""
    by_key = {one.key: one for one in setting.talks}
    pulled: dict[Key, int] = {}
    at, in_vain = best, 0
    for _ in range(min(MOST_ATTEMPTS, MOST_TALKS // max(1, len(by_key)))):
        late = _latest(at, cover)
        if late is None or in_vain == MOST_IN_VAIN or _is_done(best, least, cover):
            break
        for key in _with_needs({late}, by_key):
            pulled[key] = pulled.get(key, 0) + 1
        ranks = {key: (-pulled.get(key, 0), setting.ranks[key], key) for key in by_key}
        at = _try(setting, ranks)
        former, best = best, _better(best, at, cover)
        in_vain = in_vain + 1 if best is former else 0
    return best


def _better(best: Attempt, new: Attempt, cover: Sequence[Gap]) -> Attempt:
    return new if value_of(new, cover) < value_of(best, cover) else best


def _try(setting: Setting, ranks: Mapping[Key, object]) -> Attempt:
    works = [Work(one.key, one.minutes, math.inf, one.needs) for one in setting.talks]
    order = in_order(works, ranks)
    rest = [one.key for one in setting.talks if one.key not in set(order)]
    return attempt(setting, (*order, *rest))


def _with_needs(keys: set[Key], by_key: Mapping[Key, Talk]) -> set[Key]:
    found, waiting = set(keys), list(keys)
    while waiting:
        for need in by_key[waiting.pop()].needs:
            if need in by_key and need not in found:
                found.add(need)
                waiting.append(need)
    return found


def _latest(made: Attempt, cover: Sequence[Gap]) -> Key | None:
    """What to pull forward: the lesson that is most late, else the one that closes cover last."""
    late = late_days(made)
    if late:
        return max(late, key=lambda key: (late[key], key))
    ends = [
        (made.given[key][-1].day, key)
        for gap in cover
        for key in sorted(gap.talks, key=lambda one: _end(made, one))[: gap.missing]
        if key in made.given
    ]
    latest = max(ends, default=None)
    return latest[1] if latest is not None and latest[0] > 0 else None


def _end(made: Attempt, key: Key) -> float:
    return made.given[key][-1].end if key in made.given else math.inf
