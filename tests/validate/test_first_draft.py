"""What a newcomer writes in a first draft, and the line of the message by which it is mended."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from benchleaf import pipeline
from benchleaf.diagnose import report

JOB, MACHINE, TOOL = "jobs/vg-0010.yml", "machines/bench-drill.yml", "tools/drill-8.yml"
MATERIAL = "materials/mild-steel.yml"
SLIPS = [
    (MACHINE, "rated_thrust: 4 kN", "rated_thrust: 900 lbs", "write 'lbf'; a force needs"),
    (MACHINE, "rated_thrust: 4 kN", "rated_thrust: 4", "a force needs one of: N, kN, lbf, kgf"),
    (MACHINE, "  efficiency: 0.9\n", "", "write 'efficiency: ...', like: 0.9"),
    (JOB, "limits: 8 +0.1/-0 mm", "limits: 8 to 8.1", "write limits like '8.5 +0.1/-0 mm'"),
    (JOB, "limits: 8 +0.1/-0 mm", "limits: 24 to 26 Nm", "under 'how'"),
    (JOB, "limits: 8 +0.1/-0 mm", "limits: 8 +0,1/-0 mm", "point: '8 +0.1/-0 mm'"),
    (JOB, "operation: drilling", "operation: sawing", "leave the set-up out, and tell its figures"),
    (JOB, "operation: drilling", "operation: drill", "did you mean 'drilling'?"),
    (JOB, "        kind: makes it easier\n", "", "one of: makes or breaks the job, can injure"),
    (JOB, "  - drill-8\n", "  - calipers\n", "or begin its file: benchleaf new tool calipers"),
    (
        JOB,
        "machine: bench-drill",
        "machine: small-drill",
        "or begin its file: benchleaf new machine",
    ),
    (JOB, "    overtravel: 1 mm\n", "", "it holds: How far the full diameter goes beyond"),
    (JOB, "    overtravel: 1 mm\n", "    number: 4\n", "`benchleaf keys job` tells of all"),
    (MATERIAL, "operation: drilling", "operation: drill", "operation 'drilling' (not 'drill')"),
]


@pytest.mark.parametrize(("name", "old", "new", "said"), SLIPS, ids=lambda one: str(one)[:30])
def test_the_message_says_what_to_write(
    shop: Callable[..., Path], base_shop: dict[str, str], name: str, old: str, new: str, said: str
) -> None:
    assert base_shop[name].count(old) == 1
    content = shop({name: base_shop[name].replace(old, new)})
    assert said in report(pipeline.check(content))


def test_a_name_in_place_of_an_id_is_told_by_that_name(
    shop: Callable[..., Path], base_shop: dict[str, str]
) -> None:
    tool = base_shop[TOOL].replace("name: ", "name: Jobber Eight # ", 1)
    job = base_shop[JOB].replace("  - drill-8\n", "  - jobber-eight\n")
    found = report(pipeline.check(shop({TOOL: tool, JOB: job})))
    assert "'drill-8' has that name: write its id" in found


@pytest.mark.parametrize("shank", ["F", "#7", "1/4 in", "8 mm"])
def test_a_shank_is_written_as_a_size_is(
    shop: Callable[..., Path], base_shop: dict[str, str], shank: str
) -> None:
    lines = [line for line in base_shop[TOOL].split("\n") if not line.startswith("shank: ")]
    content = shop({TOOL: "\n".join(lines) + f'shank: "{shank}"\n'})
    found = pipeline.check(content)
    assert report([one for one in found if one.place.file.endswith(TOOL)]) == ""
