"""Teach the pull by number: what a trainer finds on a spring balance before the first hole.

The pull at the lever is a computed figure, so a learner can feel it before anything turns: with
the isolator off, a bar in the chuck and a block beneath. All numbers are those of the rows.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from benchleaf.compute import Figure, Row, SetUpSheet, eased_pull
from benchleaf.model import DrillingSetUp, HoleKind, Job, SetUp

BALANCES_N = (50.0, 100.0, 200.0, 300.0)
"""Full scales of spring balances, in newtons. A house list."""
BALANCES_LBF = (10.0, 25.0, 50.0, 70.0)
"""The same for a shop that reads pounds-force. A house list."""
FULL_SHARE = 0.8
"""The full pull lies within this share of the scale, so that it can be read. A house rule."""
HALF_WITHIN_PERCENT = 10
"""A share so near to 50 % is called half: no hand feels the rest. A house rule."""


@dataclass(frozen=True, slots=True)
class Eased:
    """The pull to ease to at break-through: the figure, or why there is none."""

    words: str
    """Such as `Half pull`, with the wall where a tube has two."""
    figure: str = ""
    of: str = ""
    """The share of the full pull that it is."""
    why_not: str = ""


@dataclass(frozen=True, slots=True)
class PullView:
    """The pull of one set-up."""

    title: str
    full: str
    missing: str
    """Why the full pull is not computed; empty where it is."""
    eased: tuple[Eased, ...]
    breaks_through: bool
    limits: str
    note: str
    source: str


@dataclass(frozen=True, slots=True)
class PullLesson:
    """The lesson of a job, and what it needs."""

    pulls: tuple[PullView, ...]
    props: tuple[str, ...]
    breaks_through: bool

    @property
    def can_be_found(self) -> bool:
        """True where any full pull is computed."""
        return any(one.full for one in self.pulls)

    @property
    def can_ease(self) -> bool:
        """True where any half pull is computed."""
        return any(half.figure for one in self.pulls for half in one.eased)


def pull_lesson(job: Job, sheets: Iterable[SetUpSheet]) -> PullLesson | None:
    """The lesson of a job; None where no set-up has a pull, or any must not be run."""
    found = list(sheets)
    if not all(sheet.may_run for sheet in found):
        return None
    with_pull = [(sheet, row) for sheet in found if (row := sheet.row("lever_force"))]
    blind = {one.id for one in job.set_ups if _is_blind(one)}
    pulls = tuple(_pull(sheet, row, sheet.id in blind) for sheet, row in with_pull)
    if not pulls:
        return None
    figures = [row.figure for _, row in with_pull if row.figure]
    most = max(figures, key=lambda one: one.high, default=None)
    props = tuple(_props(most)) if most is not None else ()
    return PullLesson(pulls, props, any(one.breaks_through for one in pulls))


def _is_blind(set_up: SetUp) -> bool:
    return isinstance(set_up, DrillingSetUp) and set_up.hole is HoleKind.BLIND


def _props(most: Figure) -> Iterator[str]:
    is_metric, unit = most.unit == "N", most.unit
    scales = BALANCES_N if is_metric else BALANCES_LBF
    scale = next((one for one in scales if most.high <= FULL_SHARE * one), None)
    if scale is None:
        yield f"A spring balance for at least {most.high / FULL_SHARE:.0f} {unit}"
    else:
        other = f"{scale / 10:.0f} kg" if is_metric else f"{scale:.0f} lb"
        yield f"A spring balance, up to {scale:.0f} {unit} ({other})"
    yield "A plain bar, flat at its end, that the chuck can grip"
    yield "A scrap block to clamp beneath it"


def _pull(sheet: SetUpSheet, row: Row, is_blind: bool) -> PullView:
    if row.figure is None:
        return PullView(sheet.title, "", row.missing, (), not is_blind, "", "", "")
    return PullView(
        sheet.title,
        _told(row.figure, row.other),
        "",
        tuple(_eased(sheet, row.figure, is_blind)),
        not is_blind,
        row.limits,
        row.note,
        row.source,
    )


def _told(shown: Figure, other: Figure | None) -> str:
    return f"{shown.text} ({other.text})" if other else shown.text


def _eased(sheet: SetUpSheet, full: Figure, is_blind: bool) -> Iterator[Eased]:
    """The pull at which the feed stays as it is when the drill's point is through."""
    if sheet.row("ease_off") is None:
        why = (
            "a blind hole has no break-through" if is_blind else "the curve of the pull is missing"
        )
        yield Eased("Half pull", why_not=why)
        return
    for key, words in (("", "Half pull"), ("_far_wall", "Half pull, far wall")):
        begins, share = sheet.row(f"ease_off{key}"), sheet.row(f"ease_to{key}")
        if begins is None:
            continue
        if begins.figure is None:
            yield Eased(words, why_not=f"missing: {begins.missing}")
        elif share is None or share.figure is None:
            yield Eased(words, why_not="behind a pilot hole only the lips push, up to the end")
        else:
            pull = _told(*eased_pull(full, share.figure))
            is_half = abs(share.figure.high - 50) <= HALF_WITHIN_PERCENT
            name = words if is_half else words.replace("Half pull", "Eased pull")
            of = share.figure.text
            yield Eased(name, pull, f"about half ({of})" if is_half else of)
