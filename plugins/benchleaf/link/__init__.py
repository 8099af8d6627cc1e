"""Stop 5: permanent addresses, references both ways, glossary matching."""

from .addresses import (
    HOME_PAGE,
    SIGNAL_WORDS_PAGE,
    TERMS_PAGE,
    address,
    every_address,
    index_address,
    relative,
)
from .register import check_register, register_text
from .terms import TermIndex
from .where_used import Use, Uses, where_used

__all__ = [
    "HOME_PAGE",
    "SIGNAL_WORDS_PAGE",
    "TERMS_PAGE",
    "TermIndex",
    "Use",
    "Uses",
    "address",
    "check_register",
    "every_address",
    "index_address",
    "register_text",
    "relative",
    "where_used",
]
