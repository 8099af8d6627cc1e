"""Reads a printed formula as arithmetic, so that numbers put into it give what is printed.

The words of a formula are its symbols, declared beside it. Signs: + − × ÷ ^ √ ² ³ °, brackets,
π, and tan, ln, exp and log2 of a bracket or of what stands next.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache

Numbers = Mapping[str, float]
Term = Callable[[Numbers], float]

_FUNCTIONS: Mapping[str, Callable[[float], float]] = {
    "tan": math.tan,
    "ln": math.log,
    "exp": math.exp,
    "log2": math.log2,
    "√": math.sqrt,
}
_NUMBER = r"\d+(?:\.\d+)?"
_SIGNS = r"[-+−×÷^√²³°()π]"


class UnreadableError(ValueError):
    """A printed formula that cannot be read."""


@lru_cache(maxsize=1024)
def reading(text: str, symbols: tuple[str, ...]) -> Term:
    """A printed expression as a function of its symbols; raises UnreadableError."""
    reader = _Reader(_tokens(text, symbols), frozenset(symbols), text)
    term = reader.sum()
    reader.end()
    return term


@lru_cache(maxsize=1024)
def places(symbols: tuple[str, ...]) -> re.Pattern[str]:
    """Where symbols stand in a text, the longest first, each as a whole word."""
    longest = sorted(symbols, key=len, reverse=True)
    words = "|".join(re.escape(one) for one in longest) or r"(?!)"
    return re.compile(rf"(?<![A-Za-z0-9.])(?:{words})(?![A-Za-z0-9])")


def _tokens(text: str, symbols: tuple[str, ...]) -> list[str]:
    found, at = [], 0
    named = places(symbols)
    plain = re.compile(rf"{'|'.join(_FUNCTIONS)}|{_NUMBER}|{_SIGNS}")
    while at < len(text):
        if text[at] == " ":
            at += 1
            continue
        token = named.match(text, at) or plain.match(text, at)
        if token is None:
            raise UnreadableError(f"'{text[at:]}' in '{text}' is neither a sign nor a symbol")
        found.append(token.group())
        at = token.end()
    return found


class _Reader:
    """One expression, from left to right."""

    def __init__(self, tokens: Sequence[str], symbols: frozenset[str], text: str) -> None:
        self.tokens = list(tokens)
        self.symbols = symbols
        self.text = text
        self.at = 0

    def peek(self) -> str:
        return self.tokens[self.at] if self.at < len(self.tokens) else ""

    def take(self) -> str:
        token = self.peek()
        self.at += 1
        return token

    def end(self) -> None:
        if self.peek():
            raise UnreadableError(f"'{self.peek()}' in '{self.text}' follows nothing")

    def sum(self) -> Term:
        left = self.product()
        while self.peek() in ("+", "−"):
            left = _two(self.take(), left, self.product())
        return left

    def product(self) -> Term:
        left = self.signed()
        while self.peek() in ("×", "÷"):
            left = _two(self.take(), left, self.signed())
        return left

    def signed(self) -> Term:
        if self.peek() != "−":
            return self.power()
        self.take()
        return _applied(lambda value: -value, self.power())

    def power(self) -> Term:
        base = self.raised(self.single())
        if self.peek() != "^":
            return base
        self.take()
        return _two("^", base, self.single())

    def raised(self, base: Term) -> Term:
        sign = self.peek()
        if sign in ("²", "³"):
            self.take()
            return _two("^", base, lambda _: 2.0 if sign == "²" else 3.0)
        if sign == "°":
            self.take()
            return _applied(math.radians, base)
        return base

    def single(self) -> Term:
        token = self.take()
        if token == "(":
            inner = self.sum()
            if self.take() != ")":
                raise UnreadableError(f"a bracket of '{self.text}' stays open")
            return inner
        if token in self.symbols:
            return lambda numbers: numbers[token]
        if token in _FUNCTIONS:
            return _applied(_FUNCTIONS[token], self.raised(self.single()))
        if token == "π":
            return lambda _: math.pi
        if re.fullmatch(_NUMBER, token):
            value = float(token)
            return lambda _: value
        raise UnreadableError(f"'{self.text}' has '{token}' where a number is wanted")


def _applied(function: Callable[[float], float], inner: Term) -> Term:
    return lambda numbers: function(inner(numbers))


def _two(sign: str, left: Term, right: Term) -> Term:
    if sign == "+":
        return lambda numbers: left(numbers) + right(numbers)
    if sign == "−":
        return lambda numbers: left(numbers) - right(numbers)
    if sign == "×":
        return lambda numbers: left(numbers) * right(numbers)
    if sign == "÷":
        return lambda numbers: left(numbers) / right(numbers)
    return lambda numbers: float(left(numbers) ** right(numbers))
