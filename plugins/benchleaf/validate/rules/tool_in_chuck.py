"""V523: a cutting tool of the job, in no set-up, whose shank the machine's chuck cannot hold.

The tools of set-ups are looked at with all their limits by the set-up itself.
"""

from __future__ import annotations

from collections.abc import Iterator

from benchleaf.diagnose import Finding
from benchleaf.model import ToolKind

from ..case import JobCase

_TURNED = frozenset(
    {ToolKind.DRILL, ToolKind.REAMER, ToolKind.COUNTERSINK, ToolKind.COUNTERBORE, ToolKind.TAP}
)


def check(case: JobCase) -> Iterator[Finding]:
    """A finding for each tool that does not go into the chuck."""
    chuck = case.machine.chuck if case.machine is not None else None
    if chuck is None:
        return
    in_set_ups = {one.tool for one in case.job.set_ups}
    for index, tool_id in enumerate(case.job.tools):
        tool = case.shop.tools.get(tool_id)
        if tool is None or tool_id in in_set_ups or tool.kind not in _TURNED or tool.shank is None:
            continue
        if not chuck.low <= tool.shank.value <= chuck.high:
            yield from case.practice(
                "V523",
                ("tools", index),
                f"the shank of '{tool_id}' is {tool.shank.text}; the chuck of "
                f"'{case.job.machine}' holds {chuck.text}",
                "name another tool or machine; for one that is used by hand, accept it",
            )
