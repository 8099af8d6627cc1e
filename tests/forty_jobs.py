"""The small shop grown to 40 jobs on 8 stations, for tests and benchmarks of the ways to a job."""

from __future__ import annotations

from collections.abc import Mapping

from like_machines import put

STATIONS = (
    ("Bench drill", 14), ("Pillar drill", 8), ("Radial drill", 5), ("Tapping stand", 4),
    ("Bench drill at the window", 3), ("Drill with the long column", 3), ("Twin drill", 2),
    ("Drill of the tool room", 1),
)  # fmt: skip
"""Eight names, short and long, and how many of the 40 jobs are done there."""
TITLES = (
    "Drill the guide hole in a rack plate",
    "Drill the pin hole in a long vent arm",
    "Drill the fixing holes of the gear housing cover",
    "Drill the pilot hole",
)


def forty_jobs(base: Mapping[str, str]) -> dict[str, str]:
    """Every file of that shop: name below content/ and text."""
    files = {name: text for name, text in base.items() if not name.startswith(("jobs/", "addr"))}
    files.pop("onboarding/first-days.yml")
    machine, part = files.pop("machines/bench-drill.yml"), files.pop("parts/vg-r1.yml")
    number = 0
    for index, (name, jobs) in enumerate(STATIONS):
        here = f"drill-{index}"
        also = ("also:\n  - small drill\n", "") if "also:\n  - small drill\n" in machine else ()
        files[f"machines/{here}.yml"] = put(
            machine, "id: bench-drill\n", f"id: {here}\n", "name: Bench drill\n",
            f"name: {name}\n", *also,
        )  # fmt: skip
        for _ in range(jobs):
            number += 10
            job = put(
                base["jobs/vg-0010.yml"], "id: VG-0010\n", f"id: VG-{number:04}\n",
                "title: Drill the guide hole in a rack plate\n",
                f"title: {TITLES[number // 10 % len(TITLES)]}, size {number // 10}\n",
                "machine: bench-drill\n", f"machine: {here}\n",
                "part: vg-r1\n", f"part: vg-r{number}\n",
                "operation_after: VG-0020\n", "", ", for [[VG-0020#deburr]]", "",
            )  # fmt: skip
            files[f"jobs/vg-{number:04}.yml"] = job
            files[f"parts/vg-r{number}.yml"] = put(
                part, "id: vg-r1\n", f"id: vg-r{number}\n", "number: VG-R1\n",
                f"number: VG-R{number}\n", "drawing: VG-R1", f"drawing: VG-R{number}",
            )  # fmt: skip
    return files
