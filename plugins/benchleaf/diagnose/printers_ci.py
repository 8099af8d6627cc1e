"""Printers of findings for other programs: JSON, and the forms in which forges read problems.

Each form is a plain function from findings to text. A forge wants a file as the repository has
it, so a file's name is first put below the folder that holds the content.
"""

from __future__ import annotations

import hashlib
import json
from collections import Counter
from collections.abc import Iterable, Sequence
from typing import Any

from .codes import CODES
from .finding import Finding, Place, Severity

SARIF_VERSION = "2.1.0"
SARIF_SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json"
"""The open standard of OASIS for what checkers report."""


def as_json(findings: Sequence[Finding]) -> str:
    """One object: `ok`, `counts` by severity, and `findings`, each with all it says."""
    counts = Counter(finding.severity for finding in findings)
    told = {
        "ok": not any(finding.fails_check for finding in findings),
        "counts": {severity.value: counts[severity] for severity in Severity},
        "findings": [_plain(finding) for finding in findings],
    }
    return json.dumps(told, indent=2, ensure_ascii=False)


def _plain(finding: Finding) -> dict[str, Any]:
    return {
        "code": finding.code,
        "severity": finding.severity.value,
        **_plain_place(finding.place),
        "text": finding.text,
        "help": list(finding.help),
        "related": [{**_plain_place(one.place), "text": one.text} for one in finding.related],
    }


def _plain_place(place: Place) -> dict[str, Any]:
    """Line and column count from 1; 0 means the whole file."""
    return {"file": place.file, "line": place.line, "column": place.column}


_COMMANDS = {Severity.WARNING: "warning", Severity.NOTE: "notice"}


def as_annotations(findings: Iterable[Finding]) -> str:
    """One line a finding, in the workflow commands that several forges' runners read:

    `::error file=...,line=...,col=...,title=...::message`.
    """
    return "\n".join(_annotation(finding) for finding in findings)


def _annotation(finding: Finding) -> str:
    command = _COMMANDS.get(finding.severity, "error")
    place = finding.place
    where = {"file": place.file}
    if place.line:
        where |= {"line": str(place.line), "col": str(place.column)}
    where["title"] = f"{finding.code} {finding.severity}"
    facts = ",".join(f"{key}={_escaped(value, ':,')}" for key, value in where.items())
    return f"::{command} {facts}::{_escaped(_message(finding))}"


def _escaped(text: str, more: str = "") -> str:
    """Signs that end a command or a fact of it are written as percent and two digits."""
    for sign in f"%\r\n{more}":
        text = text.replace(sign, f"%{ord(sign):02X}")
    return text


def _message(finding: Finding) -> str:
    others = (f"see also {one.place}: {one.text}" for one in finding.related)
    return "\n".join((finding.text, *finding.help, *others))


_GRAVITY = {
    Severity.STOP: "blocker",
    Severity.ERROR: "critical",
    Severity.WARNING: "minor",
    Severity.NOTE: "info",
}


def as_code_quality(findings: Iterable[Finding]) -> str:
    """A JSON list of issues, each with fingerprint, path and line, as code-quality reports are."""
    issues = [
        {
            "description": f"{finding.text} ({'; '.join(finding.help)})",
            "check_name": finding.code,
            "fingerprint": _fingerprint(finding),
            "severity": _GRAVITY[finding.severity],
            "location": {
                "path": finding.place.file,
                "lines": {"begin": max(finding.place.line, 1)},
            },
        }
        for finding in findings
    ]
    return json.dumps(issues, indent=2, ensure_ascii=False)


def _fingerprint(finding: Finding) -> str:
    """The same for the same problem, wherever in its file it moves to."""
    told = f"{finding.code}\n{finding.place.file}\n{finding.text}"
    return hashlib.sha256(told.encode()).hexdigest()


_LEVELS = {Severity.WARNING: "warning", Severity.NOTE: "note"}


def as_sarif(findings: Sequence[Finding]) -> str:
    """A log of SARIF 2.1.0, with the explanation of every code that is raised."""
    codes = sorted({finding.code for finding in findings})
    driver = {"name": "benchleaf", "rules": [_sarif_rule(code) for code in codes]}
    run = {
        "tool": {"driver": driver},
        "columnKind": "unicodeCodePoints",
        "results": [_sarif_result(finding, codes.index(finding.code)) for finding in findings],
    }
    log = {"$schema": SARIF_SCHEMA, "version": SARIF_VERSION, "runs": [run]}
    return json.dumps(log, indent=2, ensure_ascii=False)


def _sarif_rule(code: str) -> dict[str, Any]:
    known = CODES[code]
    return {
        "id": code,
        "shortDescription": {"text": known.title},
        "fullDescription": {"text": known.why},
        "help": {"text": known.instead},
    }


def _sarif_result(finding: Finding, rule: int) -> dict[str, Any]:
    others = [{**_sarif_place(one.place), "message": {"text": one.text}} for one in finding.related]
    return {
        "ruleId": finding.code,
        "ruleIndex": rule,
        "level": _LEVELS.get(finding.severity, "error"),
        "message": {"text": "\n".join((finding.text, *finding.help))},
        "locations": [_sarif_place(finding.place)],
        "partialFingerprints": {"benchleaf/v1": _fingerprint(finding)},
        **({"relatedLocations": others} if others else {}),
    }


def _sarif_place(place: Place) -> dict[str, Any]:
    physical: dict[str, Any] = {"artifactLocation": {"uri": place.file}}
    if place.line:
        physical["region"] = {"startLine": place.line, "startColumn": max(place.column, 1)}
    return {"physicalLocation": physical}
