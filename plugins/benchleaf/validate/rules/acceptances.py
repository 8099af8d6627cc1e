"""V521: a warning that is accepted was raised; run after every other rule on jobs."""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import CODES, Finding, Severity

from ..case import JobCase


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each acceptance that nothing asked for."""
    for index, one in enumerate(case.job.accept):
        if index in case.used:
            continue
        code = one.code.upper()
        what = f"no {code} was raised" if code in CODES else f"'{one.code}' is no code"
        where = f" in the step '{one.step}'" if one.step else ""
        yield Finding(
            "V521",
            Severity.WARNING,
            case.place("accept", index),
            f"this exception is not needed: {what}{where}",
            ("take it out; a warning that comes back later must be seen again",),
        )
