"""What the tests of plans share: a Monday, a shift, and the shape of the fixture `situation`."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from benchleaf.plan import Situation

MONDAY = date(2026, 4, 6)
SHIFT = {"id": "early", "name": "Early shift", "starts": "06:00", "hours": "8 h"}

Make = Callable[..., Situation]
