"""Codes about people's records in the crew folder."""

from .code import Code

PEOPLE = (
    Code(
        "C701",
        "A person's record says two things about one job",
        "A plan cannot tell whether they can do it, are learning it, or need not.",
        "Keep one of the two entries.",
    ),
    Code(
        "C702",
        "The dates of a sign-off contradict one another",
        "Nobody last did a job before they proved that they can.",
        "Correct `judged` or `last_done`.",
    ),
    Code(
        "C703",
        "A sign-off names a revision that the manual does not have yet",
        "Either the record or the manual is not the newest.",
        "Correct the record, or read the newest breakdowns.",
    ),
    Code(
        "C704",
        "The crew folder lies where it would be published",
        "People's data belongs in no manual that a kiosk shows.",
        "Put the crew folder outside content/, best outside the repository.",
    ),
)
