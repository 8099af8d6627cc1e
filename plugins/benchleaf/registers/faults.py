"""What is wrong with a register or an entry, as findings: said in one way."""

from __future__ import annotations

from benchleaf.diagnose import Finding, Place, Severity

RESTORE = ("restore it from the last commit, then run `benchleaf register`",)


def damaged(
    code: str, register: str, place: Place, why: str, cure: tuple[str, ...] = RESTORE
) -> Finding:
    """A register that was altered by hand, or cut off."""
    name = f"register of {register}" if register.endswith("s") else register
    return Finding(code, Severity.ERROR, place, f"the {name} is damaged: {why}", cure)


def unfit(place: Place, text: str, *help_lines: str) -> Finding:
    """A forwarding entry that does not send a reader on."""
    return Finding("A607", Severity.ERROR, place, text, help_lines)
