"""What follows from a statement that moved: the one table that a supervisor signs.

Compare, check, the timetable and a learner's page all ask `verdict`; a shop overrides single lines
under `retraining` in manual.yml. The lines are asked in their order; the first that fits decides.

Published triggers that the table follows: 29 CFR 1910.147(c)(7)(iii), retrain when job assignment,
machine, process with a new hazard, or procedure changes; 1910.132(f)(3), when workplace or
protective equipment makes the training obsolete; 1910.1200(h)(1), when a new chemical hazard
arrives; ISO 9001:2015 7.2 and 8.5.6, competence and review of changes; IATF 16949 7.2.2, training
for changed responsibilities. 1910.38(f), review of the emergency plan when it changes, is from
memory. Tolerance, days, and the milder sorts are this house's own rule, with no published source.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from benchleaf.model import Retraining, Taught, Told

from .folding import says_the_same
from .moves import Move, MoveKind
from .statement import About

HOUSE = "house rule"
PROCEDURE = "29 CFR 1910.147(c)(7)(iii)"
WORN = "29 CFR 1910.132(f)(3)"
CHEMICAL = "29 CFR 1910.1200(h)(1)"
COMPETENCE = "ISO 9001:2015 7.2 and 8.5.6"
EMERGENCY = "29 CFR 1910.38(f), from memory"


class Consequence(StrEnum):
    """What must follow for people who are signed off, gravest first."""

    NOBODY_RUNS = "nobody runs it"
    TEACH = "teach again before next run"
    TELL = "tell"
    NOTHING = "nothing"

    @property
    def rank(self) -> int:
        """0 for the gravest."""
        return list(Consequence).index(self)

    @property
    def stops_a_run(self) -> bool:
        """True where nobody may run the job before something is done."""
        return self in (Consequence.NOBODY_RUNS, Consequence.TEACH)


def gravest(consequences: Iterable[Consequence]) -> Consequence:
    """The gravest of them; NOTHING where there is none."""
    return min(consequences, key=lambda one: one.rank, default=Consequence.NOTHING)


@dataclass(frozen=True, slots=True)
class Line:
    """One line of the table."""

    abouts: tuple[About, ...]
    kinds: tuple[MoveKind, ...]
    """What happened to the statement."""
    what: Consequence
    why: str
    source: str
    override: Told | Taught | None = None
    """The sort by which a shop makes it stricter (a `Told`) or milder (a `Taught`)."""


_ANY = tuple(MoveKind)
NEW, GONE, OTHER, MOVED = MoveKind
_RUN, _TEACH, _TELL, _NOTHING = Consequence

TABLE: tuple[Line, ...] = (
    Line((About.LIMIT,), (NEW,), _RUN, "a limit is newly broken", HOUSE),
    Line((About.LIMIT,), _ANY, _TEACH, "a broken limit is cleared: it may run again", HOUSE),
    Line((About.DOUBT,), (NEW,), _TEACH, "a figure leaves what is recommended", HOUSE),
    Line((About.DOUBT,), _ANY, _TELL, "a figure is back in what is recommended", HOUSE),
    Line((About.SETTING,), _ANY, _TEACH, "another number is set", PROCEDURE),
    Line((About.NUMBER,), _ANY, _TEACH, "another number is worked to or gauged", PROCEDURE),
    Line((About.ORDER,), _ANY, _TEACH, "the order changed", PROCEDURE),
    Line((About.HAZARD,), _ANY, _TEACH, "another hazard is met", f"{PROCEDURE}; {CHEMICAL}"),
    Line((About.CONTROL,), _ANY, _TEACH, "another control keeps the harm away", PROCEDURE),
    Line((About.WORN,), _ANY, _TEACH, "other equipment is worn or taken off", WORN),
    Line((About.REACHED,), _ANY, _TEACH, "a place reached for in danger moved", PROCEDURE),
    Line((About.CALL,), _ANY, _TEACH, "somebody else is called, or something else done", EMERGENCY),
    Line((About.MACHINE,), _ANY, _TEACH, "the machine is worked otherwise", PROCEDURE),
    Line((About.TOOL,), _ANY, _TEACH, "another tool", PROCEDURE),
    Line((About.MATERIAL,), _ANY, _TEACH, "another material", PROCEDURE),
    Line((About.FLUID,), _ANY, _TEACH, "another fluid", CHEMICAL),
    Line((About.ACT,), _ANY, _TEACH, "a hand does something else", PROCEDURE),
    Line((About.KEY_POINT,), _ANY, _TEACH, "another key point", COMPETENCE),
    Line((About.REASON,), _ANY, _TEACH, "another reason is explained back", COMPETENCE),
    Line((About.EASIER,), _ANY, _TEACH, "another knack", COMPETENCE, Taught.EASIER),
    Line((About.TROUBLE,), _ANY, _TEACH, "another answer to trouble", PROCEDURE, Taught.TROUBLE),
    Line((About.PART,), _ANY, _TEACH, "another part or stock", PROCEDURE, Taught.PART),
    Line((About.HELP,), (NEW,), _TELL, "a help text is added", HOUSE, Told.HELP),
    Line((About.HELP,), _ANY, _TEACH, "another help text", COMPETENCE),
    Line((About.PREFACE,), _ANY, _TEACH, "the safety preface is explained back and signed again",
         HOUSE),
    Line((About.PAGE,), _ANY, _TELL, "a free page says something else", HOUSE,
         Told.PAGES),
    Line((About.PLACE,), _ANY, _TELL, "it stands elsewhere", HOUSE),
    Line((About.NAME,), _ANY, _TELL, "it has another name", HOUSE, Told.NAMES),
    Line((About.DOCUMENT,), _ANY, _TELL, "another document; its sizes are judged by themselves",
         HOUSE),
)  # fmt: skip
"""Every verdict but those on reckoned figures and ratings, which are judged by how they moved."""


@dataclass(frozen=True, slots=True)
class Verdict:
    """What follows, why, and by which source."""

    what: Consequence
    why: str
    """One line that names the statement."""
    source: str = HOUSE


def verdict(move: Move, rule: Retraining, *, is_declared: bool = False) -> Verdict:
    """What follows from a statement that moved.

    `is_declared` where the author declares that only the wording changed; that is checked.
    """
    if is_declared and _is_wording(move):
        return Verdict(_NOTHING, _line("declared wording only, and checked", move))
    found = [_of(about, move, rule) for about in move.abouts]
    return min(found, key=lambda one: one.what.rank)


def gravest_of(verdicts: Sequence[Verdict]) -> Verdict:
    """The gravest verdict; nothing where there is none."""
    nothing = Verdict(_NOTHING, "nothing that is taught changed")
    return min(verdicts, key=lambda one: one.what.rank, default=nothing)


def _of(about: About, move: Move, rule: Retraining) -> Verdict:
    if about is About.FIGURE:
        return _figure(move, rule)
    if about is About.RATING:
        return _rating(move)
    line = next(one for one in TABLE if about in one.abouts and move.kind in one.kinds)
    what, why = line.what, line.why
    if isinstance(line.override, Told) and line.override in rule.teach_again_for:
        what, why = _TEACH, f"{why}, and this shop teaches that again"
    if isinstance(line.override, Taught) and line.override in rule.tell_only_for:
        what, why = _TELL, f"{why}, and this shop only tells of that"
    return Verdict(what, _line(why, move), line.source)


def _figure(move: Move, rule: Retraining) -> Verdict:
    tolerance, moved = rule.figure_tolerance, move.percent
    if moved is None:
        return Verdict(_TEACH, _line("a figure comes or goes", move), COMPETENCE)
    if abs(moved) > tolerance:
        why = f"a figure moves by {abs(moved):.1f} %, more than {tolerance:g} %"
        return Verdict(_TEACH, _line(why, move))
    if Told.FIGURES in rule.teach_again_for:
        return Verdict(_TEACH, _line("this shop teaches every figure again", move))
    why = f"a figure moves by {abs(moved):.1f} %, within {tolerance:g} %"
    return Verdict(_TELL, _line(why, move))


def _rating(move: Move) -> Verdict:
    before, after = (one.numbers if one else None for one in (move.before, move.after))
    is_raised = before and after and after[0] >= before[0] and after[1] >= before[1]
    if is_raised:
        return Verdict(_TELL, _line("a rating is raised", move))
    why = "a rating is lowered" if before and after else "a rating comes or goes"
    return Verdict(_TEACH, _line(why, move), PROCEDURE)


def _is_wording(move: Move) -> bool:
    before, after = move.before, move.after
    if before is None or after is None or not (before.is_wording and after.is_wording):
        return False
    return says_the_same(str(before.value), str(after.value))


def _line(why: str, move: Move) -> str:
    """Why, where, and what it says on either side."""
    before, after = (_short(one or "") for one in move.words)
    where = f"{why}: {move.one.where}" if move.one.where else why
    if move.kind is MoveKind.MOVED or not (before or after):
        return where
    if before and after:
        return f"{where}: {before} → {after}"
    return f"{where}: {after or before}{'' if after else ' (gone)'}"


_LONG = 60


def _short(words: str) -> str:
    return words if len(words) <= _LONG else f"{words[: _LONG - 1]}…"
