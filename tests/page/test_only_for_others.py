"""A hazard that no operator meets comes after those that one does, whatever its word."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

from benchleaf import pipeline
from benchleaf.html.values import NO_ENDS

ARC = """id: arc
title: Arc in the cabinet
severity: death or serious injury
accident_if_not_avoided: will
harm_if_accident: will
what: An open cabinet can arc.
avoid:
  - Leave the cabinet shut.
controls:
  guard:
    - The cabinet is locked.
{only}source: Shop rule.
"""


def words_in_order(content: Path) -> tuple[list[str], str]:
    plan = pipeline.plan_site(pipeline.load(content))
    page = next(one for one in plan.pages if one.address == "jobs/vg-0010.html")
    html = page.make(NO_ENDS).html
    section = html.partition('data-screen="hazards"')[2].partition("</section>")[0]
    return re.findall(r'aria-label="(DANGER|WARNING)"', section), section


def test_what_only_setters_meet_does_not_outrank_what_the_operator_meets(
    shop: Callable[..., Path], edited: Callable[..., dict[str, str]]
) -> None:
    machine = edited("machines/bench-drill.yml", "  - work-turns", "  - work-turns\n  - arc")
    page = "  - hazards/work-turns"
    addresses = edited("addresses.yml", page, f"  - hazards/arc.html\n{page}")
    for only, wanted in (
        ("", ["DANGER", "WARNING"]),
        ("only_for: setters\n", ["WARNING", "DANGER"]),
    ):
        files = {**machine, **addresses, "hazards/arc.yml": ARC.format(only=only)}
        found, section = words_in_order(shop(files))
        assert found == wanted
        assert ("Only setters meet it." in section) is bool(only)
