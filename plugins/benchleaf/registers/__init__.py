"""What was published once: addresses, where those that are gone lead, and revisions."""

from .address_register import check_register
from .address_register import register_text as addresses_text
from .changed_record import append_changed
from .forward_entry import Forward
from .forwards import Entries, Moved, check_forwards, moved
from .loading import REGISTER, REVISIONS, addresses, milder, revisions
from .revision_entries import Registered, read_revisions
from .revision_entry import RegisteredRevision
from .revision_register import Registry, check_revisions, new_entries
from .revision_register import register_text as revisions_text

__all__ = [
    "REGISTER",
    "REVISIONS",
    "Entries",
    "Forward",
    "Moved",
    "Registered",
    "RegisteredRevision",
    "Registry",
    "addresses",
    "addresses_text",
    "append_changed",
    "check_forwards",
    "check_register",
    "check_revisions",
    "milder",
    "moved",
    "new_entries",
    "read_revisions",
    "revisions",
    "revisions_text",
]
