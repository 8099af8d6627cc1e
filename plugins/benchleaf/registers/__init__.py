"""What was published once: addresses, where those that are gone lead, and revisions."""

from .address_register import check_register
from .address_register import register_text as addresses_text
from .against import against
from .changed_kept import TALLY, check_changed, pages_of, read_changed
from .changed_record import changed_texts
from .forward_entry import Forward
from .forwards import Entries, Moved, check_forwards, moved
from .gaps import Gaps
from .gone import gone, is_remembered
from .history_entry import Released, Tally
from .holds import (
    HOLDS,
    Held,
    check_holds,
    graver,
    hold_text,
    holding_roles,
    jobs_held,
    lifted_text,
    lifting_roles,
    read_hold,
    read_holds,
    standing_holds,
    unknown_role,
)
from .ledger import HISTORY, Ledger, read_ledger, with_state
from .loading import (
    REGISTER,
    REVISIONS,
    Standing,
    addresses,
    milder,
    read_registry,
    revisions,
    standing,
)
from .notices import NOTICES, Noticed, half_written, no_ledger, read_notices
from .publishing import not_released
from .releasing import Affected, next_number, release
from .releasing import texts as register_texts
from .renamed import renamed
from .revision_entries import Registered, read_revisions
from .revision_entry import RegisteredRevision
from .revision_register import Registry, check_revisions, new_entries
from .revision_register import register_text as revisions_text

OTHERS = (NOTICES, HOLDS)
"""Folders of files that are about jobs, and are no records of the shop themselves."""

__all__ = [
    "HISTORY",
    "HOLDS",
    "NOTICES",
    "OTHERS",
    "REGISTER",
    "REVISIONS",
    "TALLY",
    "Affected",
    "Entries",
    "Forward",
    "Gaps",
    "Held",
    "Ledger",
    "Moved",
    "Noticed",
    "Registered",
    "RegisteredRevision",
    "Registry",
    "Released",
    "Standing",
    "Tally",
    "addresses",
    "addresses_text",
    "against",
    "changed_texts",
    "check_changed",
    "check_forwards",
    "check_holds",
    "check_register",
    "check_revisions",
    "gone",
    "graver",
    "half_written",
    "hold_text",
    "holding_roles",
    "is_remembered",
    "jobs_held",
    "lifted_text",
    "lifting_roles",
    "milder",
    "moved",
    "new_entries",
    "next_number",
    "no_ledger",
    "not_released",
    "pages_of",
    "read_changed",
    "read_hold",
    "read_holds",
    "read_ledger",
    "read_notices",
    "read_registry",
    "read_revisions",
    "register_texts",
    "release",
    "renamed",
    "revisions",
    "revisions_text",
    "standing",
    "standing_holds",
    "unknown_role",
    "with_state",
]
