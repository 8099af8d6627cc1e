"""The fingerprint of a job: one short proof of what its learner is taught.

SHA-256 over the statements of the meaning, sorted. Units, digits shown, line breaks and ids never
count, nor what enters no meaning. It is made otherwise than fingerprints once were: see METHOD.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from benchleaf.compute import SetUpSheet
from benchleaf.model import Job, Shop

from .digest import said
from .folding import fixed_words
from .gathering import Meanings
from .statement import Statement, Value

METHOD = 2
"""The method by which fingerprints are made now; 1 hashed whole records and figures as shown."""

SHOWN = 8
"""Digits of a fingerprint that are shown to people."""

CORE_DIGITS = 16
"""Enough to tell that two states of one job differ; the proof is the fingerprint."""


def fingerprint(shop: Shop, job: Job, sheets: Sequence[SetUpSheet]) -> str:
    """The fingerprint, 64 hexadecimal digits; `sheets` are the computed set-ups of the job."""
    return fingerprint_of(Meanings(shop).of(job, sheets))


def fingerprint_of(meaning: Iterable[Statement]) -> str:
    """The fingerprint of a meaning."""
    return _hash((one.key, one.about, _proof(one)) for one in meaning)


def core_of(meaning: Iterable[Statement]) -> str:
    """The same of what a change of wording leaves alone: numbers, figures, negations, hazards."""
    return _hash((one.key, one.about, _fixed(one)) for one in meaning)[:CORE_DIGITS]


class Meant(NamedTuple):
    """What a register keeps of a job's meaning."""

    fingerprint: str
    core: str
    said: str


def meant(shop: Shop, job: Job, sheets: Sequence[SetUpSheet]) -> Meant:
    """What a register keeps of a job's meaning."""
    return meant_of(Meanings(shop).of(job, sheets))


def meant_of(meaning: Sequence[Statement]) -> Meant:
    """The same of a meaning that is there already."""
    return Meant(fingerprint_of(meaning), core_of(meaning), said(meaning))


def _proof(one: Statement) -> Value:
    return one.value if one.proof is None else one.proof


def _fixed(one: Statement) -> Value:
    proof = _proof(one)
    return fixed_words(proof) if one.is_wording and isinstance(proof, str) else proof


def _hash(lines: Iterable[tuple[str, str, Value]]) -> str:
    """The order in which statements come never counts. No text holds the signs between parts."""
    canonical = sorted("\0".join((key, about, _line(value))) for key, about, value in lines)
    return hashlib.sha256("\n".join(canonical).encode()).hexdigest()


def _line(value: Value) -> str:
    return value if isinstance(value, str) else "\1".join(_line(one) for one in value)
