"""Stop 5: permanent addresses, references both ways, glossary matching."""

from .addresses import (
    ENGINEER_PAGE,
    FIND_PAGE,
    HOME_PAGE,
    JOB_LISTS,
    SHEETS,
    SIGNAL_WORDS_PAGE,
    TERMS_PAGE,
    TIMETABLE_PAGE,
    TRAINER_PAGE,
    address,
    every_address,
    free_page_address,
    index_address,
    is_full_only,
    is_sheet,
    job_list_address,
    relative,
    sheet_address,
)
from .forwards import Entries, Moved, check_forwards, moved
from .listing import FORMS, LISTED_KINDS, Listed, inside, kind_of, listed, printed
from .register import check_register, register_text
from .routes import Route, routes
from .term_use import check_terms, joined, term_uses, uses_in
from .terms import TermIndex
from .where_used import Use, Uses, where_used

__all__ = [
    "ENGINEER_PAGE",
    "FIND_PAGE",
    "FORMS",
    "HOME_PAGE",
    "JOB_LISTS",
    "LISTED_KINDS",
    "SHEETS",
    "SIGNAL_WORDS_PAGE",
    "TERMS_PAGE",
    "TIMETABLE_PAGE",
    "TRAINER_PAGE",
    "Entries",
    "Listed",
    "Moved",
    "Route",
    "TermIndex",
    "Use",
    "Uses",
    "address",
    "check_forwards",
    "check_register",
    "check_terms",
    "every_address",
    "free_page_address",
    "index_address",
    "inside",
    "is_full_only",
    "is_sheet",
    "job_list_address",
    "joined",
    "kind_of",
    "listed",
    "moved",
    "printed",
    "register_text",
    "relative",
    "routes",
    "sheet_address",
    "term_uses",
    "uses_in",
    "where_used",
]
