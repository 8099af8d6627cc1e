"""What is wrong with a register or an entry, as findings: said in one way."""

from __future__ import annotations

from benchleaf.diagnose import Finding, Place, Severity


def damaged(code: str, register: str, place: Place, why: str) -> Finding:
    """A register that was altered by hand, or cut off."""
    return Finding(
        code,
        Severity.ERROR,
        place,
        f"the register of {register} is damaged: {why}",
        ("restore it from the last commit, then run `benchleaf register`",),
    )


def unfit(place: Place, text: str, *help_lines: str) -> Finding:
    """A forwarding entry that does not send a reader on."""
    return Finding("A607", Severity.ERROR, place, text, help_lines)
