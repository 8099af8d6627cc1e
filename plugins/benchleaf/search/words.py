"""Text to the words that search knows. `assets/search-find.js` splits what is typed the same way.

A word is a number such as `8.5`, or letters and digits that begin with a letter. What is written
together, such as `TR-0110`, `go/no-go` or `15H7`, counts both as its parts and in one piece.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable

_PIECE = re.compile(r"[^\W_]+(?:[-./][^\W_]+)*")
_PART = re.compile(r"\d+(?:\.\d+)*|[^\W\d_][^\W_]*")
_DECIMAL = re.compile(r"\d\.\d")
_DIGITS = re.compile(r"\d+")
_NOT_A_SIGN = re.compile(r"[\W_]+")
_APOSTROPHES = str.maketrans("", "", "'\u2019\u02bc")
_HYPHENS = str.maketrans(dict.fromkeys("\u2010\u2011", "-"))


def plain(text: str) -> str:
    """Lower case, without accents and apostrophes.

    >>> plain("The maker’s Café, ½ in")
    'the makers cafe, 1⁄2 in'
    """
    text = text.translate(_APOSTROPHES)
    if not text.isascii():
        apart = unicodedata.normalize("NFKD", text.translate(_HYPHENS))
        text = "".join(sign for sign in apart if unicodedata.category(sign)[0] != "M")
    return text.lower()


def number_key(text: str) -> str:
    """A job's or part's number as it is compared: letters and digits only.

    >>> number_key("TR-0110"), number_key(" tr 0110 ")
    ('tr0110', 'tr0110')
    """
    return _NOT_A_SIGN.sub("", plain(text))


def number_spellings(text: str) -> tuple[str, ...]:
    """How a number is typed in short: without the noughts before it, and without its letters.

    >>> number_spellings("TR-0120"), number_spellings("TRW-204"), number_spellings("A1-2")
    (('tr120', '0120', '120'), ('204',), ())
    """
    whole = number_key(text)
    digits = _DIGITS.findall(plain(text))
    if len(digits) != 1:  # of several none is the number
        return ()
    short = digits[0].lstrip("0") or "0"
    spelt = (whole.replace(digits[0], short), *digits, short)
    return tuple(dict.fromkeys(one for one in spelt if one != whole))


class Splitter(dict[str, tuple[str, ...]]):
    """Splits texts into words; remembers each token, as a manual says the same words often."""

    def __missing__(self, token: str) -> tuple[str, ...]:
        pieces = _PIECE.findall(plain(token))
        words = self[token] = tuple(word for piece in pieces for word in words_of(piece))
        return words

    def words(self, texts: Iterable[str]) -> set[str]:
        """Every word of the texts, once."""
        tokens = set("\n".join(texts).split())
        return set().union(*map(self.__getitem__, tokens))


def words_of(piece: str) -> tuple[str, ...]:
    """The words that what is written together counts as.

    >>> words_of("tr-0110"), words_of("15h7"), words_of("8.5mm"), words_of("1/4")
    (('tr', '0110', 'tr0110'), ('15', 'h7', '15h7'), ('8.5', 'mm'), ('1', '4'))
    """
    parts = tuple(dict.fromkeys(_PART.findall(piece)))
    whole = _NOT_A_SIGN.sub("", piece)
    # 8.5 must never be found as 85, nor 1/4 as 14.
    if whole in parts or whole.isdecimal() or _DECIMAL.search(piece):
        return parts
    return (*parts, whole)
