"""What search finds: entries from records and free pages, and the index they are written to."""

from .entries import job_entries, part_entry, record_entry
from .free_entries import free_entries
from .help_first import FirstHelp, first_help
from .index import write_search

__all__ = [
    "FirstHelp",
    "first_help",
    "free_entries",
    "job_entries",
    "part_entry",
    "record_entry",
    "write_search",
]
