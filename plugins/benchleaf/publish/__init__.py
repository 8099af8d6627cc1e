"""Stop 7: pages become site files; the built HTML is checked before it replaces the former."""

from .codes import CODES
from .crawl import crawl
from .search import write_search
from .staging import discard, recover, staging_folder, swap_in
from .tidy import tidy

__all__ = [
    "CODES",
    "crawl",
    "discard",
    "recover",
    "staging_folder",
    "swap_in",
    "tidy",
    "write_search",
]
