"""V523: a cutting tool of the job, in no set-up, whose shank the machine's chuck cannot hold.

The tools of set-ups are looked at with all their limits by the set-up itself.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.compute.amounts import entered
from benchleaf.diagnose import Code, Finding, Sample
from benchleaf.model import ToolKind, stations_of

from ..case import JobCase
from ..rule import JobRule

CODE = Code(
    "V523",
    "A tool of the job does not go into the machine's chuck",
    why="The operator would look for another way to hold it.",
    instead="Name a tool that fits; accept it where the tool is used by hand.",
    bad=(
        Sample(
            """
            # The shank is thicker than the chuck opens.
            - file: tools/big-drill.yml
              text: |
                id: big-drill
                name: 16 mm drill
                kind: drill
                what: A large drill for the second hole.
                size: 16 mm
                shank: 16 mm
            - file: addresses.yml
              find: |2
                  - tools/drill-8.html
              put: |2
                  - tools/drill-8.html
                  - tools/big-drill.html
            - file: jobs/vg-0010.yml
              find: |
                tools:
                  - drill-8
              put: |
                tools:
                  - drill-8
                  - big-drill
            """,
            """
            content/jobs/vg-0010.yml:19:5: warning V523 the shank of 'big-drill' is 16 mm;
                    the chuck of 'bench-drill' holds 1 to 13 mm
                name another tool or machine; for one that is used by hand, accept it
                where it does not fit this job: accept: [{code: V523, reason: ...}]
            """,
        ),
    ),
    good="""
        # The shank is turned down to 12.5 mm.
        - file: tools/big-drill.yml
          text: |
            id: big-drill
            name: 16 mm drill
            kind: drill
            what: A large drill for the second hole.
            size: 16 mm
            shank: 12.5 mm
        - file: addresses.yml
          find: |2
              - tools/drill-8.html
          put: |2
              - tools/drill-8.html
              - tools/big-drill.html
        - file: jobs/vg-0010.yml
          find: |
            tools:
              - drill-8
          put: |
            tools:
              - drill-8
              - big-drill
    """,
)

_TURNED = frozenset(
    {ToolKind.DRILL, ToolKind.REAMER, ToolKind.COUNTERSINK, ToolKind.COUNTERBORE, ToolKind.TAP}
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each tool that does not go into the chuck."""
    here = stations_of(case.shop, case.job.machine)
    each = ((one.id, spindle) for one in here for spindle in one.spindles or (one,))
    held = [
        (f"'{at}'" if at == one.id else f"'{at}' ({one.name})", one.chuck)
        for at, one in each
        if one.chuck is not None
    ]
    if not held:
        return
    in_set_ups = {one.tool for one in case.job.set_ups}
    for index, tool_id in enumerate(case.job.tools):
        tool = case.shop.tools.get(tool_id)
        if tool is None or tool_id in in_set_ups or tool.kind not in _TURNED or tool.shank is None:
            continue
        shank = tool.shank.value
        if not any(chuck.low <= shank <= chuck.high for _, chuck in held):
            chucks = "; ".join(f"the chuck of {name} holds {entered(one)}" for name, one in held)
            yield from case.practice(
                CODE,
                ("tools", index),
                f"the shank of '{tool_id}' is {entered(tool.shank)}; {chucks}",
                "name another tool or machine; for one that is used by hand, accept it",
            )


RULE = JobRule(check, (CODE,))
