"""Stop 7: pages become site files; the built HTML is checked before it replaces the former."""

from .codes import CODES
from .crawl import crawl
from .seal import SEAL
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
from .verifying import Verified, verify

__all__ = [
    "CODES",
    "SEAL",
    "NotOursError",
    "Verified",
    "crawl",
    "discard",
    "lock_of",
    "may_replace",
    "recover",
    "staging_folder",
    "swap_in",
    "tidy",
    "verify",
]
