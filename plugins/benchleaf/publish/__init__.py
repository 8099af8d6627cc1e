"""Stop 7: pages become site files; the built HTML is checked before it replaces the former."""

from .codes import CODES
from .crawl import crawl
from .staging import discard, recover, staging_folder, swap_in
from .useless import tidy

__all__ = [
    "CODES",
    "crawl",
    "discard",
    "recover",
    "staging_folder",
    "swap_in",
    "tidy",
]
