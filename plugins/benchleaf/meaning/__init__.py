"""What a job's learner is taught: as statements, as a fingerprint, and what follows of a change."""

from .fingerprint import METHOD, SHOWN, core_of, fingerprint, fingerprint_of
from .gather import Meanings, statements
from .moves import Move, MoveKind, moves
from .statement import About, Fact, Path, RecordKey, Statement
from .verdicts import Consequence, Verdict, gravest, verdict

__all__ = [
    "METHOD",
    "SHOWN",
    "About",
    "Consequence",
    "Fact",
    "Meanings",
    "Move",
    "MoveKind",
    "Path",
    "RecordKey",
    "Statement",
    "Verdict",
    "core_of",
    "fingerprint",
    "fingerprint_of",
    "gravest",
    "moves",
    "statements",
    "verdict",
]
