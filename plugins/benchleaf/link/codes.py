"""Codes of this stop, those of addresses, forwards and revisions among them."""

from __future__ import annotations

from benchleaf.diagnose import Code

from .term_use import NEVER_USED, NO_ENTRY

CODES = (
    Code(
        "A601",
        "A published address is gone",
        why="Lists, cards and symbols on the wall point to it.",
        instead=(
            "Put the id back, or forward the address in content/forwards.yml to what takes "
            "its place."
        ),
    ),
    Code(
        "A602",
        "An address is not in the register",
        why="Only a registered address is kept from breaking later.",
        instead="Run `benchleaf register` and commit content/addresses.yml.",
    ),
    Code(
        "A603",
        "The register of addresses is damaged",
        why="It is the proof that no link breaks; it is written by a command, never by hand.",
        instead="Restore the file from the last commit and run `benchleaf register`.",
    ),
    Code(
        "A604",
        "A job changed in meaning and its revision did not",
        why=(
            "People are signed off on a revision. Where it stays and the meaning goes, nobody sees "
            "that they must be taught again."
        ),
        instead=(
            "Advance the revision and write the change note; or declare wording only, where it is."
        ),
    ),
    Code(
        "A605",
        "A revision is not in the register of revisions",
        why=(
            "Only a registered revision can be shown to mean today what it meant when it was "
            "taught."
        ),
        instead="Run `benchleaf register` and commit content/revisions.yml.",
    ),
    Code(
        "A606",
        "The register of revisions is damaged",
        why="It is the proof that a revision still means what was taught; a command writes it.",
        instead="Restore the file from the last commit and run `benchleaf register`.",
    ),
    Code(
        "A607",
        "A forwarding entry does not lead from an old address to a living one",
        why="Who follows an old list or card would stand before nothing, or before the wrong job.",
        instead="Write the old address as it was published, and a new address that is there now.",
    ),
    NEVER_USED,
    NO_ENTRY,
)
