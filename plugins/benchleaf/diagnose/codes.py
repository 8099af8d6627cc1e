"""Every code a finding may carry, with what it means, why it matters and what to do instead.

Letters by the place on the journey: R reading, F fields, L links, V rules across records,
S set-up, A addresses, P the published site, C the crew.
"""

from __future__ import annotations

from types import MappingProxyType

from .code import Code
from .codes_instruction import INSTRUCTION
from .codes_people import PEOPLE
from .codes_reading import READING
from .codes_rules import RULES

CODES: MappingProxyType[str, Code] = MappingProxyType(
    {code.id: code for code in READING + RULES + INSTRUCTION + PEOPLE}
)
"""Every code by its id."""
