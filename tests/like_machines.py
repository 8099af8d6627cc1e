"""The small shop with a second bench drill and a group of the two, for tests."""

from __future__ import annotations

from collections.abc import Mapping

SECOND, FIRST = "vg-0010-bench-drill-2", "vg-0010-bench-drill"
GROUP = """\
id: bench-drills
name: Bench drills
machines:
  - bench-drill
  - bench-drill-2
"""


def put(text: str, *pairs: str) -> str:
    """A text with each old part, which stands there once, in the new form."""
    for old, new in zip(pairs[::2], pairs[1::2], strict=True):
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times"
        text = text.replace(old, new)
    return text


def second_drill(base: Mapping[str, str], *pairs: str) -> dict[str, str | None]:
    """The file of the second drill: slower, and with a shorter quill."""
    text = put(
        base["machines/bench-drill.yml"], "id: bench-drill\n", "id: bench-drill-2\n",
        "name: Bench drill\n", "name: Bench drill 2\n", "  - 1500 rpm\n", "",
        "quill_travel: 60 mm", "quill_travel: 55 mm", "  - small drill", "  - second drill",
    )  # fmt: skip
    return {"machines/bench-drill-2.yml": put(text, *pairs)}


def with_group(base: Mapping[str, str]) -> dict[str, str | None]:
    """The small shop where VG-0010 is done on both drills; its old address leads to the first."""
    whole = f"job: {FIRST.upper()}"
    lists = base["onboarding/first-days.yml"]
    return {
        **second_drill(base),
        "machine-groups/bench-drills.yml": GROUP,
        "jobs/vg-0010.yml": put(
            base["jobs/vg-0010.yml"], "machine: bench-drill", "machine_group: bench-drills"
        ),
        "onboarding/first-days.yml": lists.replace("job: VG-0010", whole).replace(
            "[[VG-0010]]", f"[[{FIRST}]]"
        ),
        "forwards.yml": "forwards:\n  - old: jobs/vg-0010.html\n"
        f"    new: jobs/{FIRST}.html\n    why: It is done on two drills now.\n",
    }
