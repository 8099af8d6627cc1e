"""Two shops, already read, to changes of meaning and their consequences."""

from .change import (
    Change,
    ChangeKind,
    Comparison,
    Consequence,
    Effect,
    EffectKind,
    JobState,
    Side,
)
from .compare import compare
from .fingerprint import SHOWN, Fingerprints, core_fingerprint, fingerprint

__all__ = [
    "SHOWN",
    "Change",
    "ChangeKind",
    "Comparison",
    "Consequence",
    "Effect",
    "EffectKind",
    "Fingerprints",
    "JobState",
    "Side",
    "compare",
    "core_fingerprint",
    "fingerprint",
]
