"""Bytes to text: what makes a file unfit before YAML is looked at, each with its place."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from pathlib import Path

from benchleaf.diagnose import Finding, Place, Severity

BYTES_AT_MOST = 1_000_000
"""A breakdown is some 20 kB; a megabyte is another kind of file."""
OF_REGISTERS = 100_000_000
"""A register only grows: that of 1,000 jobs holds a megabyte at its first revision."""
_REGISTERS = ("addresses.yml", "revisions.yml", "history.yml", "forwards.yml", "tally.yml")

_CONFLICT = re.compile(r"^(<{7}|={7}|>{7}|\|{7})(?: |$)", re.MULTILINE)
_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ufeff]")
_HIDDEN = re.compile(
    "[\u00ad\u061c\u180e\u200b\u200e\u200f\u202a-\u202e\u2060-\u2069"
    "\ufff9-\ufffb\ufffe\uffff\ud800-\udfff\U000e0000-\U000e007f]"
    "|(?<![^\x00-\x7f])[\u200c\u200d]|[\u200c\u200d](?![^\x00-\x7f])"
)
"""Signs that turn the direction of a text, have no width, or are none. The two joiners hold signs
of other scripts and of pictures together: only beside a plain letter are they refused."""
_UNFIT = re.compile(f"\\t|{_CONTROL.pattern}|{_HIDDEN.pattern}")
"""Any sign that is looked for below: most files have none."""


def read_text(path: Path, name: str) -> tuple[str | None, tuple[Finding, ...]]:
    """The text of a file, or None with the findings that say why not."""
    try:
        if not path.is_file():
            return None, (_unreadable(name, "is not a plain file, or does not exist"),)
        size, most = path.stat().st_size, _at_most(path)
        if size > most:
            return None, (_too_long(name, size, most),)
        data = path.read_bytes()
    except OSError as error:
        return None, (_unreadable(name, f"cannot be read: {error.strerror}"),)
    return _decoded(data, name)


def read_rest(path: Path, found: tuple[Finding, ...]) -> str | None:
    """The text of a file that `read_text` refused for some of its signs, without those."""
    if not found or not {one.code for one in found} <= {"R106", "R107"}:
        return None
    return without_unfit(path.read_bytes().decode("utf-8-sig").replace("\r\n", "\n"))


def _decoded(data: bytes, name: str) -> tuple[str | None, tuple[Finding, ...]]:
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        return None, (_not_utf8(data, error, name),)
    text = text.replace("\r\n", "\n")
    findings = unfit_places(text, name)
    return (None if findings else text), findings


def hidden_sign(text: str) -> str | None:
    """The first sign of a text that nobody sees, as U+202E; None where there is none.

    Asked of what stands in quotes with a backslash, or is written as `&#...;`, once it is read.
    """
    found = _HIDDEN.search(text) or _CONTROL.search(text)
    return f"U+{ord(found[0]):04X}" if found else None


_ENTITY = re.compile(r"&(?:#\d{1,7}|#[xX][0-9a-fA-F]{1,6}|[A-Za-z]{2,31});?")


def hidden_entities(text: str, name: str) -> Iterator[Finding]:
    """Signs that nobody sees, which a page writes as `&#x202E;` for the browser to read."""
    for match in _ENTITY.finditer(text):
        hidden = hidden_sign(html.unescape(match[0]))
        if hidden:
            yield Finding(
                "R107",
                Severity.ERROR,
                place_at(text, match.start(), name),
                f"'{match[0]}' is the invisible sign {hidden}",
                ("take it out; it can hide what a line really says",),
            )


MOST_OPEN = 50
_NEVER_ENDING = (
    (re.compile(rf"\[(?:[^\[\]]*\[){{{MOST_OPEN}}}"), "["),
    (re.compile(rf"(?:<[a-zA-Z!/][^<>]*){{{MOST_OPEN}}}<"), "<"),
)
"""What opens again and again and never closes: no page of a manual, and hours of reading."""


def _never_ending(text: str, name: str) -> Iterator[Finding]:
    for pattern, sign in _NEVER_ENDING:
        found = pattern.search(text)
        if found:
            yield Finding(
                "R121",
                Severity.ERROR,
                place_at(text, found.start(), name),
                f"'{sign}' opens here more than {MOST_OPEN} times and closes never",
                ("take them out, or close each",),
            )


def without_unfit(text: str) -> str | None:
    """The text with a space for each unfit sign, so that the rest can be looked at.

    None where a merge conflict is left: nobody knows which half will stay.
    """
    if _CONFLICT.search(text):
        return None
    without = _UNFIT.sub(" ", text)
    return None if any(one.search(without) for one, _ in _NEVER_ENDING) else without


def unfit_places(text: str, name: str) -> tuple[Finding, ...]:
    """Merge-conflict markers, tabs and control characters, each with its place."""
    signs = ("<<<<<<<", "=======", ">>>>>>>", "|||||||")
    is_fit = not _UNFIT.search(text) and not any(one.search(text) for one, _ in _NEVER_ENDING)
    if is_fit and not any(sign in text for sign in signs):
        return ()
    conflicts = [match.start() for match in _CONFLICT.finditer(text)]
    if len(conflicts) > 1 or text.find("<<<<<<< ") in conflicts:
        return tuple(_conflict(text, at, name) for at in conflicts)
    return (
        *(_tab(text, match.start(), name) for match in re.finditer(r"\t+", text)),
        *(_control(text, match, name) for match in _CONTROL.finditer(text)),
        *(_control(text, match, name) for match in _HIDDEN.finditer(text)),
        *_never_ending(text, name),
    )


def place_at(text: str, index: int, name: str) -> Place:
    """The place of character `index` of `text`."""
    line = text.count("\n", 0, index) + 1
    return Place(name, line, index - text.rfind("\n", 0, index))


def _unreadable(name: str, why: str) -> Finding:
    cure = "check that it exists, is a plain file, and may be read by you"
    return Finding("R101", Severity.ERROR, Place(name), f"this file {why}", (cure,))


def _at_most(path: Path) -> int:
    return OF_REGISTERS if path.name in _REGISTERS else BYTES_AT_MOST


def _too_long(name: str, size: int, most: int) -> Finding:
    return Finding(
        "R103",
        Severity.ERROR,
        Place(name),
        f"this file is {size:,} bytes long",
        (f"at most {most:,} bytes are read",),
    )


def _not_utf8(data: bytes, error: UnicodeDecodeError, name: str) -> Finding:
    before = data[: error.start]
    line = before[before.rfind(b"\n") + 1 :].decode("utf-8", errors="replace")
    place = Place(name, before.count(b"\n") + 1, len(line) + 1)
    return Finding(
        "R102",
        Severity.ERROR,
        place,
        f"byte 0x{data[error.start]:02X} is not UTF-8",
        ("save the file as UTF-8 in the editor",),
    )


def _conflict(text: str, index: int, name: str) -> Finding:
    return Finding(
        "R105",
        Severity.ERROR,
        place_at(text, index, name),
        f"a merge conflict marker '{text[index : index + 7]}' is left here",
        ("choose one side, and take the marker lines out",),
    )


def _tab(text: str, index: int, name: str) -> Finding:
    return Finding(
        "R106",
        Severity.ERROR,
        place_at(text, index, name),
        "a tab stands here",
        (_tab_cure(text, index),),
    )


def _tab_cure(text: str, index: int) -> str:
    is_indent = not text[text.rfind("\n", 0, index) + 1 : index].strip()
    return "indent with spaces: two for each level" if is_indent else "write a space instead"


def _control(text: str, match: re.Match[str], name: str) -> Finding:
    return Finding(
        "R107",
        Severity.ERROR,
        place_at(text, match.start(), name),
        f"an invisible control character U+{ord(match[0]):04X} stands here",
        ("take it out; it can hide what a line really says",),
    )
