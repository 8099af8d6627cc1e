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
        instead=(
            "Run `benchleaf register` and commit content/addresses.yml; in a shop with change"
            " notices, run `benchleaf release` on the main branch."
        ),
    ),
    Code(
        "A603",
        "The register of addresses is damaged",
        why="It is the proof that no link breaks; it is written by a command, never by hand.",
        instead="Restore the file from the last commit and run `benchleaf register`.",
    ),
    Code(
        "A604",
        "A job changed in meaning, and nothing says so",
        why=(
            "People are signed off on a revision. Where it stays and the meaning goes, nobody sees "
            "that they must be taught again."
        ),
        instead=(
            "Add a change notice that names the job: content/notices/. In a shop whose job files "
            "say their own revision, advance it and write the change note. Declare wording only, "
            "where it is."
        ),
    ),
    Code(
        "A605",
        "A revision is not in the register of revisions",
        why=(
            "Only a registered revision can be shown to mean today what it meant when it was "
            "taught."
        ),
        instead=(
            "Run `benchleaf register` and commit content/revisions.yml; in a shop with change"
            " notices, let a notice name the new job."
        ),
    ),
    Code(
        "A606",
        "The register of revisions, or the history, is damaged",
        why="It is the proof that a revision still means what was taught; a command writes it.",
        instead=(
            "Restore the registers and tally.yml from the last commit of the main branch, then run"
            " the command that writes them: `benchleaf release`, else `benchleaf register`."
        ),
    ),
    Code(
        "A607",
        "A forwarding entry does not lead from an old address to a living one",
        why="Who follows an old list or card would stand before nothing, or before the wrong job.",
        instead="Write the old address as it was published, and a new address that is there now.",
    ),
    Code(
        "A608",
        "A change notice does not fit",
        why="A note for a job that is not there, or did not change, would be told to nobody.",
        instead="Name the jobs that the change moved, or write `those affected`.",
    ),
    Code(
        "A609",
        "Two change notices disagree on whether only the wording changed",
        why="One of them would call nobody back, and the other everybody.",
        instead="Where one of two changes moved the meaning, neither is wording only.",
    ),
    Code(
        "A610",
        "A change notice says wording only, and more changed",
        why="People who were taught another number or hazard would not be told.",
        instead="Take wording_only out of the notice. Put what changed by mistake back.",
    ),
    Code(
        "A611",
        "A job says its own revision beside the history",
        why="Of two places that say a revision, one is wrong one day.",
        instead="Leave it to `benchleaf release`; write a change notice.",
    ),
    Code(
        "A612",
        "A draft is not published",
        why="Somebody would be taught by a page that has no number, and could not be called back.",
        instead=(
            "Run `benchleaf release` on the main branch. To look at drafts, use a preview, or set"
            " BENCHLEAF_DRAFTS=true."
        ),
    ),
    Code(
        "A613",
        "A register is gone",
        why="Without it any figure may change, and nobody is told to learn the job anew.",
        instead=(
            "Restore the file from the last commit. Where the shop never had one, and git knows of"
            " none: `benchleaf register --first`."
        ),
    ),
    Code(
        "A614",
        "A register lost what it held in another revision",
        why="They only ever grow: they prove what people were taught, and which links hold.",
        instead="Restore the file from that revision, then run the command that adds to it.",
    ),
    Code(
        "A615",
        "An onboarding list changed, and its revision did not",
        why="People are led through a list, and sign it, by its revision.",
        instead="Advance the revision in the list's file.",
    ),
    Code(
        "A621",
        "A hold is for a job that is not there",
        why="Who held it wanted a job stopped, and no page says so.",
        instead="Write the job's number. Where the job is gone for good, lift the hold.",
    ),
    Code(
        "A622",
        "A hold names a role that the shop does not, or was lifted wrongly",
        why="Only the role that a hold names may lift it: until then nobody runs the job.",
        instead=(
            "Write a role that approves jobs or lists, or name it in manual.yml (`roles`). "
            "Lift it by `benchleaf hold JOB --lift --by ROLE`."
        ),
    ),
    Code(
        "A623",
        "A job is on hold",
        why="Every page, sheet and plan says do not run, with the reason, in the next build.",
        instead="Put right what it was held for. Then the role that it names lifts the hold.",
    ),
    NEVER_USED,
    NO_ENTRY,
)
