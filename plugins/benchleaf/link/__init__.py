"""Stop 5: permanent addresses, references both ways, glossary matching."""

from .addresses import (
    HOME_PAGE,
    JOB_LISTS,
    SIGNAL_WORDS_PAGE,
    TERMS_PAGE,
    address,
    every_address,
    index_address,
    job_list_address,
    relative,
)
from .register import check_register, register_text
from .routes import Route, routes
from .term_use import check_terms, joined, term_uses, uses_in
from .terms import TermIndex
from .where_used import Use, Uses, where_used

__all__ = [
    "HOME_PAGE",
    "JOB_LISTS",
    "SIGNAL_WORDS_PAGE",
    "TERMS_PAGE",
    "Route",
    "TermIndex",
    "Use",
    "Uses",
    "address",
    "check_register",
    "check_terms",
    "every_address",
    "index_address",
    "job_list_address",
    "joined",
    "register_text",
    "relative",
    "routes",
    "term_uses",
    "uses_in",
    "where_used",
]
