"""Jobs that have no file of their own: one of a group's machines, or one of a family's rows."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Any

from pydantic import Field, WithJsonSchema, model_validator
from pydantic_core import PydanticCustomError

from .ids import Id, MachineRef
from .marks import Area, Each, Example, Order, Trait
from .record import Record

GROUPS, FAMILIES = "machine-groups", "families"
"""Their folders below the content folder."""
GROUP_KEY = "machine_group"
"""The key by which a job names a group, in place of `machine`."""

_ROW = {
    "type": "object",
    "required": ["id"],
    "properties": {
        "id": {"type": "string", "description": "The job's id.", "examples": ["TR-0620"]}
    },
    "additionalProperties": True,
}


class MachineGroup(Record):
    """Like machines: a job that names the group is worked out for each of them by itself."""

    about = Area.MACHINE

    id: Id
    """Such as pillar-drills; a job names it under `machine_group`."""
    name: Annotated[str, Trait.NAME, Example("Pillar drills")]
    """What the machines are called together."""
    machines: Annotated[tuple[MachineRef, ...], Order.FREE, Each("machine")] = Field(min_length=1)
    """The machines, by id. On each of them the work is done in the same steps."""
    keeps_id: MachineRef | None = None
    """The machine on which a job keeps its id as written, such as the one it was always done on.

    On any other, and on each where this is left out, the machine's id stands behind.
    """

    @model_validator(mode="after")
    def _keeps_it_on_one_of_them(self) -> MachineGroup:
        if self.keeps_id is not None and self.keeps_id not in self.machines:
            raise PydanticCustomError(
                "keeps_id",
                "no machine of the group",
                {"field": "keeps_id", "wanted": self.keeps_id, "known": ", ".join(self.machines)},
            )
        return self

    def made_id(self, written: str, machine_id: str) -> str:
        """The id of a job on one machine of the group, from the id that its file says."""
        return written if machine_id == self.keeps_id else f"{written}-{machine_id}"


class Family(Record):
    """One breakdown for several sizes: each row is a job with an id of its own."""

    id: Id
    """A name for the family; no page shows it alone."""
    job: Annotated[
        dict[str, Any],
        WithJsonSchema({"type": "object", "additionalProperties": True}),
        Example("{title: Drill the [[row:size]] vent hole, machine: pillar-drill}"),
    ]
    """The breakdown. `[[row:COLUMN]]` stands where each row has a value of its own."""
    rows: Annotated[
        tuple[dict[str, Any], ...],
        WithJsonSchema({"type": "array", "minItems": 1, "items": _ROW}),
        Order.FREE,
        Each("row"),
        Example("{id: TR-0620, size: 8.5 mm}"),
    ] = Field(min_length=1)
    """The sizes: in each row the job's id, and the value of every column."""


@dataclass(frozen=True, slots=True)
class MadeFrom:
    """What a job was made from that has no file of its own."""

    file: str
    """The file that holds its text, below the content folder."""
    written: str
    """The id as its file or row says it; a group puts the machine's id behind."""
    family: str = ""
    """The id of the family; empty for none."""
    group: str = ""
    """The id of the group of machines; empty for none."""
    group_name: str = ""


Made = Mapping[str, MadeFrom]
"""The jobs without a file of their own, by id."""


def same_work(made: Made, one: str, other: str) -> bool:
    """True for a job and itself, and for one job on two machines of a group."""
    return work_of(made, one) == work_of(made, other)


def work_of(made: Made, job_id: str) -> str:
    """What stands for a job whatever the machine: the id that its file says."""
    found = made.get(job_id)
    return found.written if found is not None and found.group else job_id
