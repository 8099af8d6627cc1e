"""What a job's learner is taught: as statements, as a fingerprint, and what follows of a change."""

from .changed import Changed, changed
from .digest import moved_since, said
from .fingerprint import METHOD, SHOWN, Meant, core_of, fingerprint, fingerprint_of, meant, meant_of
from .gathering import Meanings, reckoned, statements
from .kept import together, written
from .moves import Move, MoveKind, moves, percent_moved
from .page_print import page_fingerprint, page_move
from .statement import About, Fact, Path, RecordKey, Statement
from .taught import is_taught, stands_apart
from .verdicts import Consequence, Verdict, gravest, gravest_of, verdict

__all__ = [
    "METHOD",
    "SHOWN",
    "About",
    "Changed",
    "Consequence",
    "Fact",
    "Meanings",
    "Meant",
    "Move",
    "MoveKind",
    "Path",
    "RecordKey",
    "Statement",
    "Verdict",
    "changed",
    "core_of",
    "fingerprint",
    "fingerprint_of",
    "gravest",
    "gravest_of",
    "is_taught",
    "meant",
    "meant_of",
    "moved_since",
    "moves",
    "page_fingerprint",
    "page_move",
    "percent_moved",
    "reckoned",
    "said",
    "stands_apart",
    "statements",
    "together",
    "verdict",
    "written",
]
