"""Printers of findings. One finding, several forms; each form is a plain function."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence

from .finding import Finding, Severity
from .printers_ci import as_annotations, as_code_quality, as_json, as_sarif


def as_text(finding: Finding) -> str:
    """`file:line:column: severity CODE message`, then help and other places, indented."""
    lines = [f"{finding.place}: {finding.severity} {finding.code} {finding.text}"]
    lines += [f"    {line}" for line in finding.help]
    lines += [f"    see also {related.place}: {related.text}" for related in finding.related]
    return "\n".join(lines)


SHOWN_AT_MOST = 500
"""Findings that are printed for people: who mends these sees the rest next."""


def report(findings: Iterable[Finding]) -> str:
    """Findings as text, one below another; of very many the first, and how many more there are."""
    every = tuple(findings)
    lines = [as_text(finding) for finding in every[:SHOWN_AT_MOST]]
    more = len(every) - SHOWN_AT_MOST
    return "\n".join([*lines, f"and {more:,} more"] if more > 0 else lines)


def summary(findings: Sequence[Finding]) -> str:
    """One line of counts, such as `2 errors, 1 warning`; `no problems found` for none."""
    counts = Counter(finding.severity for finding in findings)
    parts = [_count(counts[severity], severity) for severity in Severity if counts[severity]]
    return ", ".join(parts) or "no problems found"


def _count(number: int, severity: Severity) -> str:
    return f"{number} {severity}" + ("" if number == 1 else "s")


def _as_report(findings: Sequence[Finding]) -> str:
    return "\n".join(line for line in (report(findings), summary(findings)) if line)


FORMS: Mapping[str, Callable[[Sequence[Finding]], str]] = {
    "text": _as_report,
    "json": as_json,
    "annotations": as_annotations,
    "sarif": as_sarif,
    "code-quality": as_code_quality,
}
"""Every form in which findings are printed, by name."""
