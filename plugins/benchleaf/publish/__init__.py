"""Stop 7: pages become site files; the built HTML is checked before it replaces the former."""

from .codes import CODES
from .crawl import crawl
from .staging import (
    NotOursError,
    discard,
    lock_of,
    may_replace,
    recover,
    staging_folder,
    swap_in,
)
from .useless import tidy

__all__ = [
    "CODES",
    "NotOursError",
    "crawl",
    "discard",
    "lock_of",
    "may_replace",
    "recover",
    "staging_folder",
    "swap_in",
    "tidy",
]
