"""Words of a step that show hands at a part that can move. A helper, no rule.

Kept narrow on purpose: a loose wheel in the ring test, a lever, a hand wheel, a key or a tap wrench
is turned by hand too. tests/validate/test_hands_inside.py holds the sentences it was measured on.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from .sentence_length import sentences

_LINK = re.compile(r"\[\[(?:[a-z]+:)?([^\]#]*)(?:#[^\]]*)?\]\]", re.IGNORECASE)
_OTHERS = re.compile(r"\b(?:setters?|fitters?|electricians?|maintenance|engineers?)\b", re.I)
"""Whoever else does it there: another person's hands are told of, not asked for."""
_NOT = re.compile(r"\b(?:never|not|don't|nobody|no one|no|without|instead of)\b", re.I)


def _seen(pattern: str) -> re.Pattern[str]:
    return re.compile(pattern, re.IGNORECASE)


_ADJECTIVES = (
    r"(?:(?:the|a|an|its|this|that|your|both|each|empty|bare|still|stopped|isolated|drill|grinding|"
    r"new|old|whole|machine's|grinder's)\s+)*"
)
_BY_HAND = (
    r"(?:by\s+hand|with\s+(?:a|one|your|the|two|both|bare|clean)\s+"
    r"(?:(?:free|left|right|bare|clean)\s+)?(?:hands?|fingers?|fingertips?|palm))"
)
_PART = (
    r"(?:chuck|spindle|rim|wheel|pulleys?)(?![\s-]*(?:key|guard|dresser|rake|on\b|off\b|of\s+the\s+"
    r"(?:vice|table|lever|tote|trolley|cart)))\b"
)
_TURNING = (
    _seen(rf"\b(?:turn|rotate|spin|roll)\s+{_ADJECTIVES}{_PART}[^.;:]*?\b{_BY_HAND}"),
    _seen(rf"\b{_BY_HAND},?\s+(?:\w+\s+)?(?:turn|rotate|spin|roll)\s+{_ADJECTIVES}{_PART}"),
    # Nothing but a hand turns a chuck or a rim that an operator is told to turn.
    _seen(
        rf"\b(?:turn|rotate|spin)\s+{_ADJECTIVES}(?:chuck|rim)"
        r"(?![\s-]*(?:key|guard|on\b|off\b|until\s+the\s+key))\b"
    ),
    _seen(
        rf"\bgive\s+{_ADJECTIVES}{_PART}\s+(?:\w+\s+){{1,3}}?(?:turns?|spin)\b[^.;:]*\b{_BY_HAND}"
    ),
)
_TURNING_A_WHEEL = _seen(
    rf"\b(?:turn|rotate)\s+{_ADJECTIVES}wheel\s+(?:slowly|once\s+round|(?:one|a|two)\s+(?:full\s+|"
    r"whole\s+|slow\s+)?turns?|half\s+a|a\s+(?:half|quarter))\b"
)
"""Said at a grinder: the grinding wheel, where the handle of a vice is no wheel."""
_LOOSE_WHEEL = _seen(
    r"\b(?:wheel|rim)\b.*\b(?:tap(?:s|ped|ping)?|rings?|ringing|rod|mallet|string|trolley)\b|"
    r"\b(?:tap|ring|rod|mallet|string)\b.*\b(?:wheel|rim)\b"
)
"""The ring test of a wheel that is off its spindle."""

_GAUGE = (
    r"(?:gauge|feeler|leaf|blade|shim|(?:mm|gap|thick|thin|wide|narrow)\s+step)(?!\s+(?:card|box))"
)
_GAUGING = (
    _seen(
        r"\b(?:try|slide|push|put|hold|set|pass|offer|slip|insert|run|bring)\b(?![^.;:]*\bback\b)"
        rf"[^.;:]*?\b{_GAUGE}\b[^.;:]*?\b(?:between|against|past|in(?:to)?\s+the\s+gap|"
        r"at\s+(?:three\s+places|the\s+left))\b[^.;:]*?\b(?:wheel|rim)(?!\s*(?:guard|dresser))\b"
    ),
    _seen(
        r"\b(?:check|measure|feel|gauge|test|try)\b[^.;:]*\bgaps?\b[^.;:]*\b(?:wheel|rim)\b"
        rf"[^.;:]*\bwith\s+(?:the|a|your)\b[^.;:]*\b{_GAUGE}\b"
    ),
)

_AT_WHEEL = (
    *_GAUGING,
    _seen(
        rf"\b(?:try|push|slide)\b[^.;:]*?\b{_GAUGE}\b[^.;:]*?\b(?:at|in|under)\s+(?:the\s+)?"
        r"(?:work\s+rest|rest|tongue(?:\s+guard)?|gap)\b"
    ),
)
_AT_POINT = (
    _seen(
        r"\b(?:pinch|trap|hold|lay|put|slip)\b[^.;:]*?\b(?:rule|shim|feeler|card)\b[^.;:]*?"
        r"\bbetween\b[^.;:]*?\b(?:point|drill|reamer|cone)\b"
    ),
)

_WORDS_BETWEEN = (
    r"(?:(?!(?:in|into|under|on|onto|at|to|from|of|with|by|and|or|beside|out|while)\b)"
    r"[\w.,'-]+\s+){0,4}?"
)
_TOOL = (
    r"(?:drills?|reamers?|countersinks?|counterbores?|centre[ -]drill|tap\s+guide|cutter|arbor|bit|"
    r"floating\s+holder|holder|bar|tool)"
)
_TOOL_CHANGE = (
    _seen(
        rf"\b(?:fit|put|insert|set|push|slide|take|pull|lift|draw)\s+{_WORDS_BETWEEN}{_TOOL}\s+"
        r"(?:\w+\s+)?(?:up\s+)?(?:in|into|out\s+of|from)\s+(?:the\s+)?"
        r"(?:empty\s+|drill\s+|jaws\s+of\s+the\s+)?(?:drill\s+)?chuck\b(?!\s*key)"
    ),
    _seen(
        r"\b(?:tighten|loosen|slacken|undo|nip\s+up|open|close)\b[^.;:]*?\bwith\s+(?:the|its|your)\s+"
        r"chuck\s+key\b"
    ),
    _seen(r"\b(?:tighten|loosen|slacken)\b[^.;:]*?\bin\s+(?:all|each)\b[^.;:]*?\bkey\s+holes?\b"),
    _seen(
        r"\b(?:tighten|loosen|slacken|undo|nip\s+up)\s+(?:the\s+)?(?:drill\s+)?chuck\b[^.;:]*?\bkey\b"
    ),
)

_IN = (
    r"(?:still\s+)?(?:pressed\s+|pushed\s+|latched\s+)?(?:in|down)\b"
    r"(?!\s+(?:the|an?|\w+\s+(?:reach|sight|view|mind)|reach|sight|view|mind|front|case|order)\b)"
)
_EMERGENCY = r"(?:the\s+)?(?:red\s+)?emergency\s+stop(?:\s+button)?"
_PRESSED_IN = (
    _seen(rf"\b(?:press|push|knock|keep|leave|have|hold|with)\s+{_EMERGENCY}\s+{_IN}"),
    _seen(rf"\b(?:press|push|knock)\s+in\s+{_EMERGENCY}"),
    _seen(
        rf"\bemergency\s+stop(?:\s+button)?\s+(?:is|stays|remains|must\s+be|must\s+stay)\s+{_IN}"
    ),
)
_PREPARED = _seen(
    r"\b(?:clean(?:s|ed|ing)?|brush(?:es|ing)?|wip(?:e|es|ing)|fit(?:s|ting)?|tighten|loosen|reach|"
    r"chuck\s+key|hands?\s+(?:in|inside|go|near|under)|fingers?|jaws?|by\s+hand|guard\s+(?:is\s+)?up|"
    r"(?:rais|lift|open)(?:e|ing)?\s+the\s+(?:chuck\s+)?guard|depth\s+stop|touch|clear\s+(?:the\s+)?"
    r"(?:chips|jam)|gauge|measure|mm\s+step|tap\s+wrench|prove)\b"
)
_TRYING = _seen(
    r"\b(?:test(?:s|ed|ing)?|trips?|try\s+(?:the\s+)?(?:start|to\s+start)|press\s+start|must\s+stop|"
    r"stops?\s+(?:at\s+once|the|within)|twist|reset|releases?|let\s+(?:it\s+)?out|pull\s+it|springs?|"
    r"leave\s+(?:the|your)\s+(?:corner|drill|grinder|machine|bench|place)|go\s+(?:away|home|to)|"
    r"end\s+of\s+the\s+shift|until\s+somebody|walk|runs?\s+down|coast(?:s|ing)?\s+down)\b"
)
"""The button is being tested, or pressed for leaving: no hands go in behind it."""


def shows_turning(text: str, at_wheel: bool) -> bool:
    """True where a chuck, spindle, wheel or rim is to be turned by hand."""
    patterns = (*_TURNING, _TURNING_A_WHEEL) if at_wheel else _TURNING
    return any(_asks(one, patterns) and not _LOOSE_WHEEL.search(one) for one in _plain(text))


def shows_gauging(text: str, at_wheel: bool) -> bool:
    """True where a gauge is put to a grinding wheel, or a rule under the point of a drill."""
    patterns = (*_AT_WHEEL, *_AT_POINT) if at_wheel else _AT_POINT
    return any(_asks(one, patterns) for one in _plain(text))


def shows_tool_change(text: str) -> bool:
    """True where a tool is to be fitted in a chuck, or taken out."""
    return any(_asks(one, _TOOL_CHANGE) for one in _plain(text))


def pressed_in(text: str) -> bool:
    """True where the emergency stop is to be in, and not only for a test of it or for leaving."""
    return any(_asks(one, _PRESSED_IN) and not _TRYING.search(one) for one in _plain(text))


def prepares(texts: str) -> bool:
    """True where these words tell of hands at chuck, tool or wheel, or of cleaning."""
    return any(_PREPARED.search(one) and not _TRYING.search(one) for one in _plain(texts))


def _plain(text: str) -> Iterator[str]:
    """Sentences, with each link read as its words."""
    yield from sentences(_LINK.sub(lambda link: link[1].replace("-", " "), text))


def _asks(sentence: str, patterns: tuple[re.Pattern[str], ...]) -> bool:
    """True where one is found, not forbidden and not somebody else's work."""
    for pattern in patterns:
        match = pattern.search(sentence)
        if match is None:
            continue
        before = sentence[: match.start()]
        if not (_NOT.search(before) or _OTHERS.search(before)):
            return True
    return False
