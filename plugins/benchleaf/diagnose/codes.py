"""Every code a finding may carry, gathered from where each is declared beside its check.

Letters by the place on the journey: R reading, F fields, L links, V rules across records,
S set-up, A addresses, P the published site, C the crew.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from .code import Code

JOURNEY = "RFLVSAPC"
"""First letters of codes, in the order in which a reader comes upon them."""

_known: dict[str, Code] = {}

CODES: Mapping[str, Code] = MappingProxyType(_known)
"""Every code by its id, in the order of the journey."""


def make_known(codes: Iterable[Code]) -> None:
    """Fill `CODES`; `pipeline` does it, since this folder imports none that declares a code."""
    for code in sorted(codes, key=lambda one: (JOURNEY.index(one.id[0]), one.id)):
        if _known.setdefault(code.id, code) != code:
            raise ValueError(f"{code.id} is declared twice")
